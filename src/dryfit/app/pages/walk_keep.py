"""A walk of a unit kept in its text: all that was typed, or none of it."""

from collections.abc import Mapping

from dryfit.app.pages.asked import Asked, Done, Refused, Slip, path
from dryfit.app.pages.edits import saw
from dryfit.app.pages.typed import as_written
from dryfit.app.pages.walk_view import By, mark_written, rows, too_long
from dryfit.app.pages.walking import walkable, written
from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.document.nodes import fold
from dryfit.document.spell import spellings
from dryfit.document.walks import WITH
from dryfit.quantities.finding import Finding
from dryfit.store.edits import Conflict, NotMade, write


async def keep(asked: Asked) -> Done:
    """Keep a walk of a unit in its text, row by row; nothing is written where a row is wrong."""
    form, part, check = asked.form, asked.form.get("at", ""), asked.form.get("check", "")
    choice = next((one for one in walkable(asked) if one.part == part), None)
    if choice is None or check not in asked.document.rebuild.checks:
        found = Finding("walk.of", (), "nothing says which float of what was walked", "choose both")
        raise Refused(Slip((), form, (found,)))
    by: By = "nut" if choice.is_nut else "pack"
    held = rows(form)
    findings = too_long(form) or await asked.work("walk_rows", held, by)
    if findings:
        raise Refused(Slip((), form, findings))
    wanted = {mark_written(mark, by): as_written(read) for mark, read in held if mark.strip()}
    edits = _edits(asked, part, check, wanted)
    _try(asked, edits, form)
    seen = saw(asked)
    for edit in edits:
        outcome = write(asked.store, asked.revision.rebuild, edit, saw=seen)
        if isinstance(outcome, NotMade):
            raise Refused(Slip((), form, outcome.findings))
        if isinstance(outcome, Conflict):
            message = "this walk was changed elsewhere meanwhile; what you typed is still here"
            found = Finding("page.conflict", (), message, "look at it, then keep it again")
            raise Refused(Slip((), form, (found,)))
        seen = outcome.revision.number
    return Done(path(asked.revision.rebuild, "walk", part, "comes-to"))


def _edits(asked: Asked, part: str, check: str, wanted: Mapping[str, str]) -> tuple[Edit, ...]:
    """List what changes: rows taken out, changed and added; the whole walk where there is none."""
    by, held = written(asked, check)
    place = ("walks", check)
    if not by:
        if not wanted:
            return ()
        inside = ", ".join(f"{_spelled(m)}: {_spelled(r)}" for m, r in wanted.items())
        return (Edit("add", place, typed=f"{{{WITH}: {_spelled(part)}, {inside}}}"),)
    if by != part:
        message = f"the walk of {check} is written already, by {by}"
        found = Finding("walk.two", (), message, "a float has one walk: clear that one first")
        raise Refused(Slip((), asked.form, (found,)))
    if not wanted:
        return (Edit("remove", place),)
    before = dict(held)
    named = {fold(mark): read for mark, read in wanted.items()}
    gone = [Edit("remove", (*place, mark)) for mark in before if fold(mark) not in named]
    new = [
        Edit("add", (*place, mark), typed=read)
        if mark not in before
        else Edit("set", (*place, mark), before[mark], read)
        for mark, read in named.items()
        if before.get(mark) != read
    ]
    return (*new, *gone)


def _spelled(text: str) -> str:
    return spellings(text, flow=True)[0]


def _try(asked: Asked, edits: tuple[Edit, ...], form: Mapping[str, str]) -> None:
    """Make all changes away from the store, so that either all or none are kept."""
    text = asked.revision.text
    for edit in edits:
        spliced = change(text, edit)
        if spliced.findings:
            raise Refused(Slip((), form, spliced.findings))
        text = spliced.text
