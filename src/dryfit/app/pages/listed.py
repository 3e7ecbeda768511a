"""Which units the first page lists: a title of its own for each, and what was put away.

A unit is put away by a step in its journal, and taken out again by striking that step: its texts,
its journal and its photographs stay as they are.
"""

from dryfit.app.pages.asked import Asked, Done
from dryfit.document.edit import Edit, splice
from dryfit.document.read import read_document
from dryfit.store.journal import Entry, Step, journal, note, strike_out
from dryfit.store.opening import Store
from dryfit.store.revisions import newest, rebuilds

LIST = "list"
"""What a step that puts a unit away has under `of` in the journal."""

TITLE = ("title",)


def told_apart(store: Store, text: bytes) -> bytes:
    """Give the text of a new unit a title that no other unit has: the same one with a number."""
    title = read_document(text).rebuild.title
    titles = {read_document(newest(store, one).text).rebuild.title for one in rebuilds(store)}
    if not title or title not in titles:
        return text
    number = next(n for n in range(2, len(titles) + 3) if f"{title} {n}" not in titles)
    return splice(text.decode(), Edit("set", TITLE, typed=f"{title} {number}")).text.encode()


def put_away(store: Store, unit: int) -> Entry | None:
    """Give the entry that puts a unit away; nothing where it is on the list."""
    return next((one for one in reversed(journal(store, unit)) if _puts_away(one)), None)


def _puts_away(entry: Entry) -> bool:
    wrote = entry.wrote
    of_list = isinstance(wrote, Step) and wrote.how.get("of") == LIST
    return of_list and not entry.struck and entry.strikes is None


async def away(asked: Asked) -> Done:
    """Take a unit off the list."""
    unit = asked.revision.rebuild
    if put_away(asked.store, unit) is None:
        note(asked.store, unit, Step("put away", "", {"of": LIST}))
    return Done("/#put-away")


async def out_again(asked: Asked) -> Done:
    """Put a unit back on the list."""
    list_again(asked.store, asked.revision.rebuild)
    return Done("/")


def list_again(store: Store, unit: int) -> None:
    """Strike what puts a unit away."""
    if (entry := put_away(store, unit)) is not None:
        strike_out(store, unit, entry.number, "taken out again")
