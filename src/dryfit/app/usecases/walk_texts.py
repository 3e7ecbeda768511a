"""What is typed for a walk, read: marks of a nut or packs with their floats, pitch, what is wanted.

Marks are read by `quantities.mark`. Pitch: `1.5`, `16 per inch`. Every
text that cannot be read is a slip with its own place.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from dryfit.app.usecases.walk_answers import SlipAnswer
from dryfit.ask.walk import Goal, Reading
from dryfit.mechanics.instruments import ALSO_CALLED, INSTRUMENTS
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import (
    NotKnown,
    Size,
    System,
    Unreadable,
    read_mark,
    read_range,
    read_size,
)
from dryfit.quantities.finding import near
from dryfit.solve.sample import split_doubt
from dryfit.solve.sizes import Gauge, gauge, metres

MOST_READ = 10e-3
"""No float that bearings are set from is read beyond this [m]: common practice, no source."""

PER_INCH = re.compile(r"(\d+(?:\.\d+)?)\s*(?:threads\s+)?(?:per\s+inch|per\s+in|tpi)")

T = TypeVar("T")


class Slips(list[SlipAnswer]):
    """All slips found so far."""

    def add(self, code: str, where: str, message: str, way_out: str, excerpt: str = "") -> None:
        """Take one more."""
        self.append(SlipAnswer(code, where, message, way_out, excerpt))

    def reading(self, where: str, text: str, read: Callable[[str], T]) -> T | None:
        """Read a text, or take a slip and give None."""
        try:
            return read(text)
        except Unreadable as unread:
            error = unread.where_known()
            column = min(max(error.column, 0), len(text))
            excerpt = f"{text}\n{' ' * column}^" if text.strip() else ""
            self.add(error.code, where, error.message, error.way_out, excerpt)
            return None


@dataclass(frozen=True)
class Typed:
    """One reading as typed; mark in degrees or metres, read in metres."""

    where: str
    mark_text: str
    read_text: str
    reading: Reading
    shared: float


def read_length(text: str, system: System) -> Size:
    """Read one length, which must be there."""
    size = read_size(text, system, box=True)
    if isinstance(size, NotKnown):
        raise Unreadable(
            "size.empty", 0, "nothing was typed for a length", "write one such as 0.082"
        )
    return size


def read_pitch(text: str, system: System) -> float:
    """Read the pitch of a thread [m].

    >>> read_pitch("1.5", "mm") * 1e3, read_pitch("16 per inch", "mm") * 1e3
    (1.5, 1.5875)
    """
    typed = " ".join(text.lower().split())
    count = PER_INCH.fullmatch(typed)
    if count and float(count[1]):
        return 0.0254 / float(count[1])
    return metres(read_length(text, system))


def read_goal(text: str, system: System) -> tuple[float, float, float]:
    """Read what is wanted: least, middle, most [m]; one figure is all three."""
    if re.search(r"(?<=\s)to(?=\s)|\+/?-|±|\bat\b", text):
        limits = read_range(text, system, box=True)
        if limits.low is None or limits.high is None:
            message = f"{text.strip()!r} has one limit, and a walk needs a place to stop"
            raise Unreadable("walk.one limit", 0, message, "write both limits, as 0.005 to 0.010")
        low, high = float(limits.low / 1000), float(limits.high / 1000)
        return low, (low + high) / 2, high
    size = metres(read_length(text, system))
    return size, size, size


def read_goals(
    want: str | None, past: str | None, system: System, slips: Slips
) -> tuple[Goal, tuple[float, float]] | None:
    """Read `want` or `past`, with its limits; None where neither is typed."""
    if want is not None and past is not None:
        slips.add(
            "walk.two goals",
            "--past",
            "a float to stop at and a nip to go on to are both typed",
            "leave out --want or --past",
        )
    option, text = ("--want", want) if want is not None else ("--past", past)
    if text is None:
        return None
    found = slips.reading(option, text, lambda t: read_goal(t, system))
    if found is None:
        return None
    low, middle, high = found
    if low < 0:
        other = "a float of less than nothing is a nip: write it without the minus behind --past"
        way = other if option == "--want" else "write the nip without the minus"
        slips.add("walk.minus", option, f"{text.strip()!r} is less than nothing", way, text)
        return None
    return Goal("float" if want is not None else "nip", middle), (low, high)


def read_one(where: str, text: str, system: System, pack: bool, slips: Slips) -> Typed | None:
    """Read one reading with its mark: `10 deg: 0.041`, `0.45: 0.07`."""
    mark, colon, read = text.rpartition(":")
    if not colon:
        way = "write mark, colon, float: " + ("0.45: 0.070" if pack else "10 deg: 0.041")
        slips.add("walk.colon", where, f"no colon in {text.strip()!r}", way, text)
        return None
    at = slips.reading(where, mark, lambda t: _pack(t, system) if pack else _angle(t))
    size = _float(where, read, text, system, slips)
    by = None if size is None else _gauge(where, size, "dial indicator", slips)
    if at is None or size is None or by is None:
        return None
    own, shared = split_doubt(size, by)
    return Typed(
        where, mark.strip(), read.strip(), Reading(at[0], metres(size), at[1], own), shared
    )


def _float(where: str, read: str, text: str, system: System, slips: Slips) -> Size | None:
    """Read a float, which a dial can have shown."""
    size = slips.reading(where, read, lambda t: read_length(t, system))
    if size is None:
        return None
    if size.value < 0:
        slips.add(
            "walk.minus",
            where,
            f"a float of {read.strip()} is less than nothing, and no float is",
            "set the dial to nought at the push one way, pull, and write how far it moves",
            text,
        )
        return None
    if metres(size) > MOST_READ:
        slips.add(
            "walk.large",
            where,
            f"a float of {read.strip()} is {metres(size) * 1e3:g} mm, more than the "
            f"{MOST_READ * 1e3:g} mm that a dial on the bench travels",
            "write it with its point, or its unit: 0.082, 82 um, 3 thou",
            text,
        )
        return None
    return size


def _angle(text: str) -> tuple[float, float]:
    """Read a mark of a nut and one standard deviation of setting it [deg]."""
    mark = read_mark(text)
    return mark.degrees, mark.error


def _pack(text: str, system: System) -> tuple[float, float]:
    """Read a pack [m] and one standard deviation of what was measured [m]."""
    size = read_length(text, system)
    if size.value < 0:
        raise Unreadable(
            "walk.minus", 0, "a pack is never thinner than nothing", "write 0 for none"
        )
    by = gauge(Rebuild(system), size.instrument or "micrometer")
    if by is None:
        raise _unknown(size)
    return metres(size), split_doubt(size, by)[0]


def _gauge(where: str, size: Size, usual: str, slips: Slips) -> Gauge | None:
    by = gauge(Rebuild("mm"), size.instrument or usual)
    if by is None:
        error = _unknown(size)
        slips.add(error.code, where, error.message, error.way_out, size.text)
    return by


def _unknown(size: Size) -> Unreadable:
    message = f"no instrument is called {size.instrument!r}"
    way_out = near(size.instrument or "", [*INSTRUMENTS, *ALSO_CALLED])
    return Unreadable("walk.instrument", 0, message, way_out)
