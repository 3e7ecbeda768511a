"""What is screwed to what: covers and cartridges on their hosts, nuts on shafts and in the case.

A joint is a stack from a host to what is screwed to it, over nothing that turns, gives or floats.
The screws pull it solid. A nut without a joint of its own adjusts: it pushes on to rows alone, and
stands where it is set.
"""

from collections.abc import Iterable, Mapping, Sequence

from dryfit.model.parts import Nut
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.bodies import BODIES, Body, Side, Stands
from dryfit.solve.rigid import Contact, nearest, turned
from dryfit.solve.rings import owner


def body_of(rebuild: Rebuild, name: str) -> Body:
    """Look up how a body behaves by the kind of its part.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    name
        A part or a ring of one [text]

    Returns
    -------
    body
        Row of `BODIES` [row]

    Valid
    -----
    Parts of the rebuild.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.model.parts import Shaft
    >>> body_of(Rebuild("mm", parts={"shaft": Shaft("shaft", "shaft")}), "shaft").floats
    True
    """
    return BODIES[rebuild.parts[owner(name)].kind]


def cover_on(
    rebuild: Rebuild, spots: Sequence[Spot], case: str, loose: frozenset[str]
) -> str | None:
    """Name what is screwed on at a stack: from its host to it over nothing that floats or gives.

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
    found = _joint(rebuild, spots, case, loose)
    return found[1] if found else None


def _joint(
    rebuild: Rebuild, spots: Sequence[Spot], case: str, loose: frozenset[str]
) -> tuple[str, str] | None:
    """Give host and what is screwed to it."""
    parts = list(dict.fromkeys(spot.part for spot in spots))
    if len(parts) < 2 or loose & set(parts[1:-1]):
        return None
    for host, guest in ((parts[0], parts[-1]), (parts[-1], parts[0])):
        if _may_hold(rebuild, host, guest, case):
            solid = all(_may_lie(rebuild, name, guest) for name in parts[1:-1])
            return (host, guest) if solid else None
    return None


def _may_lie(rebuild: Rebuild, between: str, guest: str) -> bool:
    """Tell whether a body may lie in a joint: rings only under a nut, which clamps them."""
    if between not in rebuild.parts:
        return body_of(rebuild, guest).stands is Stands.THREADED
    return body_of(rebuild, between).joins


def _may_hold(rebuild: Rebuild, host: str, guest: str, case: str) -> bool:
    """Tell whether the one may be screwed to the other."""
    to, on = body_of(rebuild, host), body_of(rebuild, guest)
    if on.stands is Stands.SCREWED:
        return host == case or (to.hosts and not on.hosts)
    if on.stands is Stands.THREADED:
        wanted = Side.SHAFT if on.side is Side.SHAFT else Side.CASE
        return to.side is wanted and to.stands is not Stands.THREADED
    return False


def pulls_of(
    rebuild: Rebuild,
    chains: Iterable[tuple[Sequence[Spot], Sequence[Contact]]],
    case: str,
    loose: frozenset[str],
) -> dict[str, Contact]:
    """Find what the screws of each cover and the thread of each clamping nut hold.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    chains
        Each stack with its contacts [stacks]
    case
        The housing [text]
    loose
        Parts that may float [text]

    Returns
    -------
    pulls
        By what is screwed on, the contact that keeps it from leaving its joint [contacts]

    Valid
    -----
    Stacks of one line.

    Source
    ------
    None needed.

    Examples
    --------
    >>> pulls_of(Rebuild("mm"), [], "case", frozenset())
    {}
    """
    joints: dict[tuple[str, str], list[Contact]] = {}
    for spots, contacts in chains:
        found = _joint(rebuild, spots, case, loose)
        if found:
            joints.setdefault(found, []).extend(contacts)
    return {guest: pull(host, guest, chain) for (host, guest), chain in joints.items()}


def pull(host: str, guest: str, joint: Sequence[Contact]) -> Contact:
    """Keep what is screwed on from leaving its joint.

    Parameters
    ----------
    host
        What it is screwed to [text]
    guest
        What is screwed on [text]
    joint
        Contacts between them [contacts]

    Returns
    -------
    pull
        A contact that works the other way [contact]

    Valid
    -----
    A chain from one to the other.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import as_array
    >>> pull("case", "cover", [Contact("case", "cover", as_array([5e-3]))]).length
    array([-0.005])
    """
    beyond = nearest(joint, host).get(guest)
    if beyond is not None:
        return Contact(guest, host, -beyond)
    return Contact(host, guest, -nearest(turned(joint), host)[guest])


def adjusters(
    rebuild: Rebuild,
    pulls: Mapping[str, Contact],
    stacks: Sequence[Sequence[Spot]],
    seats: Mapping[str, str],
) -> dict[str, str]:
    """Find the nuts without a joint of their own, each with what it is screwed to.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    pulls
        What has a joint [contacts]
    stacks
        Of the line, bearings as their rings [stacks]
    seats
        What each ring sits on or in: a nut is screwed to what carries the rings beside it [text]

    Returns
    -------
    hosts
        By nut; one whose host is not clear is absent [text]

    Valid
    -----
    One shaft a line.

    Source
    ------
    None needed.

    Examples
    --------
    >>> adjusters(Rebuild("mm"), {}, [], {})
    {}
    """
    parts = [list(dict.fromkeys(spot.part for spot in spots)) for spots in stacks]
    still = {name for group in parts for name in group if name in rebuild.parts}
    listed = sorted(
        still, key=lambda name: (body_of(rebuild, name).stands is not Stands.STILL, name)
    )
    hosts = {}
    for name in listed:
        if isinstance(rebuild.parts[name], Nut) and name not in pulls:
            beside = [seats[b] for group in parts if name in group for b in group if b in seats]
            able = [other for other in [*beside, *listed] if _may_carry(rebuild, name, other)]
            if able:
                hosts[name] = able[0]
    return hosts


def _may_carry(rebuild: Rebuild, nut: str, host: str) -> bool:
    """Tell whether a nut may sit on a part: a shaft, or the case and what is screwed to it."""
    side, to = body_of(rebuild, nut).side, body_of(rebuild, host)
    carries = to.floats if side is Side.SHAFT else to.hosts or to.stands is Stands.SCREWED
    return carries and to.side is side
