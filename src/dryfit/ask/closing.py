"""Everything asked before a unit is closed, in one answer: packs, readings, chances, worth."""

from collections.abc import Sequence
from dataclasses import dataclass

from dryfit.ask.acts import Act, acts, most_a_minute
from dryfit.ask.asking import Asking
from dryfit.ask.expect import Expected, expect
from dryfit.ask.harm import harm
from dryfit.ask.in_hand import InHand, Set, can_be_told, in_hand, is_walked
from dryfit.ask.looks import Looks
from dryfit.ask.needed import Needed, needed
from dryfit.ask.planned import Planner, Spared, tool_acts
from dryfit.ask.route import SUM
from dryfit.ask.settings import (
    chance,
)
from dryfit.ask.slopes import Slope, lacking
from dryfit.ask.targets import Target, targets
from dryfit.ask.usual import Usual, with_the_usual
from dryfit.ask.worth import Worth, worth
from dryfit.ask.written_walks import TakenWalk, taken_walks
from dryfit.model.rebuild import HOT
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.states import states_of


@dataclass(frozen=True)
class Closing:
    """All that is to be said before a unit is closed.

    Attributes
    ----------
    targets, settings, expected, needed
        What is wanted, what to fit, what each check should read with the packs in hand, and how
        each want then stands.
    chance, harm
        First-time chance, and that it binds, if the recommended route is gone [-].
    as_it_is, harm_as_it_is
        The same for what is fitted now; None where nothing is.
    hot
        Whether it is known how warm it runs.
    worth
        Sizes worth measuring better.
    usual
        The chance with what usually goes wrong, as it is now where a pack is in; None where a
        size is not known.
    by_sum, acts
        First-time chance by the sum of sizes alone [-], and what raises it most a minute.
    lacking
        Sizes not known.
    walks
        Walks that are written, each on its line.
    spared
        Acts that spare undoing, by the order of work.
    """

    targets: tuple[Target, ...]
    settings: tuple[Set, ...]
    expected: tuple[Expected, ...]
    chance: float | None
    harm: float | None
    as_it_is: float | None
    harm_as_it_is: float | None
    hot: bool
    worth: tuple[Worth, ...]
    lacking: tuple[Slope, ...]
    needed: tuple[Needed, ...] = ()
    by_sum: float | None = None
    acts: tuple[Act, ...] = ()
    usual: Usual | None = None
    walks: tuple[TakenWalk, ...] = ()
    spared: tuple[Spared, ...] = ()


def close_up(asking: Asking, planner: Planner | None = None) -> Closing:
    """Ask everything of a rebuild; needs that cannot be told are left out of it.

    Without a planner every check is taken to be read when all is in.
    """
    wanted = targets(asking.rebuild)
    try:
        return _close_up(asking, wanted, planner)
    except NoAnswer:
        told = tuple(target for target in wanted if can_be_told(asking, target))
        return _close_up(asking, told if len(told) < len(wanted) else (), planner)


def _close_up(asking: Asking, wanted: tuple[Target, ...], planner: Planner | None) -> Closing:
    """Ask everything of a rebuild with these needs."""
    hand = in_hand(asking, wanted)
    quick, done, packs, told = asking.first_look, hand.done, hand.packs, hand.told
    advised = _advised(hand) if told or done else (None, None)
    as_it_is = chance(asking, wanted, hand.in_now) if hand.fitted else None
    first = as_it_is if hand.fitted else advised[0]
    if told and first is None:
        first = chance(asking, wanted, packs)
    open_ = told and not hand.fitted
    better = worth(quick, wanted, packs, _open_setting(done)) if open_ else ()
    by_sum, raised = _raised(quick, hand, better) if open_ else (None, ())
    expected = expect(asking, wanted, packs, hand.looks)
    known = told and first is not None
    usual, tools, spared = _usual(hand.looks, wanted, first if known else None, planner)
    return Closing(
        wanted,
        done,
        expected,
        *advised,
        as_it_is,
        harm(asking, wanted, hand.in_now) if hand.fitted else None,
        HOT in states_of(asking.rebuild),
        better,
        tuple(hand.missing.values()),
        needed(asking, wanted, packs),
        by_sum,
        most_a_minute((*raised, *tools)),
        usual,
        taken_walks(asking, wanted, packs),
        spared,
    )


def _usual(
    looks: Looks, wanted: tuple[Target, ...], by_sizes: float | None, planner: Planner | None
) -> tuple[Usual | None, tuple[Act, ...], tuple[Spared, ...]]:
    """Say the second figure by the order of work, what tools would make of it, what spares work."""
    if by_sizes is None:
        return None, (), ()
    planned = planner(looks, wanted) if planner else None
    if planned is None:
        return with_the_usual(looks, wanted, by_sizes), (), ()
    usual = with_the_usual(looks, wanted, by_sizes, later=planned.later)
    return usual, tool_acts(looks, wanted, by_sizes, usual, planned), planned.spared


def _raised(
    quick: Asking, hand: InHand, better: tuple[Worth, ...]
) -> tuple[float | None, tuple[Act, ...]]:
    """Ask what raises the chance; nothing where a setting has no pack by the sum."""
    done = hand.done
    packs = {one.part: r.pack for one in done for r in one.routes if r.name == SUM}
    packs |= {one.part: one.pack for one in done if one.nut}
    if not done or any(packs.get(one.part) is None for one in done):
        return None, ()
    by_sum = {part: pack.thickness for part, pack in packs.items() if pack}
    open_ = {one.part: one.quick for one in done if not is_walked(one)}
    turned = {
        one.part: (one.route.name, hand.unsettled[one.part])
        for one in done
        if one.route and one.part in hand.unsettled
    }
    return acts(quick, hand.wanted, by_sum, open_, better, turned)


def _open_setting(done: Sequence[Set]) -> str | None:
    """Name the one setting that is still to be chosen."""
    return done[0].part if len(done) == 1 and done[0].fitted is None else None


def _advised(hand: InHand) -> tuple[float | None, float | None]:
    """First-time chance and harm if the advice is followed: by its route for one setting."""
    asking, wanted, done = hand.asking, hand.wanted, hand.done
    if len(done) == 1:
        route = done[0].route
        return (route.chance, route.harm) if route else (None, None)
    if any(one.fitted is None and not _is_advised(one) for one in done) or not done:
        return None, None
    if not wanted or any(lacking(asking, t.need, hand.packs) for t in wanted):
        return None, None
    return chance(asking, wanted, hand.meant), harm(asking, wanted, hand.meant)


def _is_advised(one: Set) -> bool:
    return one.route is not None and one.route.made is not None
