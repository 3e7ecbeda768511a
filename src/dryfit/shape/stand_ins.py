"""What stands in for lengths that nobody has measured yet, so that a unit can be drawn at all."""

from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

from dryfit.model.parts import Bearing, Cover, Gasket, Part, Pin, Shaft, SpringWasher, TaperRoller
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.shape.bands import BORE, LIKELY_OUTSIDE, is_case, mm

SET_OVER_WIDTH = 1.07
"""Set width of a taper set over the width of its cone: estimate."""

GASKET, SPRING = 0.3, 4.0
"""Thickness of a gasket, and height of a spring washer, free [mm]: estimates."""


def _size(value: float) -> Size:
    exact = Fraction(round(value * 1000), 1000)
    return Size(f"{value:.3f}", exact, "mm", None)


def filled(rebuild: Rebuild) -> tuple[Rebuild, frozenset[str]]:
    """Fill in the widths and heights of parts that are not known; also names what was filled."""
    told = {name: dict(_stand_ins(part)) for name, part in rebuild.parts.items()}
    parts = {name: _with(part, told[name]) for name, part in rebuild.parts.items()}
    keys = frozenset(f"{name}.{field}" for name, own in told.items() for field in own)
    return replace(rebuild, parts=parts), keys


def _with(part: Part, told: dict[str, Any]) -> Part:
    return replace(part, **told) if told else part


def _stand_ins(part: Part) -> Iterator[tuple[str, Size]]:
    """Give the fields of a part that want a value, each with one."""
    record: Any = part
    for kind, own in _USUAL:
        if isinstance(part, kind):
            for name, value in own(record):
                if mm(getattr(record, name)) is None and name in {f.name for f in fields(record)}:
                    yield name, _size(value)


def _bearing(part: Any) -> Iterator[tuple[str, float]]:
    bore, outside = mm(part.bore), mm(part.outside)
    bore = bore or (outside / LIKELY_OUTSIDE if outside else BORE)
    outside = outside or bore * LIKELY_OUTSIDE
    width = max(3.0, (outside - bore) / 2)
    told = mm(part.inner_width) or mm(part.outer_width)
    both = mm(part.inner_width) and mm(part.outer_width)
    if not both:
        yield "width", told or width
    if isinstance(part, TaperRoller):
        own = mm(part.width) or told or width
        yield "set_width", own * SET_OVER_WIDTH


def _gasket(part: Any) -> Iterator[tuple[str, float]]:
    if mm(part.free) is None:
        yield "nipped", GASKET


def _spring(part: Any) -> Iterator[tuple[str, float]]:
    free = mm(part.free) or SPRING
    yield "free", free
    yield "at", 0.75 * free


_USUAL: tuple[tuple[type[Part], Callable[[Any], Iterator[tuple[str, float]]]], ...] = (
    (Bearing, _bearing),
    (Gasket, _gasket),
    (SpringWasher, _spring),
)


def likely_length(rebuild: Rebuild) -> Callable[[str, str, str], float]:
    """Give a function that estimates a length of a part from one spot to another [mm]."""
    bores = [mm(part.bore) for part in rebuild.parts.values() if isinstance(part, Bearing)]
    scale = max([bore for bore in bores if bore], default=BORE)

    def length(part: str, start: str, end: str) -> float:
        record = rebuild.parts.get(part)
        del start, end
        if isinstance(record, Shaft | Pin):
            return 3.0 * scale
        if isinstance(record, Cover):
            return 0.0
        return 3.0 * scale if is_case(record) else 0.25 * scale

    return length
