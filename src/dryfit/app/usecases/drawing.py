"""`draw`: the half-section of a line or of the whole unit, with numbers and letters."""

from dataclasses import dataclass

from dryfit.app.usecases.drawing_marks import (
    BalloonAnswer,
    LetterAnswer,
    gap_letters,
    gaps,
    letters,
    numbers,
)
from dryfit.app.usecases.drawing_views import views
from dryfit.app.usecases.drawing_words import guesses, length_rows, notes, nowhere, part_rows
from dryfit.app.usecases.lying import Lying, lying
from dryfit.app.usecases.opening import FindingAnswer, Opened, located, open_text
from dryfit.draw.paper import Drawing
from dryfit.draw.section import section
from dryfit.draw.section_view import Subject
from dryfit.model.parts import Housing
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding
from dryfit.quantities.finding import near
from dryfit.shape.bands import is_shaft
from dryfit.shape.kinds import built
from dryfit.shape.measures import overlap_findings


@dataclass(frozen=True)
class DrawRequest:
    """A text, which line of it, how many times too wide gaps are drawn, and whether with tables."""

    text: bytes
    line: str | None = None
    gaps: float = 1.0
    tables: bool = True


@dataclass(frozen=True)
class DrawAnswer:
    """A drawing with its tables; none where the text has to be mended first."""

    findings: tuple[FindingAnswer, ...]
    drawing: Drawing | None = None
    balloons: tuple[BalloonAnswer, ...] = ()
    letters: tuple[LetterAnswer, ...] = ()


def draw(request: DrawRequest) -> DrawAnswer:
    """Draw a rebuild."""
    opened = open_text(request.text)
    if opened.stopped:
        return DrawAnswer(opened.findings)
    rebuild = opened.rebuild
    wrong = _refused(rebuild, request)
    if wrong:
        return DrawAnswer((*opened.findings, *located(opened, wrong)))
    return drawn(opened, request, lying(rebuild, opened.typed))


def _refused(rebuild: Rebuild, request: DrawRequest) -> list[Finding]:
    """Say what of a request cannot be done."""
    found = []
    if not rebuild.lines:
        way_out = "write the stacks of a line first"
        found.append(Finding("draw.no line", ("lines",), "there is no line to draw", way_out))
    elif request.line is not None and request.line not in rebuild.lines:
        told = f"there is no line '{request.line}' to draw"
        found.append(Finding("draw.line", ("lines",), told, near(request.line, rebuild.lines)))
    if not 1.0 <= request.gaps <= 100.0:
        told = f"gaps drawn {request.gaps:g} times"
        found.append(Finding("draw.gaps", (), told, "write 1 (to scale) to 100 times"))
    return found


def drawn(opened: Opened, request: DrawRequest, lies: Lying) -> DrawAnswer:
    """Draw a text that was opened, with its parts where they lie."""
    rebuild = opened.rebuild
    scenes = {
        rest.name: built(lies.rebuild, rest)
        for rest in lies.lines
        if request.line in (None, rest.name)
    }
    balloons, lettered = numbers(rebuild), letters(rebuild)
    shapes = {name: scene.solids() for name, scene in scenes.items()}
    open_ = gaps(scenes)
    seen = tuple(views(rebuild, scenes, lettered, open_))
    here = {solid.part for solids in shapes.values() for solid in solids}
    shown = tuple(b for b in balloons if b.part in here)
    used = {span.letter.partition(" ")[0] for view in seen for span in view.spans}
    listed = tuple(one for one in lettered if one.letter in used) + gap_letters(rebuild, open_)
    wide = request.gaps if any(open_.values()) else 1.0
    is_open = any(view.line.openings for view in seen)
    subject = Subject(
        _title(rebuild, request),
        seen,
        {b.part: b.number for b in shown},
        cases=frozenset(n for n, p in rebuild.parts.items() if isinstance(p, Housing)),
        shafts=frozenset(n for n, p in rebuild.parts.items() if is_shaft(p)),
        settings=frozenset(rebuild.settings),
        exaggerated=request.gaps,
        notes=tuple(notes(lies, shapes, wide, is_open=is_open)),
        parts=part_rows(shown, shapes) if request.tables else (),
        lengths=length_rows(listed) if request.tables else (),
    )
    told = [f for solids in shapes.values() for f in overlap_findings(solids)]
    told += [*guesses(shapes), *(nowhere(rebuild, here) if request.line is None else ())]
    findings = (*opened.findings, *located(opened, told))
    return DrawAnswer(findings, section(subject), shown, listed)


def _title(rebuild: Rebuild, request: DrawRequest) -> str:
    name = rebuild.title or "half-section"
    return f"{name}: {request.line}" if request.line else name
