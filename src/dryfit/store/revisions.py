"""Every text a rebuild ever had, the change that made it, and the way back and forth between them.

`begin` keeps the first text of a rebuild, `append` one more behind the newest; `undo` and `redo`
move along what was done. Nothing is taken out: an undone text stays, and where work goes on from an
older one the newer is left lying beside it.
"""

import json
import sqlite3
from dataclasses import asdict, dataclass, field
from hashlib import sha256

from dryfit.document.characters import decode, encode
from dryfit.document.edit import Edit
from dryfit.store.opening import Store, now
from dryfit.store.seal import check_seal, seal
from dryfit.store.trouble import Trouble, damaged


@dataclass(frozen=True, slots=True)
class Past:
    """One revision without its text.

    Attributes
    ----------
    number
        Its own, never used again.
    rebuild, parent
        What it is a text of, and the revision it was made from; None for the first.
    edit
        The change that made it; None where a whole text was brought in.
    at
        When, in universal time.
    sha256
        The hash of its text.
    """

    number: int
    rebuild: int
    parent: int | None
    edit: Edit | None
    at: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Revision(Past):
    """One revision with its text, and whether there is one to go forward to."""

    text: str = field(repr=False)
    can_redo: bool

    @property
    def can_undo(self) -> bool:
        """Tell whether there is one to go back to."""
        return self.parent is not None


@dataclass(frozen=True, slots=True)
class Behind:
    """What was asked for was meant for an older text: nothing was done. The newest is here."""

    saw: int
    newest: Revision


def rebuilds(store: Store) -> list[int]:
    """List the rebuilds, the one changed last first."""
    rows = "SELECT rebuild FROM newest ORDER BY revision DESC"
    with store.database.reading() as connection:
        return [number for (number,) in connection.execute(rows)]


def begin(store: Store, data: bytes) -> Revision:
    """Keep a new rebuild, its text byte for byte."""
    refuse_text(data)
    with store.database.writing() as connection:
        return begin_in(store, connection, data)


def begin_in(store: Store, connection: sqlite3.Connection, data: bytes) -> Revision:
    """Do the same within a larger change."""
    made = connection.execute("INSERT INTO rebuild (begun) VALUES (?)", (now(),))
    return append(store, connection, made.lastrowid or 0, None, data, None)


def bring_in(store: Store, rebuild: int, data: bytes, *, saw: int) -> Revision | Behind:
    """Make a whole text, changed elsewhere, the newest of a rebuild, if nothing was done since."""
    refuse_text(data)
    with store.database.writing() as connection:
        newest = newest_in(store, connection, rebuild)
        if newest.number != saw:
            return Behind(saw, newest)
        if encode(newest.text) == data:
            return newest
        return append(store, connection, rebuild, newest.number, data, None)


def newest(store: Store, rebuild: int) -> Revision:
    """Give the text of a rebuild as it is now."""
    with store.database.reading() as connection:
        return newest_in(store, connection, rebuild)


def revision(store: Store, rebuild: int, number: int) -> Revision:
    """Give one text of a rebuild, of whatever age."""
    with store.database.reading() as connection:
        return revision_in(store, connection, rebuild, number)


def history(store: Store, rebuild: int) -> list[Past]:
    """List all that was ever done to a rebuild, the last first, what was undone too."""
    rows = f"SELECT {_PAST} FROM revision WHERE rebuild = ? ORDER BY id DESC"
    with store.database.reading() as connection:
        return [_past(store, *row) for row in connection.execute(rows, (rebuild,))]


def undo(store: Store, rebuild: int, *, saw: int) -> Revision | Behind:
    """Go back to the text before the newest; at the first one nothing happens."""
    return _move(store, rebuild, saw, "SELECT parent FROM revision WHERE id = ?")


def redo(store: Store, rebuild: int, *, saw: int) -> Revision | Behind:
    """Go forward to the text made last from the newest; where there is none nothing happens."""
    return _move(store, rebuild, saw, _AFTER)


def append(
    store: Store,
    connection: sqlite3.Connection,
    rebuild: int,
    parent: int | None,
    data: bytes,
    edit: Edit | None,
) -> Revision:
    """Keep one more text and make it the newest."""
    change = None if edit is None else spell_edit(edit)
    told = (rebuild, parent, change, sha256(data).hexdigest(), now())
    made = connection.execute(
        "INSERT INTO revision (rebuild, parent, edit, sha256, at, seal, text) "
        "VALUES (?, ?, ?, ?, ?, ?, ?)",
        (*told, seal(*told), data),
    )
    number = made.lastrowid or 0
    connection.execute("INSERT OR REPLACE INTO newest VALUES (?, ?)", (rebuild, number))
    return revision_in(store, connection, rebuild, number)


def newest_in(store: Store, connection: sqlite3.Connection, rebuild: int) -> Revision:
    """Give the newest text within a larger change."""
    row = connection.execute("SELECT revision FROM newest WHERE rebuild = ?", (rebuild,)).fetchone()
    if row is None:
        raise Trouble("store.rebuild", f"there is no unit {rebuild}", "look at the list again")
    return revision_in(store, connection, rebuild, row[0])


def revision_in(
    store: Store, connection: sqlite3.Connection, rebuild: int, number: int
) -> Revision:
    """Give one text; one that is not what was written is refused."""
    row = connection.execute(
        f"SELECT {_PAST}, text FROM revision WHERE rebuild = ? AND id = ?", (rebuild, number)
    ).fetchone()
    if row is None:
        message = f"unit {rebuild} has no revision {number}"
        raise Trouble("store.revision", message, "look at the newest again")
    *told, data = row
    kept = _past(store, *told)
    if sha256(data).hexdigest() != kept.sha256:
        raise damaged(store.database.path, f"the text of revision {number} has changed by itself")
    after = connection.execute(_AFTER, (number,)).fetchone()
    text, _ = decode(data)
    return Revision(
        *(kept.number, kept.rebuild, kept.parent, kept.edit, kept.at, kept.sha256),
        text=text,
        can_redo=after is not None,
    )


_PAST = "id, rebuild, parent, edit, sha256, at, seal"
_AFTER = "SELECT id FROM revision WHERE parent = ? ORDER BY id DESC LIMIT 1"


def _move(store: Store, rebuild: int, saw: int, where: str) -> Revision | Behind:
    with store.database.writing() as connection:
        here = newest_in(store, connection, rebuild)
        if here.number != saw:
            return Behind(saw, here)
        row = connection.execute(where, (here.number,)).fetchone()
        if row is None or row[0] is None:
            return here
        change = "UPDATE newest SET revision = ? WHERE rebuild = ?"
        connection.execute(change, (row[0], rebuild))
        return revision_in(store, connection, rebuild, row[0])


def _past(  # one column each, in the order of _PAST
    store: Store,
    number: int,
    rebuild: int,
    parent: int | None,
    edit: str | None,
    digest: str,
    at: str,
    told: str,
) -> Past:
    fields = (rebuild, parent, edit, digest, at)
    check_seal(store.database.path, f"revision {number}", told, *fields)
    return Past(number, rebuild, parent, None if edit is None else read_edit(edit), at, digest)


def spell_edit(edit: Edit) -> str:
    """Write a change as one line."""
    return json.dumps(asdict(edit))


def read_edit(line: str) -> Edit:
    """Read back what `spell_edit` wrote."""
    held = json.loads(line)
    return Edit(**{**held, "place": tuple(held["place"])})


def refuse_text(data: bytes) -> None:
    """Refuse what is no text at all, or too long to be one; what is wrong in a text is kept."""
    _, no_text = decode(data)
    if no_text:
        raise Trouble(no_text.code, no_text.message, no_text.way_out)
