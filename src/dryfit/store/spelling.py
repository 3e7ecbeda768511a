"""Journal and list of photographs as JSON, as they go into a parcel, and read back with suspicion.

Whoever sent a parcel may have written anything into it: every field is looked at before it is used.
"""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from dryfit.store.journal import Entry, Reading, Step
from dryfit.store.photographs import HASH, Picture
from dryfit.store.trouble import Trouble

MOST_ENTRIES = 20_000


@dataclass(frozen=True, slots=True)
class Sent:
    """An entry of a journal that came in; `number` and `strikes` are those of the sender."""

    number: int
    wrote: Reading | Step
    strikes: int | None
    at: str


@dataclass(frozen=True, slots=True)
class SentPicture:
    """A photograph that came in: the name of its file and what goes with it."""

    sha256: str
    shows: str
    caption: str
    at: str


def spell_journal(entries: Iterable[tuple[str, Entry]]) -> bytes:
    """Write a journal, each reading under the name its check has now."""
    return _spell([_entry(check, entry) for check, entry in entries])


def spell_pictures(pictures: Iterable[Picture]) -> bytes:
    """Write the list of photographs."""
    return _spell(
        [
            {"photograph": p.sha256, "shows": p.shows, "caption": p.caption, "at": p.at}
            for p in pictures
        ]
    )


def read_journal(data: bytes) -> list[Sent]:
    """Read a journal that came in."""
    found: dict[int, Sent] = {}
    open_to_strike: set[int] = set()
    for held in _list(data, "journal.json"):
        sent = _sent(held)
        if sent.number in found or (
            sent.strikes is not None and sent.strikes not in open_to_strike
        ):
            raise _unread("journal.json", f"entry {sent.number} does not fit those before it")
        found[sent.number] = sent
        if sent.strikes is None:
            open_to_strike.add(sent.number)
        else:
            open_to_strike.remove(sent.strikes)
    return list(found.values())


def read_pictures(data: bytes) -> list[SentPicture]:
    """Read a list of photographs that came in."""
    name = "photographs.json"
    found = []
    for held in _list(data, name):
        digest = _text(held, "photograph", name)
        if not HASH.fullmatch(digest):
            raise _unread(name, f"'{digest[:80]}' is not the name of a photograph")
        shows, caption = (_text(held, key, name) for key in ("shows", "caption"))
        found.append(SentPicture(digest, shows, caption, _time(held, name)))
    return found


def _entry(check: str, entry: Entry) -> dict[str, Any]:
    wrote = entry.wrote
    if isinstance(wrote, Reading):
        told = {"check": check, "typed": wrote.typed}
        told |= {"instrument": wrote.instrument, "state": wrote.state}
    else:
        told = {"name": wrote.name, "note": wrote.note}
    head = {"number": entry.number, "kind": entry.kind, "at": entry.at}
    return head | told | {"how": dict(wrote.how), "strikes": entry.strikes}


def _sent(held: dict[str, Any]) -> Sent:
    name = "journal.json"
    kind, strikes = _text(held, "kind", name), held.get("strikes")
    if kind not in ("reading", "step", "struck out") or (kind == "struck out") != _whole(strikes):
        raise _unread(name, f"'{kind[:80]}' is no kind of entry, or does not say what it strikes")
    if not _whole(held.get("number")):
        raise _unread(name, "an entry has no number")
    return Sent(held["number"], _wrote(held, kind, name), strikes, _time(held, name))


def _wrote(held: dict[str, Any], kind: str, name: str) -> Reading | Step:
    how = held.get("how", {})
    if not isinstance(how, dict) or not all(isinstance(word, str) for word in how.values()):
        raise _unread(name, "'how' is not a group of words")
    if kind != "reading":
        return Step(_text(held, "name", name), _text(held, "note", name), how)
    keys = ("check", "typed", "instrument", "state")
    check, typed, instrument, state = (_text(held, key, name) for key in keys)
    return Reading(check, typed, instrument, state, how)


def _spell(rows: list[dict[str, Any]]) -> bytes:
    return (json.dumps(rows, ensure_ascii=False, indent=1) + "\n").encode()


def _list(data: bytes, name: str) -> list[dict[str, Any]]:
    try:
        held = json.loads(data)
    except (ValueError, RecursionError) as error:
        raise _unread(name, str(error)) from error
    if not isinstance(held, list) or not all(isinstance(each, dict) for each in held):
        raise _unread(name, "it is not a list of entries")
    if len(held) > MOST_ENTRIES:
        raise _unread(name, f"it has {len(held)} entries; at most {MOST_ENTRIES} are read")
    return held


def _text(held: dict[str, Any], key: str, name: str) -> str:
    text = held.get(key)
    if not isinstance(text, str):
        raise _unread(name, f"an entry has no '{key}'")
    return text


def _time(held: dict[str, Any], name: str) -> str:
    at = _text(held, "at", name)
    try:
        datetime.fromisoformat(at)
    except ValueError as error:
        raise _unread(name, f"'{at[:80]}' is no time") from error
    return at


def _whole(number: object) -> bool:
    return isinstance(number, int) and not isinstance(number, bool)


def _unread(name: str, cause: str) -> Trouble:
    message = f"'{name}' in the zip cannot be read: {cause}"
    return Trouble("parcel.unread", message, "ask for the zip again, as dryfit wrote it")
