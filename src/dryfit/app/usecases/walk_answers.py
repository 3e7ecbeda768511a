"""The answer to a walk as plain data: millimetres and degrees."""

from dataclasses import dataclass


@dataclass(frozen=True)
class SlipAnswer:
    """What keeps a walk from being answered.

    Attributes
    ----------
    code
        Short name of this sort of slip, fixed for good.
    where
        Which option, or which reading counted from 1.
    message, way_out
        What was read and the limit, and what to do.
    excerpt
        What was typed, with a mark under the spot if there is one.
    """

    code: str
    where: str
    message: str
    way_out: str
    excerpt: str = ""


@dataclass(frozen=True)
class PointAnswer:
    """One reading: its mark as typed and in units of the answer, and by how much it is off."""

    typed: str
    at: float
    read_mm: float
    off_mm: float
    left_out: bool


@dataclass(frozen=True)
class SpotAnswer:
    """A mark, its band nine times in ten, how far on from the last mark, and that at the rim."""

    at: float
    low: float
    high: float
    on: float
    on_rim_mm: float | None


@dataclass(frozen=True)
class EndAnswer:
    """Where to stop, and the float or nip there.

    Attributes
    ----------
    sort
        `nothing`, `float` or `nip`.
    low_wanted_mm, wanted_mm, high_wanted_mm
        What is wanted; all three the same where one figure was typed.
    spot
        Where to go.
    low_mm, high_mm
        What it comes to there, nine times in ten; a float below nothing is a nip.
    chance
        That it lies within two limits, where two were typed.
    """

    sort: str
    low_wanted_mm: float
    wanted_mm: float
    high_wanted_mm: float
    spot: SpotAnswer
    low_mm: float
    high_mm: float
    chance: float | None


@dataclass(frozen=True)
class DoubtAnswer:
    """What is off the line: its trace, the mark it begins at, by how much, pitches that would fit.

    `share` is the slope of the readings over what it should be.
    """

    trace: str
    typed: str
    off_mm: float | None
    share: float | None
    pitches: tuple[str, ...]


@dataclass(frozen=True)
class WalkAnswer:
    """Where a walk ends; marks and what is counted from them are in `unit`: deg or mm.

    Attributes
    ----------
    by
        `nut` or `pack`.
    mm_per_unit
        Millimetres of float for one unit of mark, less than nought if it takes float.
    checked
        `none` for two readings, `whole` for three, `each` from four on.
    nothing
        Where the dial would read nothing.
    nothing_by_readings
        Where that is by the slope of the readings alone, if they fall as they should.
    yields_mm
        What yields under the push, so that rows touch sooner: least, middle, most.
    end
        Where to stop.
    """

    answered: bool
    findings: tuple[SlipAnswer, ...]
    system: str
    by: str
    unit: str
    mm_per_unit: float | None = None
    points: tuple[PointAnswer, ...] = ()
    checked: str = ""
    doubts: tuple[DoubtAnswer, ...] = ()
    nothing: SpotAnswer | None = None
    nothing_by_readings: float | None = None
    yields_mm: tuple[float, float, float] | None = None
    end: EndAnswer | None = None
