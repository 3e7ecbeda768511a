"""What is wrong with a text: numbered through, and each beside the box it is about.

What needs no arithmetic is told at once; the rest comes with the drawing.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dryfit.app.pages.asked import Asked, path
from dryfit.app.pages.rows import place_id
from dryfit.app.pages.tasks import Picture
from dryfit.document.locate import Located
from dryfit.document.nodes import fold
from dryfit.model.rules import check
from dryfit.quantities.finding import Finding, Level, Place, stops


@dataclass(frozen=True, slots=True)
class Flag:
    """One finding: its number, the part it is about, and where to put it right."""

    number: int
    level: str
    message: str
    way_out: str
    line: int
    place: Place
    excerpt: str
    part: str
    to: str


@dataclass(frozen=True)
class Found:
    """All that was found; `every` if nothing more is to come."""

    flags: tuple[Flag, ...]
    every: bool

    def at(self, place: Place) -> tuple[Flag, ...]:
        """List what belongs beside a box."""
        return tuple(flag for flag in self.flags if flag.place[: len(place)] == place)

    def about(self, part: str, places: Iterable[Place]) -> tuple[Flag, ...]:
        """List what is about a part and belongs beside none of its boxes."""
        boxes = [*places]
        return tuple(
            flag
            for flag in self.flags
            if flag.part == part and not any(flag.place[: len(box)] == box for box in boxes)
        )

    def numbers(self) -> Mapping[str, tuple[int, ...]]:
        """List the numbers of the findings of each part."""
        parts = dict.fromkeys(flag.part for flag in self.flags if flag.part)
        return {p: tuple(f.number for f in self.flags if f.part == p) for p in parts}


WAIT = "drawn"
"""What an address asks with that is to have its drawing at once: without a script."""


def links(asked: Asked) -> str:
    """Say what stands before the name of a part in the address of its sizes."""
    return path(asked.revision.rebuild, "measure") + "/"


async def picture_of(asked: Asked) -> Picture | None:
    """Give the drawing, with what was found, if it is made or is waited for."""
    made: Picture | None = asked.desk.known("picture", asked.with_readings, links(asked))
    if made is None and WAIT in asked.query:
        made = await asked.work("picture", links(asked))
    return made


def further(asked: Asked, picture: Picture | None) -> list[Finding] | None:
    """Take off a picture what was found beside what the text says itself; None without one."""
    if picture is None:
        return None
    own = {(one.code, one.place, one.message) for one in asked.document.findings}
    return [
        Finding(one.code, one.place, one.message, one.way_out, _level(one.level))
        for one in picture.findings
        if (one.code, one.place, one.message) not in own
    ]


def _level(level: str) -> Level:
    return "stop" if level == "stop" else "note"


def found(asked: Asked, more: Iterable[Finding] | None) -> Found:
    """Collect what is wrong; `more` is what was found by arithmetic, None if not yet known."""
    document = asked.document
    at_once = check(document.rebuild) if document.tree.root else ()
    every = more is not None or stops([*document.findings, *at_once])
    told = document.located(at_once if more is None else more)
    flags = tuple(_flag(asked, number, located) for number, located in enumerate(told, start=1))
    return Found(flags, every)


def _flag(asked: Asked, number: int, located: Located) -> Flag:
    finding, line = located.finding, located.line
    part, unit = part_of(finding.place), asked.revision.rebuild
    known = part in asked.document.rebuild.parts
    spot = place_id(finding.place)
    to = path(unit, "measure", part, spot) if known else path(unit, "text", hash_=f"line-{line}")
    told = (finding.level, finding.message, finding.way_out, line, finding.place, located.excerpt)
    return Flag(number, *told, part if known else "", to)


def part_of(place: Place) -> str:
    """Name the part that a place of the text is about; empty for none."""
    if len(place) < 2 or place[0] not in ("parts", "sizes", "settings"):
        return ""
    return fold(str(place[1]).partition(" to ")[0].partition(".")[0])
