"""Which page and which act has which name in an address."""

from dryfit.app.pages import book, build, build_done, copies, edits, first, measure, run_in
from dryfit.app.pages.asked import ActOf, PageOf

SITE_PAGES: dict[str, PageOf] = {"": first.page, "copies": copies.page}
"""Of no unit: `/NAME`."""

UNIT_PAGES: dict[str, PageOf] = {
    "measure": measure.page,
    "measure/drawing": measure.drawing,
    "build": build.page,
    "build/steps": build.steps_piece,
    "build/step": build.step_piece,
    "build/hold": build.hold_piece,
    "run-in": run_in.page,
    "book": book.page,
    "book/sheet": book.sheet,
    "book/file": book.file,
}
"""Of a unit: `/unit/3/NAME` or `/unit/3/NAME/WHAT IT IS ABOUT`."""

SITE_ACTS: dict[str, ActOf] = {
    "begin": first.begin_demo,
    "bring-back": copies.bring_back,
    "light": first.light,
}
"""Posted to `/NAME`."""

UNIT_ACTS: dict[str, ActOf] = {
    "edit": edits.edit,
    "undo": edits.undo,
    "redo": edits.redo,
    "build-done": build_done.keep_step,
    "build-undone": build_done.take_back,
    "build-reading": build_done.keep_reading,
    "build-strike": build_done.strike,
    "run-in-warmth": run_in.keep_warmth,
    "run-in-tick": run_in.keep_tick,
    "run-in-strike": run_in.strike,
}
"""Posted to `/unit/3/NAME`; a box named `back` says which page to go back to, `at` with what."""
