"""Faces one after the other that nothing else touches, taken together as one contact.

Spacers, rings and packs of a clamped stack are each a body of the line, yet between two of them
nothing pushes. So a run of such faces is as one that is as long and gives as much, and where its
parts lie follows from the force in it.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from dryfit.mechanics.formula import Array
from dryfit.solve.rigid import Contact

FACE = 5e9
"""Stiffness of two faces between parts that do not give: an estimate, far above any row [N/m]."""


@dataclass(frozen=True, slots=True)
class Run:
    """Contacts of which each begins at the body where the one before ends.

    Attributes
    ----------
    links
        Their numbers among all contacts.
    parts
        The contacts themselves.
    whole
        What they are together.
    """

    links: tuple[int, ...]
    parts: tuple[Contact, ...]
    whole: Contact

    @property
    def inside(self) -> tuple[str, ...]:
        """Bodies between the ends."""
        return tuple(contact.after for contact in self.parts[:-1])

    def inner_places(
        self, ends: tuple[Array, Array], start: Mapping[str, Array], force: Array
    ) -> dict[str, Array]:
        """Say where the bodies inside lie; loose ones stay where they were as far as they can."""
        place, last = ends
        left = np.sum([contact.length for contact in self.parts], axis=0)
        found = {}
        for contact in self.parts[:-1]:
            left = left - contact.length
            touching = place + contact.length
            loose = np.minimum(np.maximum(start[contact.after], touching), last - left)
            place = np.where(force > 0, touching - force * compliance(contact), loose)
            found[contact.after] = place
        return found


def runs(contacts: Sequence[Contact], kept: Collection[str]) -> list[Run]:
    """Take faces in a row together.

    Parameters
    ----------
    contacts
        Of a line [contacts]
    kept
        Bodies that are pushed, or that stand still [text]

    Returns
    -------
    runs
        Each contact is in one of them, most of them alone [runs]

    Valid
    -----
    Any line; what has a law, such as a grip, is left alone, and so are the bodies it touches.

    Source
    ------
    Springs in a row: Hooke.

    Examples
    --------
    >>> faces = [Contact("case", "ring", np.ones(1)), Contact("ring", "shim", 2 * np.ones(1))]
    >>> [(run.whole.after, run.whole.length.tolist()) for run in runs(faces, ["case", "shim"])]
    [('shim', [3.0])]
    """
    into: dict[str, list[int]] = {}
    out: dict[str, list[int]] = {}
    for n, contact in enumerate(contacts):
        into.setdefault(contact.after, []).append(n)
        out.setdefault(contact.before, []).append(n)
    middles = {
        name
        for name in into.keys() & out.keys() - {*kept}
        if len(into[name]) == len(out[name]) == 1
        and contacts[into[name][0]].law is None
        and contacts[out[name][0]].law is None
    }
    found: list[Run] = []
    done: set[int] = set()
    for n in sorted(range(len(contacts)), key=lambda n: contacts[n].before in middles):
        if n in done:
            continue
        links = [n]
        while (end := contacts[links[-1]].after) in middles and contacts[n].before != end:
            ahead = out[end][0]
            if contacts[ahead].after == contacts[n].before:
                break
            links.append(ahead)
        done.update(links)
        found.append(_run(contacts, links))
    return found


def _run(contacts: Sequence[Contact], links: Sequence[int]) -> Run:
    parts = tuple(contacts[n] for n in links)
    whole = parts[0]
    for contact in parts[1:]:
        give = compliance(whole) + contact.give
        whole = Contact(whole.before, contact.after, whole.length + contact.length, give=give)
    return Run(tuple(links), parts, whole)


def compliance(contact: Contact) -> float:
    """Say how much two faces and the parts on both sides give.

    Parameters
    ----------
    contact
        Two faces [contact]

    Returns
    -------
    compliance
        For each newton [m/N]

    Valid
    -----
    Contacts without a law.

    Source
    ------
    Springs in a row: Hooke.

    Examples
    --------
    >>> compliance(Contact("a", "b", np.zeros(1), give=1e-9)) * 1e9
    1.2
    """
    return 1 / FACE + contact.give
