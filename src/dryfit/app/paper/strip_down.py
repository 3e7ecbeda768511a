"""The strip-down sheet: what to write down before a unit is taken apart, made for its own parts."""

from dryfit.app.paper.blocks import (
    Block,
    Box,
    Boxes,
    Care,
    Head,
    Notes,
    Sheet,
    Squares,
    Table,
    Ticks,
)
from dryfit.app.paper.ordering import strip_order
from dryfit.app.usecases.ordering.answers import OrderAnswer
from dryfit.app.words.states import how_held
from dryfit.app.words.strip_down import (
    BEFORE,
    DO_NOT_LOSE,
    EVERY,
    HARM,
    between,
    in_joints,
    notes_of,
)
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.model.rebuild import Line, Rebuild

BLANK_ROWS = 4
"""Lines for what is found and not written yet."""


def strip_sheets(
    rebuild: Rebuild, apart: OrderAnswer | None = None, pictures: tuple[str, ...] = ()
) -> tuple[Sheet, ...]:
    """Write the strip-down sheets of a unit, of whatever is written of it."""
    lines = tuple(_line(rebuild, line) for line in rebuild.lines.values())
    order = strip_order(apart, pictures) if apart else ()
    return (_before(rebuild), *order, *(lines or (_any_line(),)), _rings(rebuild), _keep())


def _before(rebuild: Rebuild) -> Sheet:
    rows: list[tuple[str | None, ...]] = [
        (name, check.by or USUAL_INSTRUMENT[check.kind], how_held(check) or None, None)
        for name, check in rebuild.checks.items()
    ]
    rows += [(text, "", None, None) for text in (() if rows else EVERY)]
    rows += [(None, None, None, None)] * (BLANK_ROWS - 1)
    heads = ("what", "by", "push, radius, held", "as found")
    boxes = (Box("machine and its plate"), Box("owner"), Box("date, by"))
    blocks: tuple[Block, ...] = (
        *(Care(text) for text in HARM[:1]),
        Ticks(BEFORE),
        Head("As found, while it is whole"),
        Table(heads, tuple(rows), (1.4, 1, 1.1, 0.9)),
        Boxes(boxes, high=12),
        Notes("how it runs, what the owner says"),
    )
    return Sheet("Strip-down: before a screw is turned", blocks)


def _line(rebuild: Rebuild, line: Line) -> Sheet:
    """List the parts of a line in their order, each with what to write down."""
    rows = [("\n".join(dict.fromkeys(one)), note, None) for *one, note in notes_of(rebuild, line)]
    ends = (Box(f"{line.first} is, at the machine"), Box(f"{line.last} is, at the machine"))
    table = Table(("part", "write down", "as found"), tuple(rows), (0.9, 1.2, 1.1), high=11)
    blocks: tuple[Block, ...] = (
        Boxes((*ends, Box("comes out towards")), high=12),
        table,
        Care(HARM[2]),
        Squares("sketch: who pushes whom, end to end"),
    )
    return Sheet(
        f"Strip-down: {line.name}", blocks, why=f"In order from {line.first} to {line.last}."
    )


def _any_line() -> Sheet:
    """Give a form for a line of which nothing is written."""
    heads = ("part, in order", "looks to which end", "figures, marks, thickness")
    table = Table(heads, ((None, None, None),) * 9, (1.2, 0.9, 1.3), high=9.5)
    ends = (Box("line"), Box("one end"), Box("the other end"), Box("comes out towards"))
    blocks: tuple[Block, ...] = (
        Boxes(ends, high=12),
        table,
        Care(HARM[2]),
        Squares("sketch: who pushes whom, end to end"),
    )
    return Sheet("Strip-down: a line, end to end", blocks, why="A sheet for each shaft.")


def _rings(rebuild: Rebuild) -> Sheet:
    """List shims, gaskets and thin rings, each with where it lies."""
    rows: list[tuple[str | None, ...]] = [
        (name, between(rebuild, name), None, None) for name in in_joints(rebuild)
    ]
    rows += [(None, None, None, None)] * max(BLANK_ROWS, 8 - len(rows))
    heads = ("shim, gasket or ring", "lies between", "each thickness", "side, bag")
    table = Table(heads, tuple(rows), (1.2, 1.4, 1.2, 0.8), high=11)
    why = "Each pack measured whole and leaf by leaf, tied together, and tagged."
    return Sheet("Strip-down: shims and rings in joints", (table, Care(HARM[1]), Notes()), why=why)


def _keep() -> Sheet:
    blocks = (Ticks(DO_NOT_LOSE, size=14), Squares("sketch"))
    return Sheet("Strip-down: do not lose", blocks, why="What cannot be found out again.")
