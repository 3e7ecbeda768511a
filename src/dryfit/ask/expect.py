"""What each check should read, with its band, what more and less would mean, and what it did."""

from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.ask.looks import Looks
from dryfit.ask.slopes import Slope, lacking
from dryfit.ask.targets import Target, named
from dryfit.ask.words import Reason, reasons
from dryfit.model.rebuild import Backlash, Check, EndFloat, FloatNeed, LashNeed, Need, Rebuild
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, Draws
from dryfit.solve.predict import NEWTON, SHOWN_IN
from dryfit.solve.sizes import gauge, metres, reading_error

BAND = (0.05, 0.95)
"""Nine readings in ten lie in the band."""

BEYOND = (0.005, 0.995)
"""A reading outside these is not explained by the sizes."""

AS_EXPECTED, MORE, LESS = (
    "as expected",
    "more than your sizes explain",
    "less than your sizes explain",
)
DOUBTFUL = "at the edge of what is expected: read it again"


@dataclass(frozen=True, slots=True)
class Read:
    """A reading that was taken [m] or [N], and what is to be said of it."""

    value: float
    verdict: str
    off: float
    wanted: str


@dataclass(frozen=True, slots=True)
class Expected:
    """One check.

    Attributes
    ----------
    check
        The check.
    by
        The instrument it is read by.
    typed
        What it reads if every size is as typed [m]; None where a size is not known.
    low, high
        Nine readings in ten lie between these [m].
    least, most
        A reading outside these is not explained by the sizes [m].
    short
        By how much the parts are too long for their room [m]; 0 where they are not.
    target
        What is wanted of it, where that is known.
    within
        Share of draws in which it truly is as wanted [-].
    more, less
        What would make it read more, and less.
    lacking
        Sizes that are not known and what each would change.
    read
        What was read, if it was.
    in_newton
        Whether typed, low and high are forces [N].
    nip
        How far rows are pressed together where there is no float [m].
    cannot, way_out
        Why it cannot be read, and what to do; empty where it can.
    """

    check: Check
    by: str
    typed: float | None = None
    low: float | None = None
    high: float | None = None
    short: float = 0.0
    target: Target | None = None
    within: float | None = None
    more: tuple[Reason, ...] = ()
    less: tuple[Reason, ...] = ()
    lacking: tuple[Slope, ...] = ()
    read: Read | None = None
    in_newton: bool = False
    nip: float = 0.0
    cannot: str = ""
    way_out: str = ""
    least: float | None = None
    most: float | None = None


def checks_of(asking: Asking, targets: tuple[Target, ...]) -> tuple[Check, ...]:
    """List the rebuild's checks, or a float for each need where it has none."""
    if asking.rebuild.checks:
        return tuple(asking.rebuild.checks.values())
    shafts = dict.fromkeys(named(t.need) for t in targets if not isinstance(t.need, LashNeed))
    return tuple(EndFloat(f"end float of {of}", "end float", by=None, of=of) for of in shafts)


def expect(
    asking: Asking, targets: tuple[Target, ...], packs: Packs, looks: Looks | None = None
) -> tuple[Expected, ...]:
    """Say what every check should read with these packs; with looks, what would change it too."""
    every = checks_of(asking, targets)
    return tuple(_expect(asking, targets, check, packs=packs, looks=looks) for check in every)


def _expect(
    asking: Asking,
    targets: tuple[Target, ...],
    check: Check,
    *,
    packs: Packs,
    looks: Looks | None,
) -> Expected:
    """Say what one check should read, or why it cannot be; the others are answered all the same."""
    by = check.by or USUAL_INSTRUMENT[check.kind]
    try:
        found = _read_by(asking, targets, packs, check, by)
        if looks is None or found.lacking:
            return found
        more, less = reasons(looks, check)
        return replace(found, more=more, less=less)
    except NoAnswer as why:
        return Expected(check, by, cannot=str(why), way_out=why.way_out)


def _read_by(
    asking: Asking, targets: tuple[Target, ...], packs: Packs, check: Check, by: str
) -> Expected:
    """Say what an instrument should read."""
    missing = lacking(asking, check, packs)
    if missing:
        return Expected(check, by, lacking=missing)
    found = asking.true(check, packs)
    typed = asking.as_typed(check, packs)
    shown_typed, true_typed = float(typed.shown[0]), float(typed.true[0])
    shown = as_read(asking.rebuild, asking.drawn.draws, check, found.shown, about=true_typed)
    wanted = target_of(check, targets)
    target = as_shown(wanted, true_typed, shown_typed)
    least, low, high, most = (float(q) for q in np.quantile(shown, (BEYOND[0], *BAND, BEYOND[1])))
    return Expected(
        check,
        by,
        shown_typed,
        low,
        high,
        -true_typed if shown_typed == 0.0 and true_typed < 0.0 else 0.0,
        target,
        float(np.mean(wanted.holds(found.true))) if wanted else None,
        read=_read(asking, check, shown, target),
        in_newton=SHOWN_IN[check.kind] == NEWTON,
        nip=-true_typed if typed.gives and true_typed < 0 else 0.0,
        least=least,
        most=most,
    )


def target_of(check: Check, targets: tuple[Target, ...]) -> Target | None:
    """Find what is wanted of what a check reads: of a float its float, of a backlash its lash."""
    sort, of = READ_BY.get(type(check), (None, ""))
    same = (t for t in targets if type(t.need) is sort and t.need.state == check.state)
    return next((t for t in same if named(t.need) == getattr(check, of)), None)


READ_BY: dict[type[Check], tuple[type[Need], str]] = {
    EndFloat: (FloatNeed, "of"),
    Backlash: (LashNeed, "mesh"),
}
"""Need that a check reads, and which of its keys names the part or mesh."""


def as_read(
    rebuild: Rebuild, draws: Draws, check: Check, shown: Array, *, about: float = 0.0
) -> Array:
    """Add what the instrument of a check may be off where about so much is read [m] or [N]."""
    by = gauge(rebuild, check.by or USUAL_INSTRUMENT[check.kind])
    error = reading_error(draws, ("checks", check.name), by, about) if by else 0.0
    found: Array = np.maximum(shown + error, 0.0)
    return found


def as_shown(target: Target | None, true: float, shown: float) -> Target | None:
    """Give limits as the dial has them, and say so: of a lash, at its own radius."""
    if target is None or not isinstance(target.need, LashNeed) or true <= 0:
        return target
    low, high = (
        None if limit is None else limit * shown / true for limit in (target.low, target.high)
    )
    same = abs(shown / true - 1) < SAME
    source = target.source if same else f"{target.source} {ON_A_DIAL}"
    return replace(target, low=low, high=high, source=source)


SAME = 0.005
"""A dial that shows so nearly what is true is at the teeth itself [-]."""

ON_A_DIAL = "for the teeth; here as the dial shows it"


def _read(asking: Asking, check: Check, shown: Array, target: Target | None) -> Read | None:
    """Judge a reading that was taken."""
    lengths = asking.rebuild.readings.get(check.name, ())
    taken = [metres(size) for size in lengths]
    taken += [force.si for force in asking.rebuild.forces.get(check.name, ())]
    if not taken:
        return None
    value = sum(taken) / len(taken)
    low, high = (float(q) for q in np.quantile(shown, BAND))
    least, most = (float(q) for q in np.quantile(shown, BEYOND))
    slack = float(max(((size.step or 0) / 2000 for size in lengths if size.value), default=0.0))
    if low - slack <= value <= high + slack:
        verdict = AS_EXPECTED
    elif least - slack <= value <= most + slack:
        verdict = DOUBTFUL
    else:
        verdict = MORE if value > high else LESS
    return Read(value, verdict, value - float(np.median(shown)), _wanted(value, target))


def _wanted(value: float, target: Target | None) -> str:
    """Say how a reading stands to what is wanted."""
    if target is None:
        return ""
    if target.low is not None and value < target.low:
        return f"less than wanted: {target.less}"
    if target.high is not None and value > target.high:
        return f"more than wanted: {target.more}"
    return "within what is wanted"
