"""What is asked pack by pack for a plot: the check that reads what is wanted, else the truth."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from dryfit.app.usecases.answers import what_is_read
from dryfit.app.usecases.plot_units import Plotting, Unit, force_unit, length_unit, warm
from dryfit.ask.asking import Asking
from dryfit.ask.expect import checks_of, expect, target_of
from dryfit.ask.needed import needed
from dryfit.ask.targets import Target, in_words, named
from dryfit.model.rebuild import NipNeed, PreloadNeed
from dryfit.solve.benchtop import NoAnswer


@dataclass(frozen=True)
class Found:
    """What is found with one pack [m] or [N]: as typed and its band, and what is wanted of it."""

    typed: float
    low: float
    high: float
    wanted: tuple[float | None, float | None]


@dataclass(frozen=True)
class Question:
    """One want against one setting.

    Attributes
    ----------
    target
        What is wanted.
    words, how
        What is read or needed, and what is to be said of that beside the axis.
    unit
        In which it is shown.
    ask
        What is found with a pack [m].
    """

    target: Target
    words: str
    how: str
    unit: Unit
    ask: Callable[[float], Found]


def question_of(asked: Plotting, part: str, target: Target) -> Question:
    """Ask by the check that reads what is wanted, if there is one, else for the true value."""
    system = asked.rebuild.system
    checks = checks_of(asked.asking, asked.wanted)
    for check in (c for c in checks if target_of(c, (target,)) is not None):
        alone = replace(asked.rebuild, checks={check.name: check})
        one = Asking(alone, asked.asking.count, sampled=asked.asking.drawn)
        (found,) = expect(one, (target,), asked.packs)
        if found.target is not None and found.typed is not None and not found.in_newton:
            return Question(
                target,
                f"{check.kind} of {what_is_read(check)}",
                warm(f", read by {found.by}", check.state),
                length_unit(system),
                lambda pack, one=one: _read(one, asked, part, target, pack),  # type: ignore[misc]
            )
    kind = target.need.kind
    unit = force_unit(system) if isinstance(target.need, PreloadNeed) else length_unit(system)
    less = " (less than 0 is float)" if isinstance(target.need, NipNeed) else ""
    return Question(
        target,
        f"{kind} of {named(target.need)}",
        warm(less, target.need.state),
        unit,
        lambda pack: _needed(asked, part, target, pack),
    )


def _read(one: Asking, asked: Plotting, part: str, target: Target, pack: float) -> Found:
    """Ask what the check reads."""
    (found,) = expect(one, (target,), {**asked.packs, part: pack})
    if found.typed is None or found.low is None or found.high is None or found.target is None:
        raise NoAnswer(found.cannot, found.way_out)
    return Found(found.typed, found.low, found.high, (found.target.low, found.target.high))


def _needed(asked: Plotting, part: str, target: Target, pack: float) -> Found:
    """Ask how the want then stands."""
    (found,) = needed(asked.asking, (target,), {**asked.packs, part: pack})
    limits = (None, None) if in_words(target) else (target.low, target.high)
    if isinstance(target.need, PreloadNeed) and found.force is not None:
        return Found(found.force.typed, found.force.low, found.force.high, limits)
    if found.typed is None or found.low is None or found.high is None:
        raise NoAnswer("not known", "measure what is lacking")
    return Found(found.typed, found.low, found.high, limits)
