"""True sizes from typed ones: what each instrument may have hidden.

A typed `+/- u` is two standard deviations of a normal error (GUM, JCGM 100:2008, 6.3, k = 2). An
instrument's limit is a rectangle, part of it shared by all readings of that instrument; an error
makes the measured length longer or shorter, whatever sign the size has along the line. Digits
coarser than the scale add the rectangle of their rounding (JCGM 100:2008, F.2.2.1).
"""

from dataclasses import dataclass, replace
from math import sqrt

from dryfit.mechanics.instruments import ALSO_CALLED, INSTRUMENTS, Instrument, limit_at
from dryfit.model.rebuild import Rebuild, Setting
from dryfit.quantities import Size
from dryfit.solve.luck import Array, Draws, full

USUAL = "caliper"
"""What an unnamed instrument is taken for."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """An instrument by the name under which its shared error is drawn."""

    name: str
    instrument: Instrument


def gauge(rebuild: Rebuild, name: str | None) -> Gauge | None:
    """Find an instrument by the words after `by`.

    Parameters
    ----------
    rebuild
        The unit; it may list instruments of its own [rebuild]
    name
        What was typed; None takes the document's usual instrument [text]

    Returns
    -------
    gauge
        None for an instrument nobody has heard of [gauge]

    Valid
    -----
    Any name.

    Source
    ------
    The rows of `mechanics.instruments`.

    Examples
    --------
    >>> gauge(Rebuild("mm"), None).name
    'caliper'
    """
    name = name or rebuild.measured_with or USUAL
    own = rebuild.instruments.get(name)
    name = name if own else ALSO_CALLED.get(name.lower(), name)
    if own is None:
        usual = INSTRUMENTS.get(name)
        return Gauge(name, usual) if usual else None
    like = INSTRUMENTS.get(own.like or USUAL)
    if like is None or own.limit is None:
        return Gauge(name, like) if like else None
    return Gauge(name, replace(like, limits=((0.0, metres(own.limit)),)))


def metres(size: Size) -> float:
    """Give a typed size in metres, the middle of an uneven tolerance.

    Parameters
    ----------
    size
        As typed [size]

    Returns
    -------
    value
        Its value [m]

    Valid
    -----
    Any size.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.quantities import read_size
    >>> metres(read_size("1 in", "mm")) * 1e3
    25.4
    """
    if size.plus is None or size.minus is None:
        return float(size.value / 1000)
    return float((size.value + (size.plus - size.minus) / 2) / 1000)


def true_size(draws: Draws, key: tuple[str, ...], size: Size, by: Gauge) -> Array:
    """Draw what a size may truly be, given what was read.

    Parameters
    ----------
    draws
        Where the errors come from [draws]
    key
        Place of the size in the text [keys]
    size
        What was typed [size]
    by
        The instrument it was read by [gauge]

    Returns
    -------
    values
        Possible true sizes [m], shape (n,)

    Valid
    -----
    Errors small against the size.

    Source
    ------
    [GUM] 4.3.7 (rectangle), 6.3 (k = 2), F.2.2.1 (resolution).

    Examples
    --------
    >>> from dryfit.quantities import read_size
    >>> from dryfit.solve.luck import NoLuck
    >>> by = Gauge("caliper", INSTRUMENTS["caliper"])
    >>> true_size(NoLuck(), ("sizes", "sleeve"), read_size("22.05", "mm"), by) * 1e3
    array([22.05])
    """
    value = metres(size)
    if size.plus is not None and size.minus is not None:
        error = float((size.plus + size.minus) / 4000) * draws.normal(*key)
        return full(draws, value) + (error if value >= 0 else -error)
    limit, shared = limit_at(by.instrument, value), by.instrument.shared
    error = limit * (
        shared * draws.flat("instruments", by.name) + sqrt(1 - shared**2) * draws.flat(*key)
    )
    step = float(size.step / 1000) if size.step else 0.0
    if step > 1.01 * by.instrument.resolution:
        error = error + step / 2 * draws.flat(*key, "rounding")
    return full(draws, value) + (error if value >= 0 else -error)


def reading_error(draws: Draws, key: tuple[str, ...], by: Gauge, length: float) -> Array:
    """Draw how far one reading of a check may be off.

    Parameters
    ----------
    draws
        Where the errors come from [draws]
    key
        Place of the check in the text [keys]
    by
        The instrument it is read by [gauge]
    length
        About what is read [m]

    Returns
    -------
    errors
        To be added to the true value [m], shape (n,)

    Valid
    -----
    As `true_size`.

    Source
    ------
    [GUM] 4.3.7.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> reading_error(NoLuck(), ("checks", "float"), Gauge("feelers", INSTRUMENTS["feelers"]), 0.0)
    array([0.])
    """
    shared, own = _reading_parts(draws, key, by, length)
    return own - shared


def _reading_parts(
    draws: Draws, key: tuple[str, ...], by: Gauge, length: float
) -> tuple[Array, Array]:
    """Draw by how much a true length is more than read, for all readings and for this one [m]."""
    limit, shared = limit_at(by.instrument, length), by.instrument.shared
    own = sqrt(1 - shared**2) * draws.flat(*key, "reading")
    return limit * shared * draws.flat("instruments", by.name), limit * own


def making_error(draws: Draws, part: str, setting: Setting | None, by: Gauge | None) -> Array:
    """Draw how far a pack or washer that was made differs from what was meant.

    Parameters
    ----------
    draws
        Where the errors come from [draws]
    part
        The setting's name [text]
    setting
        What it is made of; a part cut to size has its own tolerance [setting]
    by
        What the whole pack is measured with [gauge]

    Returns
    -------
    errors
        To be added to the thickness meant [m], shape (n,)

    Valid
    -----
    A pack that is measured whole and nipped before it goes in.

    Source
    ------
    [GUM] 4.3.7, 6.3.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> making_error(NoLuck(), "shim", None, gauge(Rebuild("mm"), "micrometer"))
    array([0.])
    """
    if setting is not None and setting.cut_to_size is not None:
        return float(setting.cut_to_size.value / 2000) * draws.normal("settings", part)
    if by is None:
        return full(draws, 0.0)
    shared, own = _reading_parts(draws, ("settings", part), by, 0.0)
    return shared + own


def made_by(rebuild: Rebuild, part: str) -> Gauge | None:
    """Say what a setting is made by: a pack is measured whole, a nut is set by what it names.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The setting [text]

    Returns
    -------
    gauge
        None where that instrument is not known [gauge]

    Valid
    -----
    Any part.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> made_by(Rebuild("mm"), "cover shim").name
    'micrometer'
    """
    setting = rebuild.settings.get(part)
    return gauge(rebuild, (setting and setting.set_by) or "micrometer")
