"""The order of work: steps to tick, hold points with what they should read, and the strip."""

from dataclasses import replace
from itertools import groupby

from dryfit.app.paper.blocks import (
    Block,
    Care,
    Head,
    Notes,
    Point,
    Points,
    Sheet,
    Step,
    Steps,
    Table,
    Text,
    said,
    sentence,
)
from dryfit.app.paper.known import Known
from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.usecases.ordering.answers import OffAnswer, OrderAnswer, StepAnswer
from dryfit.app.usecases.ordering.checks import reading_of
from dryfit.app.words.checks import should, what_read
from dryfit.app.words.order import (
    NOTE,
    by_what,
    last_chance,
    last_sight,
    no_way_back,
    past_guess,
    to_mind,
    to_note,
    trial_named,
    trust,
    undoing_words,
    what_done,
    what_off,
    why_no_return,
)
from dryfit.app.words.states import state_words
from dryfit.app.words.strip_down import HARM

TITLE = "Order of assembly"


def order_sheets(known: Known) -> tuple[Sheet, ...]:
    """Write the order of assembly; none where it cannot be told."""
    if not known.order.steps:
        return ()
    checks = {reading_of(check.name): check for check in known.answer.checks}
    steps = tuple(
        _step(number, step, checks.get(step.name), known)
        for number, step in enumerate(known.order.steps, start=1)
    )
    blocks = (
        *_no_return(known.order),
        Steps(steps),
        *_open(known.order),
        *_undoing(known.order),
        Notes(),
    )
    return (Sheet(TITLE, blocks, why=WHY),)


WHY = (
    "A frame is a hold point: go on when it reads as it should. In the pictures what goes on is "
    "drawn thick, with the arrow by which it does; a letter stands at what it hides."
)


def _no_return(answer: OrderAnswer) -> tuple[Block, ...]:
    """List the steps from which there is no easy way back."""
    told = (
        Point(f"step {number}, {step.name}: {why}", 0)
        for number, step in enumerate(answer.steps, start=1)
        for why in why_no_return(step)
    )
    points = tuple(told)
    return (Points(points, label="Points of no return", dashed=True, size=12),) if points else ()


def _undoing(answer: OrderAnswer) -> tuple[Block, ...]:
    """Say what undoing is to be expected, of this order and of others."""
    told = (Head("Undoing to be expected"), *said(undoing_words(answer), size=12))
    if not answer.told_risks:
        return told
    each = [(one.name, one.steps, one.minutes) for one in answer.schedules]
    if answer.trial:
        each.append(
            (trial_named(answer.trial), answer.trial.trial_steps, answer.trial.trial_minutes)
        )
    rows = tuple((name, f"{steps:.1f}", f"{minutes:.0f}") for name, steps, minutes in each)
    table = Table(
        ("undoing to be expected with", "steps", "minutes"), rows, (1, 0, 0), right=(1, 2)
    )
    return (*told, Text(trust(answer), 11), table)


def _open(answer: OrderAnswer) -> tuple[Block, ...]:
    """Say what the shapes leave open."""
    found = [one for one in answer.findings if one.code.startswith("plan.")]
    points = [Points((Point(sentence(one.message)), Point(one.way_out, 1))) for one in found]
    return (Head("What the shapes leave open"), *points) if points else ()


def _step(number: int, step: StepAnswer, check: CheckAnswer | None, known: Known) -> Step:
    how = by_what(step) if check is None else ()
    words = tuple(told for told in (*how, last_sight(step), step.words) if told)
    plain = Step(
        str(number),
        what_done(step),
        last_chance(step),
        to_mind(step),
        words,
        no_return=no_way_back(step),
        svg=_at(known.drawn.steps, number),
        alt=f"step {number}: {what_done(step)}",
    )
    return plain if check is None else _hold(plain, check, known)


def _at(pictures: tuple[str, ...], number: int) -> str:
    """Give the n-th picture, counted from 1; nothing where there is none."""
    return pictures[number - 1] if number <= len(pictures) else ""


def _hold(step: Step, check: CheckAnswer, known: Known) -> Step:
    """Make a step a hold point: how it is read, and what it should read."""
    told = should(check, known.show)
    reads = f"should {told.verb} {told.typed}; nine times in ten {told.band}" if told else ""
    how = f"{what_read(check)}; {state_words(known.rebuild, check.state)}"
    mark = "N" if check.force else known.unit
    more = (how, *step.more)
    return replace(step, more=more, should=reads, mark=mark, hold=True)


def strip_order(answer: OrderAnswer, pictures: tuple[str, ...] = ()) -> tuple[Sheet, ...]:
    """Write how each line comes apart; none where that cannot be told."""
    if not (answer.strip or answer.findings):
        return ()
    numbered = enumerate(answer.strip, start=1)
    blocks: list[Block] = [Care(HARM[2])]
    for line, taken in groupby(numbered, key=lambda one: one[1].line):
        steps = tuple(_off(number, off, _at(pictures, number)) for number, off in taken)
        blocks += [Head(line), Steps(steps)]
    return (Sheet("Strip-down: in which order", (*blocks, *_open(answer), Notes()), why=NOTE),)


def _off(number: int, off: OffAnswer, svg: str) -> Step:
    more = tuple(told for told in (past_guess(off), *to_note(off)) if told)
    alt = f"turn {number}: {what_off(off)}"
    return Step(str(number), what_off(off), more=more, svg=svg, alt=alt)
