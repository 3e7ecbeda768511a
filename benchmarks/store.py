"""How long it takes until a typed size is safe on the disk, beside less careful ways to write it.

One edit of one size of a demo, kept by the store, which reads the text twice over and waits for the
disk. Beside it: what that is made of, a plain insert into SQLite, a plain file. NOTES says what
each side does more or less. A store of many edits is opened as well, and its size told.
"""

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING

from dryfit.app.usecases import demos
from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.store.edits import Written, write
from dryfit.store.journal import Reading, note
from dryfit.store.opening import Store, open_store
from dryfit.store.revisions import append, begin, newest

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROUNDS = 60
MANY = 3000
PLACE = ("sizes", "sleeve")

AIM = 0.05
"""Of the 300 ms from a typed size to new figures, what may go to keeping it [s]."""

EDIT, OLDER = "edit, kept", "edit of an older text, kept"
SPLICE, READING = "the splice alone", "reading in the journal, kept"
FULL, NORMAL = "plain insert, waits for the disk", "plain insert, does not wait"
FILE, LOOSE = "plain file, waits for the disk", "plain file, does not wait"
OPEN, NEWEST = f"a store of {MANY} edits, opened", "newest text"

NOTES = (
    "edit, kept: splices one size into the newest text, reads the text back to prove it, writes "
    "the whole text with its change and hashes, and waits for the disk (SQLite with a log written "
    "ahead, synchronous = FULL).",
    "edit of an older text: the same, where the page was opened one revision ago: whether the "
    "place has changed since is found out from both texts.",
    "plain insert: the same text into a table of one column by the sqlite3 of Python, log written "
    "ahead; it waits at synchronous = FULL and does not at NORMAL, where a power cut takes the "
    "last changes away.",
    "plain file: the same text into a file of that name; a cut in the middle leaves half a text. "
    "'Waits' calls fsync.",
    "opened: looked at page by page, a copy made and compared with the last. Nothing has changed "
    "since that one, as at most starts.",
    "A disk in memory, or one that lies about having written, makes all waits short.",
)


@dataclass
class Typing:
    """Somebody who types one size after the other into a rebuild that is kept."""

    store: Store
    rebuild: int
    saw: int
    saw_before: int
    sizes: Iterator[int]

    def edit(self) -> None:
        """Type a size, looking at the newest text."""
        typed = f"22.{next(self.sizes) % 1000:03} by comparator"
        self._keep(Edit("set", PLACE, typed=typed), self.saw)

    def edit_of_older(self) -> None:
        """Type a title, looking at the text before the newest."""
        self._keep(Edit("set", ("title",), typed=f"Title {next(self.sizes)}"), self.saw_before)

    def read(self) -> None:
        """Put a reading into the journal."""
        note(self.store, self.rebuild, Reading("end float", "0.11", "dial indicator"))

    def _keep(self, edit: Edit, saw: int) -> None:
        outcome = write(self.store, self.rebuild, edit, saw=saw)
        if not isinstance(outcome, Written) or outcome.rebased != (saw != self.saw):
            raise SystemExit(f"the edit was not kept as it should be: {outcome}")
        self.saw_before, self.saw = self.saw, outcome.revision.number


def plain_insert(folder: Path, data: bytes, synchronous: str) -> timing.Act:
    """Put the text into a table of one column, each time in a change of its own."""
    connection = sqlite3.connect(folder / f"{synchronous}.sqlite", isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute(f"PRAGMA synchronous = {synchronous}")
    connection.execute("CREATE TABLE plain (text BLOB)")
    return lambda: connection.execute("INSERT INTO plain VALUES (?)", (data,))


def plain_file(path: Path, data: bytes, *, wait: bool) -> timing.Act:
    """Write the text over the one before."""

    def act() -> None:
        with path.open("wb") as file:
            file.write(data)
            file.flush()
            if wait:
                os.fsync(file.fileno())

    return act


def start_often(folder: Path, data: bytes) -> tuple[float, float, float]:
    """Fill a store with many texts; give the time to open it, to read the newest, and its size."""
    store = open_store(folder)
    here = begin(store, data)
    with store.database.writing() as connection:
        for number in range(MANY):
            more = data + b"# %d\n" % number
            here = append(store, connection, here.rebuild, here.number, more, None)
    store.close()
    open_store(folder).close()
    sides = {OPEN: lambda: open_store(folder).close()}
    opened = timing.in_turn(sides, 9).median(OPEN)
    again = open_store(folder)
    looked = timing.in_turn({NEWEST: lambda: newest(again, here.rebuild)}, 9).median(NEWEST)
    again.close()
    return opened, looked, again.folder.database.stat().st_size / MANY


def main() -> None:
    """Time all sides and print the table."""
    data = demos.text(demos.FIRST)
    with tempfile.TemporaryDirectory(dir=Path.cwd(), prefix=".dryfit-") as name:
        folder = Path(name)
        store = open_store(folder / "kept")
        first = begin(store, data)
        typing = Typing(store, first.rebuild, first.number, first.number, count())
        sides: dict[str, timing.Act] = {
            EDIT: typing.edit,
            OLDER: typing.edit_of_older,
            READING: typing.read,
            SPLICE: lambda: change(data.decode(), Edit("set", PLACE, typed="22.001")),
            FULL: plain_insert(folder, data, "FULL"),
            NORMAL: plain_insert(folder, data, "NORMAL"),
            FILE: plain_file(folder / "waits", data, wait=True),
            LOOSE: plain_file(folder / "does not wait", data, wait=False),
        }
        runs = timing.in_turn(sides, ROUNDS)
        store.close()
        opened, looked, size = start_often(folder / "many", data)
    head = f"first demo, {len(data)} bytes; medians of {ROUNDS} rounds in turn"
    print(f"{timing.machine()}\n{head}\n\n{timing.table(rows_of(runs))}\n")
    print(f"{OPEN}: {timing.ms(opened)}; its newest text read: {looked * 1e6:.0f} us; ", end="")
    print(f"{size:.0f} bytes on the disk for each edit\n")
    for words in NOTES:
        print("\n".join(wrap(words, 88, subsequent_indent="  ")))


def rows_of(runs: timing.Runs) -> list[tuple[str, ...]]:
    """Write the figures of all sides."""
    rows: list[tuple[str, ...]] = [("side", "median", "to plain insert", "to plain file", "aim")]
    for side in runs.seconds:
        seconds = runs.median(side)
        shown = [timing.times(runs.ratio(side, to)) for to in (FULL, FILE)]
        goal = timing.aim(seconds, AIM) if side in (EDIT, OLDER, READING) else ""
        rows.append((side, timing.ms(seconds), *shown, goal))
    return rows


if __name__ == "__main__":
    main()
