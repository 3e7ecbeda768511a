"""What a lock nut takes out of the float, and what is not known of it."""

from dryfit.ask.asking import Asking
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Rebuild
from dryfit.solve.luck import Array, NoLuck, full
from dryfit.solve.threads import LOCK_NUT, thread_play


def locked_nut(rebuild: Rebuild, part: str) -> Nut | None:
    """Give a nut that a lock nut holds; None for any other part."""
    nut = rebuild.parts.get(part)
    return nut if isinstance(nut, Nut) and nut.locked_by == LOCK_NUT else None


def play_off(asking: Asking, part: str) -> Array:
    """Say by how much more play a lock nut takes than is thought [m], shape (n,).

    A float that is read with the lock nut done up holds it already: a nut so set stands slacker by
    as much before it is locked.
    """
    draws, nut = asking.drawn.draws, locked_nut(asking.rebuild, part)
    if nut is None:
        return full(draws, 0.0)
    off: Array = thread_play(nut, draws) - thread_play(nut, NoLuck())
    return off
