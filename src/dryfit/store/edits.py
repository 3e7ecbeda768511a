"""One change of one text, made on the newest whatever was done meanwhile elsewhere in it.

Whoever changes something says which revision was looked at. Is what the change hangs on the same in
the newest, it is made there; if not, both values come back and nothing is written.
"""

from dataclasses import dataclass

from dryfit.document.characters import encode
from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.quantities.finding import Finding, Place
from dryfit.store.opening import Store
from dryfit.store.rebase import Stake, stake
from dryfit.store.revisions import Revision, append, newest_in, revision_in


@dataclass(frozen=True, slots=True)
class Written:
    """The change is kept, on the disk; `rebased` if the text had changed elsewhere meanwhile.

    A change that says what stands there already makes no new revision.
    """

    revision: Revision
    rebased: bool


@dataclass(frozen=True, slots=True)
class Conflict:
    """What the change hangs on has changed meanwhile: nothing is written.

    Attributes
    ----------
    place
        Where.
    saw
        What stood there in the text that was looked at; None for nothing.
    now
        What stands there now.
    typed
        What was to stand there.
    newest
        The text as it is now.
    """

    place: Place
    saw: str | None
    now: str | None
    typed: str | None
    newest: Revision


@dataclass(frozen=True, slots=True)
class NotMade:
    """The change cannot be made in this text, and why; nothing is written."""

    findings: tuple[Finding, ...]
    newest: Revision


Outcome = Written | Conflict | NotMade


def write(store: Store, rebuild: int, edit: Edit, *, saw: int) -> Outcome:
    """Make a change in the newest text of a rebuild and keep it.

    Parameters
    ----------
    store
        Where it is kept.
    rebuild
        Its number.
    edit
        The change.
    saw
        The revision that was looked at when it was typed.
    """
    with store.database.writing() as connection:
        newest = newest_in(store, connection, rebuild)
        if saw != newest.number:
            looked_at = revision_in(store, connection, rebuild, saw)
            before, here = stake(looked_at.text, edit), stake(newest.text, edit)
            if before.data != here.data and not _as_wanted(edit, here):
                return Conflict(edit.place, before.shown, here.shown, edit.typed, newest)
        spliced = change(newest.text, edit)
        if any(finding.code == "edit.changed" for finding in spliced.findings):
            here = stake(newest.text, edit)
            return Conflict(edit.place, edit.seen, here.shown, edit.typed, newest)
        if spliced.findings:
            return NotMade(spliced.findings, newest)
        rebased = saw != newest.number
        if spliced.text == newest.text:
            return Written(newest, rebased)
        kept = append(store, connection, rebuild, newest.number, encode(spliced.text), edit)
        return Written(kept, rebased)


def _as_wanted(edit: Edit, here: Stake) -> bool:
    """Tell whether two have typed the same."""
    return edit.act == "set" and here.data == (edit.typed or "").strip()
