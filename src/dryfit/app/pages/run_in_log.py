"""The log of a run-in: warmth of places as it was typed, kept in the journal, told as courses."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from dryfit.app.pages.asked import Asked
from dryfit.app.pages.frame import when
from dryfit.app.words.running_in import CourseSaid, course_words, scale_words
from dryfit.draw.plot_warmth import WarmthPlot, warmth_plot
from dryfit.draw.svg import svg
from dryfit.mechanics.running_in import HOT, USUAL_RISE, course, is_of_a_room, is_of_a_run
from dryfit.quantities import System, Unreadable, read_quantity
from dryfit.quantities.rounding import fixed
from dryfit.quantities.units import BY_NAME
from dryfit.store.journal import Entry, Step, journal

WARMTH, PROOF = "run-in", "proof"
"""What entries of the journal have under `of`: a reading of warmth, and something proved."""

LEVELS_FROM = 45.0
"""From here on a sound run has levelled [min]: see `mechanics.running_in`."""

MOST_MINUTES = 100_000
COOLEST, WARMEST = -40.0, 400.0
"""What may be typed: minutes, and warmth [°C]."""


@dataclass(frozen=True, slots=True)
class WarmthRow:
    """A reading: minutes, warmth in both scales, over the room, since the one before."""

    number: int
    minutes: str
    celsius: str
    fahrenheit: str
    over: str
    since: str
    at: str
    struck: bool
    why: str


@dataclass(frozen=True)
class Run:
    """One run of one place.

    Attributes
    ----------
    place, run
        Of which place; the how manieth run.
    sort, word, told
        The verdict.
    svg
        Warmth against time.
    rows
        What was read, struck out or not.
    room, next_minutes
        What the boxes for the next reading begin with.
    scale
        Which of it may have been meant in the other scale; empty for none.
    """

    place: str
    run: int
    sort: str
    word: str
    told: str
    svg: str
    rows: tuple[WarmthRow, ...]
    room: str
    next_minutes: str
    scale: str = ""


@dataclass(frozen=True, slots=True)
class Warm:
    """A reading of the log as numbers [min, °C]."""

    entry: Entry
    minutes: float
    celsius: float
    room: float


def entries_of(asked: Asked, of: str) -> list[Entry]:
    """Give what the journal has of a sort, struck out or not."""
    entries = journal(asked.store, asked.revision.rebuild)
    return [e for e in entries if isinstance(e.wrote, Step) and e.wrote.how.get("of") == of]


def reasons(asked: Asked) -> dict[int | None, str]:
    """Give the reason for each entry that is struck out."""
    entries = journal(asked.store, asked.revision.rebuild)
    return {e.strikes: e.wrote.note for e in entries if isinstance(e.wrote, Step)}


def celsius(typed: str, system: System) -> float:
    """Read a warmth [°C]; a bare number is in the scale of the text. Raises `Unreadable`."""
    bare = "°F" if system == "inch" else "°C"
    read = read_quantity(typed, "temperature", unit_if_bare=bare, box=True)
    return float(read.value - Fraction("273.15"))


def runs(asked: Asked) -> tuple[Run, ...]:
    """Give all runs, the newest first."""
    system, why = asked.document.rebuild.system, reasons(asked)
    found: dict[tuple[str, int], list[Warm]] = {}
    for entry in entries_of(asked, WARMTH):
        warm = _warm(entry, system)
        if warm is not None:
            found.setdefault(_which(entry), []).append(warm)
    told = [_run(which, log, why, system) for which, log in found.items()]
    return tuple(reversed(told))


def _which(entry: Entry) -> tuple[str, int]:
    how = entry.wrote.how
    run = how.get("run", "1")
    return how.get("place", ""), int(run) if run.isdigit() else 1


def _warm(entry: Entry, system: System) -> Warm | None:
    """Take an entry as numbers; nothing of one that is not to be read any more."""
    wrote = entry.wrote
    if not isinstance(wrote, Step):
        return None
    try:
        warmth = celsius(wrote.note, system)
        room = celsius(wrote.how.get("room", wrote.note), system)
        return Warm(entry, float(wrote.how.get("minutes", "0")), warmth, room)
    except (Unreadable, ValueError):
        return None


def _run(
    which: tuple[str, int], log: list[Warm], why: Mapping[int | None, str], system: System
) -> Run:
    log = sorted(log, key=lambda one: one.minutes)
    good = [one for one in log if not one.entry.struck]
    said = _said(good)
    last = good[-1] if good else None
    return Run(
        *which,
        said.sort if said else "",
        said.word if said else "",
        said.told if said else "",
        _svg(which, good, system) if good else "",
        tuple(_rows(log, why)),
        _scale(good[0].room, "°F" if system == "inch" else "°C") if good else "",
        f"{(last.minutes if last else -5) + 5:g}",
        _other_scale(good, system),
    )


def _other_scale(good: list[Warm], system: System) -> str:
    """Name what was typed without a scale and would be usual in the other alone."""
    meant = [text for one in good for text in _meant_otherwise(one, system)]
    return scale_words(meant, "F" if system == "inch" else "C") if meant else ""


def _meant_otherwise(one: Warm, system: System) -> Iterator[str]:
    wrote, other = one.entry.wrote, _OTHER[system]
    if not isinstance(wrote, Step):
        return
    room, typed = wrote.how.get("room", ""), wrote.note
    room_there = one.room
    if BARE.fullmatch(room) and not is_of_a_room(one.room) and is_of_a_room(celsius(room, other)):
        room_there = celsius(room, other)
        yield room
    odd = BARE.fullmatch(typed) and not is_of_a_run(one.celsius, room_there)
    if odd and is_of_a_run(celsius(typed, other), room_there):
        yield typed


BARE = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")
"""A warmth without its scale."""

_OTHER: dict[System, System] = {"mm": "inch", "inch": "mm"}


def _said(good: list[Warm]) -> CourseSaid | None:
    if not good:
        return None
    minutes, degrees = [one.minutes for one in good], [one.celsius for one in good]
    return course_words(course(minutes, degrees, good[0].room), minutes[-1])


def _rows(log: list[Warm], why: Mapping[int | None, str]) -> list[WarmthRow]:
    rows, before = list[WarmthRow](), None
    for one in log:
        entry, good = one.entry, not one.entry.struck
        over, since = one.celsius - one.room, one.celsius - before if before is not None else None
        rows.append(
            WarmthRow(
                entry.number,
                f"{one.minutes:g}",
                _scale(one.celsius, "°C"),
                _scale(one.celsius, "°F"),
                f"{over:.0f}" if good else "",
                _signed(since) if good and since is not None else "",
                when(entry.at),
                entry.struck,
                why.get(entry.number, ""),
            )
        )
        before = one.celsius if good else before
    return rows


def _signed(rise: float) -> str:
    """Write a rise to whole degrees; nothing has no sign."""
    return fixed(rise, 0) if round(rise) <= 0 else f"+{fixed(rise, 0)}"


def _scale(warmth: float, unit: str) -> str:
    """Write a warmth [°C] in a scale, to whole degrees."""
    return fixed(_in(warmth, unit), 0)


def _in(warmth: float, unit: str) -> float:
    scale = BY_NAME["temperature"][unit]
    return float((Fraction(warmth) + Fraction("273.15") - scale.offset) / scale.factor)


def _svg(which: tuple[str, int], good: list[Warm], system: System) -> str:
    unit = "°F" if system == "inch" else "°C"
    room = good[0].room
    low, high = (_in(room + rise, unit) for rise in USUAL_RISE)
    log = tuple((one.minutes, _in(one.celsius, unit)) for one in good)
    title = f"Warmth of {which[0]}" + (f", run {which[1]}" if which[1] > 1 else "")
    plot = WarmthPlot(title, unit, log, _in(room, unit), _in(HOT, unit), (low, high, LEVELS_FROM))
    return svg(warmth_plot(plot))
