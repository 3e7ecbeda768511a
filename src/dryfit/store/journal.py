"""What was read and done at the bench, one entry after the other; none is changed or taken out.

A wrong entry is struck out by a later one, as in a workshop book: both stay to be read.
"""

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from dryfit.document.characters import UNSEEN
from dryfit.store.opening import Store, now
from dryfit.store.revisions import newest_in
from dryfit.store.seal import check_seal, seal
from dryfit.store.trouble import Trouble

LONGEST = 200
"""Most characters of a field, as of a value in the text."""

LONGEST_STEP = 2000
"""Most characters of what is told about a step."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a check read.

    Attributes
    ----------
    check
        Its name in the text.
    typed
        As typed: `0.11`, `4.5 thou`.
    instrument, state
        What it was read with, and in which state of the unit; "" for what the text says.
    how
        What else may matter: how often turned, how warm, seals in or out.
    """

    check: str
    typed: str
    instrument: str = ""
    state: str = ""
    how: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Step:
    """An act of assembly that was done, and what was noted about it."""

    name: str
    note: str = ""
    how: Mapping[str, str] = field(default_factory=dict)


Kind = Literal["reading", "step", "struck out"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the journal.

    Attributes
    ----------
    number
        Its own, counted up over all rebuilds.
    revision
        The text that was the newest then.
    wrote
        What was read or done; of one that strikes out another, the reason.
    strikes
        The entry struck out by this one.
    struck
        Whether this one is struck out by a later one.
    at
        When, in universal time.
    """

    number: int
    revision: int
    wrote: Reading | Step
    strikes: int | None
    struck: bool
    at: str

    @property
    def kind(self) -> Kind:
        """Say of which sort it is."""
        if self.strikes is not None:
            return "struck out"
        return "reading" if isinstance(self.wrote, Reading) else "step"


def note(store: Store, rebuild: int, wrote: Reading | Step) -> Entry:
    """Put a reading or a step into the journal."""
    with store.database.writing() as connection:
        revision = newest_in(store, connection, rebuild).number
        return note_in(connection, rebuild, revision, wrote, at=now())


def strike_out(store: Store, rebuild: int, number: int, why: str) -> Entry:
    """Strike out an entry, saying why."""
    with store.database.writing() as connection:
        revision = newest_in(store, connection, rebuild).number
        struck = next(
            (e for e in entries_in(store, connection, rebuild) if e.number == number), None
        )
        if struck is None or struck.struck or struck.strikes is not None:
            message = f"there is no entry {number} that could be struck out"
            raise Trouble("journal.strike", message, "look at the journal again")
        return note_in(connection, rebuild, revision, Step("", why), at=now(), strikes=number)


def journal(store: Store, rebuild: int) -> list[Entry]:
    """List what was read and done, in order."""
    with store.database.reading() as connection:
        return entries_in(store, connection, rebuild)


def note_in(
    connection: sqlite3.Connection,
    rebuild: int,
    revision: int,
    wrote: Reading | Step,
    *,
    at: str,
    strikes: int | None = None,
) -> Entry:
    """Put one entry into the journal within a larger change."""
    entry = Entry(0, revision, wrote, strikes, struck=False, at=at)
    told = (
        *(rebuild, revision, entry.kind, *_checked(wrote)),
        *(json.dumps(dict(wrote.how)), strikes, at),
    )
    made = connection.execute(
        f"INSERT INTO journal ({_COLUMNS}, seal) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (*told, seal(*told)),
    )
    return Entry(made.lastrowid or 0, revision, wrote, strikes, struck=False, at=at)


def entries_in(store: Store, connection: sqlite3.Connection, rebuild: int) -> list[Entry]:
    """List the entries within a larger change."""
    rows = connection.execute(
        f"SELECT id, seal, {_COLUMNS} FROM journal WHERE rebuild = ? ORDER BY id", (rebuild,)
    ).fetchall()
    for number, told, *fields in rows:
        check_seal(store.database.path, f"entry {number} of the journal", told, *fields)
    struck = {row[_STRIKES] for row in rows}
    return [_entry(row, row[0] in struck) for row in rows]


_COLUMNS = "rebuild, revision, kind, name, typed, instrument, state, how, strikes, at"
_STRIKES = 2 + _COLUMNS.split(", ").index("strikes")


def _entry(row: tuple[Any, ...], struck: bool) -> Entry:
    number, _, _, revision, kind, name, typed, instrument, state, how, strikes, at = row
    told = json.loads(how)
    reads = kind == "reading"
    wrote = Reading(name, typed, instrument, state, told) if reads else Step(name, typed, told)
    return Entry(number, revision, wrote, strikes, struck, at)


def _checked(wrote: Reading | Step) -> tuple[str, str, str, str]:
    """Give the fields of an entry; refuse one that is too long or cannot be read by eye."""
    if isinstance(wrote, Reading):
        fields = (wrote.check, wrote.typed, wrote.instrument, wrote.state)
        most = (LONGEST,) * 4
        if not wrote.typed.strip():
            raise Trouble("journal.empty", f"no reading of '{wrote.check}' was typed", "type it")
    else:
        fields, most = (wrote.name, wrote.note, "", ""), (LONGEST, LONGEST_STEP, 0, 0)
    for text, longest in zip(fields, most, strict=True):
        refuse_words(text, longest)
    for key, text in wrote.how.items():
        refuse_words(key, LONGEST)
        refuse_words(text, LONGEST)
    return fields


def refuse_words(text: str, longest: int) -> None:
    """Refuse words that are too long, or hold what cannot be seen."""
    if len(text) > longest:
        message = f"{len(text)} characters, beginning '{text[:20]}'; at most {longest} go here"
        raise Trouble("words.long", message, "shorten it")
    unseen = UNSEEN.search(text)
    if unseen:
        message = f"a character that cannot be seen was typed (U+{ord(unseen.group()):04X})"
        raise Trouble("words.unseen", message, "delete it and type what you meant")
