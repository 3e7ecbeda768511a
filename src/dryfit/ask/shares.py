"""What makes up the doubt of a reading: the share of each size, and of what is no size."""

from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.expect import as_read
from dryfit.ask.slopes import slopes
from dryfit.ask.worth import share_removed
from dryfit.model.rebuild import Check

DIAL, ELSE = "the reading itself", "what is no size"
"""How the error of the check's own instrument is named, and insides of bearings, fits, friction."""


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
        the least; nothing where there is no doubt. They may add up to more than one: sizes read by
        one instrument lean together [-]

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
    none = np.zeros(asking.count)
    found = [
        Share(slope.key, share_removed(read, known[slope.key], 0.0, none))
        for slope in slopes(asking, check, packs)
        if known[slope.key].any() and known[slope.key].var()
    ]
    found.append(Share(DIAL, share_removed(read, read - shown, 0.0, none)))
    found.append(Share(ELSE, max(0.0, 1.0 - sum(one.share for one in found))))
    return tuple(sorted(found, key=lambda one: -one.share))
