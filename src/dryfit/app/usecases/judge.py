"""`judge`: how a reading stands to what it should be and to what is wanted, as soon as it is typed.

What it should be was answered before (`choose`); here it is only set beside what was read. What
was read is rounded as it was typed, so a limit holds for all that is written like it; what lies
beyond one by no more than the instrument may be off is to be read again.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.usecases.far_out import told_far_out
from dryfit.document.read import FORCE
from dryfit.mechanics.instruments import limit_at
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, NotKnown, Quantity, Size, System, read_quantity, read_size
from dryfit.quantities.rounding import exact
from dryfit.solve.sizes import gauge

Sort = Literal["fits", "out", "unknown", "again"]
Side = Literal["", "more", "less"]
How = Literal["inside", "edge", "outside"]

DUST = Fraction(1, 10**6)
"""What a limit may lack through binary fractions [mm] or [N]."""


@dataclass(frozen=True)
class JudgeRequest:
    """Readings of a check, taken one after the other, and what it should read.

    Attributes
    ----------
    check
        What it should read, and what is wanted of it.
    typed
        As in a text: `0.11`, `4.5 thou by dial indicator`, `6.5 N`; at least one.
    system
        What a bare number means.
    doubt_mm
        How far the instrument may be off; 0 where that is not known.
    """

    check: CheckAnswer
    typed: tuple[str, ...]
    system: System
    doubt_mm: float = 0.0


@dataclass(frozen=True)
class StandAnswer:
    """How a reading stands to a band: how far it lies beyond, and on which side."""

    how: How
    side: Side = ""
    off: float = 0.0


@dataclass(frozen=True)
class JudgeAnswer:
    """What is to be said of a reading.

    Attributes
    ----------
    check
        Which was read.
    sort
        The verdict: it fits, is out, cannot be told, or is to be looked at again.
    side
        Whether it reads more or less than it should.
    unit
        In which all is told: `mm` or `N`.
    value, least, most, count
        Mean of the readings, the least and the greatest of them, and how many they are.
    step, doubt
        To what they are rounded, and how far the instrument may be off; 0 where not known.
    expected, wanted
        How it stands to what it should read, and to what is wanted; None where that is not known.
    coarse
        Whether it is rounded more coarsely than what is wanted is wide.
    far
        Which of the readings are far out, each by itself.
    """

    check: str
    sort: Sort
    side: Side
    unit: str
    value: float
    least: float
    most: float
    count: int
    step: float
    doubt: float
    expected: StandAnswer | None
    wanted: StandAnswer | None
    coarse: bool
    far: tuple[Finding, ...] = ()


def judge(request: JudgeRequest) -> JudgeAnswer:
    """Judge readings that can be read; others raise `Unreadable`."""
    check, taken = request.check, [read_one(text, request.system) for text in request.typed]
    values = [one.value for one in taken]
    value = sum(values, Fraction(0)) / len(values)
    step = max(_step(one) for one in taken)
    doubt = max(_doubt(one, request.doubt_mm) for one in taken)
    slack, limits = step / 2, _wanted(check)
    expected = _expected(check, value, slack=slack, doubt=doubt)
    wanted = _stand(value, limits, slack=slack, doubt=doubt) if limits != (None, None) else None
    coarse = None not in limits and step > exact(limits[1] or 0) - exact(limits[0] or 0)
    sort = _sort(expected, wanted, coarse=coarse)
    told = wanted if wanted and wanted.side else expected
    return JudgeAnswer(
        check.name,
        sort,
        told.side if told else "",
        "N" if check.force else "mm",
        float(value),
        float(min(values)),
        float(max(values)),
        len(values),
        float(step),
        float(doubt),
        expected,
        wanted,
        coarse,
        told_far_out(check, taken, request.system),
    )


def read_one(text: str, system: System) -> Size | Quantity:
    """Read a reading as a text has it; raise `Unreadable` where it has none."""
    if FORCE.search(text):
        return read_quantity(text, "force")
    found = read_size(text, system)
    if isinstance(found, NotKnown):
        raise ValueError("a reading that is not known is none")
    return found


def doubt_of(rebuild: Rebuild, by: str, about_mm: float) -> float:
    """Say how far an instrument may be off [mm]; 0 for one that nobody has heard of."""
    known = gauge(rebuild, by) if by else None
    return limit_at(known.instrument, about_mm / 1e3) * 1e3 if known else 0.0


def _step(taken: Size | Quantity) -> Fraction:
    """Give to what a reading is rounded; a plain 0 says that nothing moved, and is not."""
    return (taken.step or Fraction(0)) if taken.value else Fraction(0)


def _doubt(taken: Size | Quantity, usual_mm: float) -> Fraction:
    """Take the doubt that was typed with a reading before that of its instrument."""
    if taken.plus is not None and taken.minus is not None:
        return max(taken.plus, taken.minus)
    return exact(usual_mm) if isinstance(taken, Size) else Fraction(0)


Limits = tuple[float | None, float | None]


def _wanted(check: CheckAnswer) -> Limits:
    """Give the limits that are wanted of what is read."""
    wanted = check.wanted
    if wanted is None:
        return None, None
    return (wanted.low_n, wanted.high_n) if check.force else (wanted.low_mm, wanted.high_mm)


def _expected(
    check: CheckAnswer, value: Fraction, *, slack: Fraction, doubt: Fraction
) -> StandAnswer | None:
    """Say how a reading stands to what it should be; nothing where that is not known."""
    force = check.force
    band = (force.low_n, force.high_n) if force else (check.low_mm, check.high_mm)
    beyond = (force.least_n, force.most_n) if force else (check.least_mm, check.most_mm)
    if None in band:
        return None
    stands = _stand(value, band, slack=slack, doubt=doubt)
    if stands.how != "outside" or None in beyond:
        return stands
    rare = _stand(value, beyond, slack=slack, doubt=Fraction(0))
    return StandAnswer("edge", stands.side, stands.off) if rare.how == "inside" else stands


def _stand(value: Fraction, limits: Limits, *, slack: Fraction, doubt: Fraction) -> StandAnswer:
    """Set a reading beside two limits, of which one may be missing."""
    low, high = (None if limit is None else exact(limit) for limit in limits)
    over = value - high if high is not None else Fraction(-1)
    under = low - value if low is not None else Fraction(-1)
    off, side = max((over, "more"), (under, "less"))
    if off <= slack + DUST:
        return StandAnswer("inside")
    how: How = "edge" if off <= max(slack, doubt) + DUST else "outside"
    return StandAnswer(how, "more" if side == "more" else "less", float(off))


def _sort(expected: StandAnswer | None, wanted: StandAnswer | None, *, coarse: bool) -> Sort:
    """Make one verdict of two: what is wanted comes first."""
    if expected is None and wanted is None:
        return "unknown"
    if "outside" in [one.how for one in (wanted or expected,) if one]:
        return "out"
    doubtful = any(one.how != "inside" for one in (expected, wanted) if one)
    return "again" if doubtful or coarse else "fits"
