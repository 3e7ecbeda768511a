"""Whether a check reads the same with some parts left out: then it need not wait for them."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.model.rebuild import HOT, Check, Rebuild, State
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.predict import Reading

DRAWS = 200
"""Draws in which both readings have to be the same."""

ALIKE = 1e-9
"""Two readings are the same within this [m]: a hundredth of what any instrument shows."""


def needless(rebuild: Rebuild, check: Check, parts: Iterable[str], packs: Packs) -> bool:
    """Tell parts that a check reads the same without, in every draw.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    check
        One of its checks [check]
    parts
        Parts that are to be left out besides [text]
    packs
        Thickness of each setting [m]

    Returns
    -------
    needless
        Not so where a size is lacking, where nothing stops a part without them, or of a check that
        is read with the unit as warm as it runs [-]

    Valid
    -----
    As `solve.predict.predict`.

    Source
    ------
    None needed.

    Examples
    --------
    See tests/app/test_reach.py.
    """
    read = _both(rebuild, check, parts, packs)
    if read is None:
        return False
    with_, without = read
    return not (with_.lacking or without.lacking) and _alike(with_, without)


def can_be_read_without(rebuild: Rebuild, check: Check, parts: Iterable[str], packs: Packs) -> bool:
    """Tell whether a check has an answer with some parts left out, be it another one.

    Parameters
    ----------
    rebuild, check, parts, packs
        As `needless` [as there]

    Returns
    -------
    can
        Whether it does; not so of a check that is read with the unit as warm as it runs [-]

    Valid
    -----
    As `needless`.

    Source
    ------
    None needed.

    Examples
    --------
    See tests/app/test_reach.py.
    """
    return _both(rebuild, check, parts, packs) is not None


def _both(
    rebuild: Rebuild, check: Check, parts: Iterable[str], packs: Packs
) -> tuple[Reading, Reading] | None:
    """Read a check with all that its state has, and with some parts left out besides."""
    if check.state == HOT and check.state not in rebuild.states:
        return None
    was = rebuild.states.get(check.state) or State(check.state)
    bare = replace(was, name=f"{was.name}, bare", left_out=(*was.left_out, *parts))
    asking = Asking(replace(rebuild, states={**rebuild.states, bare.name: bare}), DRAWS)
    try:
        return asking.true(check, packs), asking.true(check, packs, state=bare.name)
    except NoAnswer:
        return None


def _alike(one: Reading, other: Reading) -> bool:
    return bool(np.allclose(one.shown, other.shown, rtol=0.0, atol=ALIKE))
