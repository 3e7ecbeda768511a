"""A store opened: its folder and its database, safe to write to.

`open_store` looks at the database before opening it, keeps a copy, and brings it to the newest
form. All other modules are handed the `Store`.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from os import environ
from pathlib import Path

from dryfit.quantities.finding import Finding
from dryfit.store import copies, files, forms
from dryfit.store.copies import Copy
from dryfit.store.database import Database, form_of
from dryfit.store.folder import Folder, data_folder
from dryfit.store.trouble import Trouble, damaged, told


@dataclass(frozen=True, slots=True)
class Store:
    """Where everything is kept.

    Attributes
    ----------
    folder
        The data folder.
    database
        The open database.
    notes
        What went wrong at the start without keeping it from work: no room for a copy.
    """

    folder: Folder
    database: Database
    notes: tuple[Finding, ...] = ()

    def copies(self) -> list[Copy]:
        """List the copies, the newest first."""
        return copies.kept(self.folder)

    def bring_back(self, name: str, sql: Path = forms.SQL) -> Copy:
        """Put a copy in the place of what is there; give the copy that was made of this first."""
        newest = len(forms.scripts(sql))
        present = copies.bring_back(self.folder, self.database, name, newest)
        forms.bring_up(self.database, sql)
        return present

    def close(self) -> None:
        """Close the database."""
        self.database.close()


def open_store(
    folder: str | Path | None = None,
    environment: Mapping[str, str] = environ,
    sql: Path = forms.SQL,
) -> Store:
    """Open the store in a folder, or make one there."""
    place = data_folder(folder, environment)
    newest = len(forms.scripts(sql))
    form = form_of(place.database, newest)
    if form == 0 and place.database.exists() and copies.kept(place):
        raise damaged(place.database, "it is empty, though there are copies of it")
    database = Database(place.database)
    try:
        database.check()
        notes = _start(place, database, sql)
    except BaseException:
        database.close()
        raise
    return Store(place, database, notes)


@contextmanager
def opened(folder: str | Path | None = None) -> Iterator[Store]:
    """Open a store and close it again."""
    store = open_store(folder)
    try:
        yield store
    finally:
        store.close()


def _start(place: Folder, database: Database, sql: Path) -> tuple[Finding, ...]:
    """Keep a copy of what is there and bring it to the newest form; without a copy no new form."""
    for each in (place.photographs, place.thumbnails, place.copies):
        with told(each):
            files.sweep(each)
    form = forms.form_now(database, sql)
    change = form < len(forms.scripts(sql))
    notes = _copy(place, database, must="new-form" if change else "") if form else ()
    if change:
        forms.bring_up(database, sql)
    return notes


def _copy(place: Folder, database: Database, must: str) -> tuple[Finding, ...]:
    """Keep a copy; only where it is needed does it stop the start if there is no room."""
    try:
        copies.keep(place, database, must or "start")
    except Trouble as trouble:
        if must:
            raise
        found = trouble.finding
        message = f"no copy was made at this start: {found.message}"
        return (Finding(found.code, (), message, found.way_out, "note"),)
    return ()


def now() -> str:
    """Give the time as it is kept: universal, to the millisecond."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
