"""The checks of a rebuild as the order takes them: what is in place, and how each is got at."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from dryfit.app.usecases.ordering.reach import ReadAt, from_where, read_at, shaft_in
from dryfit.app.usecases.ordering.unit import Unit
from dryfit.ask.needless import can_be_read_without, needless
from dryfit.model.own_steps import LOCK, READ
from dryfit.model.parts import Housing, Seal
from dryfit.model.rebuild import FINGERS, SET, Check, CordPull, Lift, Shake, Thickness
from dryfit.model.state_rules import parts_read
from dryfit.plan.actions import Way
from dryfit.plan.checks import Asked
from dryfit.plan.from_shapes import screws_of
from dryfit.quantities import Finding
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import lines_of
from dryfit.solve.states import conditions

About = Mapping[str, tuple[str, ...]]
"""For each part the steps that are about it."""


def reading_of(check: str) -> str:
    """Name the step in which a check is read."""
    return READ + check


def lock_of(nut: str) -> str:
    """Name the step in which a nut is locked."""
    return LOCK + nut


def asked(unit: Unit, name: str, check: Check, about: About) -> Asked:
    """Say what is in place when a check is read, what is not, and how it is got at."""
    if isinstance(check, Thickness):
        return Asked(name, frozenset(about.get(check.of, ())), alone=True)
    lines = lines_of(unit.rebuild, check)
    spots = [s for line in lines for stack in line.stacks for s in stack.spots]
    parts = {spot.part for spot in spots} | _in_no_stack(unit, check)
    of = {step for part in parts for step in about.get(part, ())}
    now = conditions(unit.rebuild, check.state, NoLuck())
    without = {step for part in now.left_out for step in about.get(part, ())}
    if now.screws == FINGERS:
        without |= {step for part in about for step in (screws_of(part),) if step in of}
    if now.nuts == SET:
        without |= {step for part in about for step in (lock_of(part),) if step in of}
    read = {step for part in _read_on(unit, check) for step in about.get(part, ())} & of
    one = Asked(name, frozenset(of), frozenset(without), frozenset(read - without))
    return _got_at(unit, check, about, one)


def _in_no_stack(unit: Unit, check: Check) -> set[str]:
    """Name what a check waits for though it lies in no stack: seals that drag, a plain bearing."""
    parts = unit.rebuild.parts
    if isinstance(check, CordPull):
        return {p.name for p in parts.values() if isinstance(p, Seal) and p.on == check.of}
    if isinstance(check, Lift):
        split = parts[check.of]
        named = (getattr(split, key, None) for key in ("on", "left_shims", "right_shims"))
        return {check.of, *(name for name in named if name)}
    return set()


def _read_on(unit: Unit, check: Check) -> tuple[str, ...]:
    """Name the parts without which there is nothing to read: of a bearing the shaft in it, too.

    The case is there from the first, and of one that parts the half that stays.
    """
    shaft = shaft_in(unit, check.of) if isinstance(check, Shake | Lift) else ""
    named = (*parts_read(unit.rebuild, check), *([shaft] if shaft else []))
    return tuple(name for name in named if type(unit.rebuild.parts[name]) is not Housing)


def _got_at(unit: Unit, check: Check, about: About, one: Asked) -> Asked:
    """Let a check be read only while its instrument gets there.

    A distance is read without what keeps it out, if it is the same without that.
    """
    ways = ways_to(unit, check)
    free = tuple(way for way in ways if not way.shut_by & (one.of - one.without))
    if free or not read_at(unit, check).distance:
        return replace(one, by=free)
    tried = set[frozenset[str]]()
    for way in sorted(ways, key=lambda way: len(way.shut_by & one.of)):
        if way.shut_by & one.read:
            continue
        parts = frozenset(part for part, own in about.items() if {*own} & way.shut_by & one.of)
        if parts not in tried and needless(unit.rebuild, check, parts, _thick(unit)):
            return replace(one, by=(way,), spared=way.shut_by & one.of)
        tried.add(parts)
    return one


def ways_to(unit: Unit, check: Check, *, typed: bool = False) -> tuple[Way, ...]:
    """Give the ways of its instrument to what a check reads, each shut by steps.

    A way that is shut by what is there from the first is none.
    """
    steps, stays = _steps(unit)
    ways = read_at(unit, check, typed=typed).ways
    open_ = (way for way in ways if not way.shut_by & stays)
    found = (Way(way.name, frozenset(steps[body] for body in way.shut_by)) for way in open_)
    return tuple(dict.fromkeys(found))


def _steps(unit: Unit) -> tuple[Mapping[str, str], frozenset[str]]:
    """Say in which step each body comes to where it lies, and which are there from the first."""
    bodies = {body for line in unit.lines for body in line.nest.at}
    moved = {body for line in unit.lines for body in line.moved}
    units = {body: step for line in unit.lines for body, step in line.units.items()}
    return {body: units.get(body, body) for body in moved}, frozenset(bodies - moved)


def no_instrument(unit: Unit, order: Sequence[str]) -> list[Finding]:
    """Tell checks whose instrument gets nowhere when they are read, where that is sure."""
    found = []
    for check in unit.rebuild.checks.values():
        name = reading_of(check.name)
        if name not in order or _guessed(unit, check):
            continue
        at = read_at(unit, check, typed=True)
        shut = _shut(unit, at, {*order[: order.index(name)]})
        if shut:
            told = "; ".join(f"{way}: {_names(met)}" for way, met in shut.items())
            message = f"{at.none} when '{check.name}' is read ({told})"
            way_out = _less(unit, check, shut) if at.distance else LOOK
            found.append(Finding("plan.reach", ("checks", check.name), message, way_out, "note"))
    return found


LOOK = (
    "look at the sizes of what is in the way; if they are right, make a hole or a longer finger "
    "for it before the build, or read it in a state that leaves that out"
)


def _less(unit: Unit, check: Check, shut: Mapping[str, frozenset[str]]) -> str:
    """Say in which state a distance can be read: without what is in the way from one side."""
    _, stays = _steps(unit)
    parts = {body: part for line in unit.lines for body, part in line.laid.parts.items()}
    off = sorted((met for met in shut.values() if not met & stays), key=lambda met: len(met))
    names = [*dict.fromkeys(parts[body] for body in sorted(off[0]))] if off else []
    if not names or not can_be_read_without(unit.rebuild, check, names, _thick(unit)):
        return LOOK
    out = f"{{left out: [{', '.join(names)}]}}"
    return f"write states: {{open: {out}}}, and state: open at this check"


def _thick(unit: Unit) -> Mapping[str, float]:
    """Give the thickness of each pack as drawn [m]."""
    return {part: thick / 1e3 for part, thick in unit.packs.items()}


def _guessed(unit: Unit, check: Check) -> bool:
    """Tell whether a length is not known by which something lies on the lines of a check."""
    own = {line.name for line in lines_of(unit.rebuild, check)}
    return any(line.rest.guessed - unit.unknown_packs for line in unit.lines if line.name in own)


def _shut(unit: Unit, at: ReadAt, done: set[str]) -> Mapping[str, frozenset[str]]:
    """Say what is in the way of an instrument from each side; nothing if it gets there."""
    steps, stays = _steps(unit)
    there = {body for body, step in steps.items() if step in done} | stays
    least: dict[str, frozenset[str]] = {}
    for way in at.ways:
        name, met = from_where(way.name), way.shut_by & there
        if name not in least or len(met) < len(least[name]):
            least[name] = met
    return least if all(least.values()) else {}


def _names(bodies: frozenset[str]) -> str:
    names = [f"'{body}'" for body in sorted(bodies)]
    return f"{', '.join(names)} {'is' if len(names) == 1 else 'are'} in the way"
