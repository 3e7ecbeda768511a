"""The drawing of a unit as its book shows it: SVG, letters, numbers, or why there is none."""

from functools import partial
from urllib.parse import quote

from dryfit.app.paper.known import Drawn
from dryfit.app.usecases.opening import FindingAnswer, Opened
from dryfit.app.usecases.ordering.answers import OrderAnswer

Findings = tuple[FindingAnswer, ...]


def picture(opened: Opened, links: str = "") -> Drawn:
    """Draw a unit, and each line where there is more than one; tables stand on their own sheets.

    What was found before is not found again. Behind `links`, if given, stands each part's name.
    """
    from dryfit.app.usecases.drawing import DrawRequest, drawn
    from dryfit.app.usecases.lying import lying
    from dryfit.draw.svg import no_links, svg

    if not opened.rebuild.lines:
        return Drawn(why="There is no drawing: no line is written yet.")
    lies, lines = lying(opened.rebuild, opened.typed), tuple(opened.rebuild.lines)
    to = partial(_link, links) if links else no_links
    whole, *each = (
        drawn(opened, DrawRequest(b"", line, tables=False), lies)
        for line in (None, *(lines if len(lines) > 1 else ()))
    )
    answers = (whole, *each)
    return Drawn(
        svg(whole.drawing, to) if whole.drawing else "",
        findings=tuple(one for one in whole.findings if one not in opened.findings),
        lines={n: svg(one.drawing, to) for n, one in zip(lines, each, strict=False) if one.drawing},
        letters={x.key: x.letter for one in answers for x in one.letters},
        balloons={x.part: str(x.number) for one in answers for x in one.balloons},
    )


def step_pictures(opened: Opened, order: OrderAnswer) -> tuple[str, ...]:
    """Draw each step of the order of a unit."""
    from dryfit.app.usecases.steps import staged, step_drawn
    from dryfit.draw.svg import svg

    if not order.steps:
        return ()
    stage = staged(opened, order)
    steps = (step_drawn(stage, n, told=False) for n in range(1, len(order.steps) + 1))
    return tuple(svg(one) for one in steps)


def strip_pictures(opened: Opened, order: OrderAnswer) -> tuple[str, ...]:
    """Draw each turn of the strip of a unit."""
    from dryfit.app.usecases.steps import off_drawn, staged
    from dryfit.draw.svg import svg

    if not order.strip:
        return ()
    stage = staged(opened, order)
    turns = (off_drawn(stage, n, told=False) for n in range(1, len(order.strip) + 1))
    return tuple(svg(one) for one in turns)


def _link(links: str, part: str) -> str:
    """Write the address of a part."""
    return links + quote(part, safe="")
