"""What pushes on what along one line, in one state."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from dryfit.model.rebuild import FIRST_END, LAST_END, EndFloat, Line, Need, Rebuild, Spot
from dryfit.solve.bodies import BODIES, Stands
from dryfit.solve.luck import Array, full
from dryfit.solve.rigid import Contact, nearest, turned
from dryfit.solve.sample import Sample
from dryfit.solve.spots import Layout, lay_out


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
        For each cover on its joint, the contact that its screws add.
    layouts
        Where the spots of each part lie [m].
    """

    case: str
    contacts: tuple[Contact, ...]
    pulls: Mapping[str, Contact]
    layouts: Mapping[str, Layout]

    @property
    def closed(self) -> tuple[Contact, ...]:
        """All contacts with every cover pulled home."""
        return (*self.contacts, *self.pulls.values())


def network(
    rebuild: Rebuild,
    line: Line,
    sample: Sample,
    *,
    packs: Mapping[str, Array],
    left_out: frozenset[str] = frozenset(),
    growth: Mapping[str, Array] | None = None,
    extra: Mapping[str, float] | None = None,
    assumed: Mapping[str, float] | None = None,
) -> Network:
    """Build the network of one line.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    line
        One of its lines [line]
    sample
        True sizes [m], shape (n,) each
    packs
        Thickness of each setting [m], shape (n,) each
    left_out
        Parts that are not fitted [text]
    growth
        Factor on all lengths of a warm part [-], shape (n,) each
    extra
        What lies under a part besides, or how far a cover is not home, by part [m]
    assumed
        Values for what is not known, by key [m]

    Returns
    -------
    network
        Contacts and pulls [m], shape (n,) each

    Valid
    -----
    One housing; rigid parts.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> r = Rebuild("mm")
    >>> network(r, Line("spindle", "nose", "tail", ()), sample(r, NoLuck()), packs={}).contacts
    ()
    """
    ordered = sorted(line.stacks, key=lambda stack: stack.name)
    stacks = [[spot for spot in stack.spots if spot.part not in left_out] for stack in ordered]
    thick = {**sample.nipped, **packs}
    layouts = {
        part: _layout(rebuild, part, sample, thick, assumed or {})
        for part in sorted({spot.part for spots in stacks for spot in spots})
    }
    for part, factor in (growth or {}).items():
        if part in layouts:
            layouts[part] = _grown(layouts[part], factor)
    case = next(
        (p.name for p in rebuild.parts.values() if BODIES[p.kind].stands is Stands.STILL), ""
    )
    loose = floating(rebuild)
    contacts: list[Contact] = []
    joints: dict[str, list[Contact]] = {}
    for spots in stacks:
        cover = cover_on(rebuild, spots, case, loose)
        own = _own_extra(rebuild, cover, extra or {})
        chain = [_with_extra(c, cover, own) for c in _contacts(spots, layouts)]
        contacts += chain
        if cover:
            joints.setdefault(cover, []).extend(chain)
    pulls = {cover: _pull(case, cover, chain) for cover, chain in joints.items()}
    return Network(case, tuple(contacts), pulls, layouts)


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


def _layout(
    rebuild: Rebuild,
    part: str,
    sample: Sample,
    thick: Mapping[str, Array],
    assumed: Mapping[str, float],
) -> Layout:
    """Place the spots of one part; a pack or a gasket is as thick as told."""
    if part in thick:
        nought = full(sample.draws, 0.0)
        return Layout({FIRST_END: nought, LAST_END: thick[part]}, (), frozenset())
    kept = (part, tuple(sorted(assumed.items())))
    if kept not in sample.layouts:
        sample.layouts[kept] = _worked_out(rebuild, part, sample, assumed)
    return sample.layouts[kept]


def _worked_out(
    rebuild: Rebuild, part: str, sample: Sample, assumed: Mapping[str, float]
) -> Layout:
    """Place the spots of one part from its sizes."""
    used = {
        spot.name
        for line in rebuild.lines.values()
        for stack in line.stacks
        for spot in stack.spots
        if spot.part == part
    }
    own = [between for between in rebuild.sizes.values() if between.start.part == part]
    return lay_out(
        part,
        own,
        used=used,
        values={b.key: sample.sizes[b.key] for b in own if b.key in sample.sizes},
        doubts=sample.doubts,
        draws=sample.draws,
        assumed=assumed,
    )


def _grown(layout: Layout, factor: Array) -> Layout:
    """Lengthen a warm part."""
    return replace(layout, offsets={n: x * factor for n, x in layout.offsets.items()})


def _contacts(spots: list[Spot], layouts: Mapping[str, Layout]) -> list[Contact]:
    """Let each spot of a stack touch the next where they are on two parts."""
    return [
        Contact(a.part, b.part, layouts[a.part].offsets[a.name] - layouts[b.part].offsets[b.name])
        for a, b in pairwise(spots)
        if a.part != b.part
    ]


def cover_on(
    rebuild: Rebuild, spots: Sequence[Spot], case: str, loose: frozenset[str]
) -> str | None:
    """Name the cover whose joint a stack is: from case to cover over nothing that floats.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    spots
        The stack [spots]
    case
        The housing [text]
    loose
        Parts that may float [text]

    Returns
    -------
    cover
        Its name, or None for a stack that is no joint [text]

    Valid
    -----
    Any stack.

    Source
    ------
    None needed.

    Examples
    --------
    >>> cover_on(Rebuild("mm"), [], "case", frozenset()) is None
    True
    """
    parts = [spot.part for spot in spots]
    ends = {parts[0], parts[-1]} if parts else set()
    covers = [n for n in ends if n and BODIES[rebuild.parts[n].kind].stands is Stands.SCREWED]
    if case not in ends or not covers or loose & set(parts):
        return None
    return covers[0]


def _with_extra(contact: Contact, cover: str | None, extra: Mapping[str, float]) -> Contact:
    """Put what lies there besides under the later part, or into the joint of a cover."""
    under = cover if cover in (contact.before, contact.after) else contact.after
    more = extra.get(under or "", 0.0)
    return replace(contact, length=contact.length + more) if more else contact


def _own_extra(rebuild: Rebuild, cover: str | None, extra: Mapping[str, float]) -> dict[str, float]:
    """Leave a cover's share to its joint: it stands off there, not at its boss."""
    screwed = {n for n in extra if BODIES[rebuild.parts[n].kind].stands is Stands.SCREWED}
    return {n: x for n, x in extra.items() if n == cover or n not in screwed}


def _pull(case: str, cover: str, joint: list[Contact]) -> Contact:
    """Keep a cover from leaving its joint, as its screws do."""
    beyond = nearest(joint, case).get(cover)
    if beyond is not None:
        return Contact(cover, case, -beyond)
    return Contact(case, cover, -nearest(turned(joint), case)[cover])
