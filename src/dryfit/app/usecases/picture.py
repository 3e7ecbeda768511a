"""The drawing of a unit as its book shows it: SVG, letters, numbers, or why there is none."""

from dryfit.app.paper.known import Drawn


def picture(text: bytes) -> Drawn:
    """Draw a unit without its tables, which stand on sheets of their own."""
    from dryfit.app.usecases.drawing import DrawRequest, draw
    from dryfit.draw.svg import svg

    answer = draw(DrawRequest(text, tables=False))
    if answer.drawing is None:
        stops = [found.message for found in answer.findings if found.level == "stop"]
        return Drawn(why="There is no drawing: " + "; ".join(stops or ["nothing to draw"]))
    return Drawn(
        svg(answer.drawing),
        letters={one.key: one.letter for one in answer.letters},
        balloons={one.part: str(one.number) for one in answer.balloons},
    )
