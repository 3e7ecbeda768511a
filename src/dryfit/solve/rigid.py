"""How far each part can go along a line when nothing gives.

A contact says that one part lies at least so far along from another. A part pushed to the last
end stops where the longest run of contacts back from what stands still allows, and so on: the
places are longest paths (a system of difference constraints), worked out for all draws at once.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dryfit.solve.equations import Law
from dryfit.solve.luck import Array

HAIR = 1e-12
"""Lengths are equal within this [m]."""


@dataclass(frozen=True, slots=True)
class Contact:
    """`after` lies at least `length` further along the line than `before`.

    Attributes
    ----------
    before, after
        Bodies.
    length
        Their distance as they just touch [m].
    law
        What force it takes to press them closer; None for two faces.
    zero
        Distance from which the law counts, where that is not `length` [m].
    give
        How much the parts on both sides of it shorten for each newton [m/N].
    """

    before: str
    after: str
    length: Array
    law: Law | None = None
    zero: Array | None = None
    give: float = 0.0


def nearest(contacts: Iterable[Contact], held: str) -> dict[str, Array]:
    """Least distance of each part beyond a part that is held, all pushed to the first end.

    Parameters
    ----------
    contacts
        What may touch [contacts]
    held
        The part that stands still [text]

    Returns
    -------
    distances
        By part; a part that nothing stops is absent [m], shape (n,)

    Valid
    -----
    Contacts that do not trap a part which is too long for its room.

    Source
    ------
    Longest path in a constraint graph: Cormen, Leiserson, Rivest, Stein, Introduction to
    Algorithms, 3rd ed., 24.4 (from memory).

    Examples
    --------
    >>> from dryfit.solve.luck import as_array
    >>> touch = Contact("case", "sleeve", as_array([0.0]))
    >>> through = Contact("sleeve", "nut", as_array([5e-3]))
    >>> float(nearest([touch, through], "case")["nut"][0])
    0.005
    """
    useful = [c for c in contacts if c.after != held]
    found: dict[str, Array] = {}
    parts = {c.before for c in useful} | {c.after for c in useful}
    moved = {held}
    for _ in range(len(parts)):
        moved = _relax(useful, found, moved)
        if not moved:
            break
    return found


def _relax(contacts: list[Contact], found: dict[str, Array], moved: set[str]) -> set[str]:
    """Push on by each contact behind a part that moved; name those that moved too late for one."""
    passed: set[str] = set()
    late: set[str] = set()
    pushing = set(moved)
    for contact in contacts:
        passed.add(contact.before)
        if contact.before not in pushing:
            continue
        start = found.get(contact.before)
        reach = contact.length if start is None else start + contact.length
        old = found.get(contact.after)
        if old is None or bool(np.any(reach > old)):
            found[contact.after] = reach if old is None else np.maximum(old, reach)
            pushing.add(contact.after)
            if contact.after in passed:
                late.add(contact.after)
    return late


def too_long(contacts: Sequence[Contact], places: Mapping[str, Array], held: str) -> Array:
    """Tell in which draws parts are too long for their room, so that none of their places is one.

    Parameters
    ----------
    contacts
        What may touch [contacts]
    places
        What `nearest` found for them [m], shape (n,) each
    held
        The part that stands still [text]

    Returns
    -------
    too long
        Where some part ought to be pushed on still further [-], shape (n,)

    Valid
    -----
    As `nearest`.

    Source
    ------
    As `nearest`: a cycle of positive length (24.1).

    Examples
    --------
    >>> from dryfit.solve.luck import as_array
    >>> ring = [Contact("case", "a", as_array([0.0])), Contact("a", "b", as_array([1e-3])),
    ...         Contact("b", "a", as_array([-0.9e-3]))]
    >>> too_long(ring, nearest(ring, "case"), "case").tolist()
    [True]
    """
    found = np.zeros(len(contacts[0].length) if contacts else 1, dtype=bool)
    for c in contacts:
        if c.after != held and c.before in places:
            found = found | (places[c.before] + c.length > places[c.after] + HAIR)
    return found


def push_on(contacts: Sequence[Contact], places: dict[str, Array], pusher: str) -> None:
    """Let a part that has been moved on push all that is in its way on before it.

    Parameters
    ----------
    contacts
        What may touch [contacts]
    places
        Of all parts, from what stands still, which is not among them; changed [m], shape (n,) each
    pusher
        The part that has moved [text]

    Valid
    -----
    As `nearest`.

    Source
    ------
    As `nearest`.

    Examples
    --------
    >>> from dryfit.solve.luck import as_array
    >>> places = {"shaft": as_array([5e-3]), "ring": as_array([0.0])}
    >>> push_on([Contact("shaft", "ring", as_array([1e-3]))], places, "shaft")
    >>> float(places["ring"][0])
    0.006
    """
    useful = [c for c in contacts if c.after in places and c.after != pusher]
    moved = {pusher}
    for _ in places:
        moved = _relax(useful, places, moved)
        if not moved:
            break


def turned(contacts: Sequence[Contact]) -> list[Contact]:
    """Look at a line from its other end.

    Parameters
    ----------
    contacts
        What may touch [contacts]

    Returns
    -------
    contacts
        The same contacts, last first, each with its parts exchanged [contacts]

    Valid
    -----
    Always.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import as_array
    >>> turned([Contact("a", "b", as_array([1.0]))])[0].before
    'b'
    """
    return [replace(c, before=c.after, after=c.before) for c in reversed(contacts)]


def room(contacts: Iterable[Contact], part: str, against: str) -> Array | None:
    """Travel that is left to a part between all that can stop it.

    Parameters
    ----------
    contacts
        What may touch [contacts]
    part
        The part that is pushed to and fro [text]
    against
        The part that stands still [text]

    Returns
    -------
    room
        Travel; negative where the parts are too long by so much; None where nothing stops the
        part one way [m], shape (n,)

    Valid
    -----
    Rigid parts, no friction.

    Source
    ------
    As `nearest`.

    Examples
    --------
    A cluster of 50 mm between faces 50.2 mm apart:

    >>> from dryfit.solve.luck import as_array
    >>> between = [Contact("case", "cluster", as_array([0.0])),
    ...            Contact("cluster", "case", as_array([50e-3 - 50.2e-3]))]
    >>> float(room(between, "cluster", "case")[0]) * 1e3
    0.2
    """
    listed = list(contacts)
    down = nearest(listed, against).get(part)
    up = nearest(turned(listed), against).get(part)
    return None if down is None or up is None else -(down + up)
