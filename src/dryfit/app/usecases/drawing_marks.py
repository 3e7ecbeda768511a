"""Numbers, letters and gaps of a drawing: the same in every drawing of one text."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, log10

from dryfit.draw.section_view import Gap, Span
from dryfit.model.parts import Bearing
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Size
from dryfit.shape.resting import Touch, owner
from dryfit.shape.scene import Scene

LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
"""Letters of lengths; I, O and Q are left out, as they look like figures."""

SHUT = 2e-3
"""Faces nearer than this touch [mm]."""


@dataclass(frozen=True)
class BalloonAnswer:
    """A number on the drawing and the part it stands for."""

    number: int
    part: str
    kind: str


@dataclass(frozen=True)
class LetterAnswer:
    """A length that has a letter on the drawing.

    Attributes
    ----------
    letter
        On the drawing.
    key
        The size it stands for, or `part.width`, or for a gap its two faces.
    value_mm
        As typed, minus where the second face is nearer; None where it is not known.
    instrument
        What it was measured with.
    shown
        The length in the units of the document, with as many digits as were typed.
    """

    letter: str
    key: str
    value_mm: float | None
    instrument: str
    shown: str = "?"


@dataclass(frozen=True)
class Wide:
    """Two faces that do not touch, and their gap as it is marked."""

    touch: Touch
    gap: Gap


def numbers(rebuild: Rebuild) -> tuple[BalloonAnswer, ...]:
    """Number parts in the order of the text: the same in every drawing of it."""
    return tuple(
        BalloonAnswer(n, part.name, part.kind)
        for n, part in enumerate(rebuild.parts.values(), start=1)
    )


def letters(rebuild: Rebuild) -> tuple[LetterAnswer, ...]:
    """Letter sizes in the order of the text, then the widths of bearings."""
    sizes: list[tuple[str, object]] = [
        (key, between.size) for key, between in rebuild.sizes.items()
    ]
    bearings = [part for part in rebuild.parts.values() if isinstance(part, Bearing)]
    sizes += [(f"{part.name}.width", part.width or part.inner_width) for part in bearings]
    usual = rebuild.measured_with or ""
    return tuple(
        LetterAnswer(
            letter(n),
            key,
            size.mm if isinstance(size, Size) else None,
            (size.instrument or usual) if isinstance(size, Size) else "",
            _shown(rebuild, size) if isinstance(size, Size) else "?",
        )
        for n, (key, size) in enumerate(sizes)
    )


def _shown(rebuild: Rebuild, size: Size) -> str:
    """Write a length in the units of the document, as fine as it was typed."""
    unit = Fraction(127, 5) if rebuild.system == "inch" else Fraction(1)
    step = size.step / unit if size.step else Fraction(1, 10_000)
    digits = min(5, max(0, ceil(-log10(step) - 1e-9)))
    return f"{abs(float(size.value / unit)):.{digits}f} {'in' if unit > 1 else 'mm'}"


def letter(number: int) -> str:
    """Give the letter of the n-th length: A to Z, then AA."""
    rest, last = divmod(number, len(LETTERS))
    return (letter(rest - 1) if rest else "") + LETTERS[last]


def spans(rebuild: Rebuild, scene: Scene, lettered: tuple[LetterAnswer, ...]) -> Iterator[Span]:
    """Give the two faces of each length that has them in a line."""
    places = scene.rest.places
    for one in lettered:
        between = rebuild.sizes.get(one.key)
        if between:
            spots = places.get(between.start.part, {})
            a, b = spots.get(between.start.name), spots.get(between.end.name)
        else:
            part = one.key.removesuffix(".width")
            body = next((b for b in places if owner(b) == part), "")
            a, b = scene.rest.ends(body) or (None, None)
        if a is not None and b is not None and abs(b - a) > SHUT:
            label = one.letter if one.value_mm is not None else f"{one.letter} ?"
            yield Span(label, min(a, b), max(a, b))


def gaps(scenes: Mapping[str, Scene]) -> dict[str, tuple[Wide, ...]]:
    """List by line the faces that may touch and do not, numbered through."""
    found: dict[str, tuple[Wide, ...]] = {}
    for name, scene in scenes.items():
        before = sum(len(own) for own in found.values())
        open_ = [touch for touch in scene.rest.touches if _is_open(scene, touch)]
        found[name] = tuple(
            _wide(scene, touch, f"g{n}") for n, touch in enumerate(open_, start=before + 1)
        )
    return found


def _is_open(scene: Scene, touch: Touch) -> bool:
    """Tell faces that are apart; where lengths are estimates a gap means nothing."""
    if scene.rest.guessed:
        return False
    apart = owner(touch.before.part) != owner(touch.after.part)
    return apart and scene.rest.gap(touch) > SHUT


def _wide(scene: Scene, touch: Touch, label: str) -> Wide:
    first, last = scene.rest.at(touch.before), scene.rest.at(touch.after)
    radius = _radius(scene, owner(touch.before.part), owner(touch.after.part), first, last)
    return Wide(touch, Gap(label, first, last, radius))


def _radius(scene: Scene, one: str, other: str, first: float, last: float) -> float:
    """Say at which radius two faces look at each other [mm]."""
    near_ = []
    for part, at in ((one, first), (other, last)):
        cells = [
            c for c in scene.cells.get(part, ()) if min(abs(c.first - at), abs(c.last - at)) < 1
        ]
        if cells:
            near_.append((min(min(c.inner) for c in cells), max(max(c.outer) for c in cells)))
    if not near_:
        return scene.scale
    low, high = max(low for low, _ in near_), min(high for _, high in near_)
    return (low + high) / 2 if high > low else high


def gap_letters(
    rebuild: Rebuild, found: Mapping[str, tuple[Wide, ...]]
) -> tuple[LetterAnswer, ...]:
    """List gaps as sizes: from face to face."""
    return tuple(
        LetterAnswer(
            one.gap.label,
            f"gap from {_face(one.touch.before)} to {_face(one.touch.after)}",
            round(one.gap.last - one.gap.first, 6),
            "",
            _written(rebuild, one.gap.last - one.gap.first),
        )
        for own in found.values()
        for one in own
    )


def _written(rebuild: Rebuild, gap: float) -> str:
    """Write a gap that is worked out, to the hundredth or the tenth of a thou."""
    return f"{gap / 25.4:.4f} in" if rebuild.system == "inch" else f"{gap:.2f} mm"


def _face(spot: Spot) -> str:
    """Write a face as the text does, without the ring of a bearing."""
    return str(replace(spot, part=owner(spot.part)))
