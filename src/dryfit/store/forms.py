"""The forms of the database, made one after the other by the numbered files in `sql`.

`0001_first.sql` makes form 1 from nothing, `0002_...` form 2 from that, and so on; a file that was
released is never changed. Each is one change: all of it or nothing.
"""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from dryfit.store.database import APPLICATION, Database, other, refuse_form

SQL = Path(__file__).parent / "sql"


def scripts(folder: Path = SQL) -> list[Path]:
    """List the files in order; their numbers have no gap."""
    found = sorted(folder.glob("[0-9][0-9][0-9][0-9]_*.sql"))
    numbers = [int(path.name[:4]) for path in found]
    if numbers != list(range(1, len(found) + 1)):
        raise ValueError(f"the numbers in {folder} are {numbers}")
    return found


def bring_up(database: Database, folder: Path = SQL) -> None:
    """Bring a database to the newest form."""
    for number, script in enumerate(scripts(folder), start=1):
        _bring_to(database, number, script)


def form_now(database: Database, folder: Path = SQL) -> int:
    """Give the form of an open database, which may be newer than its head told."""
    with database.steady() as connection:  # another program may be making the first form just now
        form, application = database.number("user_version"), database.number("application_id")
        (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    refuse_form(database.path, form, application, len(scripts(folder)))
    if tables and not form:
        raise other(database.path)
    return form


def _bring_to(database: Database, number: int, script: Path) -> None:
    """Run one file, unless another program has done so meanwhile."""
    with database.writing() as connection:
        (form,) = connection.execute("PRAGMA user_version").fetchone()
        if form >= number:
            return
        for statement in statements(script.read_text(encoding="utf-8")):
            connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(f"PRAGMA user_version = {number}")
    with database.reading() as connection:  # so that the head of the file tells it too
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()


def statements(sql: str) -> Iterator[str]:
    r"""Split a file into statements, those of a trigger kept together.

    >>> list(statements("CREATE TABLE a (b);\n-- why\nDELETE FROM a;\n"))
    ['CREATE TABLE a (b);\n', '-- why\nDELETE FROM a;\n']
    """
    held = ""
    for line in sql.splitlines(keepends=True):
        held += line
        if sqlite3.complete_statement(held):
            yield held
            held = ""
    if held.strip():
        yield held
