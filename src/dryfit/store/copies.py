"""Copies of the database: made at each start and before it changes its form, ten of them kept.

`keep` makes one, unless nothing has changed since the last; `kept` lists them; `bring_back` puts
one in the place of what is there, which is kept as a copy first; `set_aside` moves a damaged
database out of the way and is the only thing that ever does.
"""

import re
import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from dryfit.store import files
from dryfit.store.database import Database, check_pages, form_of
from dryfit.store.folder import Folder
from dryfit.store.trouble import Trouble, told

KEPT = 10
NAME = re.compile(r"(\d{4,})-(\d{8}T\d{6}Z)-([a-z-]+)\.sqlite")


@dataclass(frozen=True, slots=True, order=True)
class Copy:
    """One copy.

    Attributes
    ----------
    number
        Counted up for good, so that the order does not hang on a clock.
    at
        When, in universal time.
    why
        What it was made for: `start`, `new-form`, `bring-back`.
    """

    number: int
    at: str
    why: str
    path: Path

    @property
    def name(self) -> str:
        """The name of its file, by which it is brought back."""
        return self.path.name


def kept(folder: Folder) -> list[Copy]:
    """List the copies, the newest first."""
    found = []
    with told(folder.copies):
        for path in folder.copies.iterdir():
            parts = NAME.fullmatch(path.name)
            if parts:
                found.append(Copy(int(parts[1]), parts[2], parts[3], path))
    return sorted(found, reverse=True)


def keep(folder: Folder, database: Database, why: str, *, spare: str = "") -> Copy:
    """Make a copy; where nothing has changed since the newest one, that is given.

    Parameters
    ----------
    folder
        Where the data lies.
    database
        What to copy.
    why
        What for, a word for its name.
    spare
        Name of a copy that is not given up, however old.
    """
    before = kept(folder)
    beside = folder.copies / f"{datetime.now(UTC):%Y%m%dT%H%M%S%f}{files.UNFINISHED}"
    try:
        with database.reading() as connection:
            connection.execute("VACUUM INTO ?", (str(beside),))
        if before and _same(beside, before[0].path):
            return before[0]
        made = _named(folder, beside, why, before[0].number + 1 if before else 1)
    finally:
        beside.unlink(missing_ok=True)
    with told(folder.copies):
        for old in [copy for copy in before if copy.name != spare][KEPT - 1 :]:
            old.path.unlink(missing_ok=True)
    return made


def _named(folder: Folder, beside: Path, why: str, number: int) -> Copy:
    """Bring a finished copy to the disk and give it its name."""
    at = f"{datetime.now(UTC):%Y%m%dT%H%M%SZ}"
    path = folder.copies / f"{number:04}-{at}-{why}.sqlite"
    with told(folder.copies):
        with beside.open("rb+") as file:
            files.to_disk(file.fileno())
        files.settle(beside, path)
    return Copy(number, at, why, path)


def _same(one: Path, other: Path) -> bool:
    """Tell whether two copies say the same; only counters in their heads may differ."""
    with told(one), one.open("rb") as first, other.open("rb") as second:
        first.seek(100)
        second.seek(100)
        while True:
            piece, against = first.read(1 << 16), second.read(1 << 16)
            if piece != against:
                return False
            if not piece:
                return True


def bring_back(folder: Folder, database: Database, name: str, newest: int) -> Copy:
    """Put a copy in the place of what is there; give the copy that was made of this first."""
    found = next((copy for copy in kept(folder) if copy.name == name), None)
    if found is None:
        names = ", ".join(copy.name for copy in kept(folder)) or "none"
        raise Trouble("store.copy", f"there is no copy '{name}'", f"there are: {names}")
    form_of(found.path, newest)
    present = keep(folder, database, "bring-back", spare=name)
    uri = f"{found.path.as_uri()}?mode=ro&immutable=1"
    with told(found.path):
        source = sqlite3.connect(uri, uri=True)
        try:
            check_pages(source, found.path)
            with database.reading() as connection:
                source.backup(connection)
        finally:
            source.close()
    return present


def set_aside(folder: Folder) -> Path:
    """Move the database and what belongs to it into a folder of its own; give that folder."""
    with told(folder.path):
        place = folder.aside / f"{datetime.now(UTC):%Y%m%dT%H%M%S%fZ}"
        place.mkdir(parents=True)
        for ending in ("-wal", "-shm", ""):
            path = folder.database.with_name(folder.database.name + ending)
            if path.exists():
                path.rename(place / path.name)
    return place
