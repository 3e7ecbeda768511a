"""How long tight rings take: pressed or warmed to go home, and drawn off again."""

from collections.abc import Iterable
from dataclasses import replace

from dryfit.plan.actions import Step

PRESSED, WARMED = (8.0, 15.0), (20.0, 15.0)
"""To press a ring home, or to warm it, put it on and hold it until it is cold; then to draw it off
[min]. Estimates: a puller has to be set up behind the ring, and must not mark what stays."""

BENCH_PRESS = 10e3
"""What is pressed harder than this is warmed [N]: a bench press of a ton, common practice, no
source."""


def with_rings(step: Step, forces: Iterable[float]) -> Step:
    """Give a step the minutes of the rings that go home in it, one after the other.

    Parameters
    ----------
    step
        The step.
    forces
        With how much each ring is pressed home [N].

    Examples
    --------
    Two rings pressed in one step: 8 minutes each to put on, and 15 to draw off.

    >>> both = with_rings(Step(name="bearing"), [2e3, 3e3])
    >>> both.minutes, both.undo
    (16.0, 30.0)
    """
    taken = [PRESSED if force <= BENCH_PRESS else WARMED for force in forces]
    on, off = (sum(one[n] for one in taken) for n in (0, 1))
    return replace(step, minutes=max(step.minutes, on), undo=max(step.undo, off))
