"""What a check of an older text is called now.

The journal keeps names as they were. From the text an entry was written by, the way to the newest
goes back to the last text both come from and forward again; each rename on it is followed.
"""

from collections.abc import Iterable

from dryfit.document.edit import Edit
from dryfit.document.nodes import fold
from dryfit.store.revisions import Past

SECTION = "checks"


def name_now(name: str, then: int, now: int, past: dict[int, Past]) -> str:
    """Follow the renames of a check from one revision to another.

    Parameters
    ----------
    name
        As it was called in the revision `then`.
    then, now
        Numbers of two revisions of one rebuild.
    past
        All revisions of the rebuild, by number.
    """
    back, forward = _line(then, past), _line(now, past)
    shared = set(back) & set(forward)
    name = fold(name)
    for old, new in _renames(past[number].edit for number in back if number not in shared):
        name = old if name == new else name
    there = [number for number in reversed(forward) if number not in shared]
    for old, new in _renames(past[number].edit for number in there):
        name = new if name == old else name
    return name


def _line(number: int | None, past: dict[int, Past]) -> list[int]:
    """List a revision and all it was made from, back to the first."""
    found = []
    while number is not None:
        found.append(number)
        number = past[number].parent
    return found


def _renames(edits: Iterable[Edit | None]) -> list[tuple[str, str]]:
    """Pick the renames of checks: each old name with the new one."""
    return [
        (fold(str(edit.place[1])), fold(edit.typed))
        for edit in edits
        if edit and edit.act == "rename" and len(edit.place) == 2
        if edit.place[0] == SECTION and edit.typed
    ]
