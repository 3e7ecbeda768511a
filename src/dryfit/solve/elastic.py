"""A line with all that gives: rows, springs, clamped rings, covers, brought to rest.

The contacts of `network` become elements, each with its law; two faces without one are as stiff as
the parts on both sides of them. A clamping nut pulls with the force of its torque.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dryfit.mechanics.formula import Array
from dryfit.mechanics.pushed import faces, grip, steady
from dryfit.mechanics.springs import spring_force
from dryfit.solve.equations import GROUND, Element, Law
from dryfit.solve.equilibrium import Rest, settle
from dryfit.solve.network import Network
from dryfit.solve.newton import RunsAway
from dryfit.solve.rigid import Contact, nearest, push_on, turned
from dryfit.solve.rings import INNER, owner, ring
from dryfit.solve.rows import NOTHING
from dryfit.solve.series import compliance, runs

HAND = 100.0
"""What holds against more than this in every draw does not move while a float is felt [N]."""


@dataclass(frozen=True, slots=True)
class Held:
    """A line at rest.

    Attributes
    ----------
    net
        Its network.
    contacts
        In the order of the forces.
    bodies
        Names, in the order of the places.
    rest
        Places and forces.
    """

    net: Network
    contacts: tuple[Contact, ...]
    bodies: tuple[str, ...]
    rest: Rest

    def place(self, body: str) -> Array:
        """Say how far a body has gone along the line from the case [m], shape (n,)."""
        if body == self.net.case:
            return np.zeros(self.rest.places.shape[1])
        found: Array = self.rest.places[self.bodies.index(body)]
        return found

    def force(self, before: str, after: str) -> Array:
        """Add up what pushes two bodies apart [N], shape (n,)."""
        found = np.zeros(self.rest.forces.shape[1])
        for contact, force in zip(self.contacts, self.rest.forces, strict=True):
            if (contact.before, contact.after) == (before, after):
                found = found + force
        return found

    def moved_to(self, places: Mapping[str, Array]) -> "Held":
        """Give the same with its bodies elsewhere, to begin from."""
        there = np.array([places[body] for body in self.bodies]).reshape(self.rest.places.shape)
        return replace(self, rest=replace(self.rest, places=there))

    def pressed(self) -> list[Contact]:
        """Give all contacts as long as they are under load: what is pressed together just touches.

        A nut that clamps stands where its force has brought it, and what friction holds against a
        hand where it is.
        """
        return [one for contact in self.contacts for one in self._under_load(contact)]

    def _under_load(self, contact: Contact) -> list[Contact]:
        now = self.distance(contact)
        if contact.law and contact.law.formula is grip:
            fast = bool(np.all(contact.law.arguments["limit"] > HAND))
            both = [Contact(contact.before, contact.after, now)]
            return [*both, Contact(contact.after, contact.before, -now)] if fast else []
        if contact.law and contact.law.formula is steady and contact.law is not NOTHING:
            return [replace(contact, length=now)]
        return [replace(contact, length=np.minimum(contact.length, now))]

    def distance(self, contact: Contact) -> Array:
        """Say how far the bodies of a contact are apart [m], shape (n,)."""
        return self.place(contact.after) - self.place(contact.before)

    def _is_loose(self, body: str) -> bool:
        """Tell a ring that nothing but its own row, a spring or friction keeps in its place."""
        springs = {c.before for c in self.net.closed if c.law and c.law.formula is spring_force}
        touching = [{c.before, c.after} for c in self.net.closed if body in (c.before, c.after)]
        own = [both for both in touching if not both & springs]
        return all(len({owner(end) for end in both}) == 1 for both in own)

    def nip(self) -> Array:
        """Say by how much the rows are pressed together between them, minus: their play [m].

        Moved along, the inner rings close the rows that stop them that way and open the others; so
        it is the least of either sort that counts.
        """
        gaps: dict[bool, Array] = {}
        for contact in self.contacts:
            if owner(contact.before) == owner(contact.after):
                if any(self._is_loose(body) for body in (contact.before, contact.after)):
                    continue
                gap = self.distance(contact) - contact.length
                way = contact.before == ring(owner(contact.before), INNER)
                gaps[way] = np.minimum(gaps[way], gap) if way in gaps else gap
        if len(gaps) < 2:
            return np.zeros(self.rest.places.shape[1])
        nip: Array = -(gaps[True] + gaps[False])
        return nip


class Stray(Exception):
    """Nothing stops a body.

    Attributes
    ----------
    bodies
        Names of those that run away.
    """

    def __init__(self, bodies: tuple[str, ...]) -> None:
        super().__init__(f"nothing stops {', '.join(bodies)}")
        self.bodies = bodies


def hold(net: Network, pushes: Mapping[str, Array], start: Held | None = None) -> Held:
    """Bring a line to rest.

    Parameters
    ----------
    net
        The line in one state [network]
    pushes
        Forces along the line, by body [N], shape (n,)
    start
        Where the bodies were [held]

    Returns
    -------
    held
        The line at rest [held]

    Raises
    ------
    Stray
        Nothing stops a body that is pushed.

    Valid
    -----
    Laws of convex energies.

    Source
    ------
    None needed.

    Examples
    --------
    >>> hold(Network("case", (), {}, {}), {}).bodies
    ()
    """
    contacts = (*net.closed, *net.held)
    bodies = tuple(sorted({n for c in contacts for n in (c.before, c.after)} - {net.case}))
    draws = len(contacts[0].length) if contacts else 1
    first = _carried(start, pushes) if start else _first(net, bodies, draws)
    rest = _rest(contacts, dict(zip(bodies, first, strict=True)), net.case, pushes)
    return Held(net, contacts, bodies, rest)


def _rest(
    contacts: Sequence[Contact],
    first: Mapping[str, Array],
    case: str,
    pushes: Mapping[str, Array],
) -> Rest:
    """Settle what is left when faces in a row are taken together; then spread these out again."""
    rows = runs(contacts, {case, *pushes})
    inside = {name for row in rows for name in row.inside}
    ends = [name for name in first if name not in inside]
    number = {name: at for at, name in enumerate(ends)} | {case: GROUND}
    draws = len(contacts[0].length) if contacts else 1
    start = np.array([first[name] for name in ends]).reshape(len(ends), draws)
    loads = np.zeros((len(ends), draws))
    for name, force in pushes.items():
        if name != case:
            loads[number[name]] += force
    elements = [_element(row.whole, number) for row in rows]
    try:
        rest = settle(len(ends), elements, loads, start)
    except RunsAway as run:
        raise Stray(tuple(ends[body] for body in run.bodies)) from run
    places = {case: np.zeros(draws), **dict(zip(ends, rest.places, strict=True))}
    forces = np.zeros((len(contacts), draws))
    for row, force in zip(rows, rest.forces, strict=True):
        forces[[*row.links]] = force
        tips = places[row.whole.before], places[row.whole.after]
        places |= row.inner_places(tips, first, force)
    found = np.array([places[name] for name in first]).reshape(len(first), draws)
    return Rest(found, forces)


def _first(net: Network, bodies: Sequence[str], draws: int) -> Array:
    """Begin with all parts pushed to the first end as rigid ones are, loose ones by a neighbour."""
    found = {net.case: np.zeros(draws), **nearest(net.closed, net.case)}
    for _ in bodies:
        for contact in net.closed:
            if contact.before in found and contact.after not in found:
                found[contact.after] = found[contact.before] + contact.length
            elif contact.after in found and contact.before not in found:
                found[contact.before] = found[contact.after] - contact.length
    for name in bodies:
        middle = in_its_float(net, name, found)
        if middle is not None:
            found[name] = middle
    return np.array([found.get(name, np.zeros(draws)) for name in bodies]).reshape(-1, draws)


def _carried(start: Held, pushes: Mapping[str, Array]) -> Array:
    """Begin with each pushed body gone as far as it can, and what it takes along."""
    contacts, case = start.pressed(), start.net.case
    places = {name: start.place(name) for name in start.bodies}
    for name, force in pushes.items():
        ahead = bool(np.mean(force) > 0)
        way, sign = (contacts, 1.0) if ahead else (turned(contacts), -1.0)
        back = nearest(turned(way), case).get(name)
        if name in places and back is not None:
            taken = {body: sign * place for body, place in places.items()}
            taken[name] = np.maximum(taken[name], -back)
            push_on(way, taken, name)
            places = {body: sign * place for body, place in taken.items()}
    return np.array([places[name] for name in start.bodies]).reshape(start.rest.places.shape)


def in_its_float(net: Network, body: str, found: Mapping[str, Array]) -> Array | None:
    """Put a ring that touches nothing but its own row into the middle of that row's float.

    Parameters
    ----------
    net
        The line [network]
    body
        The ring [text]
    found
        Where the others are [m], shape (n,) each

    Returns
    -------
    place
        None for a body that touches anything else, or that its row stops one way only [m]

    Valid
    -----
    Places of all its neighbours.

    Source
    ------
    None needed: it may be left anywhere in its float, and the middle favours no side.

    Examples
    --------
    >>> in_its_float(Network("case", (), {}, {}), "rear/outer ring", {}) is None
    True
    """
    own = [c for c in net.closed if body in (c.before, c.after)]
    beside = {name for c in own for name in (c.before, c.after)} - {body}
    if not beside <= set(found) or any(owner(c.before) != owner(c.after) for c in own):
        return None
    least = [found[c.before] + c.length for c in own if c.after == body]
    most = [found[c.after] - c.length for c in own if c.before == body]
    return (least[0] + most[0]) / 2 if least and most else None


def _element(contact: Contact, number: Mapping[str, int]) -> Element:
    offset = contact.length if contact.zero is None else contact.zero
    law = contact.law or Law(faces, {"stiffness": 1 / compliance(contact)})
    name = f"{contact.before} to {contact.after}"
    return Element(name, number[contact.before], number[contact.after], offset, law)
