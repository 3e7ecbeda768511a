"""Which page and which act has which name in an address."""

from dryfit.app.pages import (
    book,
    copies,
    edits,
    first,
    first_answer,
    kind,
    measure,
    photographs,
    strip,
    strip_acts,
)
from dryfit.app.pages.asked import ActOf, PageOf

SITE_PAGES: dict[str, PageOf] = {"": first.page, "copies": copies.page, "kind": kind.page}
"""Of no unit: `/NAME`."""

UNIT_PAGES: dict[str, PageOf] = {
    "strip": strip.page,
    "strip/order": strip.order,
    "photograph": photographs.picture,
    "photograph/small": photographs.small,
    "first-answer": first_answer.page,
    "first-answer/told": first_answer.piece,
    "measure": measure.page,
    "measure/drawing": measure.drawing,
    "book": book.page,
    "book/sheet": book.sheet,
    "book/file": book.file,
}
"""Of a unit: `/unit/3/NAME` or `/unit/3/NAME/WHAT IT IS ABOUT`."""

SITE_ACTS: dict[str, ActOf] = {
    "begin": first.begin_here,
    "bring-in": first.bring_in,
    "together": kind.together,
    "in-pieces": kind.in_pieces,
    "bring-back": copies.bring_back,
    "light": first.light,
}
"""Posted to `/NAME`."""

UNIT_ACTS: dict[str, ActOf] = {
    "noted": strip_acts.noted,
    "marked": strip_acts.marked,
    "taken-back": strip_acts.taken_back,
    "as-found": strip_acts.as_found,
    "photograph": photographs.photographed,
    "edit": edits.edit,
    "undo": edits.undo,
    "redo": edits.redo,
}
"""Posted to `/unit/3/NAME`; a box named `back` says which page to go back to, `at` with what."""
