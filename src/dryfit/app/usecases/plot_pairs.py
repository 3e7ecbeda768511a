"""Plots of rows that press against each other: their line pushed along, force by force."""

from collections.abc import Iterator

import numpy as np

from dryfit.app.usecases.plot_units import (
    Plotting,
    fine_unit,
    force_unit,
    listed,
    warm,
)
from dryfit.ask.needed import needed
from dryfit.ask.pushed import Pushed as Line
from dryfit.ask.pushed import pushed
from dryfit.ask.targets import in_words
from dryfit.draw.paper import Drawing
from dryfit.draw.plot_frame import Scale
from dryfit.draw.plot_pair import PairPlot, Pushed, pair_plot
from dryfit.draw.plot_ticks import spread
from dryfit.model.rebuild import EndFloat, FloatNeed, PreloadNeed
from dryfit.solve.benchtop import NoAnswer

ALONG = 20
"""Pushes each way."""

LEAST_PUSH = 150.0
"""A line is pushed at least as hard [N]."""

BEYOND = 3.2
"""And so many times as hard as its rows are pressed together: at about 2.8 balls part."""


def pair_plots(asked: Plotting) -> Iterator[Drawing]:
    """Draw the rows of each line of which something is wanted or read."""
    for need in _needs(asked):
        try:
            found = _drawn(asked, need)
        except NoAnswer:
            continue  # `set` and `expect` say why; there is nothing to draw
        if found is not None:
            yield found


def _needs(asked: Plotting) -> list[FloatNeed | PreloadNeed]:
    """List one need of each shaft and state, that for a preload first."""
    needs = [t.need for t in asked.wanted if isinstance(t.need, FloatNeed | PreloadNeed)]
    checks = [c for c in asked.rebuild.checks.values() if isinstance(c, EndFloat)]
    read = [FloatNeed(c.name, "float", c.state, of=c.of) for c in checks]
    every = sorted([*needs, *read], key=lambda need: not isinstance(need, PreloadNeed))
    return [*{(need.of, need.state): need for need in reversed(every)}.values()][::-1]


def _drawn(asked: Plotting, need: FloatNeed | PreloadNeed) -> Drawing | None:
    still = pushed(asked.asking, need, asked.packs, (0.0,))
    rest = _at_rest(still) if still else 0.0
    most = max(LEAST_PUSH, BEYOND * rest)
    shares = np.linspace(-1, 1, 2 * ALONG + 1)
    pushes = (most * np.sign(shares) * shares**2).tolist()  # close together where rows part
    line = pushed(asked.asking, need, asked.packs, pushes)
    if line is None:
        return None
    travel, force = fine_unit(asked.rebuild.system), force_unit(asked.rebuild.system)
    along = tuple(
        Pushed(*values)
        for values in np.column_stack(
            [line.travel * travel.rate, line.to_last * force.rate, line.to_first * force.rate]
        ).tolist()
    )
    rest *= force.rate
    band, wanted = _band(asked, need, force.rate)
    tops = [max(p.ahead, p.back) for p in along]
    return pair_plot(
        PairPlot(
            warm(f"Rows of {need.of} against each other", need.state),
            Scale(
                f"{need.of} from rest to {line.ends[1]}, minus to {line.ends[0]}",
                travel.name,
                spread([p.travel for p in along], room=0.02),
            ),
            Scale(
                "force on the rows",
                force.name,
                spread([*tops, *(v for v in wanted if v is not None)], nought=True),
                force.other,
            ),
            along,
            f"{listed(line.stops_last)}, pushed to {line.ends[1]}",
            f"{listed(line.stops_first)}, pushed to {line.ends[0]}",
            rest,
            band,
            wanted,
        )
    )


def _at_rest(line: Line) -> float:
    """Force with which the rows are pressed together with no push [N]."""
    return float(min(line.to_last[0], line.to_first[0]))


Limits = tuple[float | None, float | None]


def _band(
    asked: Plotting, need: FloatNeed | PreloadNeed, rate: float
) -> tuple[tuple[float, float] | None, Limits]:
    """Give the band of the force, and what is wanted of it in newtons."""
    target = next((t for t in asked.wanted if t.need == need), None)
    if target is None:
        return None, (None, None)
    (found,) = needed(asked.asking, (target,), asked.packs)
    band = (found.force.low * rate, found.force.high * rate) if found.force else None
    if not isinstance(need, PreloadNeed) or in_words(target):
        return band, (None, None)
    low, high = (None if v is None else v * rate for v in (target.low, target.high))
    return band, (low, high)
