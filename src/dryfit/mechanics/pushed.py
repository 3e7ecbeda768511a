"""What anything that gives says when it is pressed: the force, and how fast that grows."""

from typing import NamedTuple

from dryfit.mechanics.formula import Result


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
