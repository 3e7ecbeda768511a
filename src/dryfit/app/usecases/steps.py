"""`draw --step`: a small picture of each step of an order, and of each turn of the strip.

Reading order: `draw_step` for one step of a text; `staged` once and `step_drawn` or `off_drawn` as
often as wanted; then what is there, what is lit, and how far a picture reaches.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from dryfit.app.usecases.drawing import DrawAnswer
from dryfit.app.usecases.drawing_marks import numbers
from dryfit.app.usecases.drawing_views import thin_lines, views
from dryfit.app.usecases.lying import Lying, lying
from dryfit.app.usecases.opening import Opened, located, open_text
from dryfit.app.usecases.order import order_of
from dryfit.app.usecases.ordering.answers import HiddenAnswer, OrderAnswer
from dryfit.app.usecases.ordering.bodies import apart_of
from dryfit.app.usecases.ordering.work import side_of
from dryfit.app.words.order import picture_off, picture_words
from dryfit.draw.paper import Drawing
from dryfit.draw.section_lines import Extent, angles_of, extent_of
from dryfit.draw.section_step import Mark, Moment, Way, step_picture
from dryfit.draw.section_view import Radial, Shown, Subject, View
from dryfit.model.parts import Housing
from dryfit.plan.from_shapes import Apart, parts_of
from dryfit.quantities import Finding
from dryfit.shape.bands import is_shaft
from dryfit.shape.cells import Solid
from dryfit.shape.kinds import built

NUMBERED = 5
"""So many parts that go on in one step are numbered in its picture; of more only the first."""


@dataclass(frozen=True)
class StepDrawRequest:
    """A text, which step of its order, counted from 1, and wishes of the order."""

    text: bytes
    step: int
    pins: tuple[str, ...] = ()


@dataclass(frozen=True)
class Stage:
    """A rebuild with its shapes and its order, to be drawn step by step.

    Attributes
    ----------
    order
        Its order.
    views
        Its lines with all parts, a line that crosses another with that.
    bodies
        By line what is handled in one piece, by name.
    thin
        By line and part its lines of contact, pitch and screws [mm].
    parts
        For each body the part that it is of.
    numbers
        Number of each body's part on the drawing of the unit.
    hatch
        Angle of section lines of each body, as on the drawing of the unit [degree].
    extents
        How far each view reaches, by its line.
    cases, shafts
        Parts that go round all, that are not cut.
    """

    order: OrderAnswer
    views: tuple[View, ...]
    bodies: Mapping[str, Mapping[str, Solid]]
    thin: Mapping[str, Mapping[str, tuple[tuple[Radial, Radial], ...]]]
    parts: Mapping[str, str]
    numbers: Mapping[str, str]
    hatch: Mapping[str, float]
    extents: Mapping[str, Extent]
    cases: frozenset[str]
    shafts: frozenset[str]


def draw_step(request: StepDrawRequest) -> DrawAnswer:
    """Draw one step of the order of a text."""
    opened = open_text(request.text)
    answer = order_of(opened, request.pins)
    if not answer.answered:
        return DrawAnswer(answer.findings)
    if not 1 <= request.step <= len(answer.steps):
        return DrawAnswer((*answer.findings, *located(opened, [no_step(answer, request.step)])))
    return DrawAnswer(answer.findings, step_drawn(staged(opened, answer), request.step))


def no_step(answer: OrderAnswer, step: int) -> Finding:
    """Say that an order has no such step, and which it has."""
    told = f"there is no step {step} in this order"
    last = len(answer.steps)
    way_out = f"write 1 to {last}; `dryfit order` lists them" if last else "it has no steps at all"
    return Finding("draw.step", (), told, way_out)


def staged(opened: Opened, answer: OrderAnswer, lies: Lying | None = None) -> Stage:
    """Make the shapes of a rebuild ready, once for all steps of its order."""
    rebuild = opened.rebuild
    lies = lies or lying(rebuild)
    scenes = {rest.name: built(lies.rebuild, rest) for rest in lies.lines}
    whole = tuple(views(rebuild, scenes, (), dict.fromkeys(scenes, ())))
    pieces = {
        rest.name: tuple(
            _of(scenes[rest.name].solids(), apart_of(lies.rebuild, rest, scenes[rest.name]))
        )
        for rest in lies.lines
    }
    bodies = {name: dict(_bodies(own)) for name, own in pieces.items()}
    parts = {body: solid.part for own in pieces.values() for body, solid in own}
    angles = angles_of(Subject("", whole, {}))
    label = {one.part: str(one.number) for one in numbers(rebuild)}
    return Stage(
        answer,
        whole,
        bodies,
        {name: thin_lines(scene) for name, scene in scenes.items()},
        parts,
        {body: label[part] for body, part in parts.items()},
        {body: angles[part] for body, part in parts.items() if part in angles},
        {view.line.name: extent_of(view, 1.0) for view in whole},
        frozenset(n for n, p in rebuild.parts.items() if isinstance(p, Housing)),
        frozenset(n for n, p in rebuild.parts.items() if is_shaft(p)),
    )


def _of(solids: Iterable[Solid], apart: Apart) -> Iterator[tuple[str, Solid]]:
    """Give the loose pieces of each part with the body that they are of."""
    for solid in solids:
        for piece in dict.fromkeys(cell.piece for cell in solid.cells):
            own = replace(solid, cells=tuple(c for c in solid.cells if c.piece == piece))
            for body in parts_of([own], replace(apart, screws={})):
                yield body, own


def _bodies(pieces: Iterable[tuple[str, Solid]]) -> Iterator[tuple[str, Solid]]:
    """Give each body as a solid by its own name, laid once for all pictures."""
    found: dict[str, Solid] = {}
    for body, own in pieces:
        before = found[body].cells if body in found else ()
        found[body] = replace(own, part=body, cells=(*before, *own.laid), place=0.0)
    yield from found.items()


def step_drawn(stage: Stage, number: int, *, told: bool = True) -> Drawing:
    """Draw the n-th step, counted from 1, with its words below if told."""
    step = stage.order.steps[number - 1]
    work = step.work
    lit = work.puts if work.puts else () if step.act == "read" else work.about
    words = picture_words(number, step) if told else ()
    scene = _Scene(work.line, work.there, lit, lit or work.about, words)
    return _drawn(stage, scene, work.side, work.hidden, off=False)


def off_drawn(stage: Stage, number: int, *, told: bool = True) -> Drawing:
    """Draw the n-th turn of the strip, counted from 1: what comes off is lit, and its way."""
    off = stage.order.strip[number - 1]
    words = (picture_off(number, off),) if told else ()
    scene = _Scene(off.line, off.there, off.parts, off.parts, words)
    return _drawn(stage, scene, side_of(off.way), (), off=True)


@dataclass(frozen=True)
class _Scene:
    """What a picture shows: a line, what is there, what is lit, what is numbered, words."""

    line: str
    there: tuple[str, ...]
    lit: tuple[str, ...]
    named: tuple[str, ...]
    words: tuple[str, ...]


def _drawn(
    stage: Stage, scene: _Scene, side: str, hidden: tuple[HiddenAnswer, ...], *, off: bool
) -> Drawing:
    """Draw what is there of the view that a line is in, or of what is on the bench."""
    bench = _on_bench(stage, scene)
    view, extent = _seen(stage, scene.line, bench)
    crossing = view.crossing.line.name if view.crossing else ""
    on = {n for line in (view.line.name, crossing) for n in stage.bodies.get(line, ())}
    lit = [body for body in scene.lit if body in on]
    named = scene.named if len(scene.named) <= NUMBERED else scene.named[:1]
    marks = (Mark(h.mark, h.at_mm, h.radii_mm, h.line == crossing) for h in hidden if h.mark)
    return step_picture(
        Moment(
            scene.words[0] if scene.words else scene.line,
            _with(stage, view, frozenset(scene.there)),
            extent,
            stage.hatch,
            stage.cases,
            stage.shafts,
            frozenset(lit),
            {body: stage.numbers[body] for body in named if body in stage.numbers},
            tuple(marks),
            _way(view, scene.line, lit[0], side, off=off) if side and lit else None,
            scene.words,
        )
    )


def _way(view: View, line: str, body: str, side: str, *, off: bool) -> Way:
    """Say which way a body goes: from an end of its line, else from outside."""
    crosses = view.crossing is not None and view.crossing.line.name == line
    own = view.crossing.line if view.crossing is not None and crosses else view.line
    return Way(body, side if side in (own.first, own.last) else "", crossing=crosses, off=off)


def _on_bench(stage: Stage, scene: _Scene) -> tuple[str, ...]:
    """Name all that goes into what is put together on the bench; nothing at the case itself.

    A part by itself is drawn as large as it is on its line.
    """
    there = {*scene.there}
    if not there or there & stage.cases:
        return ()
    puts = (step.work.puts for step in stage.order.steps)
    whole = next((one for one in puts if len(one) > 1 and there <= {*one}), None)
    alone = there == {*scene.named} and bool(stage.cases)
    return whole or (tuple(stage.bodies[scene.line]) if alone else ())


def _seen(stage: Stage, line: str, bench: tuple[str, ...]) -> tuple[View, Extent]:
    """Give the view that a line is in, and how far it reaches; of a bench that of its parts."""
    view = next(
        one
        for one in stage.views
        if line in ("", one.line.name, one.crossing.line.name if one.crossing else "")
    )
    if not bench:
        return view, stage.extents[view.line.name]
    own = view.line
    if view.crossing is not None and line == view.crossing.line.name:
        own = view.crossing.line
    alone = View(replace(own, solids=tuple(_some(stage, own.name, frozenset(bench)))))
    return alone, extent_of(alone, 1.0)


def _with(stage: Stage, view: View, there: frozenset[str]) -> View:
    """Leave out of a view what is not there."""
    crossing = view.crossing
    if crossing is not None:
        crossing = replace(crossing, line=_shown(stage, crossing.line, there))
    return View(_shown(stage, view.line, there), crossing)


def _shown(stage: Stage, line: Shown, there: frozenset[str]) -> Shown:
    """Leave out of a line what is not there; lines of contact want all of their part."""
    bodies = stage.bodies[line.name]
    whole = {stage.parts[body] for body in bodies}
    whole -= {stage.parts[body] for body in bodies if body not in there}
    thin = (
        pair for part, lines in stage.thin[line.name].items() for pair in lines if part in whole
    )
    return replace(line, solids=tuple(_some(stage, line.name, there)), thin=tuple(thin))


def _some(stage: Stage, line: str, there: frozenset[str]) -> Iterator[Solid]:
    return (solid for body, solid in stage.bodies[line].items() if body in there)
