"""How far a shaft lifts in a split plain bearing whose cap stands on shims."""

from typing import Any

import numpy as np

from dryfit.model.parts import PlainBearing
from dryfit.model.rebuild import Lift
from dryfit.solve.benchtop import Bench
from dryfit.solve.luck import Array, full
from dryfit.solve.rows import typed

FIELDS = ("bore", "journal")


def lift(bench: Bench, check: Lift) -> tuple[Array, Array, frozenset[str]]:
    """Say how far a shaft lifts, minus where the cap grips it.

    Parameters
    ----------
    bench
        The unit [bench]
    check
        Of which bearing [check]

    Returns
    -------
    lift, shown, lacking
        True clearance and reading [m], and sizes that are not known [keys]

    Valid
    -----
    Shims of like thickness at both sides; where they differ the cap stands askew and the middle
    lifts by their mean.

    Source
    ------
    None needed: bore and mean of the shims less journal.

    Examples
    --------
    See tests/solve/test_old_machines.py.

    >>> FIELDS
    ('bore', 'journal')
    """
    part: Any = bench.rebuild.parts[check.of]
    nought = full(bench.sample.draws, 0.0)
    if not isinstance(part, PlainBearing):
        return nought, nought, frozenset({f"{check.of}.bore"})
    sizes = {field: typed(bench.rebuild, bench.sample.draws, part, field) for field in FIELDS}
    lacking = frozenset(f"{part.name}.{field}" for field, size in sizes.items() if size is None)
    bore, journal = (nought if size is None else size for size in sizes.values())
    shims = [name for name in (part.left_shims, part.right_shims) if name]
    under = sum((bench.put.packs.get(name, nought) for name in shims), nought)
    clear: Array = bore + under / max(len(shims), 1) - journal
    return clear, np.maximum(clear, 0.0), lacking
