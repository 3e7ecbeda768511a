"""What an order of work tells of checks and acts, handed in as data by whoever planned it."""

from collections.abc import Callable
from dataclasses import dataclass

from dryfit.ask.acts import MINUTES, WORTH_IT, Act
from dryfit.ask.looks import Looks
from dryfit.ask.targets import Target
from dryfit.ask.usual import Later, Usual, with_the_usual


@dataclass(frozen=True, slots=True)
class Spared:
    """An act that spares undoing.

    Attributes
    ----------
    name, what
        The act, and what it is done to.
    before
        The step that it comes before; empty where that is told by the act.
    minutes
        What it takes more than without it [min].
    spared
        Minutes of undoing that are to be expected less [min].
    """

    name: str
    what: str
    before: str
    minutes: float
    spared: float


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool to be made first.

    Attributes
    ----------
    name, what
        `GAUGE` or `SPANNER`, and the check or nut that it gets to.
    later
        Which checks are read when each thing wrong has come about, with it.
    never
        What can no longer go wrong, by name.
    spared
        Minutes of undoing that are to be expected less [min].
    """

    name: str
    what: str
    later: Later
    never: frozenset[str] = frozenset()
    spared: float = 0.0


@dataclass(frozen=True, slots=True)
class Planned:
    """What an order of work tells.

    Attributes
    ----------
    later
        Which checks are read when each thing wrong has come about.
    spared
        Acts that spare undoing.
    tools
        Tools that would get to what is out of reach.
    """

    later: Later
    spared: tuple[Spared, ...] = ()
    tools: tuple[Tool, ...] = ()


Planner = Callable[[Looks, tuple[Target, ...]], Planned | None]
"""Plans the order of a unit; nothing where no order can be."""


def tool_acts(
    looks: Looks, targets: tuple[Target, ...], by_sizes: float, usual: Usual, planned: Planned
) -> tuple[Act, ...]:
    """Say what each tool would make of the chance with what usually goes wrong.

    Parameters
    ----------
    looks
        The unit, with all that may be wrong [looks]
    targets
        What is wanted [targets]
    by_sizes
        First-time chance by the sizes alone [-]
    usual
        The second figure without any of the tools [chances]
    planned
        The order and its tools [order]

    Returns
    -------
    acts
        Those that gain a hundredth [acts]

    Valid
    -----
    One tool at a time.

    Source
    ------
    Ours; minutes are estimates.

    Examples
    --------
    See tests/ask/test_planned.py.

    >>> MINUTES["gauge"] < MINUTES["spanner"]
    True
    """
    found = []
    for tool in planned.tools:
        then = with_the_usual(looks, targets, by_sizes, later=tool.later, never=tool.never)
        act = Act(tool.name, tool.what, "", MINUTES[tool.name], then.chance, usual.chance)
        if act.gain >= WORTH_IT:
            found.append(act)
    return tuple(found)
