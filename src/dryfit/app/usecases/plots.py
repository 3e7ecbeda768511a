"""`plot`: readings against settings, rows against each other, what makes up doubts, and walks.

The plots are drawn by `dryfit.draw`; what they show is asked of the model here and in
`plot_settings`, `plot_pairs`, `plot_doubts` and `plot_walks`.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from dryfit.app.usecases.opening import FindingAnswer, open_text
from dryfit.app.usecases.plot_doubts import doubt_plots
from dryfit.app.usecases.plot_pairs import pair_plots
from dryfit.app.usecases.plot_settings import setting_plots
from dryfit.app.usecases.plot_units import Plotting, plotting
from dryfit.app.usecases.plot_walks import walk_plots
from dryfit.draw.paper import Drawing

KINDS: dict[str, Callable[[Plotting], Iterator[Drawing]]] = {
    "setting": setting_plots,
    "pair": pair_plots,
    "doubt": doubt_plots,
    "walk": walk_plots,
}
"""Kinds of plot, in the order in which they are drawn."""

NONE = {
    "setting": "no setting moves anything that is wanted and known",
    "pair": "no line has rows that press against each other, or its sizes are not known",
    "doubt": "no check has a reading that can be said",
    "walk": "no walk is written under walks:, or its readings do not lie on a line",
}
"""Why there may be none of a kind."""


@dataclass(frozen=True)
class PlotRequest:
    """A text, and which kind of plot is wanted if not all: one of `KINDS`."""

    text: bytes
    kind: str | None = None


@dataclass(frozen=True)
class PlotAnswer:
    """What was found in the text, the plots, and why there are none of a kind.

    Attributes
    ----------
    findings
        All that is wrong with the text.
    drawings
        The plots, by kind; each has a title of its own.
    title
        Of the rebuild.
    answered
        Whether questions could be put to it.
    without
        For each kind that was wanted and of which there is none, why.
    """

    findings: tuple[FindingAnswer, ...]
    drawings: tuple[Drawing, ...]
    title: str = ""
    answered: bool = True
    without: tuple[str, ...] = ()


def plot(request: PlotRequest) -> PlotAnswer:
    """Draw the plots of a rebuild."""
    opened = open_text(request.text)
    if opened.stopped:
        return PlotAnswer(opened.findings, (), opened.rebuild.title, answered=False)
    asked = plotting(opened.rebuild)
    kinds = (request.kind,) if request.kind else tuple(KINDS)
    drawn = {kind: tuple(KINDS[kind](asked)) for kind in kinds}
    every = tuple(drawing for drawings in drawn.values() for drawing in drawings)
    without = tuple(f"{kind}: {NONE[kind]}" for kind, drawings in drawn.items() if not drawings)
    return PlotAnswer(opened.findings, every, opened.rebuild.title, without=without)
