"""What pushes on what along one line, in one state."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np

from dryfit.mechanics.materials import MATERIALS
from dryfit.mechanics.press import draw_off
from dryfit.mechanics.pushed import steady
from dryfit.mechanics.springs import spring_force
from dryfit.model.parts import Bearing, Cover, Nut, SpringWasher
from dryfit.model.rebuild import (
    FINGERS,
    FIRST_END,
    LAST_END,
    LOCKED,
    Between,
    EndFloat,
    Line,
    Need,
    Rebuild,
)
from dryfit.model.spots import Spot
from dryfit.quantities import Size
from dryfit.solve.bodies import BODIES, Side, Stands
from dryfit.solve.equations import Law
from dryfit.solve.give import give_at
from dryfit.solve.growth import Around, Growth, growth
from dryfit.solve.joints import adjusters, body_of, cover_on, pulls_of
from dryfit.solve.luck import Array, full
from dryfit.solve.rigid import Contact, nearest, turned
from dryfit.solve.rings import INNER, OUTER, on_rings, owner, ring
from dryfit.solve.rows import Rings, Seen, rings, row, typed
from dryfit.solve.sample import Sample
from dryfit.solve.sizes import gauge, metres, true_size
from dryfit.solve.spots import Layout, lay_out
from dryfit.solve.states import Conditions
from dryfit.solve.threads import LOCK_NUT, clamp_force, thread_play

BY_HAND, BY_HAND_SPREAD = 700.0, 0.6
"""Pull of a cover's screws done up by fingers alone, all together [N], and how far it differs [-]:
estimate, four small screws at 0.1 to 0.3 N m."""


LIGHT = 2.0
"""What any ring holds on its seat, so that it stays where it was put [N]: estimate; it is asked
for only in units where some ring grips."""


@dataclass(frozen=True, slots=True)
class Network:
    """One line in one state.

    Attributes
    ----------
    case
        The housing, from which all is placed.
    contacts
        All that may touch, without the pull of any screws.
    pulls
        For each cover on its joint and each nut, the contact that its thread adds.
    layouts
        Where the spots of each body lie [m].
    gives
        Whether a part of it gives, so that rigid parts are not the whole truth.
    grips
        Rings and cartridges that friction may hold.
    held
        Contacts of those that it does, from where they sit; no rigid part meets them.
    """

    case: str
    contacts: tuple[Contact, ...]
    pulls: Mapping[str, Contact]
    layouts: Mapping[str, Layout]
    gives: bool = False
    grips: tuple["Grip", ...] = ()
    held: tuple[Contact, ...] = ()

    @property
    def closed(self) -> tuple[Contact, ...]:
        """All contacts with every cover pulled home."""
        return (*self.contacts, *self.pulls.values())


@dataclass(frozen=True, slots=True)
class Grip:
    """What friction holds.

    Attributes
    ----------
    body, host
        What is held, and on or in what.
    limit
        Force that moves it [N], shape (n,).
    short
        How far it may have stopped short of its seat when it was put on [m], shape (n,).
    """

    body: str
    host: str
    limit: Array
    short: Array


@dataclass(frozen=True, slots=True)
class Fitted:
    """What is put together and how.

    Attributes
    ----------
    packs
        Thickness of each setting [m], shape (n,) each.
    now
        The state.
    extra
        What lies under a part besides, or how far a cover is not home, by part [m].
    assumed
        Values for what is not known, by key [m].
    """

    packs: Mapping[str, Array]
    now: Conditions
    extra: Mapping[str, float]
    assumed: Mapping[str, float]

    @property
    def cold(self) -> "Fitted":
        """Give the same with all parts as warm as the room, as it was put together."""
        return replace(self, now=replace(self.now, growth={}, rises={}))


def network(rebuild: Rebuild, line: Line, sample: Sample, fitted: Fitted) -> Network:
    """Build the network of one line.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    line
        One of its lines [line]
    sample
        True sizes [m], shape (n,) each
    fitted
        Packs, state and what is assumed [fitted]

    Returns
    -------
    network
        Contacts and pulls [m], shape (n,) each

    Valid
    -----
    One housing.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> r = Rebuild("mm")
    >>> from dryfit.solve.states import COLD
    >>> line = Line("spindle", "nose", "tail", ())
    >>> network(r, line, sample(r, NoLuck()), Fitted({}, COLD, {}, {})).contacts
    ()
    """
    ordered = sorted(line.stacks, key=lambda stack: stack.name)
    stacks = [
        on_rings(rebuild, [spot for spot in stack.spots if spot.part not in fitted.now.left_out])
        for stack in ordered
    ]
    bodies = sorted({spot.part for spots in stacks for spot in spots})
    seats = _seats(rebuild, stacks)
    placed = {name: _placed(rebuild, line, name, sample, fitted, seats) for name in bodies}
    case = next(
        (p.name for p in rebuild.parts.values() if BODIES[p.kind].stands is Stands.STILL), ""
    )
    loose = floating(rebuild)
    chains = [(s, _chain(rebuild, s, placed, sample, fitted, case, loose)) for s in stacks]
    contacts = [contact for _, chain in chains for contact in chain]
    rows, grips = _rows(rebuild, line, bodies, sample, fitted, seats)
    contacts += rows
    grips += _sealed(rebuild, bodies, sample, case)
    if not any(np.any(g.limit > LIGHT) for g in grips):
        grips = []
    pulls = pulls_of(rebuild, chains, case, loose)
    by_hand = fitted.now.screws == FINGERS
    pulls = {name: _clamped(rebuild, name, pull, sample, by_hand) for name, pull in pulls.items()}
    hosts = adjusters(rebuild, pulls, bodies)
    if hosts and fitted.now.growth:
        pulls |= _set_cold(hosts, network(rebuild, line, sample, fitted.cold), fitted.now.growth)
    else:
        pulls |= _adjusted(rebuild, contacts, pulls, hosts, sample, fitted.now.nuts == LOCKED)
    gives = any(body_of(rebuild, name).gives for name in bodies)
    return Network(case, tuple(contacts), pulls, placed, gives, tuple(grips))


def floating(rebuild: Rebuild) -> frozenset[str]:
    """List the parts that may float: those whose kind does, and those whose float is asked for.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    names
        Parts [text]

    Valid
    -----
    Any rebuild.

    Source
    ------
    None needed.

    Examples
    --------
    >>> sorted(floating(Rebuild("mm")))
    []
    """
    asked = {*rebuild.needs.values(), *rebuild.checks.values()}
    named = {asked_of.of for asked_of in asked if isinstance(asked_of, Need | EndFloat)}
    by_kind = {name for name, part in rebuild.parts.items() if BODIES[part.kind].floats}
    return frozenset(named | by_kind)


def _seats(rebuild: Rebuild, stacks: list[list[Spot]]) -> dict[str, str]:
    """Name the part that each ring sits on or in: as told, else the one its stack shows."""
    found: dict[str, str] = {}
    for spots in stacks:
        for body in {spot.part for spot in spots} - set(rebuild.parts):
            bearing: Any = rebuild.parts[owner(body)]
            inner = body == ring(bearing.name, INNER)
            told = bearing.on if inner else bearing.in_
            side = Side.SHAFT if inner else Side.CASE
            usual = [
                s.part
                for s in spots
                if s.part in rebuild.parts
                and body_of(rebuild, s.part).side is side
                and body_of(rebuild, s.part).stands is not Stands.THREADED
            ]
            if told or usual:
                found.setdefault(body, told or usual[0])
    return found


def _placed(
    rebuild: Rebuild,
    line: Line,
    body: str,
    sample: Sample,
    fitted: Fitted,
    seats: Mapping[str, str],
) -> Layout:
    """Place the spots of a body, warm as it is; a pack or a gasket is as thick as told."""
    layout = _cold(rebuild, line, body, sample, fitted)
    factor = fitted.now.growth.get(seats.get(body, body))
    if factor is None:
        return layout
    return replace(layout, offsets={n: x * factor for n, x in layout.offsets.items()})


def _cold(rebuild: Rebuild, line: Line, body: str, sample: Sample, fitted: Fitted) -> Layout:
    part = rebuild.parts[owner(body)]
    thick = {**sample.nipped, **fitted.packs}
    if body in thick:
        return _between_ends(sample, thick[body])
    if isinstance(part, Bearing):
        own = _rings(rebuild, part, sample)
        width = own.inner if body == ring(part.name, INNER) else own.outer
        return _between_ends(sample, width, own.lacking)
    if isinstance(part, SpringWasher):
        free = typed(rebuild, sample.draws, part, "free")
        lacking = frozenset({f"{body}.free"}) if free is None else frozenset()
        return _between_ends(sample, full(sample.draws, 0.0) if free is None else free, lacking)
    assumed = fitted.assumed
    kept = (body, line.name, tuple(sorted(assumed.items())))
    if kept not in sample.layouts:
        sample.layouts[kept] = _worked_out(rebuild, line, body, sample, assumed)
    return sample.layouts[kept]


def _between_ends(sample: Sample, length: Array, lacking: frozenset[str] = frozenset()) -> Layout:
    return Layout({FIRST_END: full(sample.draws, 0.0), LAST_END: length}, (), lacking)


def _rings(rebuild: Rebuild, part: Bearing, sample: Sample) -> Rings:
    return sample.kept(("rings", part.name), lambda: rings(rebuild, part, sample.draws))


def _worked_out(
    rebuild: Rebuild, line: Line, part: str, sample: Sample, assumed: Mapping[str, float]
) -> Layout:
    """Place the spots of one part along a line from its sizes, those of other lines left out."""
    used = {
        spot.name
        for stack in line.stacks
        for spot in [*stack.spots, *_named_in(rebuild, line)]
        if spot.part == part
    }
    own = [between for between in rebuild.sizes.values() if between.start.part == part]
    here = own if len(rebuild.lines) == 1 else _reached(own, used)
    return lay_out(
        part,
        here,
        used=used,
        values={b.key: sample.sizes[b.key] for b in here if b.key in sample.sizes},
        doubts=sample.doubts,
        draws=sample.draws,
        assumed=assumed,
    )


def _named_in(rebuild: Rebuild, line: Line) -> list[Spot]:
    """List the spots that meshes name along a line, beside those of its stacks."""
    parts = {spot.part for stack in line.stacks for spot in stack.spots}
    found: list[Spot] = []
    for mesh in rebuild.meshes.values():
        for which in ("pinion", "wheel"):
            if getattr(mesh, which) in parts:
                named = (getattr(mesh, f"{which}_{end}", None) for end in ("apex", "crossing"))
                found += [spot for spot in named if spot]
    return found


def _reached(sizes: list[Between], used: set[str]) -> list[Between]:
    """Keep the sizes that some spot of the line leads to."""
    near = set(used)
    for _ in sizes:
        near |= {
            end.name for b in sizes if near & {b.start.name, b.end.name} for end in (b.start, b.end)
        }
    return [b for b in sizes if b.start.name in near]


def _chain(
    rebuild: Rebuild,
    spots: list[Spot],
    placed: Mapping[str, Layout],
    sample: Sample,
    fitted: Fitted,
    case: str,
    loose: frozenset[str],
) -> list[Contact]:
    """Let each spot of a stack touch the next where they are on two bodies."""
    cover = cover_on(rebuild, spots, case, loose)
    extra = _own_extra(rebuild, cover, fitted.extra)
    chain = []
    for a, b in pairwise(spots):
        if a.part == b.part:
            continue
        length = placed[a.part].offsets[a.name] - placed[b.part].offsets[b.name]
        give = give_at(rebuild, a, joint=cover) + give_at(rebuild, b, joint=cover)
        if any(isinstance(rebuild.parts[owner(s.part)], SpringWasher) for s in (a, b)):
            give = 0.0  # nothing beside a spring, and which of its faces has its law must not tell
        law = _spring(rebuild, a.part, sample)
        contact = Contact(a.part, b.part, length, law, give=give)
        chain.append(_with_extra(contact, cover, extra))
    return chain


def _spring(rebuild: Rebuild, body: str, sample: Sample) -> Law | None:
    """Give the law of a spring washer, at the face behind it."""
    part = rebuild.parts.get(body)
    if not isinstance(part, SpringWasher) or part.force is None:
        return None
    free, at, solid = (typed(rebuild, sample.draws, part, f) for f in ("free", "at", "solid"))
    if free is None or at is None:
        return None
    pressed = np.maximum(free - at, 1e-6)
    travel = np.maximum(free - solid, 1e-6) if solid is not None else 2 * pressed
    return Law(spring_force, {"travel": travel, "rate": part.force.si / pressed})


def _rows(
    rebuild: Rebuild,
    line: Line,
    bodies: list[str],
    sample: Sample,
    fitted: Fitted,
    seats: Mapping[str, str],
) -> tuple[list[Contact], list[Grip]]:
    """Put the rows of all bearings of the line between their rings, and say what grips."""
    found: list[Contact] = []
    grips: list[Grip] = []
    usual = _usual_seats(rebuild, bodies)
    for name in dict.fromkeys(owner(body) for body in bodies if body not in rebuild.parts):
        part: Any = rebuild.parts[name]
        on = seats.get(ring(name, INNER)) or part.on or usual[Side.SHAFT]
        in_ = seats.get(ring(name, OUTER)) or part.in_ or usual[Side.CASE]
        grown = growth(rebuild, part, Around(on, in_, fitted.now.rises), sample.draws)
        grips += _grips(part, on, in_, grown, sample)
        warm = _warm(_rings(rebuild, part, sample), fitted.now.growth, on, in_)
        found += row(Seen(rebuild, part, sample, warm, grown), line)
    return found, grips


def _warm(cold: Rings, growth: Mapping[str, Array], on: str, in_: str) -> Rings:
    """Lengthen the rings of a bearing, each as warm as what it sits on or in."""
    inner, outer = cold.inner * growth.get(on, 1.0), cold.outer * growth.get(in_, 1.0)
    longer = (inner - cold.inner + outer - cold.outer) / 2
    width = None if cold.set_width is None else cold.set_width + longer
    return replace(cold, inner=inner, outer=outer, set_width=width)


def _usual_seats(rebuild: Rebuild, bodies: list[str]) -> dict[Side, str]:
    """Name the shaft and the case of a line, for bearings that no stack puts on or in anything."""
    parts = [name for name in bodies if name in rebuild.parts]
    turns = [name for name in parts if body_of(rebuild, name).floats]
    still = [name for name in parts if body_of(rebuild, name).stands is Stands.STILL]
    return {Side.SHAFT: (turns or [""])[0], Side.CASE: (still or [""])[0]}


def _grips(part: Bearing, on: str, in_: str, grown: Growth, sample: Sample) -> list[Grip]:
    """Say which rings of a bearing grip, and how far short of its seat each may have stopped."""
    found = []
    for body, host, limit, width in (
        (ring(part.name, INNER), on, grown.inner_grip, part.inner_width or part.width),
        (ring(part.name, OUTER), in_, grown.outer_grip, part.outer_width or part.width),
    ):
        if host:
            wide = metres(width) if isinstance(width, Size) else 0.0
            short = _short(part, limit, wide, sample)
            found.append(Grip(body, host, np.maximum(limit, LIGHT), short))
    return found


def _short(part: Bearing, limit: Array, width: float, sample: Sample) -> Array:
    """Say how far a ring stopped short: pressed too weakly, or fitted hot and drawn off."""
    short = full(sample.draws, 0.0)
    if part.pressed_with:
        entered = part.pressed_with.si / np.maximum(limit, 1e-9)
        short = width * np.maximum(1 - entered, 0.0)
    if part.fitted_hot_by:
        steel = MATERIALS["steel"].expansion
        most = draw_off(width, 0.0, 1.0, expansion=steel, rise=part.fitted_hot_by.si).most
        share = (1 + sample.draws.flat("parts", part.name, "drawn off")) / 2
        short = short + np.where(limit > 0, most * share, 0.0)
    return short


def _sealed(rebuild: Rebuild, bodies: list[str], sample: Sample, case: str) -> list[Grip]:
    """Let an O-ring hold a cartridge or cover."""
    nought = full(sample.draws, 0.0)
    return [
        Grip(name, case, full(sample.draws, part.o_ring.si), nought)
        for name in bodies
        if isinstance(part := rebuild.parts.get(name), Cover) and part.o_ring
    ]


def _clamped(rebuild: Rebuild, name: str, pull: Contact, sample: Sample, by_hand: bool) -> Contact:
    """Let a clamping nut pull with its force; screws pull home, by hand with what fingers give."""
    part = rebuild.parts[name]
    if not isinstance(part, Nut):
        nipped = BY_HAND * (1 + BY_HAND_SPREAD * sample.draws.flat("parts", name, "fingers"))
        return replace(pull, law=Law(steady, {"force": nipped})) if by_hand else pull
    force = sample.kept(("clamp", name), lambda: clamp_force(rebuild, part, sample.draws))
    return replace(pull, law=Law(steady, {"force": force}))


def _adjusted(
    rebuild: Rebuild,
    contacts: list[Contact],
    pulls: Mapping[str, Contact],
    hosts: Mapping[str, str],
    sample: Sample,
    locked: bool,
) -> dict[str, Contact]:
    """Set each adjusting nut so that the float it leaves is the one told, or nothing.

    A lock nut done up behind it pushes it on by the play of its thread.
    """
    found: dict[str, Contact] = {}
    for nut, host in hosts.items():
        part: Any = rebuild.parts[nut]
        set_to = full(sample.draws, 0.0)
        by = gauge(rebuild, part.set_to.instrument) if part.set_to else None
        if by:
            set_to = true_size(sample.draws, ("parts", nut, "set_to"), part.set_to, by)
        if locked and part.locked_by == LOCK_NUT:
            set_to = set_to - thread_play(part, sample.draws)
        every = [*contacts, *pulls.values(), *found.values()]
        for chain, sign in ((every, 1.0), (turned(every), -1.0)):
            beyond = nearest(chain, host).get(nut)
            if beyond is not None:
                ends = (nut, host) if sign > 0 else (host, nut)
                found[nut] = Contact(*ends, -beyond - set_to)
                break
    return found


def _set_cold(
    hosts: Mapping[str, str], cold: Network, growth: Mapping[str, Array]
) -> dict[str, Contact]:
    """Leave each adjusting nut where on its thread it was set cold: warm, that place has moved."""
    return {
        nut: replace(cold.pulls[nut], length=cold.pulls[nut].length * growth.get(host, 1.0))
        for nut, host in hosts.items()
        if nut in cold.pulls
    }


def _with_extra(contact: Contact, cover: str | None, extra: Mapping[str, float]) -> Contact:
    """Put what lies there besides under the later part, or into the joint of a cover."""
    under = cover if cover in (contact.before, contact.after) else contact.after
    more = extra.get(owner(under or ""), 0.0)
    return replace(contact, length=contact.length + more) if more else contact


def _own_extra(rebuild: Rebuild, cover: str | None, extra: Mapping[str, float]) -> dict[str, float]:
    """Leave a cover's share to its joint: it stands off there, not at its boss."""
    screwed = {n for n in extra if BODIES[rebuild.parts[n].kind].stands is Stands.SCREWED}
    return {n: x for n, x in extra.items() if n == cover or n not in screwed}
