"""Set: how sure it is, what to fit, what every check should read; all of it in pieces.

The boxes are there at once. What is worked out comes as pieces: a first look with few draws, in
whose place the usual look is put when it is there.
"""

from dataclasses import dataclass, replace
from typing import ClassVar
from urllib.parse import urlencode

from dryfit.app.pages.asked import Asked, Page, Slip, path
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.app.pages.set_forms import NeedForm, SettingForm, TryBox, needs, settings
from dryfit.app.pages.set_view import Chances, Fit, Plot, SetView, Shown, Taken, Tried
from dryfit.app.pages.tasks import FIRST_LOOK
from dryfit.app.usecases.opening import FindingAnswer
from dryfit.store.journal import Reading
from dryfit.store.readings import as_it_stands

FULL = "full"
"""What a look is called that is no first one, in an address."""

KINDS = {
    "setting": "Reading against setting",
    "pair": "Rows against each other",
    "doubt": "What makes up each doubt",
}
"""Kinds of plot that are shown here, and what they are headed."""


@dataclass(frozen=True)
class ChancePiece(Page):
    """How sure it is, or what stops it; `later` is where the usual look comes from."""

    template: ClassVar[str] = "set_chance.html"
    unit: int
    later: str
    first_look: int
    stops: tuple["Stop", ...]
    notes: tuple["Stop", ...]
    chances: Chances | None


@dataclass(frozen=True, slots=True)
class Stop:
    """A finding, and where it is put right: a path, and what that is called."""

    found: FindingAnswer
    to: str
    named: str


@dataclass(frozen=True)
class FitPiece(Page):
    """What to fit of one setting."""

    template: ClassVar[str] = "set_fit.html"
    unit: int
    later: str
    id: str
    fit: Fit | None


@dataclass(frozen=True)
class ChecksPiece(Page):
    """What every check should read."""

    template: ClassVar[str] = "set_checks.html"
    unit: int
    later: str
    checks: tuple[Shown, ...]
    needs: tuple[tuple[str, ...], ...]
    with_what: tuple[str, ...]


@dataclass(frozen=True)
class TriedPiece(Page):
    """What comes of packs tried on."""

    template: ClassVar[str] = "set_tried.html"
    unit: int
    revision: int
    tried: Tried
    packs: tuple[TryBox, ...]
    checks: tuple[Shown, ...]
    slips: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class NeedsPiece(Page):
    """What is wanted, each with its box."""

    template: ClassVar[str] = "set_needs.html"
    frame: Frame
    needs: tuple[NeedForm, ...]


@dataclass(frozen=True)
class PlotsPiece(Page):
    """Plots of one kind."""

    template: ClassVar[str] = "set_plots.html"
    id: str
    plots: tuple[Plot, ...]


@dataclass(frozen=True)
class SetPage(Page):
    """The page: its boxes, and what is known already of the pieces."""

    template: ClassVar[str] = "set.html"
    frame: Frame
    slip: Slip | None
    settings: tuple[SettingForm, ...]
    needs: NeedsPiece | None
    packs: tuple[TryBox, ...]
    tried_at: str
    kinds: tuple[tuple[str, str], ...]
    chance: ChancePiece | None
    fits: tuple[FitPiece, ...]
    checks: ChecksPiece | None


async def page(asked: Asked) -> SetPage:
    """Show the page; with `look=full` all of it at once."""
    if asked.query.get("look") == FULL:
        view: SetView | None = await asked.work("setting", pace="long")
    else:
        view = asked.desk.known("setting", asked.with_readings)
    forms = settings(asked)
    packs = _packs(asked)
    return SetPage(
        frame(asked, "set"),
        asked.slip,
        forms,
        await _needs(asked),
        packs,
        _tried_at(asked, packs),
        tuple(KINDS.items())[: None if "more" in asked.query else 1],
        _chance(asked, view, FULL) if view else None,
        tuple(_fit(asked, view, form.part, FULL) for form in forms) if view else (),
        _checks(asked, view, FULL) if view else None,
    )


async def chance(asked: Asked) -> ChancePiece:
    """Show how sure it is."""
    return _chance(asked, await _view(asked), asked.query.get("look", ""))


async def fit(asked: Asked) -> FitPiece:
    """Show what to fit of a setting."""
    return _fit(asked, await _view(asked), asked.at, asked.query.get("look", ""))


async def checks(asked: Asked) -> ChecksPiece:
    """Show what every check should read."""
    return _checks(asked, await _view(asked), asked.query.get("look", ""))


async def tried(asked: Asked) -> TriedPiece:
    """Show what comes of packs tried on."""
    packs = _packs(asked)
    found: Tried = await asked.work(
        "tried", tuple((box.part, box.value) for box in packs), pace="long"
    )
    told = found.view.checks if found.view else ()
    kept = asked.revision
    return TriedPiece(kept.rebuild, kept.number, found, packs, told, tuple(found.slips.items()))


async def wanted(asked: Asked) -> NeedsPiece:
    """Show what is wanted."""
    return NeedsPiece(frame(asked, "set"), needs(asked, await asked.work("wanted")))


async def _needs(asked: Asked) -> NeedsPiece | None:
    """Give that at once where it is known, or has to stand there with what was typed."""
    known = asked.desk.known("wanted", asked.with_readings) is not None
    return await wanted(asked) if known or asked.slip or asked.query.get("look") == FULL else None


async def plots(asked: Asked) -> PlotsPiece:
    """Show the plots of a kind."""
    kind = asked.at if asked.at in KINDS else "setting"
    return PlotsPiece(f"plots-{kind}", await asked.work("plots", kind, pace="long"))


async def _view(asked: Asked) -> SetView:
    """Look at once where the usual look is known or wanted; else a first time."""
    if asked.query.get("look") == FULL:
        view: SetView = await asked.work("setting", pace="long")
        return view
    known: SetView | None = asked.desk.known("setting", asked.with_readings)
    return known or await asked.work("setting", FIRST_LOOK, pace="long")


def _later(asked: Asked, view: SetView, piece: str, at: str, look: str) -> str:
    """Say where the usual look comes from, if this is a first one."""
    if look == FULL or not view.first_look:
        return ""
    return f"{path(asked.revision.rebuild, piece, at)}?look={FULL}"


def _chance(asked: Asked, view: SetView, look: str) -> ChancePiece:
    return ChancePiece(
        asked.revision.rebuild,
        _later(asked, view, "set/chance", "", look),
        view.first_look,
        tuple(_stop(asked, found) for found in view.stops),
        tuple(_stop(asked, found) for found in view.notes),
        view.chances,
    )


def _stop(asked: Asked, found: FindingAnswer) -> Stop:
    """Say where what was found is put right: on this page, or on Measure."""
    unit, place = asked.revision.rebuild, found.place
    section, name = (*(str(step) for step in place[:2]), "", "")[:2]
    if section in ("settings", "needs"):
        return Stop(found, path(unit, "set", "", section), name)
    if section == "walks":
        return Stop(found, path(unit, "walk"), f"the walk of {name}")
    if section == "readings":
        return Stop(found, path(unit, "build"), f"Build, where '{name}' is read")
    if section == "parts" and name:
        return Stop(found, path(unit, "measure", name), name)
    return Stop(found, path(unit, "measure"), "the sizes")


def _fit(asked: Asked, view: SetView, part: str, look: str) -> FitPiece:
    number = [*asked.document.rebuild.settings, part].index(part) + 1
    return FitPiece(
        asked.revision.rebuild,
        _later(asked, view, "set/fit", part, look),
        f"fit-{number}",
        next((one for one in view.fits if one.part == part), None),
    )


def _checks(asked: Asked, view: SetView, look: str) -> ChecksPiece:
    taken = _taken(asked)
    return ChecksPiece(
        asked.revision.rebuild,
        _later(asked, view, "set/checks", "", look),
        tuple(replace(one, taken=tuple(taken.get(one.check, ()))) for one in view.checks),
        view.needs,
        view.with_what,
    )


def _taken(asked: Asked) -> dict[str, list[Taken]]:
    """List what was read so far by check, under the names that the checks have now."""
    found: dict[str, list[Taken]] = {}
    for check, entry in as_it_stands(asked.store, asked.revision.rebuild).entries:
        wrote = entry.wrote
        if isinstance(wrote, Reading) and not entry.struck and entry.strikes is None:
            by = f" by {wrote.instrument}" if wrote.instrument else ""
            found.setdefault(check, []).append(Taken(f"{wrote.typed}{by}", when(entry.at)))
    return found


def _packs(asked: Asked) -> tuple[TryBox, ...]:
    """Make the boxes in which packs to be tried are typed, as they were typed."""
    held = asked.document.rebuild.settings.values()
    return tuple(
        TryBox(
            setting.part,
            f"pack-{n}",
            asked.query.get(f"pack-{n}", ""),
            setting.fitted.text if setting.fitted else "",
        )
        for n, setting in enumerate(held, 1)
    )


def _tried_at(asked: Asked, packs: tuple[TryBox, ...]) -> str:
    """Say where the piece comes from that shows what was tried; nothing if nothing was typed."""
    typed = {box.name: box.value for box in packs if box.value.strip()}
    return f"{path(asked.revision.rebuild, 'set/tried')}?{urlencode(typed)}" if typed else ""
