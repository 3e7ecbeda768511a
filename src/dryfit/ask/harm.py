"""What is worse than setting it again: a part that binds, rows pressed to death, teeth jammed.

Slack can be set again; what is too tight burns when it is warm.
"""

from collections.abc import Callable, Iterable
from typing import Any

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.targets import Target
from dryfit.model.rebuild import HOT, Need, PreloadNeed
from dryfit.solve.luck import Flags
from dryfit.solve.states import states_of

MOST_HARM = 0.02
"""Greatest share of builds that may come to harm when warm."""


def harm(asking: Asking, targets: Iterable[Target], packs: Packs) -> float:
    """Share of draws that come to harm, when hot if the use says how warm it runs.

    Parameters
    ----------
    asking
        The unit [asking]
    targets
        What is wanted of it [targets]
    packs
        Thickness of each setting [m]

    Returns
    -------
    harm
        Share of draws [-]

    Valid
    -----
    Any unit.

    Source
    ------
    Common practice, no source: see `solve.preloads`.

    Examples
    --------
    >>> sorted(HARMS)
    ['float', 'lash', 'nip', 'preload']
    """
    hot = HOT if HOT in states_of(asking.rebuild) else None
    harmed: Flags = np.zeros(asking.count, dtype=np.bool_)
    for target in targets:
        harmed |= HARMS[target.need.kind](asking, target.need, packs, hot)
    return float(np.mean(harmed))


def _binds(asking: Asking, need: Need, packs: Packs, state: str | None) -> Flags:
    found: Flags = asking.true(need, packs, state=state).true <= 0
    return found


def _pressed(asking: Asking, need: Any, packs: Packs, state: str | None) -> Flags:
    """Tell where rows are pressed too hard; a line without any binds instead."""
    strain = PreloadNeed(f"{need.name} strain", "preload", need.state, of=need.of)
    found = asking.true(strain, packs, state=state)
    too_hard: Flags = found.true > 1
    return too_hard if found.gives else _binds(asking, need, packs, state)


HARMS: dict[str, Callable[[Asking, Any, Packs, str | None], Flags]] = {
    "float": _pressed,
    "nip": _pressed,
    "preload": _pressed,
    "lash": _binds,
}
"""What is harm, by kind of need."""
