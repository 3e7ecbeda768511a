"""What pushes on what along one line, in one state."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from dryfit.model.rebuild import FIRST_END, LAST_END, Line, Rebuild, Spot
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
    stacks = [[spot for spot in stack.spots if spot.part not in left_out] for stack in line.stacks]
    thick = {**sample.nipped, **packs}
    layouts = {
        part: _layout(rebuild, part, sample, thick, assumed or {})
        for part in sorted({spot.part for spots in stacks for spot in spots})
    }
    for part, factor in (growth or {}).items():
        if part in layouts:
            layouts[part] = _grown(layouts[part], factor)
    extra = extra or {}
    contacts = tuple(
        replace(c, length=c.length + _under(rebuild, c, extra))
        for spots in stacks
        for c in _contacts(spots, layouts)
    )
    case = next(
        (p.name for p in rebuild.parts.values() if BODIES[p.kind].stands is Stands.STILL), ""
    )
    return Network(case, contacts, _pulls(rebuild, case, contacts), layouts)


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


def _under(rebuild: Rebuild, contact: Contact, extra: Mapping[str, float]) -> float:
    """What lies between two parts besides: under the later one, or in the joint of a cover."""
    ends = (contact.before, contact.after)
    if any(_floats(rebuild, name) for name in ends):
        covers: tuple[str, ...] = ()
    else:
        covers = tuple(n for n in ends if BODIES[rebuild.parts[n].kind].stands is Stands.SCREWED)
    after = contact.after
    loose = BODIES[rebuild.parts[after].kind].stands is Stands.LOOSE
    return sum(extra.get(n, 0.0) for n in covers) + (extra.get(after, 0.0) if loose else 0.0)


def _pulls(rebuild: Rebuild, case: str, contacts: tuple[Contact, ...]) -> dict[str, Contact]:
    """Give each cover the contact that keeps it from leaving its joint.

    The joint is the way from case to cover over nothing that floats: gasket, shims, spacers.
    """
    pulls: dict[str, Contact] = {}
    still = [c for c in contacts if not any(_floats(rebuild, n) for n in (c.before, c.after))]
    for name, part in rebuild.parts.items():
        if BODIES[part.kind].stands is not Stands.SCREWED:
            continue
        beyond = nearest(still, case).get(name)
        before = nearest(turned(still), case).get(name)
        if beyond is not None:
            pulls[name] = Contact(name, case, -beyond)
        elif before is not None:
            pulls[name] = Contact(case, name, -before)
    return pulls


def _floats(rebuild: Rebuild, name: str) -> bool:
    return BODIES[rebuild.parts[name].kind].floats
