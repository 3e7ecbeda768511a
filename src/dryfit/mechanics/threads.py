"""Screw threads: sizes of the profile, what a designation means, and play between nut and bolt.

Metric, unified and Whitworth form; the series and the tolerance classes are in data/threads.toml.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import pi, radians, sqrt, tan
from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.tables import read_table

MM = 1e-3
INCH = 25.4e-3
MICRON = 1e-6


@dataclass(frozen=True, slots=True)
class Form:
    """Profile of a thread: half of the flank angle, and depths on the diameter in pitches."""

    flank_angle: float
    pitch_depth: float
    minor_depth: float
    core_depth: float


SHARP_60 = sqrt(3) / 2
SHARP_55 = 1 / (2 * tan(radians(27.5)))

FORMS = {
    "metric": Form(pi / 6, 3 / 4 * SHARP_60, 5 / 4 * SHARP_60, 17 / 12 * SHARP_60),
    "unified": Form(pi / 6, 3 / 4 * SHARP_60, 5 / 4 * SHARP_60, 3 / 2 * SHARP_60),
    "whitworth": Form(radians(27.5), 2 / 3 * SHARP_55, 4 / 3 * SHARP_55, 4 / 3 * SHARP_55),
}


@dataclass(frozen=True, slots=True)
class ToleranceClass:
    """How far a class lets the pitch diameter stray; see data/threads.toml."""

    form: str
    tolerance: float
    share: float = 0.0
    away: tuple[float, float] = (0.0, 0.0)


TABLE = read_table("threads.toml")
COARSE: dict[float, float] = {float(size): pitch for size, pitch in TABLE["coarse"]}
NUTS = {name: ToleranceClass(**given) for name, given in TABLE["nut"].items()}
BOLTS = {name: ToleranceClass(**given) for name, given in TABLE["bolt"].items()}
WORDS: dict[str, str] = TABLE["words"]

METRIC = re.compile(r"M\s*(\d+(?:\.\d+)?)(?:\s*X\s*(\d*\.?\d+))?")
INCHES = re.compile(
    r"(#\d+|(?:\d+ )?\d+/[1-9]\d*|\d*\.?\d+)(?:\s*[-X]\s*([1-9]\d*(?:\.\d+)?))?\s*([A-Z]+)"
)
PIPE = re.compile(r"G\s*((?:\d+ )?\d+/\d+|\d+)|((?:\d+ )?\d+/\d+|\d+)\s*BSP")


class ThreadSize(NamedTuple):
    """What a designation says: see `thread_size`."""

    diameter: float
    pitch: float
    form: str


class Thread(NamedTuple):
    """Sizes of a thread: see `thread`."""

    pitch_diameter: Result
    minor_diameter: Result
    core_diameter: Result
    stress_area: Result
    lead_angle: Result
    flank_angle: float


class ThreadFit(NamedTuple):
    """Limits of the pitch diameters and the play between them: see `thread_fit`."""

    bolt_low: Result
    bolt_high: Result
    nut_low: Result
    nut_high: Result
    play_low: Result
    play_high: Result


@formula("0 < pitch < diameter")
def thread(diameter: Number, pitch: Number, form: str = "metric") -> Thread:
    r"""Sizes of a thread from its outside diameter, pitch and form.

    With H the height of the sharp profile, :math:`H = P\sqrt 3/2` at 60 degrees:

    .. math:: d_2 = d - \tfrac34 H,\quad D_1 = d - \tfrac54 H,\quad d_3 = d - \tfrac{17}{12} H,
        \quad A_s = \frac{\pi}{4}\left(\frac{d_2 + d_3}{2}\right)^2

    Unified: :math:`d_3 = d - \tfrac32 H`. Whitworth: :math:`H = 0.960491 P`,
    :math:`d_2 = d - \tfrac23 H`, :math:`D_1 = d_3 = d - \tfrac43 H`.

    Parameters
    ----------
    diameter
        d, nominal outside diameter [m]
    pitch
        P, from thread to thread [m]
    form
        metric, unified or whitworth [text]

    Returns
    -------
    pitch_diameter
        d2, effective diameter [m]
    minor_diameter
        D1, of the nut [m]
    core_diameter
        d3, of the bolt [m]
    stress_area
        A_s, that carries tension [m^2]
    lead_angle
        Of the helix at d2 [rad]
    flank_angle
        Half of the angle between the flanks [rad]

    Valid
    -----
    Basic sizes of single-start threads, no tolerance taken off.

    Source
    ------
    [ISO724] and [ISO898] for metric, [SHIGLEY] table 8-2 for unified, [BS84] for Whitworth; all
    from memory.

    Examples
    --------
    A spindle nut of M20x1:

    >>> fine = thread(0.020, 0.001)
    >>> fine.pitch_diameter * 1e3, fine.stress_area * 1e6
    (19.350, 285.4)
    """
    shape = _form(form)
    pitch_diameter = diameter - shape.pitch_depth * pitch
    core = diameter - shape.core_depth * pitch
    return Thread(
        pitch_diameter,
        diameter - shape.minor_depth * pitch,
        core,
        pi / 4 * ((pitch_diameter + core) / 2) ** 2,
        np.arctan(pitch / (pi * pitch_diameter)),
        shape.flank_angle,
    )


@formula()
def thread_size(name: str) -> ThreadSize:
    """Diameter, pitch and form that a designation stands for.

    Parameters
    ----------
    name
        As written: M8, M20x1, 1/2 BSW, 1 1/4 BSF, 3/4-16 UNF, #10 UNC, G 1/2; for a thread of no
        series, WHIT or UN with its threads per inch: 2 1/4-8 WHIT [text]

    Returns
    -------
    diameter
        Nominal outside diameter [m]
    pitch
        From thread to thread [m]
    form
        metric, unified or whitworth [text]

    Valid
    -----
    Metric coarse 1.6 to 64 mm, and any diameter with its pitch; BSW, BSF, UNC and UNF to 3 in;
    parallel pipe threads to 3. A left-hand thread (LH) has the same sizes.

    Source
    ------
    [ISO261], [BS84], [ASME-B1], [ISO228], from memory.

    Examples
    --------
    >>> thread_size("M20x1")
    ThreadSize(diameter=0.02, pitch=0.001, form='metric')
    >>> thread_size("1/2 BSW").pitch * 12 / 0.0254
    1.0
    """
    text = " ".join(name.upper().replace("×", "X").replace('"', "").split())
    text = text.removesuffix("LH").strip()
    readers: tuple[tuple[re.Pattern[str], Callable[..., ThreadSize | None]], ...] = (
        (METRIC, _metric_size),
        (PIPE, _pipe_size),
        (INCHES, _inch_size),
    )
    for pattern, read in readers:
        match = pattern.fullmatch(text)
        found = read(*match.groups()) if match else None
        if found:
            return found
    raise ValueError(
        f"thread '{name}': there are M8, M20x1, 1/2 BSW, 1/2 BSF, 3/4-8 WHIT, 1/2 UNC, 3/4-16 UNF, "
        "1.967-18 UN and G 1/2; a size that is not in its series needs its pitch or its threads "
        "per inch"
    )


def _metric_size(size: str, pitch: str | None) -> ThreadSize | None:
    diameter = float(size)
    step = float(pitch) if pitch else COARSE.get(diameter)
    return ThreadSize(diameter * MM, step * MM, "metric") if step else None


def _pipe_size(first: str | None, second: str | None) -> ThreadSize | None:
    diameter, per_inch = TABLE["pipe"].get(first or second, (0.0, 0.0))
    return ThreadSize(diameter * MM, INCH / per_inch, "whitworth") if diameter else None


def _inch_size(size: str, given: str | None, series: str) -> ThreadSize | None:
    known = TABLE["series"].get(series)
    if known is None:
        return None
    per_inch = float(given) if given else known["sizes"].get(size)
    form: str = known["form"]
    return ThreadSize(_inches(size) * INCH, INCH / per_inch, form) if per_inch else None


def _inches(size: str) -> float:
    if size.startswith("#"):
        return 0.060 + 0.013 * float(size[1:])
    return float(sum(Fraction(part) for part in size.split()))


@formula("0 < pitch < diameter")
def thread_fit(diameter: Number, pitch: Number, fit: str = "6H/6g") -> ThreadFit:
    r"""Pitch diameters that a class allows, and the endways play of the nut on the bolt.

    Each flank stands off by half of the difference of pitch diameters; endways that is
    :math:`\tan\alpha` times as much, and there are two flanks:

    .. math:: s = (D_2 - d_2)\tan\alpha

    Tolerances are shares of a unit: metric :math:`90\,P^{0.4} d^{0.1}` um (mm); unified
    :math:`0.0015\sqrt[3]{d} + 0.0015\sqrt{d} + 0.015\,P^{2/3}` in; Whitworth
    :math:`0.002\sqrt[3]{d} + 0.003\sqrt{d} + 0.005\sqrt{P}` in.

    Parameters
    ----------
    diameter
        d, nominal outside diameter; also the length in mesh [m]
    pitch
        P, from thread to thread [m]
    fit
        Nut and bolt: 6H/6g and other metric classes; 2B/2A, 1B/1A, 3B/3A; for Whitworth close,
        medium or free [text]

    Returns
    -------
    bolt_low, bolt_high
        d2, pitch diameter of the bolt [m]
    nut_low, nut_high
        D2, pitch diameter of the nut [m]
    play_low, play_high
        s, endways, from flank to flank [m]

    Valid
    -----
    Constants stand in um and mm, or inches. The standards take d in the middle of its step and
    round to preferred numbers: tolerances are within 5 % of theirs. Pitch and angle errors eat
    some of the play; wear adds to it. Allowances of Whitworth bolts for plating are left out.

    Source
    ------
    [ISO965-1], [ASME-B1], [BS84], formulas from memory.

    Examples
    --------
    Nut of M10, medium fit, in micrometres:

    >>> fit = thread_fit(0.010, 0.0015)
    >>> fit.play_low * 1e6, fit.play_high * 1e6
    (18.2, 196.7)
    """
    nut, bolt = _classes(fit)
    form = FORMS[nut.form]
    unit = UNITS[nut.form](diameter, pitch)
    basic = diameter - form.pitch_depth * pitch
    nut_low = basic + _stand_off(nut, unit, pitch)
    bolt_high = basic - _stand_off(bolt, unit, pitch)
    nut_high = nut_low + nut.tolerance * unit
    bolt_low = bolt_high - bolt.tolerance * unit
    endways = tan(form.flank_angle)
    low, high = (nut_low - bolt_high) * endways, (nut_high - bolt_low) * endways
    return ThreadFit(bolt_low, bolt_high, nut_low, nut_high, low, high)


def _stand_off(one: ToleranceClass, unit: Number, pitch: Number) -> Number:
    fixed, by_pitch = one.away
    return one.share * unit + (fixed + by_pitch * pitch / MM) * MICRON


def _metric_unit(diameter: Number, pitch: Number) -> Number:
    return 90 * MICRON * (pitch / MM) ** 0.4 * (diameter / MM) ** 0.1


def _unified_unit(diameter: Number, pitch: Number) -> Number:
    d, p = diameter / INCH, pitch / INCH
    return (0.0015 * d ** (1 / 3) + 0.0015 * d**0.5 + 0.015 * p ** (2 / 3)) * INCH


def _whitworth_unit(diameter: Number, pitch: Number) -> Number:
    d, p = diameter / INCH, pitch / INCH
    return (0.002 * d ** (1 / 3) + 0.003 * d**0.5 + 0.005 * p**0.5) * INCH


UNITS: dict[str, Callable[[Number, Number], Number]] = {
    "metric": _metric_unit,
    "unified": _unified_unit,
    "whitworth": _whitworth_unit,
}


def _form(name: str) -> Form:
    if name not in FORMS:
        raise ValueError(f"thread form '{name}': there are {', '.join(FORMS)}")
    return FORMS[name]


def _classes(fit: str) -> tuple[ToleranceClass, ToleranceClass]:
    first, _, second = WORDS.get(fit, fit).partition("/")
    for nut, bolt in ((first, second), (second, first)):
        if nut in NUTS and bolt in BOLTS and NUTS[nut].form == BOLTS[bolt].form:
            return NUTS[nut], BOLTS[bolt]
    raise ValueError(
        f"thread fit '{fit}': there are {', '.join(WORDS)}, or a nut and a bolt of one form, "
        f"as 6H/6g: nuts {', '.join(NUTS)}; bolts {', '.join(BOLTS)}"
    )
