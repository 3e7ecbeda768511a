"""Sizes and readings as tables for a spreadsheet.

Comma separated by RFC 4180, with a byte order mark: without it spreadsheets on Windows read `µ` and
`é` wrong. A cell that a spreadsheet would take for a formula gets an apostrophe in front; a plain
number with its sign is left as it is.
"""

import csv
import re
from collections.abc import Iterable
from io import StringIO

from dryfit.document.nodes import Mapping, Node, Scalar
from dryfit.document.tree import read_tree
from dryfit.store.journal import Reading
from dryfit.store.opening import Store
from dryfit.store.readings import as_it_stands
from dryfit.store.revisions import newest

MARK = "\ufeff"
SIZES = ("what", "as typed")
READINGS = (
    *("number", "time", "check", "as typed", "instrument", "state"),
    *("how", "struck out"),
)

_FORMULA = re.compile(r"\s*[=+\-@\t\r\n＝＋－＠]")
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?")


def sizes_table(store: Store, rebuild: int) -> bytes:
    """Write the sizes of the newest text, as typed."""
    root = read_tree(newest(store, rebuild).text).root
    entry = root.entry("sizes") if root else None
    rows = (
        [(one.key.text, _shown(one.value)) for one in entry.value.entries]
        if (entry and isinstance(entry.value, Mapping))
        else []
    )
    return table([SIZES, *rows])


def readings_table(store: Store, rebuild: int) -> bytes:
    """Write all readings of the journal, those struck out marked."""
    rows = [
        (
            *(str(entry.number), entry.at, check, entry.wrote.typed),
            *(entry.wrote.instrument, entry.wrote.state),
            "; ".join(f"{key}: {word}" for key, word in entry.wrote.how.items()),
            "yes" if entry.struck else "",
        )
        for check, entry in as_it_stands(store, rebuild).entries
        if isinstance(entry.wrote, Reading)
    ]
    return table([READINGS, *rows])


def table(rows: Iterable[Iterable[str]]) -> bytes:
    """Write rows of text."""
    file = StringIO()
    writer = csv.writer(file, lineterminator="\r\n")
    for row in rows:
        writer.writerow([guarded(cell) for cell in row])
    return (MARK + file.getvalue()).encode("utf-8", "replace")


def guarded(cell: str) -> str:
    """Keep a spreadsheet from taking a text for a formula.

    >>> guarded("=1+1"), guarded("-6.20 by depth micrometer"), guarded("-6.20"), guarded("12 thou")
    ("'=1+1", "'-6.20 by depth micrometer", '-6.20', '12 thou')
    """
    return f"'{cell}" if _FORMULA.match(cell) and not _NUMBER.fullmatch(cell) else cell


def _shown(node: Node) -> str:
    return node.text if isinstance(node, Scalar) else ""
