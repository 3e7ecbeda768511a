"""Plots of walks to nothing: those written in the document, and any answered one."""

from collections.abc import Iterator

from dryfit.app.usecases.plot_units import INCH, Plotting, Unit, length_unit
from dryfit.app.usecases.walk_answers import EndAnswer, WalkAnswer
from dryfit.app.usecases.written import written_answer
from dryfit.ask.written_walks import taken_walks
from dryfit.draw.paper import Drawing
from dryfit.draw.plot_frame import Scale
from dryfit.draw.plot_signs import between, told
from dryfit.draw.plot_ticks import spread
from dryfit.draw.plot_walk import Step, WalkPlot, walk_plot
from dryfit.quantities import System, decimals_for

OFF_THE_LINE = "something is off the line: find out what before you go by it"

FINE = 0.001
"""Half width [mm] that shows a float read on a dial."""


def walk_plots(asked: Plotting) -> Iterator[Drawing]:
    """Draw each walk that is written and can be answered."""
    for taken in taken_walks(asked.asking, asked.wanted, asked.packs):
        answer = written_answer(asked.rebuild, taken, None).walk
        title = f"Walk to nothing: {taken.check.name}, by {taken.part}"
        drawn = walk_drawn(answer, title, taken.part)
        if drawn is not None:
            yield drawn


def walk_drawn(answer: WalkAnswer, title: str, moved: str) -> Drawing | None:
    """Draw a walk; nothing of one that is not answered."""
    nothing, end, rate = answer.nothing, answer.end, answer.mm_per_unit
    if not answer.answered or nothing is None or end is None or rate is None:
        return None
    mark, read = _mark(answer), _millimetres(answer.system)
    system: System = "inch" if answer.system == "inch" else "mm"
    steps = tuple(Step(p.at * mark.rate, p.read_mm * read.rate, p.left_out) for p in answer.points)
    stop = end.spot.at * mark.rate
    ats = [step.at for step in steps]
    xs = [*ats, nothing.low * mark.rate, nothing.high * mark.rate, stop]
    slope = rate * read.rate / mark.rate
    at_stop = (stop - nothing.at * mark.rate) * slope
    places = (0 if answer.by == "nut" else decimals_for(FINE, system), decimals_for(FINE, system))
    half = (nothing.high - nothing.low) / 2 * mark.rate
    across = places[0] if answer.by == "pack" else (1 if half < 10 else 0)
    return walk_plot(
        WalkPlot(
            title,
            Scale(_across(answer, moved), mark.name, spread(xs)),
            Scale(
                "float read",
                read.name,
                spread([*(s.read for s in steps), at_stop], nought=True),
                read.other,
            ),
            steps,
            slope,
            nothing.at * mark.rate,
            nothing.low * mark.rate,
            nothing.high * mark.rate,
            stop,
            _stop(end, mark, read, (across, places[1])),
            (across, places[1]),
            OFF_THE_LINE if answer.doubts else "",
        )
    )


def _across(answer: WalkAnswer, moved: str) -> str:
    return f"{moved} tightened" if answer.by == "nut" else f"{moved}, thickness"


def _mark(answer: WalkAnswer) -> Unit:
    """Give the unit of marks, from that of the answer."""
    return Unit("degrees", 1.0) if answer.by == "nut" else _millimetres(answer.system)


def _millimetres(system: str) -> Unit:
    """Give the unit of lengths for what comes in millimetres."""
    unit = length_unit("inch" if system == "inch" else "mm")
    return Unit(unit.name, 1 / INCH if system == "inch" else 1.0, unit.other)


def _stop(end: EndAnswer, mark: Unit, read: Unit, places: tuple[int, int]) -> str:
    """Say where to stop and what it is then."""
    at = f"stop at {told(end.spot.at * mark.rate, places[0])} {mark.name}"
    if end.sort == "nothing":
        return f"{at}: the dial just reads nothing"
    span = (end.low_mm * read.rate, end.high_mm * read.rate)
    wanted = told(end.wanted_mm * read.rate, places[1])
    return (
        f"{at}, for {end.sort} of {wanted} {read.name}; nine in ten "
        f"{between(span, read.name, places[1])}"
    )
