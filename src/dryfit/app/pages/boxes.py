"""What the boxes of the measure page post: a size set, written for the first time or taken out.

What cannot be read is not kept: it stands in its box again with the reason beside it. What can be
read but does not fit the rest is kept, and told beside it.
"""

from collections.abc import Mapping
from dataclasses import replace

from dryfit.app.pages.asked import Asked, Done, Refused, Slip, path
from dryfit.app.pages.edits import back, make, place_in
from dryfit.app.pages.found import part_of
from dryfit.app.pages.rows import Row, Text, place_id
from dryfit.app.pages.typed import UNKNOWN, as_written
from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.document.nodes import fold
from dryfit.document.read import read_document
from dryfit.quantities.finding import Finding, Place, near
from dryfit.quantities.scan import find_by


async def put(asked: Asked) -> Done:
    """Keep what stands in a box.

    Its fields are `place`, `typed`, `by` (an instrument), `seen` and `saw`, as for `edits.edit`;
    with `act` as `remove` it is taken out.
    """
    form, place = asked.form, place_in(asked.form)
    row = _row(asked, place)
    if row is None:
        message = "what this box was for is not in the text any more"
        raise Refused(Slip(place, form, (_finding(place, message, "look at the part again"),)))
    wanted = _wanted(row, form)
    if wanted is None:
        return back(asked)
    if row.choices and wanted.typed is not None and wanted.typed not in row.choices:
        message = f"'{wanted.typed[:60]}' is none of these"
        wrong = _finding(place, message, near(wanted.typed[:60], row.choices))
        raise Refused(Slip(place, form, (wrong,)))
    _refuse_unreadable(asked, wanted)
    return make(asked, wanted)


def _row(asked: Asked, place: Place) -> Row | None:
    """Find the box of a place in the newest text."""
    rows = Text(asked.document, {}).rows(part_of(place))
    return next((row for row in rows if row.where == place), None)


def _wanted(row: Row, form: Mapping[str, str]) -> Edit | None:
    """Say which change a box asks for; None for none."""
    place, seen = row.where, form.get("seen")
    typed = "" if form.get("act") == "remove" else _typed(row, form)
    if seen is not None:
        return Edit("set", place, seen, typed) if typed else Edit("remove", place, seen)
    return Edit("add", place, None, typed) if typed else None


def _typed(row: Row, form: Mapping[str, str]) -> str:
    """Write what stands in a box as the text has it; empty where it is to be taken out."""
    typed, by = form.get("typed", "").strip(), fold(form.get("by", ""))
    if row.sort in ("words", "choice"):
        return typed
    written = as_written(typed)
    if written == UNKNOWN:
        return UNKNOWN if row.sort == "size" and "seen" in form else ""
    if by and row.sort in ("size", "fixed") and not find_by(written):
        return f"{written} by {by}"
    return written


def _refuse_unreadable(asked: Asked, wanted: Edit) -> None:
    """Refuse what could not be read where it is to stand."""
    if wanted.act == "remove":
        return
    text = asked.revision.text
    tried = change(text, replace(wanted, seen=None))
    after = read_document(tried.text)
    deep, before = len(wanted.place), {(f.place, f.message) for f in asked.document.findings}
    wrong = tuple(
        found
        for found in after.findings
        if found.place[:deep] == wanted.place or (found.place, found.message) not in before
    )
    if wrong and not tried.findings:
        raise Refused(Slip(wanted.place, asked.form, wrong))


def _finding(place: Place, message: str, way_out: str) -> Finding:
    return Finding("page.box", place, message, way_out)


async def add_size(asked: Asked) -> Done:
    """Write a size that a part has not yet: a length between two of its spots, or a land."""
    form, part = asked.form, asked.form.get("part", "")
    first, last = fold(form.get("from", "")), fold(form.get("to", ""))
    side = form.get("side", "length")
    typed = {**form, "place": "", "typed": form.get("typed", "")}
    if part not in Text(asked.document, {}).names("parts"):
        raise _not_added(typed, f"there is no part '{part}'", "look at the list of parts")
    if bool(first) != bool(last) or (side != "length" and not first):
        raise _not_added(typed, "a size needs two places", "name both, as flange and spigot")
    if any(mark in first + last for mark in (".", " to ")):
        way_out = "name places of this part only, without its name"
        raise _not_added(typed, "a place is a plain name", way_out)
    place = _place(part, first, last, side)
    written = as_written(form.get("typed", ""))
    by = fold(form.get("by", ""))
    whole = f"{written} by {by}" if by and written != UNKNOWN and not find_by(written) else written
    wanted = Edit("add", place, None, whole)
    try:
        _refuse_unreadable(asked, wanted)
        made = make(asked, wanted)
    except Refused as refused:
        raise _again(refused, typed) from None
    return replace(made, to=path(asked.revision.rebuild, "measure", part, place_id(place)))


def _place(part: str, first: str, last: str, side: str) -> Place:
    if side in ("outside", "bore"):
        return ("parts", part, side, f"{first} to {last}")
    return ("sizes", f"{part}.{first} to {part}.{last}" if first else part)


def _not_added(form: Mapping[str, str], message: str, way_out: str) -> Refused:
    return Refused(Slip(ADD, form, (_finding(ADD, message, way_out),)))


ADD, NAME = ("add",), ("name",)
"""Places of the forms that add a size and rename a part, which are none of the text."""


def _again(refused: Refused, form: Mapping[str, str], at: Place = ADD) -> Refused:
    """Put the reasons beside the form that was posted."""
    return Refused(replace(refused.slip, place=at, typed=form))


async def rename(asked: Asked) -> Done:
    """Give a part another name, wherever the text has it."""
    form, part = asked.form, asked.form.get("part", "")
    name = fold(form.get("typed", ""))
    try:
        if not name or any(mark in name for mark in (".", " to ")):
            message = f"'{name[:60]}' cannot be the name of a part" if name else "it has no name"
            found = _finding(NAME, message, "type a name without a point and without ' to ' in it")
            raise Refused(Slip(NAME, form, (found,)))
        made = make(asked, Edit("rename", ("parts", part), None, name))
    except Refused as refused:
        raise _again(refused, form, NAME) from None
    return replace(made, to=path(asked.revision.rebuild, "measure", name, query=asked.query))
