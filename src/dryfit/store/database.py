"""The database file: looked at before it is opened, opened for full safety, written in one go.

`form_of` reads the file's own head, so that what is damaged, of another program or newer than this
one is refused before anything touches it. `Database.writing` is the one way to write: all of a
change or nothing, and on the disk when it is done.
"""

import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from time import monotonic, sleep

from dryfit.store.trouble import Trouble, damaged, told

APPLICATION = int.from_bytes(b"dryF", "big")
"""Tells a database of dryfit from any other one; stands in the head of the file."""

OLDEST_SQLITE = (3, 27, 0)
"""The first that makes a copy by VACUUM INTO."""

WAIT = 10.0
"""How long to wait for another program that writes [s]."""

PAUSE = 0.02
"""How long to wait before it is tried again [s]."""

_HEAD, _MAGIC = 100, b"SQLite format 3\0"
_SAFE = (
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",
    "PRAGMA fullfsync = ON",
    "PRAGMA checkpoint_fullfsync = ON",
    "PRAGMA foreign_keys = ON",
    "PRAGMA trusted_schema = OFF",
    "PRAGMA cell_size_check = ON",
)


def form_of(path: Path, newest: int) -> int:
    """Give the number of a database's form from its head, 0 for none; refuse what is not for us."""
    with told(path):
        head = _first(path, _HEAD) if path.exists() else b""
    if not head:
        return 0
    if len(head) < _HEAD or not head.startswith(_MAGIC):
        raise damaged(path, "its head is not that of a database")
    form, application = (int.from_bytes(head[at : at + 4], "big") for at in (60, 68))
    refuse_form(path, form, application, newest)
    return form


def _first(path: Path, count: int) -> bytes:
    with path.open("rb") as file:
        return file.read(count)


def refuse_form(path: Path, form: int, application: int, newest: int) -> None:
    """Refuse a database of another program, and one of a newer dryfit."""
    if application != APPLICATION and (application, form) != (0, 0):
        raise other(path)
    if form > newest:
        message = (
            f"{path} was written by a newer dryfit: its form is {form}, this one knows up to "
            f"{newest}. It was not opened"
        )
        raise Trouble("store.newer", message, "use the newer dryfit, or name another folder")


def other(path: Path) -> Trouble:
    """Say that a database is not one of dryfit."""
    message = f"{path} belongs to another program"
    return Trouble("store.other", message, "move it, or name another folder by DRYFIT_HOME")


def _make_safe(connection: sqlite3.Connection) -> None:
    """Set all that keeps data safe; SQLite does not wait by itself for who sets it just now."""
    until = monotonic() + WAIT
    for pragma in _SAFE:
        while True:
            try:
                connection.execute(pragma)
                break
            except sqlite3.OperationalError as error:
                busy = getattr(error, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_BUSY
                if not busy or monotonic() > until:
                    raise
                sleep(PAUSE)


class Database:
    """One open database, shared by the threads of a program."""

    def __init__(self, path: Path) -> None:
        if sqlite3.sqlite_version_info < OLDEST_SQLITE:
            message = f"this Python brings SQLite {sqlite3.sqlite_version}; at least 3.27 is needed"
            raise Trouble("store.sqlite", message, "use a newer Python")
        self.path = path
        self._one_at_a_time = threading.RLock()
        with told(path):
            self._connection = sqlite3.connect(
                path, timeout=WAIT, isolation_level=None, check_same_thread=False
            )
            try:
                _make_safe(self._connection)
            except BaseException:
                self._connection.close()
                raise

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Lend the connection to read, or for what cannot be part of a change."""
        with self._one_at_a_time, told(self.path):
            yield self._connection

    @contextmanager
    def steady(self) -> Iterator[sqlite3.Connection]:
        """Lend the connection for several looks at one state, whatever other programs write."""
        with self.reading() as connection:
            connection.execute("BEGIN")
            try:
                yield connection
            finally:
                connection.execute("ROLLBACK")

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Lend the connection for one change: all of it is kept, on the disk, or nothing."""
        with self.reading() as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
                connection.execute("COMMIT")
            finally:
                if connection.in_transaction:
                    with suppress(sqlite3.Error):  # what went wrong before is what is told
                        connection.execute("ROLLBACK")

    def number(self, pragma: str) -> int:
        """Read a number that the database keeps about itself."""
        with self.reading() as connection:
            return int(connection.execute(f"PRAGMA {pragma}").fetchone()[0])

    def check(self) -> None:
        """Refuse a database whose pages do not hang together."""
        with self.reading() as connection:
            check_pages(connection, self.path)

    def close(self) -> None:
        """Close it; nothing waits to be written."""
        with self._one_at_a_time:
            self._connection.close()


def check_pages(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse a database whose pages do not hang together."""
    (said,) = connection.execute("PRAGMA integrity_check(1)").fetchone()
    if said != "ok":
        raise damaged(path, str(said).replace("\n", " "))
