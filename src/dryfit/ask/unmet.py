"""How often a pack turns out not to be what was wanted, by the sizes alone, and what shows it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.expect import as_read, as_shown, target_of
from dryfit.ask.settings import moved_by
from dryfit.ask.targets import Target
from dryfit.model.rebuild import Check, Need
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Flags, Luck
from dryfit.solve.predict import Reading


@dataclass(frozen=True, slots=True)
class Unmet:
    """A need that may not be met, and the setting to be altered for it.

    Attributes
    ----------
    part
        The setting.
    need
        What is wanted.
    chance
        Share of draws in which it is not met [-].
    seen
        By check, the share of these in which it reads outside of what is wanted [-].
    """

    part: str
    need: str
    chance: float
    seen: Mapping[str, float]


Drawn = Callable[[Check | Need], Reading]
"""Says what is found of a need or check, draw by draw."""


def unmet(
    asking: Asking, targets: tuple[Target, ...], packs: Packs, drawn: Drawn
) -> tuple[Unmet, ...]:
    """Say how often each need is not met with these packs, from the draws of the first figure.

    Parameters
    ----------
    asking
        The unit [asking]
    targets
        What is wanted [targets]
    packs
        Thickness of each setting as typed [m]
    drawn
        What is found with the packs as they are made, in as many draws as are wanted [readings]

    Returns
    -------
    unmet
        One for each need that a setting moves; none where no draw misses it [unmet]

    Valid
    -----
    Units whose sizes are known. That a check reads outside of what is wanted where the unit is as
    wanted is left out.

    Source
    ------
    Ours.

    Examples
    --------
    See tests/ask/test_unmet.py.

    >>> from dryfit.model.rebuild import Rebuild
    >>> asking = Asking(Rebuild("mm"))
    >>> unmet(asking, (), {}, lambda asked: asking.true(asked, {}))
    ()
    """
    found = []
    for target in targets:
        try:
            missed = ~target.holds(drawn(target.need).true)
            movers = (p for p in asking.rebuild.settings if moved_by(asking, [target], p, packs))
            part = next(movers, None)
            if part and np.any(missed):
                outside = _outside(asking, targets, target, packs, drawn=drawn)
                seen = {check: float(np.mean(flags[missed])) for check, flags in outside.items()}
                found.append(Unmet(part, target.need.name, float(np.mean(missed)), seen))
        except NoAnswer:  # a need that cannot be told has no chance either
            continue
    return tuple(found)


def _outside(
    asking: Asking, targets: tuple[Target, ...], target: Target, packs: Packs, *, drawn: Drawn
) -> dict[str, Flags]:
    """Tell draw by draw whether each check that reads a need reads outside of what is wanted."""
    found = {}
    for check in asking.rebuild.checks.values():
        if target_of(check, targets) is target:
            typed, shown = asking.as_typed(check, packs), drawn(check).shown
            wanted = as_shown(target, float(typed.true[0]), float(typed.shown[0])) or target
            read = as_read(asking.rebuild, Luck(len(shown)), check, shown)
            found[check.name] = ~wanted.holds(read)
    return found
