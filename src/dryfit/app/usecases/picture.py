"""The drawing of a unit as its book shows it: SVG, letters, numbers, or why there is none."""

from dryfit.app.paper.known import Drawn
from dryfit.app.usecases.opening import FindingAnswer, Opened

Findings = tuple[FindingAnswer, ...]


def picture(opened: Opened) -> Drawn:
    """Draw a unit, and each line where there is more than one; tables stand on their own sheets.

    What was found before is not found again.
    """
    from dryfit.app.usecases.drawing import DrawRequest, drawn
    from dryfit.app.usecases.lying import lying
    from dryfit.draw.svg import svg

    if not opened.rebuild.lines:
        return Drawn(why="There is no drawing: no line is written yet.")
    lies, lines = lying(opened.rebuild), tuple(opened.rebuild.lines)
    whole, *each = (
        drawn(opened, DrawRequest(b"", line, tables=False), lies)
        for line in (None, *(lines if len(lines) > 1 else ()))
    )
    answers = (whole, *each)
    return Drawn(
        svg(whole.drawing) if whole.drawing else "",
        findings=tuple(one for one in whole.findings if one not in opened.findings),
        lines={n: svg(one.drawing) for n, one in zip(lines, each, strict=False) if one.drawing},
        letters={x.key: x.letter for one in answers for x in one.letters},
        balloons={x.part: str(x.number) for one in answers for x in one.balloons},
    )
