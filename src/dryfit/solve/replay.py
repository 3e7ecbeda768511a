"""The build gone through in order, where friction makes the order count.

A ring that grips its seat, or a cartridge held by an O-ring, stays where it was left until
something pushes harder than it holds. So the unit is put together cold: each ring where pressing
or cooling left it, then covers and nuts done up. Where everything then is, all that grips is
anchored, and checks, other states and heat start from there.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from dryfit.mechanics.formula import Array
from dryfit.mechanics.pushed import grip
from dryfit.mechanics.springs import spring_force
from dryfit.solve.elastic import Held, hold, in_its_float
from dryfit.solve.equations import Law
from dryfit.solve.grips import Grip
from dryfit.solve.network import Network
from dryfit.solve.rigid import Contact, nearest, turned
from dryfit.solve.rings import owner


def assembled(cold: Network) -> Held:
    """Put a unit together cold.

    Parameters
    ----------
    cold
        The line as warm as the room [network]

    Returns
    -------
    held
        The line at rest, rings where friction left them [held]

    Raises
    ------
    Stray
        Nothing stops a body.

    Valid
    -----
    Rings put on one after the other, then covers and nuts; no knocking, no stick-slip.

    Source
    ------
    Each step is the least of energy and friction work from the one before (incremental
    minimisation of a rate-independent system; Mielke and Roubicek, 2015, from memory).

    Examples
    --------
    >>> assembled(Network("case", (), {}, {})).bodies
    ()
    """
    put_on = {g.body: place for g in cold.grips if (place := _put_on(cold, g)) is not None}
    return hold(with_grips(cold, put_on), {})


@dataclass(frozen=True, slots=True)
class Built:
    """A unit after the build.

    Attributes
    ----------
    held
        The line at rest, cold.
    sits
        Distance from its host of each body that grips [m], shape (n,).
    """

    held: Held
    sits: Mapping[str, Array]


def built(cold: Network) -> Built:
    """Say where all that grips sits after the build, from its host.

    Parameters
    ----------
    cold
        The line as warm as the room [network]

    Returns
    -------
    built
        The line, and where friction takes hold [built]

    Raises
    ------
    Stray
        Nothing stops a body.

    Valid
    -----
    As `assembled`.

    Source
    ------
    As `assembled`.

    Examples
    --------
    >>> built(Network("case", (), {}, {})).sits
    {}
    """
    held = assembled(cold)
    places = {name: held.place(name) for name in (cold.case, *held.bodies)}
    for g in cold.grips:
        loose = in_its_float(cold, g.body, places)
        if loose is not None:
            places[g.body] = loose
    sits = {g.body: places[g.body] - places[g.host] for g in cold.grips if g.body in places}
    return Built(held.moved_to(places), sits)


def with_grips(net: Network, sits: Mapping[str, Array]) -> Network:
    """Add what friction holds to a line.

    Parameters
    ----------
    net
        The line [network]
    sits
        Distance of each body from its host where friction takes hold [m], shape (n,)

    Returns
    -------
    network
        The same with those bodies held [network]

    Valid
    -----
    Bodies among the grips of the line.

    Source
    ------
    Coulomb; see `mechanics.pushed.grip`.

    Examples
    --------
    >>> with_grips(Network("case", (), {}, {}), {}).held
    ()
    """
    held = [
        Contact(g.body, g.host, -sits[g.body], Law(grip, {"limit": g.limit}))
        for g in net.grips
        if g.body in sits
    ]
    return replace(net, held=tuple(held))


def _put_on(cold: Network, grip_: Grip) -> Array | None:
    """Say where pressing or cooling left a body; None where it has no seat to be home on.

    A spring is no seat: a ring that has nothing else is taken to be tapped and turned until it
    lies where it would without friction.
    """
    solid = [c for c in cold.closed if not _is_row(c) and not _is_spring(c)]
    ahead = nearest(solid, grip_.host).get(grip_.body)
    if ahead is not None:
        return ahead + grip_.short
    behind = nearest(turned(solid), grip_.host).get(grip_.body)
    return None if behind is None else -behind - grip_.short


def _is_row(contact: Contact) -> bool:
    """Tell a row, between the rings of one bearing, from other contacts."""
    return owner(contact.before) == owner(contact.after)


def _is_spring(contact: Contact) -> bool:
    return contact.law is not None and contact.law.formula is spring_force
