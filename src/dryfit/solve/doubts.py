"""What arithmetic finds wrong in a rebuild: sizes that contradict, names without a table row.

`doubts` asks for all of it at once; rules that need no arithmetic are in `model.rules`.
"""

from collections.abc import Iterator
from dataclasses import fields
from difflib import get_close_matches
from typing import Any

import numpy as np

from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.mechanics.materials import MATERIALS
from dryfit.mechanics.thermal import length_change
from dryfit.model.lands import lands
from dryfit.model.rebuild import Check, Line, Need, Rebuild
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import near, stops
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.bodies import BODIES, Stands
from dryfit.solve.held_doubts import held_doubts
from dryfit.solve.land_doubts import land_doubts
from dryfit.solve.line_doubts import NO_THREAD, line_doubts
from dryfit.solve.luck import LOOKS, TOO_RARE, Luck, NoLuck, full
from dryfit.solve.network import Network, network
from dryfit.solve.predict import line_of, predict
from dryfit.solve.press_doubts import press_doubts
from dryfit.solve.ranges import beyond
from dryfit.solve.sample import Sample, sample
from dryfit.solve.sizes import gauge, metres
from dryfit.solve.slip_doubts import slip_doubts
from dryfit.solve.spelled import spelled
from dryfit.solve.states import COLD, Fitted, rises, states_of

FEW = 20
"""Draws in which each check is tried besides: what friction holds in one, it may not in another."""


def doubts(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what arithmetic finds wrong.

    Parameters
    ----------
    rebuild
        A unit that keeps the rules of `model.rules` [rebuild]

    Returns
    -------
    findings
        All of them, with their places [findings]

    Valid
    -----
    References that hold; see `model.rules.check`.

    Source
    ------
    Loops: closing error against its own draws, 1 in 200 (estimate).

    Examples
    --------
    >>> doubts(Rebuild("mm", measured_with="calliper"))[0].way_out
    "did you mean 'caliper'?"
    """
    named = [*_instruments(rebuild), *_materials(rebuild)]
    lines = line_doubts(rebuild)
    told = (*named, *_warmth(rebuild), *lines)
    if any(found.code == NO_THREAD for found in lines):
        return told
    told = (*told, *_joints_and_loops(rebuild), *land_doubts(rebuild))
    if stops(lines):
        return told
    return (
        *told,
        *_unread(rebuild),
        *held_doubts(rebuild),
        *press_doubts(rebuild),
        *slip_doubts(rebuild),
    )


def _instruments(rebuild: Rebuild) -> Iterator[Finding]:
    """Every instrument named is a usual one or one of the rebuild's own."""
    own = rebuild.instruments
    for name, instrument in own.items():
        if instrument.like not in INSTRUMENTS:
            yield _unknown_instrument(rebuild, ("instruments", name, "like"), instrument.like or "")
        if instrument.limit is not None and instrument.limit.value <= 0:
            yield Finding(
                "instrument.limit",
                ("instruments", name, "limit"),
                f"no instrument is good to {instrument.limit.text}",
                "type how far a reading may be off, for instance 0.02",
            )
    for place, named in _named_instruments(rebuild):
        if named and gauge(rebuild, named) is None and named not in own:
            yield _unknown_instrument(rebuild, place, named)


def _named_instruments(rebuild: Rebuild) -> Iterator[tuple[Place, str | None]]:
    """List where instruments are named."""
    yield ("measured with",), rebuild.measured_with
    for key, between in rebuild.sizes.items():
        if isinstance(between.size, Size):
            yield ("sizes", key), between.size.instrument
    for name, part in rebuild.parts.items():
        for place, size in _sizes_of(part):
            yield ("parts", name, *place), size.instrument
    for name, setting in rebuild.settings.items():
        yield ("settings", name, "set by"), setting.set_by
    for name, mesh in rebuild.meshes.items():
        for place, size in _sizes_of(mesh):
            yield ("meshes", name, *place), size.instrument
    for name, check in rebuild.checks.items():
        yield ("checks", name, "by"), check.by
        for place, size in _sizes_of(check):
            yield ("checks", name, *place), size.instrument
    for name, taken in rebuild.readings.items():
        for size in taken:
            yield ("readings", name), size.instrument
    for name, walk in rebuild.walks.items():
        for step in walk.steps:
            for typed in (step.at, step.read):
                yield ("walks", name, step.key), getattr(typed, "instrument", None)
    if rebuild.as_found:
        for section in ("readings", "sizes"):
            for name, size in getattr(rebuild.as_found, section).items():
                yield ("as found", section, name), size.instrument


def _sizes_of(record: Any) -> Iterator[tuple[Place, Size]]:
    """List the sizes that are written with a part, mesh or check, each with its keys."""
    for field in fields(record):
        typed = getattr(record, field.name)
        key = field.metadata.get("key") or field.name.replace("_", " ")
        if isinstance(typed, Size):
            yield (key,), typed
        for land in lands(typed) if field.metadata.get("reads") == "diameters" else ():
            if isinstance(land.size, Size):
                yield (key, land.key), land.size


def _unknown_instrument(rebuild: Rebuild, place: Place, name: str) -> Finding:
    names = [*INSTRUMENTS, *rebuild.instruments]
    close = get_close_matches(name, names, n=1)
    more = "" if close else "; or add it under instruments: with like: and limit:"
    return Finding(
        "instrument.unknown",
        place,
        f"'{name}' is no instrument known here",
        near(name, names) + more,
    )


def _materials(rebuild: Rebuild) -> Iterator[Finding]:
    """Every material named has a row of expansion."""
    for name, part in rebuild.parts.items():
        if part.material is not None and part.material not in MATERIALS:
            yield Finding(
                "material.unknown",
                ("parts", name, "material"),
                f"no expansion is known for '{part.material}'",
                near(part.material, MATERIALS),
            )


def _warmth(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell temperatures beyond those for which the expansion of metals is known."""
    told: set[Place] = set()
    draws = Luck(LOOKS)
    for state in states_of(rebuild):
        own = rebuild.states.get(state)
        for part, rise in rises(rebuild, state, draws).items():
            typed = bool(own and own.warmer_than_room and part in own.warmer_than_room)
            place = ("states", state, "warmer than room", part) if typed else ("used for",)
            if place not in told:
                found = list(beyond(length_change.ranges, {"rise": rise}, place))
                told |= {place} if found else set()
                yield from found


def _joints_and_loops(rebuild: Rebuild) -> Iterator[Finding]:
    """Every cover stands on a joint, and sizes that close a loop agree."""
    if not rebuild.lines or not rebuild.parts:
        return
    drawn = sample(rebuild, Luck(LOOKS))
    told: set[str] = set()
    for line in rebuild.lines.values():
        packs = {name: full(drawn.draws, 0.0) for name in rebuild.settings}
        net = network(rebuild, line, drawn, Fitted(packs, COLD, {}, {}))
        here = dict.fromkeys(s.part for stack in line.stacks for s in stack.spots)
        for name in here:
            if BODIES[rebuild.parts[name].kind].stands is Stands.SCREWED and name not in net.pulls:
                yield Finding(
                    "cover.no joint",
                    ("lines", line.name),
                    f"no stack says where '{name}' stands on the case",
                    "add one: joint: [case.joint, gasket, cover.flange]",
                )
        for finding in _loops(rebuild, net, drawn):
            if finding.place[-1] not in told:
                told.add(str(finding.place[-1]))
                yield finding


def _loops(rebuild: Rebuild, net: Network, drawn: Sample) -> Iterator[Finding]:
    """Tell each loop of sizes that is open by more than its doubt."""
    for layout in net.layouts.values():
        for loop in layout.loops:
            middle = float(np.mean(loop.gap))
            as_far = np.abs(loop.gap - middle) >= abs(middle)
            if abs(middle) > 1e-9 and float(np.mean(as_far)) < TOO_RARE:
                yield Finding(
                    "size.loop",
                    ("sizes", loop.keys[0]),
                    f"your {_count(len(loop.keys))} lengths disagree by "
                    f"{spelled(abs(middle), rebuild)}, more than their instruments explain: "
                    + "; ".join(f"{k} = {_text(rebuild, k)}" for k in loop.keys),
                    "measure them again, or write not known for the one you trust least",
                )


def _count(number: int) -> str:
    words = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
    return words.get(number, str(number))


def _text(rebuild: Rebuild, key: str) -> str:
    size = rebuild.sizes[key].size
    return size.text


def _unread(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell what cannot be read as all is typed, all of one cause together; the rest is answered."""
    if not rebuild.lines:
        return
    asked: list[tuple[str, Check | Need]] = [("needs", need) for need in rebuild.needs.values()]
    asked += [("checks", check) for check in rebuild.checks.values()]
    looks = (sample(rebuild, NoLuck()), sample(rebuild, Luck(FEW)))
    causes: dict[tuple[str, str, str], list[Place]] = {}
    for section, one in asked:
        why = next((why for drawn in looks if (why := _why_not(rebuild, one, drawn))), None)
        if why is not None:
            hint = _one_sided(line_of(rebuild, one), rebuild) if why.open_end else ""
            told = (why.code, str(why), hint + why.way_out)
            causes.setdefault(told, []).append((section, one.name))
    for (code, why_not, way_out), places in causes.items():
        names = ", ".join(f"'{place[-1]}'" for place in places)
        yield Finding(code, places[0], f"{why_not}: {names} cannot be read", way_out, "note")


def _why_not(rebuild: Rebuild, asked: Check | Need, drawn: Sample) -> NoAnswer | None:
    """Say why something cannot be read with these sizes, what is fitted in place."""
    fitted = {name: setting.fitted for name, setting in rebuild.settings.items()}
    packs = {name: full(drawn.draws, metres(s) if s else 0.0) for name, s in fitted.items()}
    try:
        predict(rebuild, asked, drawn, packs=packs)
    except NoAnswer as why:
        return why
    return None


def _one_sided(line: Line, rebuild: Rebuild) -> str:
    """Hint at a bearing put in the wrong way round where all of a line stop it one way."""
    here = dict.fromkeys(spot.part for stack in line.stacks for spot in stack.spots)
    stops = {name: getattr(rebuild.parts.get(name), "stops", None) for name in here}
    ends = {name: end for name, end in stops.items() if end}
    if len(ends) < 2 or len({*ends.values()}) > 1:
        return ""
    named = " and ".join(f"'{name}'" for name in ends)
    return f"{named} all stop the shaft going {next(iter(ends.values()))}: turn one round; or "
