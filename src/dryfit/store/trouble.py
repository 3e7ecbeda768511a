"""What keeps the store from doing its work, told so that a user can put it right.

`Trouble` carries a finding; `told` turns what the system and the database complain of into one.
Whoever asked keeps what was to be written: nothing of it has reached the store.
"""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from dryfit.quantities.finding import Finding


class Trouble(Exception):
    """Something the user can put right: code, what is wrong, and the way out."""

    def __init__(self, code: str, message: str, way_out: str) -> None:
        super().__init__(message)
        self.finding = Finding(code, (), message, way_out)


FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
CLOSED = frozenset({errno.EACCES, errno.EPERM, errno.EROFS})
"""What a system says of a disk that is full, and of a place that may not be written to."""

_DAMAGED = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
_CLOSED = (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM)
_BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Tell what goes wrong with a file, or with the database, as trouble."""
    try:
        yield
    except sqlite3.Error as error:
        raise of_database(path, error) from error
    except UnicodeDecodeError as error:  # a name or a message read from a page that is none
        raise damaged(path, str(error)) from error
    except OverflowError as error:  # a number from an address that no row can have
        message = "there is nothing of that number"
        raise Trouble("store.number", message, "look at the list again") from error
    except OSError as error:
        raise of_system(path, error) from error


def of_system(path: Path, error: OSError) -> Trouble:
    """Word what the system says of a file."""
    if error.errno in FULL:
        return full(path)
    if error.errno in CLOSED:
        return closed(path)
    reason = error.strerror or str(error)
    way_out = "see that the disk is there and sound, then do it again"
    return Trouble("store.disk", f"{path} could not be used: {reason}", way_out)


def of_database(path: Path, error: sqlite3.Error) -> Trouble:
    """Word what the database says; what only a programmer can mend is raised as it is."""
    code = getattr(error, "sqlite_errorcode", None)
    first = None if code is None else code & 0xFF
    if first == sqlite3.SQLITE_FULL:
        return full(path)
    if first in _CLOSED:
        return closed(path)
    if first in _DAMAGED:
        return damaged(path, str(error))
    if first in _BUSY:
        way_out = "close the other program that writes to it, then do it again"
        return Trouble("store.busy", f"{path} is being written to by another program", way_out)
    if first == sqlite3.SQLITE_IOERR:
        way_out = "see that the disk has room and is sound, then do it again"
        return Trouble("store.disk", f"{path} could not be used: {error}", way_out)
    if first is None and isinstance(error, sqlite3.OperationalError):
        return damaged(path, str(error))  # a text in it that is no text any more
    raise error


def full(path: Path) -> Trouble:
    """Say that there is no room."""
    message = f"there is no room left to write {path}; nothing of this change was kept"
    return Trouble("store.full", message, "free some space on that disk, then do it again")


def closed(path: Path) -> Trouble:
    """Say that a place may not be written to."""
    message = f"{path} may not be written to; nothing of this change was kept"
    way_out = "allow writing there, or name another folder by DRYFIT_HOME"
    return Trouble("store.closed", message, way_out)


def damaged(path: Path, cause: str) -> Trouble:
    """Say that a file is not what was written; it is left as it is."""
    message = f"{path} is damaged, and was left as it is (found: {cause})"
    way_out = "set it aside, then bring back the newest copy (docs/store.md)"
    return Trouble("store.damaged", message, way_out)
