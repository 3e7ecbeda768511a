"""Everything asked before a unit is closed, in one answer: packs, readings, chances, worth."""

from dataclasses import dataclass

from dryfit.ask.asking import Asking
from dryfit.ask.expect import Expected, expect
from dryfit.ask.packs import Pack
from dryfit.ask.routes import SUM, Route, recommended, routes
from dryfit.ask.settings import chance, choose, harm, moved_by
from dryfit.ask.slopes import Slope, lacking, pack_slope, slopes
from dryfit.ask.targets import Target, targets
from dryfit.ask.worth import Worth, worth
from dryfit.model.rebuild import HOT
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
    pack
        What to fit, where that can be said yet.
    route
        The recommended route, if any can be gone.
    routes
        All of them.
    terms
        The sum that gives the pack, if it is a plain sum.
    target
        The need that it is set for.
    slope
        How that need follows its thickness.
    tried
        Packs near by, and their chance by the sizes.
    """

    part: str
    between: tuple[str, str]
    fitted: float | None
    pack: Pack | None
    route: Route | None
    routes: tuple[Route, ...]
    terms: tuple[Term, ...]
    target: Target | None
    slope: float
    tried: tuple[tuple[Pack, float], ...]


@dataclass(frozen=True)
class Closing:
    """All that is to be said before a unit is closed."""

    targets: tuple[Target, ...]
    settings: tuple[Set, ...]
    expected: tuple[Expected, ...]
    chance: float | None
    harm: float | None
    hot: bool
    worth: tuple[Worth, ...]
    lacking: tuple[Slope, ...]


def close_up(asking: Asking) -> Closing:
    """Ask everything of a rebuild."""
    wanted = targets(asking.rebuild)
    packs: dict[str, float] = {}
    done: list[Set] = []
    for part in asking.rebuild.settings:
        one = _set(asking, wanted, part, packs)
        done.append(one)
        if one.fitted is not None or one.pack is not None:
            packs[part] = one.fitted if one.fitted is not None else one.pack.thickness  # type: ignore[union-attr]
    missing = {s.key: s for t in wanted for s in lacking(asking, t.need, packs)}
    fixed = set(asking.rebuild.settings) <= set(packs)
    told = fixed and not missing and bool(wanted)
    return Closing(
        wanted,
        tuple(done),
        expect(asking, wanted, packs),
        _chance(asking, wanted, done, packs) if told else _reading_chance(done),
        harm(asking, wanted, packs) if told else None,
        HOT in states_of(asking.rebuild),
        worth(asking, wanted, packs) if told else (),
        tuple(missing.values()),
    )


def _chance(
    asking: Asking, wanted: tuple[Target, ...], done: list[Set], packs: dict[str, float]
) -> float:
    """First-time chance: of the recommended route for one setting, of the sizes else."""
    one = done[0] if len(done) == 1 else None
    if one and one.fitted is None and one.route and one.route.chance is not None:
        return one.route.chance
    return chance(asking, wanted, packs)


def _reading_chance(done: list[Set]) -> float | None:
    """Chance of a route from a reading, where the sum cannot be closed."""
    found = [one.route.chance for one in done if one.route and one.route.chance is not None]
    return found[0] if len(found) == len(done) == 1 else None


def _set(asking: Asking, wanted: tuple[Target, ...], part: str, packs: dict[str, float]) -> Set:
    """Find the pack for one setting."""
    found = routes(asking, wanted, part, packs)
    best = recommended(found)
    mine = moved_by(asking, wanted, part, packs)
    choice = choose(asking, wanted, part, packs) if mine else None
    by_sum = choice.pack if choice else None
    fitted = asking.rebuild.settings[part].fitted
    taken = next((r.pack for r in found if r.pack is not None and r.name != SUM), None)
    return Set(
        part,
        _between(asking, part),
        metres(fitted) if fitted else None,
        taken or by_sum,
        best,
        found,
        _terms(asking, mine[0], part, packs) if by_sum and mine else (),
        mine[0] if mine else None,
        pack_slope(asking, mine[0].need, packs, part) if mine else 0.0,
        choice.tried if choice else (),
    )


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
