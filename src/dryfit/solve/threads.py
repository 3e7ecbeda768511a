"""With what force a clamping nut holds what it clamps."""

from dryfit.mechanics.bolts import force_band
from dryfit.mechanics.clamp import ring_area
from dryfit.mechanics.threads import thread, thread_fit, thread_size
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.solve.luck import Array, Draws, full
from dryfit.solve.sizes import metres

LOCK_NUT = "lock nut"
"""What a nut is `locked by` if a second nut behind it does so."""

USUAL_FIT = {"metric": "6H/6g", "whitworth": "medium", "unified": "2B/2A"}
"""Of each form of thread."""

SNUG = 8e6
"""Pressure on the face of a ring that a nut is done up to where no torque is told: common
practice, no source; 10 MPa is the usual limit [Pa]."""

SNUG_SPREAD = 0.4
"""How far that differs from one pair of hands to another: half width [-]."""

WALL = 1.25
"""Outside of a nut's face over its thread, where it is not told: estimate [-]."""


def clamp_force(rebuild: Rebuild, nut: Nut, draws: Draws) -> Array:
    """Draw the force of a nut that clamps.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    nut
        The nut with its thread and torque [part]
    draws
        Where friction comes from [draws]

    Returns
    -------
    force
        Along the line [N], shape (n,)

    Valid
    -----
    A thread that `thread_size` knows; oiled steel, friction 0.08 to 0.16.

    Source
    ------
    [SHIGLEY] eq. 8-26; [VDI2230] friction class B (from memory).

    Examples
    --------
    >>> from dryfit.quantities import read_quantity
    >>> from dryfit.solve.luck import NoLuck
    >>> nut = Nut("nut", "nut", thread="M30x1.5", torque=read_quantity("30 N.m", "torque"))
    >>> round(float(clamp_force(Rebuild("mm"), nut, NoLuck())[0]))
    7781
    """
    size = thread_size(nut.thread) if nut.thread else None
    across = size.diameter if size else 30e-3
    face = metres(nut.face) if isinstance(nut.face, Size) else WALL * across
    if nut.torque is None or size is None:
        force = SNUG * ring_area(max(face, 1.01 * across), across)
        return full(draws, float(force)) * (1 + SNUG_SPREAD * draws.flat("parts", nut.name, "snug"))
    flanks = thread(size.diameter, size.pitch, form=size.form).pitch_diameter
    band = force_band(nut.torque.si, flanks, size.pitch, face_diameter=(face + across) / 2)
    middle, half = (band.high + band.low) / 2, (band.high - band.low) / 2
    drawn: Array = full(draws, middle) + half * draws.flat("parts", nut.name, "friction")
    return drawn


def pitch(nut: Nut) -> float | None:
    """Say how far a nut advances in a turn.

    Parameters
    ----------
    nut
        The nut with its thread [part]

    Returns
    -------
    pitch
        None where its thread is not told [m]

    Valid
    -----
    Threads of one start.

    Source
    ------
    As `thread_size`.

    Examples
    --------
    >>> pitch(Nut("nut", "nut", thread="M45x1.5")) * 1e3
    1.5
    """
    return thread_size(nut.thread).pitch if nut.thread else None


def thread_play(nut: Nut, draws: Draws) -> Array:
    """Draw by how much a nut moves in its thread when it is pushed from the other side.

    Parameters
    ----------
    nut
        The nut with its thread [part]
    draws
        Where the play comes from [draws]

    Returns
    -------
    play
        Along the line [m], shape (n,); nothing for a nut whose thread is not told

    Valid
    -----
    Threads of the usual fit, 6H/6g; worn ones have more.

    Source
    ------
    [ISO965-1] by `mechanics.threads.thread_fit`.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> round(float(thread_play(Nut("nut", "nut", thread="M30x1.5"), NoLuck())[0]) * 1e6)
    118
    """
    if not nut.thread:
        return full(draws, 0.0)
    size = thread_size(nut.thread)
    fit = thread_fit(size.diameter, size.pitch, USUAL_FIT.get(size.form, "6H/6g"))
    middle, half = (fit.play_high + fit.play_low) / 2, (fit.play_high - fit.play_low) / 2
    drawn: Array = full(draws, middle) + half * draws.flat("parts", nut.name, "thread")
    return drawn
