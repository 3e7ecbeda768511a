"""What is noted at a strip: steps done, marks, and what was read and fitted as found."""

from collections.abc import Mapping

from dryfit.app.pages.asked import Asked, Done, Refused, Slip, path
from dryfit.app.pages.edits import conflict, place_in, saw
from dryfit.app.pages.strip_found import AS_FOUND, value_at
from dryfit.app.pages.strip_ticks import MARK, PHASE
from dryfit.app.pages.typed import UNKNOWN, as_written
from dryfit.document.edit import Edit
from dryfit.document.nodes import Mapping as Group
from dryfit.document.nodes import reach
from dryfit.quantities import NotKnown
from dryfit.quantities.finding import Finding, Place
from dryfit.quantities.size import read_size
from dryfit.quantities.unreadable import Unreadable
from dryfit.store import edits
from dryfit.store.edits import Conflict, NotMade
from dryfit.store.journal import Step, note, strike_out
from dryfit.store.readings import SAYS_HOW_SURE


async def noted(asked: Asked) -> Done:
    """Note that something of the strip is done."""
    form = asked.form
    if not form.get("step"):
        raise _no_form(form)
    step = Step(form["step"], form.get("note", ""), PHASE)
    note(asked.store, asked.revision.rebuild, step)
    return _back(asked)


async def marked(asked: Asked) -> Done:
    """Note a mark, or anything else, on a part."""
    form = asked.form
    told = form.get("note", "").strip()
    if not told:
        message = "nothing was typed"
        found = Finding("strip.mark", (MARK,), message, "type what the mark is and where")
        raise Refused(Slip((MARK,), form, (found,)))
    on = form.get("on", "")[:100]
    how = {**PHASE, "sort": MARK, "on": on}
    note(asked.store, asked.revision.rebuild, Step(f"{MARK}: {on}", told, how))
    return _back(asked)


async def taken_back(asked: Asked) -> Done:
    """Strike out a note; both stay in the journal."""
    told = asked.form.get("entry", "")
    number = int(told) if told.isascii() and told.isdigit() and len(told) < 18 else 0
    strike_out(asked.store, asked.revision.rebuild, number, "taken back")
    return _back(asked)


async def as_found(asked: Asked) -> Done:
    """Write what was read or fitted before the strip into the text, or take it out."""
    form, place = asked.form, place_in(asked.form)
    wanted = _found_edit(asked, place)
    if wanted is not None:
        outcome = edits.write(asked.store, asked.revision.rebuild, wanted, saw=saw(asked))
        if isinstance(outcome, NotMade):
            raise Refused(Slip(place, form, outcome.findings))
        if isinstance(outcome, Conflict):
            raise Refused(Slip(place, form, (conflict(outcome),), outcome.now or ""))
    return _back(asked)


def _no_form(form: Mapping[str, str]) -> Refused:
    message = "this form does not say what it is about"
    return Refused(Slip((), form, (Finding("page.form", (), message, "load the page again"),)))


def _found_edit(asked: Asked, place: Place) -> Edit | None:
    """Make the change of a box; none where it changes nothing."""
    form = asked.form
    if len(place) != 3 or place[0] != AS_FOUND:
        raise _no_form(form)
    seen = value_at(asked.document.tree, place)
    typed = as_written(form.get("typed", ""))
    if typed == UNKNOWN:
        return Edit("remove", _alone(asked, place)) if seen else None
    _refuse(asked, place, form.get("typed", ""))
    by = form.get("by", "")
    if by and not SAYS_HOW_SURE.search(typed):
        typed += f" by {by}"
    return Edit("set", place, form.get("seen"), typed) if seen else Edit("add", place, typed=typed)


def _refuse(asked: Asked, place: Place, typed: str) -> None:
    """Refuse what is no length that can be read or fitted."""
    try:
        size = read_size(typed, asked.document.rebuild.system, box=True)
    except Unreadable as why:
        known = why.where_known()
        found = Finding(known.code, place, known.message, known.way_out)
        raise Refused(Slip(place, asked.form, (found,))) from why
    if not isinstance(size, NotKnown) and size.value < 0:
        found = Finding("strip.minus", place, f"'{typed}' has a minus", "type it without")
        raise Refused(Slip(place, asked.form, (found,)))


def _alone(asked: Asked, place: Place) -> Place:
    """Give what goes with a value that is taken out: its group too, where it is alone there."""
    root = asked.document.tree.root
    steps = reach(root, place) if root else []
    while len(place) > 1 and isinstance(group := steps[len(place) - 1].node, Group):
        if len(group.entries) > 1:
            break
        place = place[:-1]
    return place


def _back(asked: Asked) -> Done:
    """Go back to the spot of the page that the form stands at."""
    return Done(path(asked.revision.rebuild, "strip", hash_=asked.form.get("spot", "")))
