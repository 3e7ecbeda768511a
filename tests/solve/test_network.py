"""A shaft between faces under a gasketed cover, all numbers by hand.

Joint face 152.36 above the bottom thrust face; cover boss 3.42 below its flange; gasket nipped
0.21; shaft 148.70 over its thrust faces. Room 152.36 + 0.21 - 3.42 = 149.15, less the shaft 0.45.
"""

from dataclasses import replace

import pytest

from dryfit.model.parts import Cover, Gasket, Housing, Part, Shaft, ShimPack
from dryfit.model.rebuild import (
    FIRST_END,
    LAST_END,
    Between,
    Check,
    Depth,
    EndFloat,
    Gap,
    Line,
    Need,
    Rebuild,
    Stack,
    State,
    Thickness,
)
from dryfit.model.spots import Spot
from dryfit.quantities import Size, read_size
from dryfit.solve.luck import NoLuck, as_array
from dryfit.solve.network import Network, network
from dryfit.solve.predict import predict
from dryfit.solve.rigid import nearest, room
from dryfit.solve.sample import sample
from dryfit.solve.states import COLD, Fitted


def _size(text: str) -> Size:
    size = read_size(text, "mm")
    assert isinstance(size, Size)
    return size


def _ends(part: str) -> tuple[Spot, Spot]:
    return Spot(part, FIRST_END), Spot(part, LAST_END)


IN_THE_CASE = Stack(
    "in the case",
    (Spot("case", "face"), *_ends("shim"), *_ends("shaft"), Spot("cover", "boss")),
)
JOINT = Stack("joint", (Spot("case", "joint"), *_ends("gasket"), Spot("cover", "flange")))
LINE = Line("feed shaft", "blind end", "cover", (IN_THE_CASE, JOINT))
PARTS: tuple[Part, ...] = (
    Housing("case", "housing"),
    Cover("cover", "cover"),
    Shaft("shaft", "shaft"),
    ShimPack("shim", "shim pack"),
    Gasket("gasket", "gasket", nipped=_size("0.21")),
)
BOX = Rebuild(
    "mm",
    lines={LINE.name: LINE},
    parts={part.name: part for part in PARTS},
    sizes={
        "A": Between("A", Spot("case", "face"), Spot("case", "joint"), _size("152.36")),
        "B": Between("B", Spot("cover", "flange"), Spot("cover", "boss"), _size("-3.42")),
        "S": Between("S", *_ends("shaft"), _size("148.70")),
    },
)


def _net(shim: float, left_out: frozenset[str] = frozenset()) -> Network:
    packs = {"shim": as_array([shim / 1e3])}
    now = replace(COLD, left_out=left_out)
    return network(BOX, LINE, sample(BOX, NoLuck()), Fitted(packs, now, {}, {}))


def _float(net: Network) -> float:
    left = room(net.closed, "shaft", net.case)
    assert left is not None
    return float(left[0]) * 1e3


@pytest.mark.parametrize(("shim", "left"), [(0.0, 0.45), (0.35, 0.10), (0.42, 0.03)])
def test_float_is_room_less_shaft_less_shim(shim: float, left: float) -> None:
    """A thicker shim takes room from the shaft: 0.45 - 0.35 = 0.10, and 0.42 leaves 0.03."""
    assert _float(_net(shim)) == pytest.approx(left, abs=1e-9)


def test_gasket_left_out_binds() -> None:
    """With sealant for the gasket 0.21 is lost: 0.10 - 0.21 = -0.11; a shim of 0.14 mends it."""
    bare = frozenset({"gasket"})
    assert _float(_net(0.35, bare)) == pytest.approx(-0.11, abs=1e-9)
    assert _float(_net(0.14, bare)) == pytest.approx(0.10, abs=1e-9)


def test_cover_stands_off_by_what_is_too_long() -> None:
    """With no gasket and a trial shim of 0.80 the gap is 0.80 - (0.45 - 0.21) = 0.56."""
    net = _net(0.80, frozenset({"gasket"}))
    stands = nearest(net.contacts, net.case)["cover"]
    home = -net.pulls["cover"].length
    assert float(stands[0] - home[0]) * 1e3 == pytest.approx(0.56, abs=1e-9)


def _read(asked: Check | Need, shim: float, states: dict[str, State] | None = None) -> float:
    rebuild = replace(BOX, states=states or {})
    packs = {"shim": as_array([shim / 1e3])}
    return float(predict(rebuild, asked, sample(rebuild, NoLuck()), packs=packs).shown[0]) * 1e3


BARE = {"bare": State("bare", left_out=("gasket",))}
OPEN = {"open": State("open", left_out=("gasket", "cover"))}


def test_dial_shows_nothing_when_the_parts_bind() -> None:
    """-0.11 of room reads as no float at all."""
    check = EndFloat("end float", "end float", of="shaft", state="bare")
    assert _read(check, 0.35, BARE) == 0.0


def test_feeler_goes_under_a_cover_that_stands_off() -> None:
    """The same unit without its gasket and with 0.80 of shims shows 0.56 under the flange."""
    check = Gap("gap", "gap", at="cover", state="bare")
    assert _read(check, 0.80, BARE) == pytest.approx(0.56, abs=1e-9)
    assert _read(check, 0.14, BARE) == 0.0


def test_seat_of_a_shim_left_out_shows_the_whole_room() -> None:
    """Without the shim its seat is 0.45 wide, as the shaft is pushed to the cover."""
    states = {"no shim": State("no shim", left_out=("shim",))}
    check = Gap("seat", "gap", at="shim", state="no shim")
    assert _read(check, 0.35, states) == pytest.approx(0.45, abs=1e-9)


def test_depth_from_the_joint_to_the_shaft() -> None:
    """Cover off, shaft home on 0.35 of shims: 152.36 - 0.35 - 148.70 = 3.31 down from the joint."""
    check = Depth(
        "depth",
        "depth",
        from_=Spot("case", "joint"),
        to=Spot("shaft", LAST_END),
        held="blind end",
        state="open",
    )
    assert _read(check, 0.35, OPEN) == pytest.approx(3.31, abs=1e-9)


def test_pack_is_as_thick_as_it_was_made() -> None:
    """A micrometer over the pack shows its thickness."""
    assert _read(Thickness("pack", "thickness", of="shim"), 0.42) == pytest.approx(0.42, abs=1e-9)
