"""One change of the text as a box posts it, undo and redo."""

import json
from collections.abc import Mapping
from typing import get_args

from dryfit.app.pages.asked import Asked, Done, Refused, Slip, path
from dryfit.app.pages.typed import as_written
from dryfit.document.edit import Act, Edit
from dryfit.quantities.finding import Finding, Place
from dryfit.store import revisions
from dryfit.store.edits import Conflict, NotMade, write
from dryfit.store.revisions import Behind, Revision

ACTS: tuple[Act, ...] = get_args(Act)


async def edit(asked: Asked) -> Done:
    """Make the change that a box posts.

    Its fields are `act`, `place` (a list in JSON), `typed`, `seen` (what stood there; left out if
    that does not matter), `saw` (the revision) and `to` (for `move`).
    """
    form = asked.form
    wanted = _edit(form)
    outcome = write(asked.store, asked.revision.rebuild, wanted, saw=saw(asked))
    if isinstance(outcome, NotMade):
        raise Refused(Slip(wanted.place, form, outcome.findings))
    if isinstance(outcome, Conflict):
        raise Refused(Slip(wanted.place, form, (_conflict(outcome),), outcome.now or ""))
    return back(asked)


async def undo(asked: Asked) -> Done:
    """Go back to the text before."""
    return _moved(asked, revisions.undo(asked.store, asked.revision.rebuild, saw=saw(asked)))


async def redo(asked: Asked) -> Done:
    """Go forward to the text after."""
    return _moved(asked, revisions.redo(asked.store, asked.revision.rebuild, saw=saw(asked)))


def back(asked: Asked) -> Done:
    """Go back to the page an act came from, to the box it came from."""
    form = asked.form
    page, at = form.get("back", "measure"), form.get("at", "")
    return Done(path(asked.revision.rebuild, page, at, form.get("spot", "")))


def saw(asked: Asked) -> int:
    """Say which revision was looked at; the newest if a form does not tell."""
    told = asked.form.get("saw", "")
    return int(told) if told.isascii() and told.isdigit() else asked.revision.number


def _moved(asked: Asked, moved: Revision | Behind) -> Done:
    if isinstance(moved, Behind):
        message = "the text was changed elsewhere meanwhile, so nothing was taken back"
        found = Finding("page.behind", (), message, "look at it as it is now, then do it again")
        raise Refused(Slip((), asked.form, (found,)))
    return back(asked)


def _edit(form: Mapping[str, str]) -> Edit:
    place = place_in(form)
    act = next((one for one in ACTS if one == form.get("act", "set")), None)
    if act is None or not place:
        message = "this form does not say what is to be changed"
        found = Finding("page.form", (), message, "load the page again")
        raise Refused(Slip((), form, (found,)))
    to = form.get("to", "")
    return Edit(
        act,
        place,
        form.get("seen"),
        as_written(form["typed"]) if "typed" in form else None,
        int(to) if to.isascii() and to.isdigit() else None,
    )


def place_in(form: Mapping[str, str]) -> Place:
    """Read which place a form is about; empty if about none."""
    try:
        held = json.loads(form.get("place", ""))
    except ValueError:
        return ()
    if not isinstance(held, list) or not all(type(step) in (str, int) for step in held):
        return ()
    return tuple(held)


def _conflict(found: Conflict) -> Finding:
    now = found.now if found.now is not None else "nothing"
    message = f"this was changed elsewhere meanwhile: it was {found.saw or 'nothing'}, now {now}"
    return Finding("page.conflict", found.place, message, "keep that, or type yours again")
