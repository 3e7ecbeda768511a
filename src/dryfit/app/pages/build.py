"""Build: the derived order, one step a page, with hold points where something is read."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Page, Slip
from dryfit.app.pages.build_done import (
    Changed,
    ReadingRow,
    changed,
    done_steps,
    last_run,
    readings_of,
)
from dryfit.app.pages.build_hold import Go, HoldPiece, hold, hold_known
from dryfit.app.pages.build_marks import StepMark, marks_of
from dryfit.app.pages.build_order import BuildOrder, BuildStep
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.app.usecases.opening import FindingAnswer
from dryfit.app.words.trade import BESIDE, CARE, HOW
from dryfit.model.rebuild import CordPull
from dryfit.quantities.finding import Place
from dryfit.store.journal import Entry


@dataclass(frozen=True)
class StepsPage(Page):
    """All steps; `marks` are none while the order is being derived."""

    template: ClassVar[str] = "build.html"
    frame: Frame
    slip: Slip | None
    known: bool
    marks: tuple[StepMark, ...] = ()
    now: str = ""
    done: int = 0
    changed: Changed = Changed()
    told: tuple[str, ...] = ()
    findings: tuple[FindingAnswer, ...] = ()


@dataclass(frozen=True)
class StepsPiece(StepsPage):
    """The same as a piece."""

    template: ClassVar[str] = "build_steps.html"


@dataclass(frozen=True, slots=True)
class Held:
    """What is read at a hold point: its kind, how, in what, with what care; what was read."""

    check: str
    kind: str
    unit: str
    by: str
    how: tuple[str, ...]
    care: str
    readings: tuple[ReadingRow, ...]
    counts: int
    piece: HoldPiece | None


@dataclass(frozen=True)
class StepPage(Page):
    """One step; `step` is None while the order is being derived, or where there is no such.

    `loose` tells that what was refused belongs beside no box that is shown.
    """

    template: ClassVar[str] = "build_step.html"
    frame: Frame
    slip: Slip | None
    at: str
    known: bool
    step: BuildStep | None = None
    marks: tuple[StepMark, ...] = ()
    back: str = ""
    go: Go | None = None
    done_at: str = ""
    note: str = ""
    pack: str = ""
    is_setting: bool = False
    held: Held | None = None
    changed: Changed = Changed()
    loose: bool = False


@dataclass(frozen=True)
class StepPiece(StepPage):
    """The same as a piece."""

    template: ClassVar[str] = "build_part.html"


async def page(asked: Asked) -> StepsPage | StepPage:
    """Show all steps, or one; at once, the order as a piece that comes later if need be."""
    order = asked.desk.known("build", asked.data)
    if asked.at:
        return _step(StepPage, asked, order)
    return _steps(StepsPage, asked, order)


async def steps_piece(asked: Asked) -> StepsPage:
    """Show all steps once the order is derived."""
    return _steps(StepsPiece, asked, await _order(asked))


async def step_piece(asked: Asked) -> StepPage:
    """Show a step once the order is derived."""
    return _step(StepPiece, asked, await _order(asked))


async def hold_piece(asked: Asked) -> HoldPiece:
    """Show what a check should read, and the verdict on what was read."""
    order = await _order(asked)
    step = order.step(asked.at)
    if step is None or not step.check:
        return HoldPiece(asked.at, "")
    return await hold(asked, step.check, _go(asked, order, step))


async def _order(asked: Asked) -> BuildOrder:
    """Have the order derived, for the text alone: readings do not change it under the build."""
    kept = asked.revision
    of = kept.rebuild, kept.number
    found: BuildOrder = await asked.desk.ask("build", asked.data, of=of, pace="long")
    return found


def _steps(kind: type[StepsPage], asked: Asked, order: BuildOrder | None) -> StepsPage:
    round_ = frame(asked, "build")
    if order is None:
        return kind(round_, asked.slip, known=False)
    done = done_steps(asked)
    marks = marks_of(order, done)
    now = next((str(mark.number) for mark in marks if mark.state != "done"), "")
    return kind(
        round_,
        asked.slip,
        known=True,
        marks=marks,
        now=now,
        done=sum(mark.state == "done" for mark in marks),
        changed=changed(order, done),
        told=order.told,
        findings=order.findings,
    )


def _step(kind: type[StepPage], asked: Asked, order: BuildOrder | None) -> StepPage:
    round_ = frame(asked, "build")
    if order is None:
        return kind(round_, asked.slip, asked.at, known=False)
    step = order.step(asked.at)
    if step is None:
        return kind(round_, asked.slip, asked.at, known=True, loose=True)
    done = done_steps(asked)
    entry = done.get(step.name)
    go = _go(asked, order, step)
    held = _held(asked, step, go) if step.check else None
    setting = asked.document.rebuild.settings.get(step.name)
    return kind(
        round_,
        asked.slip,
        asked.at,
        known=True,
        step=step,
        marks=marks_of(order, done, step.number),
        back="" if step.number == 1 else str(step.number - 1),
        go=go,
        done_at=when(entry.at) if entry else "",
        note=getattr(entry.wrote, "note", "") if entry else "",
        pack=setting.fitted.text if setting and setting.fitted else "",
        is_setting=setting is not None,
        held=held,
        changed=changed(order, done),
        loose=asked.slip is not None and asked.slip.place not in set(_boxes(step, entry, held)),
    )


def _boxes(step: BuildStep, done: Entry | None, held: Held | None) -> Iterator[Place]:
    """Name what the boxes of a step are about."""
    yield ("step", step.name)
    if done is not None:
        yield ("undone", step.name)
    if held is not None:
        yield ("readings", held.check)
        yield from (("entry", row.number) for row in held.readings if not row.struck)


def _go(asked: Asked, order: BuildOrder, step: BuildStep) -> Go:
    """Say how to go on from a step."""
    last, slip = step.number == len(order.steps), asked.slip
    mine = slip is not None and slip.place == ("step", step.name)
    return Go(
        asked.revision.rebuild,
        str(step.number),
        step.name,
        order.sign,
        "" if last else str(step.number + 1),
        "" if last else order.steps[step.number].title,
        step.name in done_steps(asked),
        note=slip.typed.get("note", "") if slip and mine else "",
    )


def _held(asked: Asked, step: BuildStep, go: Go) -> Held:
    rebuild = asked.document.rebuild
    check = rebuild.checks[step.check]
    kind = check.kind
    unit = "N" if isinstance(check, CordPull) else ("in" if rebuild.system == "inch" else "mm")
    return Held(
        step.check,
        kind,
        unit,
        BESIDE[kind],
        tuple(f"{one.rstrip('.')}." for one in HOW[kind].split(". ")),
        CARE[kind],
        readings_of(asked, step.check),
        len(last_run(asked, step.check)),
        hold_known(asked, step.check, go),
    )
