"""The drawing of a unit as its book shows it: SVG, letters, numbers, or why there is none."""

from collections.abc import Iterable

from dryfit.app.paper.known import Drawn
from dryfit.app.usecases.opening import FindingAnswer

Findings = tuple[FindingAnswer, ...]


def picture(text: bytes, lines: Iterable[str], found: Findings) -> Drawn:
    """Draw a unit, and each line where there is more than one; tables stand on their own sheets.

    What was found before is not found again.
    """
    from dryfit.app.usecases.drawing import DrawRequest, draw
    from dryfit.draw.svg import svg

    whole = draw(DrawRequest(text, tables=False))
    findings = tuple(one for one in whole.findings if one not in found)
    if whole.drawing is None:
        stops = [one.message for one in findings if one.level == "stop"]
        why = "There is no drawing: " + "; ".join(stops or ["nothing to draw"])
        return Drawn(why=why, findings=findings)
    names = tuple(lines)
    each = {} if len(names) < 2 else {n: draw(DrawRequest(text, n, tables=False)) for n in names}
    answers = (whole, *each.values())
    return Drawn(
        svg(whole.drawing),
        findings=findings,
        lines={name: svg(one.drawing) for name, one in each.items() if one.drawing},
        letters={x.key: x.letter for one in answers for x in one.letters},
        balloons={x.part: str(x.number) for one in answers for x in one.balloons},
    )
