"""Which page and which act has which name in an address."""

from dryfit.app.pages import (
    book,
    boxes,
    build,
    build_done,
    copies,
    edits,
    first,
    first_answer,
    history,
    kind,
    listed,
    measure,
    photographs,
    run_in,
    set_acts,
    setting,
    strip,
    strip_acts,
    walk_keep,
    walking,
    whole_text,
)
from dryfit.app.pages.asked import ActOf, PageOf

SITE_PAGES: dict[str, PageOf] = {
    "": first.page,
    "copies": copies.page,
    "kind": kind.page,
    "walk": walking.page,
}
"""Of no unit: `/NAME`."""

UNIT_PAGES: dict[str, PageOf] = {
    "strip": strip.page,
    "strip/order": strip.order,
    "photograph": photographs.picture,
    "photograph/small": photographs.small,
    "first-answer": first_answer.page,
    "first-answer/told": first_answer.piece,
    "measure": measure.page,
    "drawing": measure.drawing,
    "numbers": measure.numbers,
    "text": whole_text.page,
    "history": history.page,
    "set": setting.page,
    "set/chance": setting.chance,
    "set/fit": setting.fit,
    "set/checks": setting.checks,
    "set/tried": setting.tried,
    "set/needs": setting.wanted,
    "set/plots": setting.plots,
    "walk": walking.unit_page,
    "walk-told": walking.told,
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
    "begin": first.begin_here,
    "bring-in": first.bring_in,
    "together": kind.together,
    "in-pieces": kind.in_pieces,
    "bring-back": copies.bring_back,
    "light": first.light,
    "walk": walking.walk,
}
"""Posted to `/NAME`."""

UNIT_ACTS: dict[str, ActOf] = {
    "put-away": listed.away,
    "out-again": listed.out_again,
    "noted": strip_acts.noted,
    "marked": strip_acts.marked,
    "taken-back": strip_acts.taken_back,
    "as-found": strip_acts.as_found,
    "photograph": photographs.photographed,
    "edit": edits.edit,
    "undo": edits.undo,
    "redo": edits.redo,
    "want": set_acts.want,
    "write-in": set_acts.write_in,
    "walk": walk_keep.keep,
    "box": boxes.put,
    "add-size": boxes.add_size,
    "rename": boxes.rename,
    "text": whole_text.bring,
    "go-back": history.go_back,
    "build-done": build_done.keep_step,
    "build-undone": build_done.take_back,
    "build-reading": build_done.keep_reading,
    "build-strike": build_done.strike,
    "run-in-warmth": run_in.keep_warmth,
    "run-in-tick": run_in.keep_tick,
    "run-in-strike": run_in.strike,
}
"""Posted to `/unit/3/NAME`; a box named `back` says which page to go back to, `at` with what."""
