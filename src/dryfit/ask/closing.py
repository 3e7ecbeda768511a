"""Everything asked before a unit is closed, in one answer: packs, readings, chances, worth."""

from collections.abc import Mapping
from dataclasses import dataclass

from dryfit.ask.acts import Act, acts
from dryfit.ask.asking import Asking, Packs
from dryfit.ask.expect import Expected, expect
from dryfit.ask.harm import MOST_HARM, harm
from dryfit.ask.looks import Looks
from dryfit.ask.needed import Needed, needed
from dryfit.ask.nut_routes import Turned, is_nut, turned
from dryfit.ask.packs import Pack
from dryfit.ask.route import SUM, WALK, Route
from dryfit.ask.routes import gone, recommended, routes
from dryfit.ask.settings import (
    chance,
    choose,
    choose_all,
    ideal,
    moved_by,
    nearest_packs,
)
from dryfit.ask.settling import made_unsettled
from dryfit.ask.slopes import Slope, lacking, pack_slope, slopes
from dryfit.ask.targets import Target, targets, travel
from dryfit.ask.usual import Usual, with_the_usual
from dryfit.ask.variants import Variant
from dryfit.ask.worth import Worth, worth
from dryfit.ask.written_walks import TakenWalk, taken_walks
from dryfit.model.rebuild import HOT, FloatNeed
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.predict import line_of
from dryfit.solve.sizes import metres
from dryfit.solve.states import states_of


@dataclass(frozen=True)
class Term:
    """One term of the sum that gives a pack, with its sign [m]."""

    label: str
    value: float


@dataclass(frozen=True)
class Set:
    """One setting with its routes.

    Attributes
    ----------
    part
        The setting.
    between
        Its neighbours in the stack.
    fitted
        What is in now, if it is written [m].
    route
        The recommended route, if any can be gone.
    pack
        What to fit by that route; None until its reading is taken.
    routes
        All of them.
    wished
        Thickness that the sum of sizes asks for [m]; None where a size is not known.
    why
        Why the pack differs from that: `drawer` or `harm`, or nothing.
    terms
        The sum that gives the pack, if it is a plain sum.
    target
        The need that it is set for.
    slope
        How that need follows its thickness.
    tried
        Packs near by, and their chance by the sizes.
    quick
        The routes as gone by a first look.
    nut
        How it is set, if it is a nut that adjusts.
    """

    part: str
    between: tuple[str, str]
    fitted: float | None
    route: Route | None
    pack: Pack | None
    routes: tuple[Route, ...]
    wished: float | None
    why: str
    terms: tuple[Term, ...]
    target: Target | None
    slope: float
    tried: tuple[tuple[Pack, float], ...]
    quick: tuple[Route, ...] = ()
    nut: Turned | None = None

    @property
    def in_hand(self) -> float | None:
        """Thickness that readings are told for: what is in, else what to fit, else a first pack."""
        if self.fitted is not None:
            return self.fitted
        if self.pack is not None:
            return self.pack.thickness
        by_sum = next((r.pack for r in self.routes if r.name == SUM and r.pack), None)
        return by_sum.thickness if by_sum else None


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


def close_up(asking: Asking) -> Closing:
    """Ask everything of a rebuild; needs that cannot be told are left out of it."""
    wanted = targets(asking.rebuild)
    try:
        return _close_up(asking, wanted)
    except NoAnswer:
        told = tuple(target for target in wanted if _can_be_told(asking, target))
        return _close_up(asking, told if len(told) < len(wanted) else ())


def _can_be_told(asking: Asking, target: Target) -> bool:
    """Tell whether a need has an answer as all is typed, and in every draw."""
    try:
        asking.as_typed(target.need, {})
        asking.true(target.need, {})
    except NoAnswer:
        return False
    return True


def _close_up(asking: Asking, wanted: tuple[Target, ...]) -> Closing:
    """Ask everything of a rebuild with these needs."""
    settings = asking.rebuild.settings
    free = [part for part, setting in settings.items() if setting.fitted is None]
    packs = {part: metres(s.fitted) for part, s in settings.items() if s.fitted}
    quick = asking.first_look
    packs |= choose_all(quick, wanted, free, packs) if free and len(settings) > 1 else {}
    done: list[Set] = []
    for part in settings:
        others = {p: t for p, t in packs.items() if p != part}
        one = _set(asking, wanted, part, others)
        done.append(one)
        if one.in_hand is not None:
            packs[part] = one.in_hand
    missing = {s.key: s for t in wanted for s in lacking(asking, t.need, packs)}
    told = set(asking.rebuild.settings) <= set(packs) and not missing and bool(wanted)
    fitted = told and any(one.fitted is not None for one in done)
    advised = _advised(asking, wanted, done, packs) if told or done else (None, None)
    in_now = {**packs, **_in_by_walk(done)}
    as_it_is = chance(asking, wanted, in_now) if fitted else None
    first = as_it_is if fitted else advised[0]
    if told and first is None:
        first = chance(asking, wanted, packs)
    unsettled = _unsettled(asking, done)
    meant = _meant(done, packs) if told else None
    looks = Looks(asking, packs, meant, tuple(unsettled.values()))
    open_ = told and not fitted
    better = worth(quick, wanted, packs, _open_setting(done)) if open_ else ()
    raised = _raised(quick, wanted, done, better, unsettled) if open_ else (None, ())
    return Closing(
        wanted,
        tuple(done),
        expect(asking, wanted, packs, looks),
        *advised,
        as_it_is,
        harm(asking, wanted, in_now) if fitted else None,
        HOT in states_of(asking.rebuild),
        better,
        tuple(missing.values()),
        needed(asking, wanted, packs),
        *raised,
        with_the_usual(looks, wanted, first) if told and first is not None else None,
        taken_walks(asking, wanted, packs),
    )


def _unsettled(asking: Asking, done: list[Set]) -> dict[str, Variant]:
    """List the settings still open that may be made before the rows have settled."""
    open_ = [one for one in done if one.fitted is None and one.route]
    found = {one.part: made_unsettled(asking, one.part, one.route) for one in open_ if one.route}
    return {part: variant for part, variant in found.items() if variant}


def _raised(
    quick: Asking,
    wanted: tuple[Target, ...],
    done: list[Set],
    better: tuple[Worth, ...],
    unsettled: Mapping[str, Variant],
) -> tuple[float | None, tuple[Act, ...]]:
    """Ask what raises the chance; nothing where a setting has no pack by the sum."""
    packs = {one.part: r.pack for one in done for r in one.routes if r.name == SUM}
    packs |= {one.part: one.pack for one in done if one.nut}
    if not done or any(packs.get(one.part) is None for one in done):
        return None, ()
    by_sum = {part: pack.thickness for part, pack in packs.items() if pack}
    open_ = {one.part: one.quick for one in done if not _is_walked(one)}
    turned = {
        one.part: (one.route.name, unsettled[one.part])
        for one in done
        if one.route and one.part in unsettled
    }
    return acts(quick, wanted, by_sum, open_, better, turned)


def _is_walked(one: Set) -> bool:
    return one.route is not None and one.route.name == WALK and one.route.taken is not None


def _open_setting(done: list[Set]) -> str | None:
    """Name the one setting that is still to be chosen."""
    return done[0].part if len(done) == 1 and done[0].fitted is None else None


def _advised(
    asking: Asking, wanted: tuple[Target, ...], done: list[Set], packs: dict[str, float]
) -> tuple[float | None, float | None]:
    """First-time chance and harm if the advice is followed: by its route for one setting."""
    if len(done) == 1:
        route = done[0].route
        return (route.chance, route.harm) if route else (None, None)
    if any(one.fitted is None and not _is_advised(one) for one in done) or not done:
        return None, None
    meant = _meant(done, packs)
    if not wanted or any(lacking(asking, t.need, packs) for t in wanted):
        return None, None
    return chance(asking, wanted, meant), harm(asking, wanted, meant)


def _is_advised(one: Set) -> bool:
    return one.route is not None and one.route.made is not None


def _meant(done: list[Set], packs: dict[str, float]) -> Packs:
    """Give the packs that are in, and for those still open what their route makes in each draw."""
    made = {one.part: one.route.made for one in done if one.fitted is None and one.route}
    known = {part: pack for part, pack in made.items() if pack is not None}
    return {**packs, **_in_by_walk(done), **known}


def _in_by_walk(done: list[Set]) -> Packs:
    """Give the packs that are in where a walk was read: what it knows of each draw, they hold."""
    walked = [(one, one.route, one.pack) for one in done if _is_walked(one)]
    return {
        one.part: route.made + (one.fitted - pack.thickness)
        for one, route, pack in walked
        if one.fitted is not None and pack and route and route.made is not None
    }


def _set(asking: Asking, wanted: tuple[Target, ...], part: str, packs: dict[str, float]) -> Set:
    """Find the pack for one setting."""
    mine = moved_by(asking, wanted, part, packs)
    target = mine[0] if mine else None
    known = target is not None and not any(lacking(asking, t.need, packs) for t in mine)
    quick = asking.first_look
    choice = choose(quick, wanted, part, packs) if known else None
    looked = found = routes(quick, wanted, part, packs, choice)
    best = recommended(found)
    if best and quick is not asking:  # the best of them is looked at well
        sure = gone(best.name, asking, wanted, part, packs, choice)
        found = tuple(sure if route is best else route for route in found)
        best = sure
    fitted = asking.rebuild.settings[part].fitted
    wished = ideal(asking, mine, part, packs) if known else None
    return Set(
        part,
        _between(asking, part),
        metres(fitted) if fitted else None,
        best,
        best.pack if best else None,
        found,
        wished,
        _why(asking, part, wished, best),
        _terms(asking, target, part, packs) if known and target else (),
        target,
        pack_slope(asking, travel(target.need), packs, part) if target else 0.0,
        choice.tried if choice else (),
        looked,
        turned(asking, target, part, {**packs, part: best.pack.thickness})
        if target and best and best.pack
        else None,
    )


def as_fitted(asking: Asking, part: str, thick: float, nut: Turned | None = None) -> Set:
    """Give one setting as it is fitted, no route gone."""
    none = (None, None, (), None, "", (), None, 0.0, ())
    return Set(part, _between(asking, part), thick, *none, nut=nut)


def _why(asking: Asking, part: str, wished: float | None, best: Route | None) -> str:
    """Say why the pack by the sum is not the nearest to what the sum asks for, or not near it."""
    if wished is None or best is None or best.pack is None or best.name != SUM:
        return ""
    near = nearest_packs(asking, part, wished)
    closest = min((abs(p.thickness - wished) for p in near), default=0.0)
    off = abs(best.pack.thickness - wished)
    if off > closest + NEAR_ENOUGH:
        return "harm" if best.harm < MOST_HARM else "drawer"
    return "drawer" if off > FAR_OFF else ""


NEAR_ENOUGH, FAR_OFF = 0.03e-3, 0.06e-3
"""A pack so far from the next better one, or from what the sum asks for, is explained [m]."""


def _between(asking: Asking, part: str) -> tuple[str, str]:
    """Name what lies before and behind a setting."""
    for line in asking.rebuild.lines.values():
        for stack in line.stacks:
            at = [n for n, spot in enumerate(stack.spots) if spot.part == part]
            if at:
                before = stack.spots[at[0] - 1] if at[0] else None
                after = stack.spots[at[-1] + 1] if at[-1] + 1 < len(stack.spots) else None
                return str(before or line.first), str(after or line.last)
    return "", ""


def _terms(asking: Asking, target: Target, part: str, packs: dict[str, float]) -> tuple[Term, ...]:
    """Write the pack as a sum of sizes; nothing where it is no plain sum."""
    nominal = asking.nominal
    slope = pack_slope(asking, target.need, packs, part)
    if not slope or type(target.need) is not FloatNeed or is_nut(asking.rebuild, part):
        return ()
    lengths = {**asking.with_fitted(packs)}
    terms = []
    for s in slopes(asking, target.need, packs):
        if s.key == part:
            continue
        if s.key in asking.rebuild.settings:
            value = float(lengths[s.key])
        else:
            value = float({**nominal.sizes, **nominal.nipped}[s.key][0])
        terms.append(Term(s.key, -s.slope / slope * value))
    terms.append(Term("float wanted", target.aim / slope))
    now = float(lengths[part])
    wished = now + (target.aim - asking.typed(target.need, packs)) / slope
    plain = abs(sum(term.value for term in terms) - wished) < 1e-9
    return tuple(terms) if plain and line_of(asking.rebuild, target.need) else ()
