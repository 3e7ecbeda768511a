"""What was measured: the drawing as the way in, the sizes of a part, and what they are good for.

Reading order: the page, what it lists, its pieces that are worked out: the drawing with findings,
the numbers.
"""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages import good
from dryfit.app.pages.asked import Asked, Page, Slip, path
from dryfit.app.pages.boxes import ADD, NAME
from dryfit.app.pages.found import Flag, Found, found, further, links, picture_of
from dryfit.app.pages.frame import Frame, frame, no_longer
from dryfit.app.pages.lit import lit_up
from dryfit.app.pages.rows import Row, Text, further_rows, written_rows
from dryfit.app.pages.tasks import Picture
from dryfit.app.usecases.drawing_marks import letters
from dryfit.mechanics.instruments import INSTRUMENTS


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part in the list of all: its number, how many of its sizes are known, its flags."""

    number: str
    name: str
    told: str
    flags: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LineChoice:
    """A line to be drawn, or all of them."""

    name: str
    to: str
    shown: bool


@dataclass(frozen=True)
class Shown:
    """The drawing, or why there is none; nothing of both while it is being made."""

    svg: str
    why: str
    lines: tuple[LineChoice, ...]
    address: str


@dataclass(frozen=True)
class Boxes:
    """The part whose sizes are shown."""

    number: str
    name: str
    kind: str
    rows: tuple[Row, ...]
    further: tuple[Row, ...]
    spots: tuple[str, ...]
    flags: tuple[Flag, ...]


@dataclass(frozen=True)
class MeasurePage(Page):
    """The drawing, the list of parts, and the boxes of one of them."""

    template: ClassVar[str] = "measure.html"
    frame: Frame
    drawn: Shown
    parts: tuple[PartRow, ...]
    part: Boxes | None
    instruments: tuple[str, ...]
    usual: str
    found: Found
    numbers: good.Numbers | None
    numbers_address: str
    slip: Slip | None
    slip_at: str
    gone: str


@dataclass(frozen=True)
class DrawnPiece(Page):
    """The drawing by itself, with all that is wrong."""

    template: ClassVar[str] = "drawing.html"
    frame: Frame
    drawn: Shown
    parts: tuple[PartRow, ...]
    part: Boxes | None
    found: Found


@dataclass(frozen=True)
class NumbersPiece(Page):
    """How sure it is, and for each box of a part how good is good enough."""

    template: ClassVar[str] = "numbers.html"
    frame: Frame
    part: Boxes | None
    numbers: good.Numbers


async def page(asked: Asked) -> MeasurePage:
    """Show the page."""
    text, picture = _text(asked), await picture_of(asked)
    told = found(asked, further(asked, picture))
    part = _boxes(text, asked.at, told)
    slip = asked.slip
    return MeasurePage(
        frame(asked, "measure"),
        _shown(asked, picture, told),
        _parts(text, told),
        part,
        tuple(dict.fromkeys((*INSTRUMENTS, *asked.document.rebuild.instruments))),
        asked.document.rebuild.measured_with or "",
        told,
        await good.known(asked, part.rows if part else ()),
        path(asked.revision.rebuild, "numbers", asked.at),
        slip,
        _slip_at(slip, part),
        _gone(asked, text, part),
    )


async def drawing(asked: Asked) -> DrawnPiece:
    """Show the drawing by itself, as soon as it is made, and what was found."""
    picture: Picture = await asked.work("picture", links(asked))
    text, told = _text(asked), found(asked, further(asked, picture))
    part = _boxes(text, asked.at, told)
    drawn = _shown(asked, picture, told)
    return DrawnPiece(frame(asked, "measure"), drawn, _parts(text, told), part, told)


async def numbers(asked: Asked) -> NumbersPiece:
    """Show how sure it is, and what each size of a part is worth."""
    part = _boxes(_text(asked), asked.at, Found((), every=True))
    told = await good.asked_for(asked, part.rows if part else ())
    return NumbersPiece(frame(asked, "measure"), part, told)


def _text(asked: Asked) -> Text:
    given = {one.key: one.letter for one in letters(asked.document.rebuild)}
    return Text(asked.document, given)


def _gone(asked: Asked, text: Text, part: Boxes | None) -> str:
    """Say that what the address names is not in the text; nothing where it is."""
    line, lines = asked.query.get("line", ""), [*asked.document.rebuild.lines]
    if asked.at and part is None:
        return no_longer("part", asked.at, text.names("parts"))
    return no_longer("line", line, lines) if line and line not in lines else ""


def _slip_at(slip: Slip | None, part: Boxes | None) -> str:
    """Name the box that what was not kept belongs to; empty for none."""
    if slip is None or part is None:
        return ""
    if slip.place in (ADD, NAME):
        return str(slip.place[0])
    return next((r.id for r in (*part.rows, *part.further) if r.where == slip.place), "")


def _parts(text: Text, told: Found) -> tuple[PartRow, ...]:
    flags = told.numbers()
    return tuple(
        PartRow(str(number), name, _known(text, name), flags.get(name, ()))
        for number, name in enumerate(text.names("parts"), start=1)
    )


def _known(text: Text, part: str) -> str:
    """Say how many of the sizes of a part are known."""
    sizes = [row for row in written_rows(text, part) if row.is_size]
    setting = text.document.rebuild.settings.get(part)
    if setting is not None and setting.fitted is None and not sizes:
        return "to be found"
    known = sum(not row.unknown for row in sizes)
    return f"{known} of {len(sizes)}" if sizes else "no sizes"


def _boxes(text: Text, part: str, told: Found) -> Boxes | None:
    names = text.names("parts")
    if part not in names:
        return None
    rows, more = tuple(written_rows(text, part)), tuple(further_rows(text, part))
    return Boxes(
        str(names.index(part) + 1),
        part,
        text.kind(part),
        rows,
        more,
        _spots(text, part),
        told.about(part, [row.where for row in (*rows, *more)]),
    )


def _spots(text: Text, part: str) -> tuple[str, ...]:
    """List the places of a part that the text names."""
    rebuild = text.document.rebuild
    spots = [spot for size in rebuild.sizes.values() for spot in (size.start, size.end)]
    for line in rebuild.lines.values():
        spots += [spot for stack in line.stacks for spot in stack.spots]
    return tuple(dict.fromkeys(spot.name for spot in spots if spot.part == part))


def _shown(asked: Asked, picture: Picture | None, told: Found) -> Shown:
    lines = [*asked.document.rebuild.lines]
    wanted = asked.query.get("line", "")
    line = wanted if wanted in lines else ""
    choices = [_choice(asked, name, line) for name in ("", *lines)] if len(lines) > 1 else []
    unit = asked.revision.rebuild
    query = {"line": line} if line else None
    address = path(unit, "drawing", asked.at, query=query)
    if picture is None:
        return Shown("", "", tuple(choices), address)
    drawn = picture.lines.get(line, "") if line else picture.svg
    lit = lit_up(drawn, asked.at, told.numbers(), line)
    return Shown(lit, picture.why, tuple(choices), address)


def _choice(asked: Asked, name: str, line: str) -> LineChoice:
    query = {"line": name} if name else None
    to = path(asked.revision.rebuild, "measure", asked.at, query=query)
    return LineChoice(name or "Whole unit", to, name == line)
