"""What is in hand before a unit is closed: each setting by its best route, and the packs it gives.

Reading order: one setting, all of them, how each was found.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.harm import MOST_HARM
from dryfit.ask.looks import Looks
from dryfit.ask.nut_routes import Turned, is_nut, turned
from dryfit.ask.packs import Pack
from dryfit.ask.route import SUM, WALK, Route
from dryfit.ask.routes import gone, recommended, routes
from dryfit.ask.settings import choose, choose_all, ideal, moved_by, nearest_packs
from dryfit.ask.settling import made_unsettled
from dryfit.ask.slopes import Slope, lacking, pack_slope, slopes
from dryfit.ask.targets import Target, targets, travel
from dryfit.ask.variants import Variant
from dryfit.model.rebuild import FloatNeed
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.predict import line_of
from dryfit.solve.sizes import metres


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
class InHand:
    """What is in hand.

    Attributes
    ----------
    asking
        The unit.
    wanted
        What is wanted of it.
    done
        Its settings.
    packs
        Thickness of each for which readings are told [m].
    missing
        Sizes not known, by key.
    """

    asking: Asking
    wanted: tuple[Target, ...]
    done: tuple[Set, ...]
    packs: Mapping[str, float]
    missing: Mapping[str, Slope]

    @property
    def told(self) -> bool:
        """Whether all is known that a chance wants."""
        every = set(self.asking.rebuild.settings) <= set(self.packs)
        return every and not self.missing and bool(self.wanted)

    @property
    def fitted(self) -> bool:
        """Whether a pack is in now."""
        return self.told and any(one.fitted is not None for one in self.done)

    @property
    def in_now(self) -> Packs:
        """Packs that are in, or stand for what is to be fitted."""
        return {**self.packs, **_in_by_walk(self.done)}

    @property
    def meant(self) -> Packs:
        """Packs that are in, and for those still open what their route makes in each draw."""
        made = {one.part: one.route.made for one in self.done if one.fitted is None and one.route}
        known = {part: pack for part, pack in made.items() if pack is not None}
        return {**self.in_now, **known}

    @cached_property
    def unsettled(self) -> dict[str, Variant]:
        """The settings still open that may be made before the rows have settled."""
        open_ = [(one.part, one.route) for one in self.done if one.fitted is None and one.route]
        found = {part: made_unsettled(self.asking, part, route) for part, route in open_}
        return {part: variant for part, variant in found.items() if variant}

    @cached_property
    def looks(self) -> Looks:
        """The unit to be looked at with each thing wrong."""
        meant = self.meant if self.told else None
        return Looks(self.asking, self.packs, meant, tuple(self.unsettled.values()))


def in_hand(asking: Asking, wanted: tuple[Target, ...]) -> InHand:
    """Find the pack for every setting, one after the other.

    Parameters
    ----------
    asking
        The unit [asking]
    wanted
        What is wanted [targets]

    Returns
    -------
    in_hand
        Settings, and the packs in hand [settings]

    Raises
    ------
    NoAnswer
        A want has no answer.

    Valid
    -----
    Any unit; a setting whose sizes are not known has no pack.

    Source
    ------
    None needed.

    Examples
    --------
    See tests/ask/test_settings_and_routes.py.

    >>> from dryfit.model.rebuild import Rebuild
    >>> in_hand(Asking(Rebuild("mm")), ()).told
    False
    """
    key = ("in hand", *wanted)
    if key not in asking.kept:
        asking.kept[key] = _in_hand(asking, wanted)
    found: InHand = asking.kept[key]
    return found


def _in_hand(asking: Asking, wanted: tuple[Target, ...]) -> InHand:
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
    return InHand(asking, wanted, tuple(done), packs, missing)


def ready(asking: Asking) -> InHand:
    """Find the pack for every setting; needs that cannot be told are left out.

    Parameters
    ----------
    asking
        The unit [asking]

    Returns
    -------
    in_hand
        Settings, and the packs in hand [settings]

    Valid
    -----
    Any unit.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.model.rebuild import Rebuild
    >>> ready(Asking(Rebuild("mm"))).wanted
    ()
    """
    wanted = targets(asking.rebuild)
    try:
        return in_hand(asking, wanted)
    except NoAnswer:
        told = tuple(target for target in wanted if can_be_told(asking, target))
        return in_hand(asking, told if len(told) < len(wanted) else ())


def can_be_told(asking: Asking, target: Target) -> bool:
    """Tell whether a need has an answer as all is typed, and in every draw."""
    try:
        asking.as_typed(target.need, {})
        asking.true(target.need, {})
    except NoAnswer:
        return False
    return True


def is_walked(one: Set) -> bool:
    """Tell whether a setting goes by a walk that was read."""
    return one.route is not None and one.route.name == WALK and one.route.taken is not None


def _in_by_walk(done: Iterable[Set]) -> Packs:
    """Give the packs that are in where a walk was read: what it knows of each draw, they hold."""
    walked = [(one, one.route, one.pack) for one in done if is_walked(one)]
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
