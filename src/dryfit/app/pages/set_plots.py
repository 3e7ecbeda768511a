"""Plots for a page: each as SVG, with all its words for who cannot see it."""

from dryfit.app.pages.set_view import Plot
from dryfit.app.usecases.plots import PlotRequest, plot
from dryfit.draw.paper import Drawing, Lettering
from dryfit.draw.svg import svg


def plots(data: bytes, kind: str) -> tuple[Plot, ...]:
    """Draw the plots of one kind."""
    return tuple(shown(drawing) for drawing in plot(PlotRequest(data, kind)).drawings)


def shown(drawing: Drawing) -> Plot:
    """Put a plot into a page."""
    return Plot(drawing.title, svg(drawing), words_of(drawing))


def words_of(drawing: Drawing) -> str:
    """Give what is lettered on a plot beyond its figures and its title."""
    texts = [
        item.text
        for group in drawing.groups
        for item in group.items
        if isinstance(item, Lettering) and any(sign.isalpha() for sign in item.text)
    ]
    said = "; ".join(text for text in texts if text not in drawing.title)
    return f"{drawing.title}. {said}."
