"""The walk to nothing: of no unit, or kept in the text of one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar
from urllib.parse import urlencode

from dryfit.app.pages.asked import Asked, Done, Moved, Page, Refused, Slip, path
from dryfit.app.pages.frame import Frame, frame, no_longer
from dryfit.app.pages.set_forms import node_at
from dryfit.app.pages.walk_view import (
    MOST_ROWS,
    By,
    WalkTold,
    WalkTyped,
    rows,
    too_long,
    typed,
)
from dryfit.app.words.walk_trade import AFTER, CARE, HOW, TOO_FAR_ON
from dryfit.document.nodes import Mapping as Group
from dryfit.document.nodes import Scalar, fold
from dryfit.document.walks import WITH
from dryfit.model.parts import Nut
from dryfit.model.rebuild import EndFloat
from dryfit.quantities.finding import Finding

LEAST_ROWS, MORE = 5, 2
"""Rows shown at least, and empty ones below those that are filled in."""

Rows = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class RowBox:
    """A row: its number, what stands in both boxes, and what is wrong with it."""

    number: int
    mark: str
    read: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class WalkPage(Page):
    """A walk of no unit."""

    template: ClassVar[str] = "walk.html"
    frame: Frame
    slip: Slip | None
    typed: WalkTyped
    rows: tuple[RowBox, ...]
    found: dict[str, tuple[Finding, ...]]
    told: WalkTold | None
    care: str = CARE


@dataclass(frozen=True, slots=True)
class Choice:
    """A setting or nut that can be walked."""

    part: str
    is_nut: bool


@dataclass(frozen=True)
class UnitWalkPage(Page):
    """Walks of a unit by one setting or nut.

    Attributes
    ----------
    gone
        Why what the address names is not shown.
    choices
        What can be walked.
    part
        Which of them it is; empty where none is chosen yet.
    checks
        The floats that can be read.
    check
        Which of them is read.
    other
        What else that float was walked by, if it was: it has one walk.
    fit_id
        Of the piece that says which pack from the drawer that asks for.
    """

    template: ClassVar[str] = "walk_unit.html"
    frame: Frame
    slip: Slip | None
    gone: str
    choices: tuple[Choice, ...]
    part: str
    is_nut: bool
    checks: tuple[str, ...]
    check: str
    other: str
    rows: tuple[RowBox, ...]
    kept: bool
    fit_id: str
    how: tuple[str, ...]
    care: str = CARE


@dataclass(frozen=True)
class WalkPiece(Page):
    """Where the written walks come to nothing."""

    template: ClassVar[str] = "walk_told.html"
    walks: tuple[WalkTold, ...]


async def page(asked: Asked) -> WalkPage:
    """Show a walk of no unit: what was typed is in the address."""
    form = asked.slip.typed if asked.slip else asked.query
    walk = typed(form)
    told: WalkTold | None = None
    if asked.slip is None and walk.rows and not too_long(form):
        told = await _asked(asked, walk)
    findings = asked.slip.findings if asked.slip else told.findings if told else ()
    return WalkPage(
        frame(asked, "walk"),
        asked.slip,
        walk,
        _boxes(walk.rows, findings, _wanted_rows(form)),
        _by_box(findings),
        None if told is None or told.findings else told,
    )


async def _asked(asked: Asked, walk: WalkTyped) -> WalkTold:
    told: WalkTold = await asked.desk.ask("walk", b"", walk, of=(0, 0))
    return told


async def walk(asked: Asked) -> Done:
    """Answer a walk of no unit; what was typed goes into the address, so that it can be kept."""
    form = asked.form
    findings = too_long(form)
    told = typed(form)
    if not findings and "more" not in form:
        findings = (await _asked(asked, told)).findings
    if findings:
        raise Refused(Slip((), form, findings))
    held = {name: text for name, text in form.items() if text.strip() and name not in HIDDEN}
    if "more" in form:
        held["rows"] = str(min(_wanted_rows(form) + LEAST_ROWS, MOST_ROWS))
    return Done(f"/walk?{urlencode(held)}#comes-to")


HIDDEN = ("back", "at", "more")
"""Fields of a form that are not of the walk."""


def _wanted_rows(form: Mapping[str, str]) -> int:
    told = form.get("rows", "")
    wanted = int(told) if told.isascii() and told.isdigit() and len(told) < 3 else LEAST_ROWS
    return min(max(wanted, LEAST_ROWS), MOST_ROWS)


def _boxes(held: Rows, findings: tuple[Finding, ...], least: int) -> tuple[RowBox, ...]:
    """Make the rows, some of them empty."""
    count = min(max(least, len(held) + MORE), MOST_ROWS)
    filled = (*held, *([("", "")] * (count - len(held))))
    return tuple(
        RowBox(n, mark, read, tuple(one for one in findings if one.place == ("row", n)))
        for n, (mark, read) in enumerate(filled, 1)
    )


def _by_box(findings: tuple[Finding, ...]) -> dict[str, tuple[Finding, ...]]:
    """Put findings to the box they are about; those about the whole walk to none."""
    names = [str(one.place[0]) if one.place else "" for one in findings]
    return {
        name: tuple(one for one, at in zip(findings, names, strict=True) if at == name)
        for name in dict.fromkeys(names)
        if name != "row"
    }


async def unit_page(asked: Asked) -> UnitWalkPage | Moved:
    """Show the walks of a unit by one of its settings or nuts."""
    rebuild, choices, slip = asked.document.rebuild, walkable(asked), asked.slip
    part = next((one for one in choices if one.part == asked.at), None)
    if part is None and len(choices) == 1 and not asked.at:
        return Moved(path(asked.revision.rebuild, "walk", choices[0].part))
    floats = tuple(c.name for c in rebuild.checks.values() if isinstance(c, EndFloat))
    check = _check(asked, part.part if part else "", floats)
    other, held = written(asked, check)
    other = "" if part is None or other in ("", part.part) else other
    by: By = "nut" if part and part.is_nut else "pack"
    shown = rows(slip.typed) if slip else () if other else held
    findings = slip.findings if slip else _in_text(asked, check, shown)
    settings = [*rebuild.settings]
    return UnitWalkPage(
        frame(asked, "walk"),
        slip,
        _gone(asked, choices, part),
        choices,
        part.part if part else "",
        part.is_nut if part else False,
        floats,
        check,
        other,
        _boxes(shown, findings, LEAST_ROWS),
        bool(held) and not other,
        f"fit-{settings.index(part.part) + 1}" if part and part.part in settings else "",
        (HOW[by], TOO_FAR_ON[by], AFTER[by]),
    )


def _gone(asked: Asked, choices: tuple[Choice, ...], part: Choice | None) -> str:
    """Say that the address names no setting and no nut; nothing where it does."""
    if not asked.at or part is not None:
        return ""
    return no_longer("setting or nut", asked.at, (one.part for one in choices))


async def told(asked: Asked) -> WalkPiece:
    """Show where the written walks come to nothing."""
    return WalkPiece(await asked.work("walks", asked.at, pace="long"))


def walkable(asked: Asked) -> tuple[Choice, ...]:
    """List the settings of a unit, and its nuts with a thread."""
    rebuild = asked.document.rebuild
    nuts = [name for name, part in rebuild.parts.items() if isinstance(part, Nut) and part.thread]
    names = dict.fromkeys([*rebuild.settings, *nuts])
    return tuple(Choice(name, isinstance(rebuild.parts.get(name), Nut)) for name in names)


def _check(asked: Asked, part: str, floats: tuple[str, ...]) -> str:
    """Find which float it is about: the one asked for, else that walked already, else the first."""
    wanted = asked.slip.typed.get("check", "") if asked.slip else asked.query.get("check", "")
    if wanted in floats:
        return wanted
    begun = (w.check for w in asked.document.rebuild.walks.values() if w.with_ == part)
    return next(begun, floats[0] if floats else "")


def _in_text(asked: Asked, check: str, held: Rows) -> tuple[Finding, ...]:
    """Put what is wrong with a walk in the text to its rows."""
    marks = [fold(mark) for mark, _ in held]
    return tuple(
        replace(one, place=("row", marks.index(str(one.place[2])) + 1))
        for one in asked.document.findings
        if one.place[:2] == ("walks", check) and len(one.place) > 2 and one.place[2] in marks
    )


def written(asked: Asked, check: str) -> tuple[str, Rows]:
    """Give what a float was walked by and its rows, as they stand in the text."""
    group = node_at(asked.document.tree, ("walks", check))
    if not isinstance(group, Group):
        return "", ()
    texts = [
        (entry.key.text, entry.value.text if isinstance(entry.value, Scalar) else "")
        for entry in group.entries
    ]
    return dict(texts).get(WITH, ""), tuple(row for row in texts if row[0] != WITH)
