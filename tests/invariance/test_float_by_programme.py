"""Float of any loose part against a general linear programme (scipy.optimize.linprog, HiGHS).

Documents are made up at random, written as text and read; the programme is built from the records
that were read, with nothing of dryfit's own model: one unknown place for each part, one condition
for each two neighbours of a stack that lie on two parts.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog
from tests.invariance.telling import Data, text_of

from dryfit.ask.asking import Asking
from dryfit.document.read import read_document
from dryfit.model.parts import Gasket
from dryfit.model.rebuild import FIRST_END, LAST_END, EndFloat, Rebuild, Stack, Thickness
from dryfit.model.rules import check
from dryfit.quantities import Size

AtLeast = tuple[str, str, float]
"""`after` lies at least so far beyond `before` [mm]."""


@dataclass(frozen=True)
class Programme:
    """Places of parts that may stand nowhere but where the conditions allow."""

    conditions: tuple[AtLeast, ...]

    @property
    def names(self) -> list[str]:
        """All parts, the case first."""
        found = {name for before, after, _ in self.conditions for name in (before, after)}
        return ["case", *sorted(found - {"case"})]

    def furthest(self, part: str, sign: int) -> float | None:
        """Give the least (+1) or greatest (-1) place of a part; None where nothing is possible."""
        names = self.names
        rows = np.zeros((len(self.conditions), len(names)))
        for row, (before, after, _) in zip(rows, self.conditions, strict=True):
            row[names.index(before)] += 1
            row[names.index(after)] -= 1
        bounds = [(0, 0), *[(None, None)] * (len(names) - 1)]
        goal = np.zeros(len(names))
        goal[names.index(part)] = sign
        found = linprog(goal, rows, [-least for *_, least in self.conditions], bounds=bounds)
        return float(found.fun) * sign if found.status == 0 else None

    def without(self, end: int) -> "Programme":
        """Leave out what is stopped by the case at the last end (1) or at the first (0)."""
        return Programme(tuple(c for c in self.conditions if c[end] != "case"))


def _mm(size: object) -> float:
    assert isinstance(size, Size)
    return float(size.value)


Thick = dict[str, float]
"""Length by key of a size, thickness by name of a pack or gasket [mm]."""


def _as_typed(rebuild: Rebuild) -> Thick:
    lengths = {key: _mm(between.size) for key, between in rebuild.sizes.items()}
    lengths |= {name: _mm(setting.fitted) for name, setting in rebuild.settings.items()}
    gaskets = (part for part in rebuild.parts.values() if isinstance(part, Gasket))
    return lengths | {part.name: _mm(part.nipped) for part in gaskets}


def _as_drawn(asking: Asking, draw: int) -> Thick:
    """Take the lengths of one draw; the pack as a micrometer over it would find it."""
    drawn = {**asking.drawn.sizes, **asking.drawn.nipped}
    pack = asking.true(Thickness("pack", "thickness", of="pack"), {}).true
    return {key: float(values[draw]) * 1e3 for key, values in {**drawn, "pack": pack}.items()}


def _places(rebuild: Rebuild, part: str, lengths: Thick) -> dict[str, float]:
    """Places of the spots of one part, added up from its sizes [mm]."""
    own = [b for b in rebuild.sizes.values() if b.start.part == part]
    if not own:
        return {FIRST_END: 0.0, LAST_END: lengths[part]}
    places = {own[0].start.name: 0.0}
    while len(places) < len(own) + 1:
        for between in own:
            start, end = between.start.name, between.end.name
            if start in places:
                places[end] = places[start] + lengths[between.key]
            elif end in places:
                places[start] = places[end] - lengths[between.key]
    return places


def _conditions(rebuild: Rebuild, stacks: list[Stack], lengths: Thick) -> list[AtLeast]:
    places = {part: _places(rebuild, part, lengths) for part in rebuild.parts}
    return [
        (a.part, b.part, places[a.part][a.name] - places[b.part][b.name])
        for stack in stacks
        for a, b in pairwise(stack.spots)
        if a.part != b.part
    ]


def _programme(rebuild: Rebuild, lengths: Thick) -> Programme:
    """Write down what may touch, and that the screws leave a cover no room on its joint."""
    (line,) = rebuild.lines.values()
    found = _conditions(rebuild, [*line.stacks], lengths)
    joint = [stack for stack in line.stacks if stack.name == "joint"]
    if joint:
        home = Programme(tuple(_conditions(rebuild, joint, lengths))).furthest("cover", 1)
        assert home is not None
        found.append(("cover", "case", -home))
    return Programme(tuple(found))


@dataclass(frozen=True)
class Lengths:
    """Lengths in hundredths of a millimetre, as they would be typed."""

    parts: list[int]
    spots: list[int]
    branches: list[tuple[int, int, int]]
    slack: int
    cover: bool


LENGTHS = st.builds(
    Lengths,
    parts=st.lists(st.integers(50, 6_000), min_size=2, max_size=5),
    spots=st.lists(st.integers(-2_000, 6_000), min_size=5, max_size=5),
    branches=st.lists(
        st.tuples(st.integers(0, 6), st.integers(0, 6), st.integers(50, 8_000)), max_size=3
    ),
    slack=st.integers(-60, 300),
    cover=st.booleans(),
)

KINDS = ("spacer", "shaft", "thrust washer", "shaft", "spacer")


def _typed(hundredths: int) -> str:
    return f"{hundredths / 100:.2f}"


def _document(made: Lengths) -> Data:
    """Lay parts in a row, the first one a pack, with ways beside it from a part to a later one."""
    names = ["pack", *(f"part {n}" for n in range(len(made.parts)))]
    thick = dict(zip(names, [120, *made.parts], strict=True))
    end = "cover.boss" if made.cover else "case.far face"
    stacks = {"in a row": ["case.face", *names, end]}
    parts: Data = {"case": {"kind": "housing"}, "pack": {"kind": "shim pack"}}
    parts |= {f"part {n}": {"kind": KINDS[n]} for n in range(len(made.parts))}
    sizes = {name: _typed(thick[name]) for name in names[1:]}
    room = sum(thick.values()) + made.slack
    if made.cover:
        stacks["joint"] = ["case.joint", "gasket", "cover.flange"]
        parts |= {"cover": {"kind": "cover"}, "gasket": {"kind": "gasket", "nipped": "0.21"}}
        sizes |= {"case.face to case.joint": _typed(room + 300 - 21)}
        sizes |= {"cover.flange to cover.boss": "-3.00"}
    else:
        sizes |= {"case.face to case.far face": _typed(room)}
    _add_branches(made, names, stacks, parts, sizes)
    return {
        "dryfit": "1",
        "sizes in": "mm",
        "lines": {"line": {"from one end to other": stacks}},
        "parts": parts,
        "sizes": sizes,
        "settings": {"pack": {"made from": ["0.10"], "fitted": "1.20"}},
    }


def _add_branches(
    made: Lengths, names: list[str], stacks: dict[str, list[str]], parts: Data, sizes: Data
) -> None:
    """Put a sleeve beside the row, between a shoulder of one part and one of a later one."""
    for number, (one, other, length) in enumerate(made.branches):
        places = ["case", *names[1:]]
        first, last = sorted((one % len(places), other % len(places)))
        if first == last:
            continue
        sleeve = f"sleeve {number}"
        parts[sleeve] = {"kind": "spacer"}
        sizes[sleeve] = _typed(length)
        ends = [f"{places[n]}.shoulder" for n in (first, last)]
        stacks[sleeve] = [ends[0], sleeve, ends[1]]
        for at, end in zip((first, last), ends, strict=True):
            start = "case.face" if at == 0 else f"{places[at]}.first end"
            sizes[f"{start} to {end}"] = _typed(made.spots[at % len(made.spots)] or 1)


def _read(made: Lengths) -> Rebuild:
    document = read_document(text_of(_document(made)))
    assert document.findings == ()
    assert check(document.rebuild) == ()
    return document.rebuild


def _loose(rebuild: Rebuild) -> list[EndFloat]:
    held = ("case", "cover", "gasket")
    return [EndFloat("float", "end float", of=name) for name in rebuild.parts if name not in held]


KEPT = 1e-6
"""HiGHS keeps its conditions to 1e-7, ten of them in a row [mm]."""


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(LENGTHS)
def test_float_of_every_loose_part_is_that_of_a_linear_programme(made: Lengths) -> None:
    """However parts lie beside each other, the float told is the travel that their sizes leave."""
    rebuild = _read(made)
    asking, programme = Asking(rebuild, 1), _programme(rebuild, _as_typed(rebuild))
    told = {asked.of: asking.typed(asked, {}) * 1e3 for asked in _loose(rebuild)}
    for part, left in told.items():
        low, high = programme.furthest(part, 1), programme.furthest(part, -1)
        assert (low is None) == (high is None) == (min(told.values()) < -KEPT)
        if low is not None and high is not None:
            assert left == pytest.approx(high - low, abs=KEPT), part


def _one_way_and_other(programme: Programme, part: str) -> float:
    """Travel from what stops a part one way to what stops it the other; negative if too long."""
    down, up = programme.without(1).furthest(part, 1), programme.without(0).furthest(part, -1)
    assert down is not None
    assert up is not None
    return up - down


@settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow])
@given(LENGTHS)
def test_every_draw_has_its_own_way_through_the_parts(made: Lengths) -> None:
    """In each draw the longest way counts, be it another than that of the sizes as typed."""
    rebuild = _read(made)
    asking = Asking(replace(rebuild, measured_with="rule"), 3)
    programmes = [_programme(rebuild, _as_drawn(asking, draw)) for draw in range(3)]
    for asked in _loose(rebuild):
        told = asking.true(asked, {}).true * 1e3
        by_hand = [_one_way_and_other(programme, asked.of) for programme in programmes]
        assert told == pytest.approx(by_hand, abs=KEPT), asked.of
