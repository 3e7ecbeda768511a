"""What the page Set changes in a text beside plain boxes: what is wanted, and what was tried on."""

from collections.abc import Mapping

from dryfit.app.pages.asked import Asked, Done, Refused, Slip
from dryfit.app.pages.edits import back, saw
from dryfit.app.pages.set_forms import node_at
from dryfit.app.pages.set_view import Wanted
from dryfit.app.pages.typed import as_written
from dryfit.document.edit import Edit
from dryfit.document.spell import spellings
from dryfit.model.parts import Nut
from dryfit.quantities import Place
from dryfit.quantities.finding import Finding
from dryfit.store.edits import Conflict, NotMade, write


async def want(asked: Asked) -> Done:
    """Change what is wanted: `name` of the need, `typed` what is wanted; nothing: what is usual."""
    form, document = asked.form, asked.document
    name, typed = form.get("name", ""), form.get("typed", "").strip()
    place: Place = ("needs", name, "want")
    need = document.rebuild.needs.get(name)
    if need is None:
        offered: tuple[Wanted, ...] = await asked.work("wanted")
        change = _offered(name, typed, offered, form)
    elif not typed:
        change = Edit("remove", place, form.get("seen"))
    elif form.get("act") == "add":
        change = Edit("add", place, typed=as_written(typed))
    else:
        change = Edit("set", place, form.get("seen"), as_written(typed))
    _write(asked, place, change)
    return back(asked)


async def write_in(asked: Asked) -> Done:
    """Write in as fitted what was tried: `typed` for a `part`."""
    form, document = asked.form, asked.document
    part, typed = form.get("part", ""), as_written(form.get("typed", ""))
    if isinstance(document.rebuild.parts.get(part), Nut):
        place: Place = ("parts", part, "set to")
    else:
        place = ("settings", part, "fitted")
    there = node_at(document.tree, place) is not None
    _write(asked, place, Edit("set" if there else "add", place, typed=typed))
    return back(asked)


def _write(asked: Asked, place: Place, change: Edit) -> None:
    """Make a change, or show what was typed again with why not."""
    form = asked.form
    outcome = write(asked.store, asked.revision.rebuild, change, saw=saw(asked))
    if isinstance(outcome, NotMade):
        raise Refused(Slip(place, form, outcome.findings))
    if isinstance(outcome, Conflict):
        message = f"this was changed elsewhere meanwhile: now it is {outcome.now or 'nothing'}"
        found = Finding("page.conflict", place, message, "keep that, or type yours again")
        raise Refused(Slip(place, form, (found,), outcome.now or ""))


def _offered(name: str, typed: str, offered: tuple[Wanted, ...], form: Mapping[str, str]) -> Edit:
    """Write down all that is offered, so that the rest of it stays, and what is wanted of one."""
    if not typed or name not in {one.name for one in offered}:
        message = "nothing was typed that could be wanted" if not typed else "there is no such need"
        found = Finding("page.want", ("needs", name, "want"), message, "type as 0.05 to 0.15")
        raise Refused(Slip(("needs", name, "want"), form, (found,)))
    groups = []
    for one in offered:
        keys = [*one.keys, *([("want", as_written(typed))] if one.name == name else [])]
        inside = ", ".join(f"{key}: {_spelled(value)}" for key, value in keys)
        groups.append(f"{_spelled(one.name)}: {{{inside}}}")
    return Edit("add", ("needs",), typed="{" + ", ".join(groups) + "}")


def _spelled(text: str) -> str:
    return spellings(text, flow=True)[0]
