"""What stands behind the work: walks, sizes, parts, and where each figure comes from."""

from collections.abc import Iterator
from dataclasses import fields

from dryfit.app.paper.blocks import (
    Block,
    Head,
    Notes,
    Picture,
    Point,
    Points,
    Sheet,
    Table,
    Text,
    said,
    sentence,
)
from dryfit.app.paper.known import Known, name_and_kind
from dryfit.app.words.around import taken
from dryfit.app.words.figures import Figures
from dryfit.app.words.needs import limits
from dryfit.app.words.trade import NOT_KNOWN_OF
from dryfit.app.words.walk import points
from dryfit.app.words.written import written_walk
from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.model.lands import Land
from dryfit.model.parts import Part
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import NotKnown, Size, echo

CALIPER = "caliper"
"""What a size is taken to be measured with where nothing is said."""


def walk_sheets(known: Known) -> tuple[Sheet, ...]:
    """Give a sheet for each walk that was written down."""
    sheets = []
    for one in known.answer.walks:
        head, *others = written_walk(one, known.show)
        blocks: list[Block] = []
        if one.walk.answered:
            rows = tuple(points(one.walk, known.show))
            blocks.append(Table(("with", "float read", "lies"), rows, (1, 1, 2)))
        sheets.append(Sheet(head.text, (*blocks, *said(others), Notes())))
    return tuple(sheets)


def line_drawings(known: Known) -> tuple[Sheet, ...]:
    """Give each line its own drawing, with its letters."""
    return tuple(
        Sheet(f"Drawing: {name}", (Picture(svg, alt=f"half-section of {name}", framed=False),))
        for name, svg in known.drawn.lines.items()
    )


def size_and_part_sheets(known: Known) -> tuple[Sheet, ...]:
    """List the sizes, with instrument and letter, and the parts, with boxes for a pencil."""
    sizes, parts = _sizes(known), _parts(known)
    why = "Letters and numbers are those of the drawing."
    count = len(known.rebuild.sizes)
    if count + len(known.rebuild.parts) <= ON_ONE or count > FULL:
        both = (*sizes, *((Head("Parts"), *parts) if parts else ()))
        return (Sheet("Sizes and parts", (*both, Notes()), why=why),) if both else ()
    lists = (("Sizes", sizes), ("Parts", parts))
    return tuple(Sheet(title, (*rows, Notes()), why=why) for title, rows in lists if rows)


ON_ONE = 12
"""So many rows of sizes and parts go on one sheet."""

FULL = 16
"""More sizes than that go on over a second sheet, and the parts follow them there."""


def _sizes(known: Known) -> tuple[Block, ...]:
    rows = tuple(_size(key, between.size, known) for key, between in known.rebuild.sizes.items())
    heads = ("letter", "size", "as typed", "or", "by", "again")
    table = Table(heads, rows, (0, 1.75, 0.95, 0.75, 1.15, 0.75), (2, 3), high=7.5, tight=1.3)
    minus = any(typed and typed.startswith("-") for _, _, typed, *_ in rows)
    return (table, *((Text(MINUS_MEANS, 11),) if minus else ())) if rows else ()


MINUS_MEANS = "A minus: the second place lies nearer to the first end of the line than the first."


def _size(key: str, size: Size | NotKnown, known: Known) -> tuple[str | None, ...]:
    letter = known.drawn.letters.get(key, "–")
    if isinstance(size, NotKnown):
        return letter, key, "not known", "", by(size, known.rebuild), None
    typed, _, other = echo(size).partition(" = ")
    return letter, key, typed, other, by(size, known.rebuild), None


def by(size: Size | NotKnown, rebuild: Rebuild) -> str:
    """Name the instrument of a size."""
    own = None if isinstance(size, NotKnown) else size.instrument
    return own or rebuild.measured_with or CALIPER


def _parts(known: Known) -> tuple[Block, ...]:
    rows = tuple(
        (
            known.drawn.balloons.get(part.name, "–"),
            name_and_kind(part),
            "; ".join(_typed(part)),
            None,
        )
        for part in known.rebuild.parts.values()
    )
    heads = ("no.", "part, and its kind", "as typed", "marks on it")
    table = Table(heads, rows, (0, 1, 2.2, 0.8), high=7.0, tight=1.5)
    return (table,) if rows else ()


def _typed(part: Part) -> Iterator[str]:
    """Say what is typed of a part, key by key."""
    for one in fields(part):
        value = getattr(part, one.name)
        if one.name in ("name", "kind") or value is None:
            continue
        key = one.metadata.get("key") or one.name.replace("_", " ")
        lands = value if isinstance(value, tuple) else ()
        told = ", ".join(f"{x.key} {x.size.text}" for x in lands if isinstance(x, Land))
        yield f"{key} {told or getattr(value, 'text', value)}"


def source_sheet(known: Known) -> Sheet:
    """Say where each figure comes from."""
    answer = known.answer
    rows = tuple(
        (f"{w.kind} of {w.of}", limits(w, _short(known.show)), w.source) for w in answer.wanted
    )
    blocks: list[Block] = []
    if rows:
        blocks += [Head("What is wanted"), Table(("of", "limits", "who says so"), rows, (1, 1, 1))]
    used = dict.fromkeys(_instruments(known.rebuild))
    told = tuple((name, INSTRUMENTS[name].source) for name in used if name in INSTRUMENTS)
    if told:
        head = Head("How far an instrument may be off")
        blocks += [head, Table(("instrument", "limit from"), told, (1, 2.6))]
    blocks += [Head("Common practice, no source"), Points(PRACTICE_OF, dashed=True)]
    blocks += [Head("Estimates"), Text(NOT_KNOWN_OF)]
    blocks += _about(known)
    guesses = taken(answer)
    blocks += [Head("Taken for granted"), *said(guesses)] if guesses else []
    return Sheet("Where the figures come from", (*blocks, Notes()))


def _about(known: Known) -> tuple[Block, ...]:
    """Say what is to be said of the drawing."""
    told = [Point(sentence(one.message)) for one in known.drawn.findings]
    return (Head("Of the drawing"), Points(tuple(told))) if told else ()


def _short(show: Figures) -> Figures:
    return Figures(show.first, both=False)


def _instruments(rebuild: Rebuild) -> Iterator[str]:
    """Name every instrument that measured a size."""
    for between in rebuild.sizes.values():
        name = by(between.size, rebuild)
        own = rebuild.instruments.get(name)
        yield own.like if own and own.like else name


PRACTICE_OF = (
    Point("how each check is read, and its cautions"),
    Point("what would make a reading more or less, and how likely each is"),
    Point("every limit above that says so"),
)
