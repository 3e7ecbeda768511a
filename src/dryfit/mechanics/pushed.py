"""What anything that gives says when it is pressed, and the three plainest things that do.

Every law of this sort is the slope of a convex energy: its force never falls as it is pressed
further.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula


class Pushed(NamedTuple):
    """Force and stiffness at one overlap.

    Attributes
    ----------
    force
        Against the push [N].
    stiffness
        Its derivative by the overlap [N/m].
    """

    force: Result
    stiffness: Result


@formula("stiffness > 0")
def faces(overlap: Number, stiffness: Number) -> Pushed:
    r"""Two faces, or a column between them, that can push and not pull.

    .. math:: F = k\, x_+

    Parameters
    ----------
    overlap
        x, how far they are pressed together; minus: apart [m]
    stiffness
        k [N/m]

    Returns
    -------
    force
        F [N]
    stiffness
        dF/dx [N/m]

    Valid
    -----
    Elastic. A stiffness beyond all others stands for parts that do not give.

    Source
    ------
    Hooke.

    Examples
    --------
    >>> faces(2e-6, 5e8).force, faces(-2e-6, 5e8).force
    (1000.0, 0.0)
    """
    return Pushed(stiffness * np.maximum(overlap, 0.0), stiffness * np.heaviside(overlap, 1.0))


@formula("force >= 0")
def steady(overlap: Number, force: Number) -> Pushed:
    """A pull that stays the same wherever its parts go, as of a nut tightened to a torque.

    Parameters
    ----------
    overlap
        How far the parts are together; it changes nothing [m]
    force
        F [N]

    Returns
    -------
    force
        F [N]
    stiffness
        None [N/m]

    Valid
    -----
    Movements small against those that made the force.

    Source
    ------
    Definition.

    Examples
    --------
    >>> steady(1e-6, 800.0).force
    800.0
    """
    return Pushed(force + 0.0 * overlap, 0.0 * (overlap + force))


@formula("limit >= 0", "give > 0")
def grip(slip: Number, limit: Number, give: Number = 1e-8) -> Pushed:
    r"""Dry friction of a ring on its seat: it holds up to a limit, then slides.

    .. math:: F = F_0 \max(-1, \min(x / g, 1))

    Parameters
    ----------
    slip
        x, from where it sits [m]
    limit
        F_0, force that moves it [N]
    give
        g, movement before it slides [m]

    Returns
    -------
    force
        F, against the slip; of either sign [N]
    stiffness
        dF/dx [N/m]

    Valid
    -----
    Slow pushing in one direction at a time, no stick-slip.

    Source
    ------
    Coulomb, with the corner rounded.

    Examples
    --------
    >>> grip(1e-6, 800.0).force, grip(-2.5e-9, 800.0).force
    (800.0, -200.0)
    """
    share = slip / give
    holds = np.heaviside(1 - np.abs(share), 1.0)
    return Pushed(limit * np.maximum(np.minimum(share, 1.0), -1.0), limit / give * holds)
