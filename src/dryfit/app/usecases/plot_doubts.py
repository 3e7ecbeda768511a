"""Plots of what makes up the uncertainty of each check."""

from collections.abc import Iterator

from dryfit.app.usecases.answers import what_is_read
from dryfit.app.usecases.plot_units import (
    Plotting,
    Unit,
    capital,
    force_unit,
    length_places,
    length_unit,
)
from dryfit.ask.expect import Expected, expect
from dryfit.ask.shares import DIAL, ELSE, shares
from dryfit.ask.shares import Share as Part
from dryfit.draw.paper import Drawing
from dryfit.draw.plot_doubt import DoubtPlot, Share, doubt_plot
from dryfit.draw.plot_signs import between, told

LEAST, LEAST_ELSE = 0.02, 0.05
"""Shares below this are not told, one by one and of what is left: draws tell no better."""

MOST = 8
"""So many bars at most."""

NOTES = (
    "Bars: how much of the doubt, in hundredths of its variance, would go if that were known. "
    "Sizes read by one instrument err together, so they need not add up to 100."
)


def doubt_plots(asked: Plotting) -> Iterator[Drawing]:
    """Draw what makes up the uncertainty of each check that can be said."""
    for found in expect(asked.asking, asked.wanted, asked.packs):
        drawn = _drawn(asked, found) if found.typed is not None else None
        if drawn is not None:
            yield drawn


def _drawn(asked: Plotting, found: Expected) -> Drawing | None:
    told_of = worth_telling(asked, found)
    if not told_of:
        return None
    bars = tuple(Share(words, one.share) for one, words in told_of)
    title = f"What makes up the doubt: {found.check.name}"
    return doubt_plot(DoubtPlot(title, _says(asked, found), bars, NOTES))


def worth_telling(asked: Plotting, found: Expected) -> list[tuple[Part, str]]:
    """List what makes a check doubtful by more than the draws can tell, each in words."""
    made = shares(asked.asking, found.check, asked.packs)
    told_of = [one for one in made if one.share >= (LEAST_ELSE if one.key == ELSE else LEAST)]
    return [(one, _named(one.key, found, asked)) for one in told_of[:MOST]]


def _named(key: str, found: Expected, asked: Plotting) -> str:
    """Name one thing that makes a reading doubtful, with the instrument it was read by."""
    if key == DIAL:
        return f"the reading itself, by {found.by}"
    if key == ELSE:
        return "all else: bearings, fits, friction, run-out"
    if key in asked.rebuild.settings:
        return f"{key}: made and measured"
    size = asked.rebuild.sizes.get(key)
    by = getattr(size.size, "instrument", None) if size else None
    by = by or asked.rebuild.measured_with if size else by
    return f"{key}, by {by}" if by else key


def _says(asked: Plotting, found: Expected) -> str:
    """Say what the check should read."""
    system = asked.rebuild.system
    unit: Unit = force_unit(system) if found.in_newton else length_unit(system)
    low, high = ((value or 0.0) * unit.rate for value in (found.low, found.high))
    half = ((found.high or 0.0) - (found.low or 0.0)) / 2
    places = 1 if found.in_newton else length_places(half, system)
    typed = told((found.typed or 0.0) * unit.rate, places)
    of = f"{found.check.kind} of {what_is_read(found.check)}"
    return (
        f"{capital(of)}: should read {typed} {unit.name}; "
        f"nine in ten {between((low, high), unit.name, places)}"
    )
