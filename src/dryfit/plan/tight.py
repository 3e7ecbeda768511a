"""How long tight rings take: pressed or warmed to go home, and drawn off again."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from dryfit.plan.actions import Step

PRESSED, WARMED = (8.0, 15.0), (20.0, 15.0)
"""To press a ring home, or to warm it, put it on and hold it until it is cold; then to draw it off
[min]. Estimates: a puller has to be set up behind the ring, and must not mark what stays."""

CUT_OFF = 30.0
"""To take a ring off that no puller gets behind: it is cut, and renewed [min]. Estimate."""

BENCH_PRESS = 10e3
"""What is pressed harder than this is warmed [N]: a bench press of a ton, common practice, no
source."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A tight ring.

    Attributes
    ----------
    force
        With how much it is pressed home [N].
    sleeved
        Whether a sleeve gets to it; else it is warmed.
    drawn
        Whether a puller gets behind it; else it is cut off.
    """

    force: float
    sleeved: bool = True
    drawn: bool = True

    @property
    def minutes(self) -> tuple[float, float]:
        """To put it on, and to take it off [min]."""
        on, off = PRESSED if self.sleeved and self.force <= BENCH_PRESS else WARMED
        return on, off if self.drawn else CUT_OFF


def with_rings(step: Step, rings: Iterable[Ring]) -> Step:
    """Give a step the minutes of the rings that go home in it, one after the other.

    Examples
    --------
    Two rings pressed in one step: 8 minutes each to put on, and 15 to draw off. One that no puller
    gets behind takes 30 to get off.

    >>> both = with_rings(Step(name="bearing"), [Ring(2e3), Ring(3e3)])
    >>> both.minutes, both.undo
    (16.0, 30.0)
    >>> with_rings(Step(name="bearing"), [Ring(2e3, drawn=False)]).undo
    30.0
    """
    taken = [ring.minutes for ring in rings]
    on, off = (sum(one[n] for one in taken) for n in (0, 1))
    return replace(step, minutes=max(step.minutes, on), undo=max(step.undo, off))
