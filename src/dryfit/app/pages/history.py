"""What was changed when, in words, and the way back to any older text."""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.edits import saw
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.document.characters import encode
from dryfit.document.edit import Edit
from dryfit.quantities.finding import Finding, Place
from dryfit.store.revisions import Behind, Past, bring_in, history, revision

MOST = 200
"""So many changes are listed at most, the last first."""


@dataclass(frozen=True, slots=True)
class Change:
    """One text: its number, when it was made, by which change; whether it is the newest."""

    number: int
    at: str
    words: str
    now: bool


@dataclass(frozen=True)
class HistoryPage(Page):
    """All that was changed, and one older text where it is looked at."""

    template: ClassVar[str] = "history.html"
    frame: Frame
    changes: tuple[Change, ...]
    more: int
    looked_at: Change | None
    text: str
    slip: Slip | None


async def page(asked: Asked) -> HistoryPage:
    """Show what was changed."""
    kept = asked.revision
    past = history(asked.store, kept.rebuild)
    changes = [_change(one, kept.number) for one in past]
    wanted = next((one for one in changes if str(one.number) == asked.at), None)
    text = revision(asked.store, kept.rebuild, wanted.number).text if wanted else ""
    told = tuple(changes[:MOST])
    more = len(changes) - len(told)
    return HistoryPage(frame(asked, "history"), told, more, wanted, text, asked.slip)


def _change(one: Past, now: int) -> Change:
    words = in_words(one.edit) if one.edit else ("a whole text" if one.parent else "begun")
    return Change(one.number, when(one.at), words, one.number == now)


def in_words(edit: Edit) -> str:
    """Say what a change did.

    >>> in_words(Edit("set", ("sizes", "shaft"), "148.70", "148.75"))
    "shaft: '148.70' is now '148.75'"
    >>> in_words(Edit("rename", ("parts", "cover"), None, "end cover"))
    "cover is now called 'end cover'"
    """
    named = _named(edit.place)
    if edit.act == "set":
        was = f"'{edit.seen}' is now" if edit.seen is not None else "is now"
        return f"{named}: {was} '{edit.typed}'"
    if edit.act == "rename":
        return f"{named} is now called '{edit.typed}'"
    words = {"add": f"added, '{edit.typed}'", "remove": "taken out", "move": "moved"}
    return f"{named}: {words[edit.act]}"


def _named(place: Place) -> str:
    """Name a place without the section it is in."""
    steps = [str(step) if isinstance(step, str) else f"item {step + 1}" for step in place]
    return ", ".join(steps[1:] or steps)


async def go_back(asked: Asked) -> Done:
    """Make an older text the newest; what was done since stays among the changes."""
    unit, told = asked.revision.rebuild, asked.form.get("number", "")
    past = {str(one.number) for one in history(asked.store, unit)}
    if told not in past:
        message = "there is no such text of this unit"
        wrong = Finding("page.history", (), message, "choose one of the list")
        raise Refused(Slip((), asked.form, (wrong,)))
    older = revision(asked.store, unit, int(told))
    outcome = bring_in(asked.store, unit, encode(older.text), saw=saw(asked))
    if isinstance(outcome, Behind):
        message = "the text was changed elsewhere meanwhile, so nothing was done"
        wrong = Finding("page.behind", (), message, "look at it as it is now, then do it again")
        raise Refused(Slip((), asked.form, (wrong,)))
    return Done(path(unit, "history"))
