"""What pushes on what along one line, in one state."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import pairwise
from typing import Any

import numpy as np

from dryfit.mechanics.pushed import steady
from dryfit.mechanics.springs import spring_force
from dryfit.model.parts import Nut, SpringWasher
from dryfit.model.rebuild import FINGERS, LOCKED, EndFloat, FloatNeed, Line, PreloadNeed, Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.bodies import BODIES, Stands
from dryfit.solve.equations import Law
from dryfit.solve.give import give_at
from dryfit.solve.grips import LIGHT, Grip, grips, sealed
from dryfit.solve.growth import Around, growth
from dryfit.solve.joints import adjusters, body_of, cover_on, pulls_of
from dryfit.solve.luck import Array, full
from dryfit.solve.placed import kept_rings, placed
from dryfit.solve.rigid import Contact, nearest, turned
from dryfit.solve.rings import INNER, OUTER, on_rings, owner, ring
from dryfit.solve.rows import Rings, Seen, row, typed
from dryfit.solve.sample import Sample
from dryfit.solve.seats import seats
from dryfit.solve.sizes import gauge, true_size
from dryfit.solve.spots import Layout
from dryfit.solve.states import Fitted
from dryfit.solve.threads import LOCK_NUT, clamp_force, thread_play

BY_HAND, BY_HAND_SPREAD = 700.0, 0.6
"""Pull of a cover's screws done up by fingers alone, all together [N], and how far it differs [-]:
estimate, four small screws at 0.1 to 0.3 N m."""


TOUCHING, TOUCH = "touching", 1.0
"""Of screws that only keep a cover from falling off, and what they pull then [N]."""


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
    hosts
        What each nut that adjusts is screwed to.
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
    hosts: Mapping[str, str] = field(default_factory=dict)
    gives: bool = False
    grips: tuple[Grip, ...] = ()
    held: tuple[Contact, ...] = ()

    @property
    def closed(self) -> tuple[Contact, ...]:
        """All contacts with every cover pulled home."""
        return (*self.contacts, *self.pulls.values())


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
    sits = seats(rebuild, stacks)
    layouts = {name: placed(rebuild, line, name, sample, fitted, sits) for name in bodies}
    case = next(
        (p.name for p in rebuild.parts.values() if BODIES[p.kind].stands is Stands.STILL), ""
    )
    loose = floating(rebuild)
    chains = [(s, _chain(rebuild, s, layouts, sample, fitted, case, loose)) for s in stacks]
    contacts = [contact for _, chain in chains for contact in chain]
    rows, gripped = _rows(rebuild, line, bodies, sample, fitted, sits)
    contacts += rows
    gripped += sealed(rebuild, bodies, sample, case)
    if not any(np.any(g.limit > LIGHT) for g in gripped):
        gripped = []
    pulls = pulls_of(rebuild, chains, case, loose)
    screws = fitted.now.screws
    slack = {n for n in fitted.extra if _threaded(rebuild, n)}
    pulls = {name: _clamped(rebuild, name, pull, sample, screws) for name, pull in pulls.items()}
    pulls |= {n: _not_up(pull, fitted.extra[n]) for n, pull in pulls.items() if n in slack}
    hosts = adjusters(rebuild, pulls, stacks, sits)
    if hosts and fitted.now.growth:
        pulls |= _set_cold(hosts, network(rebuild, line, sample, fitted.cold), fitted.now.growth)
    else:
        turned_back = {n: fitted.extra[n] for n in slack}
        pulls |= _adjusted(rebuild, contacts, pulls, hosts, sample, fitted, turned_back)
    gives = any(body_of(rebuild, name).gives for name in bodies)
    return Network(case, tuple(contacts), pulls, layouts, hosts, gives, tuple(gripped))


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
    named = {one.of for one in asked if isinstance(one, FloatNeed | PreloadNeed | EndFloat)}
    by_kind = {name for name, part in rebuild.parts.items() if BODIES[part.kind].floats}
    return frozenset(named | by_kind)


def _chain(
    rebuild: Rebuild,
    spots: list[Spot],
    layouts: Mapping[str, Layout],
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
        length = layouts[a.part].offsets[a.name] - layouts[b.part].offsets[b.name]
        give = sum(_give(rebuild, sample, spot, cover) for spot in (a, b))
        if any(isinstance(rebuild.parts[owner(s.part)], SpringWasher) for s in (a, b)):
            give = 0.0  # nothing beside a spring, and which of its faces has its law must not tell
        law = _spring(rebuild, a.part, sample)
        contact = Contact(a.part, b.part, length, law, give=give)
        chain.append(_with_extra(contact, cover, extra, (str(a), str(b))))
    return chain


def _give(rebuild: Rebuild, sample: Sample, spot: Spot, cover: str | None) -> float:
    """Say what a face yields, once for each sample."""
    key = ("give", owner(spot.part), spot.part, spot.name, cover or "")
    return sample.kept(key, lambda: give_at(rebuild, spot, joint=cover))


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
    sits: Mapping[str, str],
) -> tuple[list[Contact], list[Grip]]:
    """Put the rows of all bearings of the line between their rings, and say what grips."""
    found: list[Contact] = []
    found_grips: list[Grip] = []
    for name in dict.fromkeys(owner(body) for body in bodies if body not in rebuild.parts):
        on, in_ = (sits.get(ring(name, which), "") for which in (INNER, OUTER))
        contacts, holds = sample.kept(
            ("rows", line.name, name, on, in_, fitted.now.warmth),
            partial(_bearing, rebuild, line, rebuild.parts[name], sample, fitted, (on, in_)),
        )
        found += contacts
        found_grips += holds
    return found, found_grips


def _bearing(
    rebuild: Rebuild, line: Line, part: Any, sample: Sample, fitted: Fitted, seats: tuple[str, str]
) -> tuple[Sequence[Contact], Sequence[Grip]]:
    """Give the rows of a bearing and what grips, from what it sits on and in."""
    on, in_ = seats
    grown = growth(rebuild, part, Around(on, in_, fitted.now.rises), sample.draws)
    warm = _warm(kept_rings(rebuild, part, sample), fitted.now.growth, on, in_)
    contacts = row(Seen(rebuild, part, sample, warm, grown), line)
    return contacts, grips(part, on, in_, grown, sample)


def _warm(cold: Rings, growth: Mapping[str, Array], on: str, in_: str) -> Rings:
    """Lengthen the rings of a bearing, each as warm as what it sits on or in."""
    inner, outer = cold.inner * growth.get(on, 1.0), cold.outer * growth.get(in_, 1.0)
    longer = (inner - cold.inner + outer - cold.outer) / 2
    width = None if cold.set_width is None else cold.set_width + longer
    return replace(cold, inner=inner, outer=outer, set_width=width)


def _clamped(rebuild: Rebuild, name: str, pull: Contact, sample: Sample, screws: str) -> Contact:
    """Let a clamping nut pull with its force; screws pull home unless they are not tight."""
    part = rebuild.parts[name]
    if isinstance(part, Nut):
        force = sample.kept(("clamp", name), lambda: clamp_force(rebuild, part, sample.draws))
    elif screws == FINGERS:
        force = BY_HAND * (1 + BY_HAND_SPREAD * sample.draws.flat("parts", name, "fingers"))
    elif screws == TOUCHING:
        force = full(sample.draws, TOUCH)
    else:
        return pull
    return replace(pull, law=Law(steady, {"force": force}))


def _adjusted(
    rebuild: Rebuild,
    contacts: list[Contact],
    pulls: Mapping[str, Contact],
    hosts: Mapping[str, str],
    sample: Sample,
    fitted: Fitted,
    turned_back: Mapping[str, Any],
) -> dict[str, Contact]:
    """Set each adjusting nut so that the float it leaves is the one told, or nothing.

    A lock nut done up behind it pushes it on by the play of its thread; it may have been turned
    back since, or dragged on.
    """
    found: dict[str, Contact] = {}
    for nut, host in hosts.items():
        part: Any = rebuild.parts[nut]
        set_to = full(sample.draws, 0.0)
        by = gauge(rebuild, part.set_to.instrument) if part.set_to else None
        if nut in fitted.packs:
            set_to = fitted.packs[nut]
        elif by:
            set_to = true_size(sample.draws, ("parts", nut, "set_to"), part.set_to, by)
        if fitted.now.nuts == LOCKED and part.locked_by == LOCK_NUT:
            set_to = set_to - thread_play(part, sample.draws)
        set_to = set_to + turned_back.get(nut, 0.0)
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


def _not_up(pull: Contact, back: Any) -> Contact:
    """Let a clamping nut stand back on its thread: it does not pull, and goes no further."""
    return replace(pull, length=pull.length - back, law=None)


def _threaded(rebuild: Rebuild, name: str) -> bool:
    return name in rebuild.parts and BODIES[rebuild.parts[name].kind].stands is Stands.THREADED


def _with_extra(
    contact: Contact, cover: str | None, extra: Mapping[str, Any], faces: tuple[str, str]
) -> Contact:
    """Put what lies there besides under the later part, into the joint of a cover, or on a face."""
    under = cover if cover in (contact.before, contact.after) else contact.after
    more = [extra[name] for name in (owner(under or ""), *faces) if name in extra]
    return replace(contact, length=contact.length + sum(more)) if more else contact


def _own_extra(rebuild: Rebuild, cover: str | None, extra: Mapping[str, Any]) -> dict[str, Any]:
    """Leave a cover's share to its joint: it stands off there, not at its boss.

    What is told of a nut is how far it stands back on its thread, nothing under it.
    """
    screwed = {n for n in extra if _screwed(rebuild, n)}
    return {
        n: x
        for n, x in extra.items()
        if not _threaded(rebuild, n) and (n == cover or n not in screwed)
    }


def _screwed(rebuild: Rebuild, name: str) -> bool:
    return name in rebuild.parts and BODIES[rebuild.parts[name].kind].stands is Stands.SCREWED
