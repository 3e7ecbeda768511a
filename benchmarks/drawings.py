"""How long it takes to write a drawing as SVG, PDF and DXF, to plot a box, and to draw its steps.

The drawing is made here: 40 parts, each an outline, a hatch of 30 lines, a circle, an arrowhead
and a text, some 1 400 items, about twice as many as the half-section of a bevel box has. Beside
the writers stands a bare loop that puts the same points into one string, which is what no writer
can do without. The pictures of 40 steps are those of the bevel box, over and over; beside them
stands the drawing of the whole box, with its shapes made and its parts laid.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from dryfit.app.usecases import demos
from dryfit.app.usecases.drawing import DrawRequest, drawn
from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.order import order_of
from dryfit.app.usecases.plots import PlotRequest, plot
from dryfit.app.usecases.steps import Stage, staged, step_drawn
from dryfit.draw.dxf import dxf
from dryfit.draw.paper import Area, Drawing, Group, Layer, Lettering, Pen, Ring, Stroke
from dryfit.draw.pdf import pdf
from dryfit.draw.svg import svg

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROUNDS, PARTS, LINES = 15, 40, 30

SVG, PDF, DXF, LOOP = "SVG", "PDF", "DXF", "points in one string"
FEED, BEVEL = "plots of the feed box", "plots of the bevel box"
WHOLE, READY, STEPS, STEPS_SVG = (
    "the bevel box, laid",
    "its shapes made ready",
    "pictures of 40 steps",
    "the same, and as SVG",
)
AIMS = {SVG: 0.1, PDF: 0.1, DXF: 0.1, READY: 0.1, STEPS_SVG: 1.0}
FORTY = 40


def part(n: int) -> Group:
    """Draw one part."""
    x, y = 20.0 * (n % 8), 30.0 * (n // 8)
    corners = ((x, y), (x + 18, y), (x + 18, y + 25), (x, y + 25))
    hatch = (Stroke(((x, y + k * 0.8), (x + 18, y + k * 0.8)), Pen.HATCH) for k in range(LINES))
    return Group(
        Layer.PARTS,
        (
            Stroke(corners, closed=True),
            *hatch,
            Ring((x + 9, y + 12), 4.0, Pen.CENTRE),
            Area(((x, y), (x + 1, y), (x, y + 1))),
            Lettering((x + 2, y + 2), f"part {n}", 3.0),
        ),
        f"part {n}",
    )


def sheet() -> Drawing:
    """Draw all of them."""
    return Drawing("benchmark", 170.0, 160.0, tuple(part(n) for n in range(PARTS)), scale=0.5)


def points(drawing: Drawing) -> Iterator[tuple[float, float]]:
    """Go through the points of all strokes and areas."""
    for group in drawing.groups:
        for item in group.items:
            if isinstance(item, Stroke | Area):
                yield from item.points


def pictures(stage: Stage) -> list[Drawing]:
    """Draw 40 steps."""
    many = len(stage.order.steps)
    return [step_drawn(stage, n % many + 1) for n in range(FORTY)]


def main() -> None:
    """Time all sides and print the table."""
    drawing = sheet()
    opened = open_text(demos.text("bevel-box"))
    order, lies = order_of(opened), lying(opened.rebuild)
    stage = staged(opened, order, lies)
    sides: dict[str, timing.Act] = {
        LOOP: lambda: " ".join(f"{x:.3f} {y:.3f}" for x, y in points(drawing)),
        SVG: lambda: svg(drawing),
        PDF: lambda: pdf(drawing),
        DXF: lambda: dxf(drawing),
        FEED: lambda: plot(PlotRequest(demos.text("feed-box"))),
        BEVEL: lambda: plot(PlotRequest(demos.text("bevel-box"))),
        WHOLE: lambda: drawn(opened, DrawRequest(b""), lies),
        READY: lambda: staged(opened, order, lies),
        STEPS: lambda: pictures(stage),
        STEPS_SVG: lambda: [svg(one) for one in pictures(stage)],
    }
    runs = timing.in_turn(sides, ROUNDS)
    rows: list[tuple[str, ...]] = [("what", "median", "to the points", "aim")]
    for side in sides:
        seconds = runs.median(side)
        goal = timing.aim(seconds, AIMS[side]) if side in AIMS else ""
        rows.append((side, timing.ms(seconds), timing.times(runs.ratio(side, LOOP)), goal))
    items = sum(len(group.items) for group in drawing.groups)
    print(f"{timing.machine()}\n{items} items; medians of {ROUNDS} rounds in turn\n")
    print(timing.table(rows))


if __name__ == "__main__":
    main()
