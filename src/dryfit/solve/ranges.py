"""Draws beyond what the source of a formula vouches for, told as findings."""

from collections.abc import Iterable, Iterator, Mapping

import numpy as np

from dryfit.mechanics.formula import Number
from dryfit.quantities import Finding, Place
from dryfit.quantities.finding import Range

RARE = 0.005
"""Fewer draws beyond a range than this share are not told."""

MANY = 20
"""Of more draws than these the outer twentieths are not shown."""


def beyond(
    ranges: Iterable[Range], arguments: Mapping[str, Number], place: Place
) -> Iterator[Finding]:
    """Tell in how many draws an argument of a formula lies outside what its source covers.

    Parameters
    ----------
    ranges
        Of the formula [ranges]
    arguments
        What it is worked out for, by name, in the unit of the range [-], shape (n,) or ()
    place
        What in the rebuild to look at [place]

    Returns
    -------
    findings
        A note for each range that more than `RARE` of the draws leave [findings]

    Valid
    -----
    Ranges of arguments that are given; others are passed over.

    Source
    ------
    None needed.

    Examples
    --------
    >>> warm = Range("rise", -50.0, 150.0, "K", "a table")
    >>> [found] = beyond([warm], {"rise": np.array([140.0, 160.0])}, ("states", "hot"))
    >>> found.message
    'the rise is 140 to 160 K; a table holds from -50 to 150 K (50 % of the draws lie beyond)'
    """
    for one in ranges:
        if one.name not in arguments:
            continue
        values = np.atleast_1d(np.asarray(arguments[one.name], dtype=float))
        share = float(np.mean((values < one.low) | (values > one.high)))
        if share > RARE:
            yield Finding(
                "range.beyond",
                place,
                f"the {one.name.replace('_', ' ')} is {_span(values)} {one.unit}; {one.source} "
                f"holds from {one.low:g} to {one.high:g} {one.unit} ({_share(share)} lie beyond)",
                "it is worked out all the same; take the answer as a rough one, or check the size",
                level="note",
            )


def _span(values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> str:
    ends = (0.05, 0.95) if len(values) > MANY else (0.0, 1.0)
    low, high = (_figure(float(end)) for end in np.quantile(values, ends))
    return low if low == high else f"{low} to {high}"


def _figure(value: float) -> str:
    """Write three figures that count, without a power of ten for what is large."""
    return f"{value:.0f}" if abs(value) >= LARGE else f"{value:.3g}"


LARGE = 1000.0
"""From here on a figure is written with all its digits."""


def _share(share: float) -> str:
    return "all draws" if share == 1 else f"{share:.0%} of the draws".replace("%", " %")
