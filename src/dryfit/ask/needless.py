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
    """Tell parts that a check reads the same without, as typed and in every draw.

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
    was = rebuild.states.get(check.state) or State(check.state)
    if check.state == HOT and check.state not in rebuild.states:
        return False
    bare = replace(was, name=f"{was.name}, bare", left_out=(*was.left_out, *parts))
    unit = replace(rebuild, states={**rebuild.states, bare.name: bare})
    asking = Asking(unit, DRAWS)
    try:
        with_, without = (asking.true(check, packs, state=name) for name in (None, bare.name))
    except NoAnswer:
        return False
    return not (with_.lacking or without.lacking) and _alike(with_, without)


def _alike(one: Reading, other: Reading) -> bool:
    return bool(np.allclose(one.shown, other.shown, rtol=0.0, atol=ALIKE))
