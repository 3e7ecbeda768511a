"""All checks on one sheet: what each should read, with boxes."""

from dryfit.app.paper.blocks import Block, Box, Boxes, Notes, Sheet, Table, Text
from dryfit.app.paper.known import Known
from dryfit.app.words.checks import check_name, should, unread, what_read
from dryfit.app.words.fit import taken_in_hand


def reading_sheet(known: Known) -> Sheet:
    """List what every check should read."""
    rows: list[tuple[str | None, ...]] = []
    for check in known.answer.checks:
        told = should(check, known.show)
        name = f"{check_name(check)}\n{what_read(check)}"
        if told is None:
            rows.append((name, unread(check), "", "", None))
        else:
            rows.append((name, told.typed, told.band, None, None))
    heads = ("check", "should read", "nine times in ten", "reads", "again")
    blocks: list[Block] = [
        Text(f"With {taken_in_hand(one, known.show, 'as it is')}.") for one in known.answer.settings
    ]
    table = Table(heads, tuple(rows), (1.7, 0.9, 1.3, 0.9, 0.9), high=11)
    return Sheet("Expected readings", (*blocks, table, Boxes((Box("by"), Box("date"))), Notes()))
