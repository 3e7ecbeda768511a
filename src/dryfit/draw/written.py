"""A drawing as a file, by the ending of its name."""

from collections.abc import Callable

from dryfit.draw.paper import Drawing


def _svg(drawing: Drawing) -> bytes:
    from dryfit.draw.svg import svg

    return svg(drawing).encode()


def _pdf(drawing: Drawing) -> bytes:
    from dryfit.draw.pdf import pdf

    return pdf(drawing)


def _dxf(drawing: Drawing) -> bytes:
    from dryfit.draw.dxf import dxf

    return dxf(drawing).encode()


WRITERS: dict[str, Callable[[Drawing], bytes]] = {".svg": _svg, ".pdf": _pdf, ".dxf": _dxf}
"""What is written, by ending; each loads its library only when it is asked for."""


def written(drawing: Drawing, ending: str) -> bytes:
    """Write a drawing as the ending of its file says.

    Examples
    --------
    >>> written(Drawing("empty", 10.0, 10.0, ()), ".svg")[:4]
    b'<svg'
    """
    return WRITERS[ending.lower()](drawing)
