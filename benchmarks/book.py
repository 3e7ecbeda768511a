"""How long the book of the largest demo takes to print, beside its pages printed from HTML.

The model is asked and the unit drawn once, before anything is timed: both are counted apart. What
is timed begins with the sheets as data and ends with the bytes of a PDF. If a chromium is found the
same sheets, as plain HTML, are printed by it; it is started anew for each, as a user's would be.
NOTES says what each side does more or less.
"""

import html
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date
from pathlib import Path
from statistics import median
from textwrap import wrap
from time import perf_counter
from typing import TYPE_CHECKING, Any

from dryfit.app.paper.blocks import Picture, Sheet, Table
from dryfit.app.paper.press import Imprint, pressed
from dryfit.app.usecases import demos
from dryfit.app.usecases.binding import known_of
from dryfit.app.usecases.book import sheets_of
from dryfit.app.usecases.opening import open_text

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

DEMO = "bevel-box-loose-cover"
ROUNDS, PROCESSES = 7, 5
AIM = 1.5
"""The book is to be printed within so much [s]."""

PRESS, FIRST = "typst, again in one process", "typst, first in a process"
BROWSER = "chromium, from HTML"

NOTES = (
    "typst: header, footer and number on every page, boxes, tables that go on over pages with "
    "their heads, drawings as vectors, PDF/A with the faces inside. 'First' loads typst and the "
    "faces; its ratio is that of medians.",
    "chromium: the same words, tables and drawings, hardly styled; no header, no footer, no "
    "PDF/A. Its time holds its start. What looks as finished would take longer.",
)

STYLE = """body{font:12.5pt sans-serif}section{break-before:page}table{width:100%;border-collapse:
collapse}td,th{border-bottom:1px solid;padding:2mm;text-align:left}svg{width:100%;height:auto}"""

FIRST_PRESS = """
import pickle, sys
from time import perf_counter
sheets, imprint = pickle.load(sys.stdin.buffer)
start = perf_counter()
from dryfit.app.paper.press import pressed
pressed(sheets, imprint)
print(perf_counter() - start)
"""


def as_html(sheets: tuple[Sheet, ...]) -> str:
    """Write the same sheets as plain HTML."""
    body = "".join(
        f"<section><h1>{html.escape(sheet.title)}</h1><p>{html.escape(sheet.why)}</p>"
        f"{''.join(map(_block, sheet.blocks))}</section>"
        for sheet in sheets
    )
    return f"<!doctype html><meta charset=utf-8><style>{STYLE}</style>{body}"


def _block(block: Any) -> str:
    if isinstance(block, Picture):
        return block.svg
    if isinstance(block, Table):
        rows = (block.heads, *block.rows)
        cells = ("".join(f"<td>{html.escape(cell or '')}</td>" for cell in row) for row in rows)
        return "<table>" + "".join(f"<tr>{row}</tr>" for row in cells) + "</table>"
    return "".join(f"<p>{html.escape(text)}</p>" for text in _texts(block))


def _texts(record: Any) -> list[str]:
    """List all texts of a block."""
    if isinstance(record, str):
        return [record]
    if isinstance(record, tuple):
        return [text for one in record for text in _texts(one)]
    if is_dataclass(record):
        return [text for one in fields(record) for text in _texts(getattr(record, one.name))]
    return []


def browser(page: str) -> Callable[[], object] | None:
    """Print a page by chromium, if there is one."""
    program = next(filter(None, map(shutil.which, ("chromium", "chromium-browser"))), None)
    if program is None:
        return None
    folder = Path(tempfile.mkdtemp())
    source = folder / "book.html"
    source.write_text(page, encoding="utf-8")
    words = ["--headless", "--no-sandbox", "--disable-gpu", f"--print-to-pdf={folder / 'x.pdf'}"]
    command = [program, *words, source.as_uri()]
    return lambda: subprocess.run(command, check=True, capture_output=True)


def first_press(sheets: tuple[Sheet, ...], imprint: Imprint) -> float:
    """Print once in each of several new processes [s]."""
    import pickle

    handed, root = pickle.dumps((sheets, imprint)), Path(__file__).resolve().parent.parent
    command = [sys.executable, "-c", FIRST_PRESS]
    taken = [
        subprocess.run(command, cwd=root, input=handed, capture_output=True, check=True).stdout
        for _ in range(PROCESSES)
    ]
    return median(float(seconds) for seconds in taken)


def timed(act: Callable[[], Any]) -> tuple[Any, float]:
    """Do something once, and say how long it took [s]."""
    start = perf_counter()
    return act(), perf_counter() - start


def main() -> None:
    """Time all sides and print the table."""
    text = demos.text(DEMO)
    opened = open_text(text)
    known, asked = timed(lambda: known_of(opened))
    sheets, written = timed(lambda: sheets_of(known, opened.findings))
    imprint = Imprint(known.answer.title, f"{DEMO}.yaml", date(2026, 5, 14), "a4")
    sides: dict[str, timing.Act] = {PRESS: lambda: pressed(sheets, imprint)}
    by_browser = browser(as_html(sheets))
    if by_browser is not None:
        sides[BROWSER] = by_browser
    runs = timing.in_turn(sides, ROUNDS)
    first = first_press(sheets, imprint)
    print(f"{timing.machine()}\n{DEMO}: {len(sheets)} sections; medians of {ROUNDS} in turn")
    print(
        f"counted apart: asking and drawing {asked:.1f} s, writing the sheets {timing.ms(written)}"
    )
    print(f"\n{timing.table(rows_of(runs, first))}\n")
    for note in NOTES if by_browser else NOTES[:1]:
        print("\n".join(wrap(note, 88, subsequent_indent="  ")))
    if by_browser is None:
        print("No chromium is found here, so there is nothing beside it.")


def rows_of(runs: timing.Runs, first: float) -> list[tuple[str, ...]]:
    """Write the figures of all sides."""
    rows: list[tuple[str, ...]] = [("side", "median", "to chromium", "aim")]
    beside = BROWSER in runs.seconds
    ratio = timing.times(first / runs.median(BROWSER)) if beside else ""
    rows.append((FIRST, timing.ms(first), ratio, timing.aim(first, AIM)))
    for side in runs.seconds:
        shown = timing.times(runs.ratio(side, BROWSER)) if beside else ""
        goal = timing.aim(runs.median(side), AIM) if side == PRESS else ""
        rows.append((side, timing.ms(runs.median(side)), shown, goal))
    return rows


if __name__ == "__main__":
    main()
