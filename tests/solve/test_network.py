"""A shaft between faces under a gasketed cover, all numbers by hand.

Joint face 152.36 above the bottom thrust face; cover boss 3.42 below its flange; gasket nipped
0.21; shaft 148.70 over its thrust faces. Room 152.36 + 0.21 - 3.42 = 149.15, less the shaft 0.45.
"""

import pytest

from dryfit.model.parts import Cover, Gasket, Housing, Part, Shaft, ShimPack
from dryfit.model.rebuild import FIRST_END, LAST_END, Between, Line, Rebuild, Spot, Stack
from dryfit.quantities import Size, read_size
from dryfit.solve.luck import NoLuck, as_array
from dryfit.solve.network import Network, network
from dryfit.solve.rigid import nearest, room
from dryfit.solve.sample import sample


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
    return network(BOX, LINE, sample(BOX, NoLuck()), packs=packs, left_out=left_out)


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
