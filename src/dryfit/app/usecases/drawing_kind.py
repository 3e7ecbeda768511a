"""The half-section of a kind of unit, to point at: from its start, with usual proportions.

Nothing of it is known, so nothing is told to be unknown: no dashes, no scale. Letters are those of
the drawing of the unit; a length that has none there takes the next free one.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.drawing_marks import letter, letters
from dryfit.app.usecases.drawing_views import views
from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.opening import open_text
from dryfit.draw.paper import Drawing, Layer
from dryfit.draw.section import plain
from dryfit.draw.section_view import Shown, Span, Subject, View
from dryfit.model.parts import Housing
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Place
from dryfit.shape.bands import is_shaft
from dryfit.shape.cells import Guess, Solid
from dryfit.shape.kinds import built
from dryfit.shape.resting import INNER_RING, OUTER_RING, Resting

LEAST = 2e-3
"""A length below this has no arrows [mm]."""


@dataclass(frozen=True)
class KindDrawn:
    """A half-section to point at, and the same with letters."""

    bare: Drawing
    lettered: Drawing


def drawn_kind(text: str, labels: Mapping[Place, str]) -> KindDrawn:
    """Draw the first view of a text, and letter the lengths at some of its places."""
    rebuild = open_text(text).rebuild
    lies = lying(rebuild)
    scenes = {rest.name: built(lies.rebuild, rest) for rest in lies.lines}
    found = next(views(rebuild, scenes, (), dict.fromkeys(scenes, ())))
    rest = scenes[found.line.name].rest
    spans = tuple(_span(rest, place, label) for place, label in labels.items())
    marked = tuple(span for span in spans if span.last - span.first > LEAST)
    bare = _subject(rebuild, replace(_sure(found), line=_nameless(_sure(found).line)))
    whole = _subject(rebuild, replace(_sure(found), spans=marked))
    shown = plain(bare, {Layer.PARTS, Layer.AXES})
    nobody = tuple(replace(group, part=None) for group in shown.groups)
    lettered = plain(whole, {Layer.PARTS, Layer.AXES, Layer.SIZES, Layer.TEXT})
    return KindDrawn(replace(shown, groups=nobody), lettered)


def letters_of(rebuild: Rebuild, places: Sequence[Place]) -> dict[Place, str]:
    """Give each place its letter in the drawing of the unit, or one that is free there."""
    known = {one.key: one.letter for one in letters(rebuild)}
    keys = {place: _key(place) for place in places}
    free = (letter(n) for n in range(len(known), len(known) + len(places)))
    return {place: known.get(key) or next(free) for place, key in keys.items()}


def _key(place: Place) -> str:
    """Name a length as a drawing does: the key of a size, or `part.width`."""
    return str(place[1]) if place[0] == "sizes" else f"{place[1]}.{place[2]}"


def _span(rest: Resting, place: Place, label: str) -> Span:
    """Find the two faces of a length: of a size, of a ring, or over both rings of a bearing."""
    name = str(place[1])
    start, _, end = name.partition(" to ")
    if end and place[0] == "sizes":
        a, b = (rest.places[spot.split(".")[0]][spot.split(".")[1]] for spot in (start, end))
        return Span(label, min(a, b), max(a, b))
    ends: list[float] = []
    for body in (name, name + INNER_RING, name + OUTER_RING):
        ends += rest.ends(body) or ()
        if ends and place[-1] != "set width":
            break
    return Span(label, min(ends, default=0.0), max(ends, default=0.0))


def _subject(rebuild: Rebuild, view: View) -> Subject:
    return Subject(
        rebuild.title,
        (view,),
        {},
        cases=frozenset(n for n, p in rebuild.parts.items() if isinstance(p, Housing)),
        shafts=frozenset(n for n, p in rebuild.parts.items() if is_shaft(p)),
        settings=frozenset(rebuild.settings),
    )


def _nameless(line: Shown) -> Shown:
    return replace(line, first="", last="")


def _sure(view: View) -> View:
    """Draw all outlines as if their sizes were known."""
    crossing = view.crossing
    return replace(
        view,
        line=_sure_line(view.line),
        crossing=replace(crossing, line=_sure_line(crossing.line)) if crossing else None,
    )


def _sure_line(line: Shown) -> Shown:
    return replace(line, solids=tuple(_sure_solid(solid) for solid in line.solids))


def _sure_solid(solid: Solid) -> Solid:
    return replace(solid, cells=tuple(replace(c, guess=Guess.NONE) for c in solid.cells))
