"""What makes up the doubt of a reading: each size, the reading itself, all else."""

from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.expect import as_read
from dryfit.ask.slopes import slopes
from dryfit.ask.worth import share_removed
from dryfit.model.rebuild import Check
from dryfit.solve.luck import Array

DIAL, ELSE = "the reading itself", "all else"
"""How the error of the check's own instrument is named, and what belongs to no size between spots:
bearings, fits, friction, run-out, the push."""


@dataclass(frozen=True, slots=True)
class Share:
    """One thing that makes a reading doubtful.

    Attributes
    ----------
    key
        Key of a size, a gasket or pack; `DIAL` for the instrument, `ELSE` for all else.
    share
        Share of the variance of the reading that would go if it were known [-].
    """

    key: str
    share: float


def shares(asking: Asking, check: Check, packs: Packs) -> tuple[Share, ...]:
    """Say what makes up the doubt of a check, the greatest share first.

    Parameters
    ----------
    asking
        The unit [asking]
    check
        The check [check]
    packs
        Thickness of each setting [m]

    Returns
    -------
    shares
        Of sizes, gaskets, packs and the check's own instrument, and what is left for all else, at
        the least; nothing where there is no doubt. They may add up to more than one, or to less:
        sizes read by one instrument err together, and add up or cancel [-]

    Raises
    ------
    NoAnswer
        The check cannot be read.

    Valid
    -----
    Units whose sizes are known.

    Source
    ------
    Shares of variance as in `ask.worth`, with nothing left of the doubt.

    Examples
    --------
    See tests/ask/test_shares.py.

    >>> Share("shaft", 0.5).key
    'shaft'
    """
    drawn = asking.drawn
    shown = asking.true(check, packs).shown
    true = asking.typed(check, packs)
    read = as_read(asking.rebuild, drawn.draws, check, shown, about=true)
    whole = float(read.var())
    if not whole:
        return ()
    known = {**drawn.sizes, **drawn.nipped, **asking.made(packs)}
    causes = {s.key: known[s.key] for s in slopes(asking, check, packs) if known[s.key].var()}
    causes[DIAL] = read - shown
    none = np.zeros(asking.count)
    found = [Share(key, share_removed(read, cause, 0.0, none)) for key, cause in causes.items()]
    left = min(1.0 - sum(one.share for one in found), _unexplained(read, [*causes.values()]))
    found.append(Share(ELSE, max(0.0, left)))
    return tuple(sorted(found, key=lambda one: -one.share))


def _unexplained(values: Array, causes: list[Array]) -> float:
    """Share of variance that no sum of causes gives, each times a factor of its own."""
    columns = np.column_stack([cause - cause.mean() for cause in causes])
    off = values - values.mean()
    factors, *_ = np.linalg.lstsq(columns, off, rcond=None)
    return float((off - columns @ factors).var() / values.var())
