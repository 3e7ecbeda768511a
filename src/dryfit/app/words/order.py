"""The order in words: steps with a box to tick, what each hides, where builds stop, and strip."""

from dataclasses import dataclass
from itertools import groupby

from dryfit.app.usecases.order import OffAnswer, OrderAnswer, StepAnswer
from dryfit.app.words.pressing import press_words
from dryfit.app.words.said import Said, head, indented

TRUST = (
    "One thing wrong is mended in one go, and rightly. How often things go wrong, and minutes, are "
    "estimates; what one line's parts stop of another's is not looked at."
)


def order_words(answer: OrderAnswer) -> list[list[Said]]:
    """Tell the order of assembly, block by block."""
    lines = head(f"Order: {answer.title}" if answer.title else "Order")
    for number, step in enumerate(answer.steps, start=1):
        lines += _step(number, step)
    undoing = [*head("Undoing"), *undoing_words(answer)]
    for one in answer.schedules if answer.told_risks else ():
        told = f"{one.name}: {one.steps:.1f} steps, {one.minutes:.0f} minutes"
        undoing += indented(f"to be expected with {told}", hang=2)
    return [lines, undoing, indented(TRUST)] if answer.told_risks else [lines, undoing]


def undoing_words(answer: OrderAnswer) -> list[Said]:
    """Tell how good the order is, and how often the finished unit is found wrong."""
    if not answer.told_risks:
        return indented(UNTOLD)
    lines = indented(f"This order is the {answer.quality}.")
    return lines + indented(f"When the finished unit is tried, {answer.at_last}.", hang=2)


UNTOLD = "Not told what goes wrong where: some size is not known, so any order that can be goes."


def what_done(step: StepAnswer) -> str:
    """Say what is done in a step.

    >>> what_done(StepAnswer("cover", "put on", (), ()))
    'put on: cover'
    >>> what_done(StepAnswer("read lash", "read", (), ()))
    'read lash'
    """
    return step.name if step.act == "read" else f"{step.act}: {step.name}"


def last_chance(step: StepAnswer) -> str:
    """Say what can be done no more after a step; nothing where it hides nothing.

    >>> last_chance(StepAnswer("cover", "put on", ("read lash",), ()))
    "last chance to 'read lash'"
    """
    hidden = ", ".join(f"'{name}'" for name in step.hides)
    return f"last chance to {hidden}" if hidden else ""


def to_mind(step: StepAnswer) -> tuple[str, ...]:
    """Say what to mind in a step: edges, what is pressed past, rings that go home tight.

    >>> to_mind(StepAnswer("cover", "put on", (), ("cover the edge",)))
    ('cover the edge',)
    """
    return (*step.mind, *(told for one in step.presses for told in press_words(one)))


def _step(number: int, step: StepAnswer) -> list[Said]:
    """Write a step, what it is the last chance for before it, and what to mind."""
    chance = last_chance(step)
    lines = indented(chance, by=10, hang=2) if chance else []
    lines += indented(f"[ ] {number:>2}  {what_done(step)}", hang=8)
    for text in (*to_mind(step), *([step.words] if step.words else [])):
        lines += indented(text, by=12, hang=2)
    return lines


def strip_words(answer: OrderAnswer) -> list[list[Said]]:
    """Tell how the unit comes apart, line by line."""
    told = [head(f"Strip: {answer.title}" if answer.title else "Strip")]
    line = None
    for number, off in enumerate(answer.strip, start=1):
        if off.line != line:
            heading = indented(f"{off.line}:")
            told = [[*told[0], *heading]] if line is None else [*told, heading]
            line = off.line
        told[-1] += _off(number, off)
    return [*told, indented(NOTE)]


NOTE = "Note on the way: which way each faces, packs by side, marks, readings as found."


def what_off(off: OffAnswer) -> str:
    """Say what comes off, and by which way."""
    parts = ", ".join(f"'{part}'" for part in off.parts)
    whole = " in one" if len(off.parts) > 1 else ""
    return f"{parts}{whole}, {off.way}"


@dataclass(frozen=True, slots=True)
class TakenApart:
    """How a line comes apart: what comes off, one after the other."""

    line: str
    steps: tuple[str, ...]


def taken_apart(answer: OrderAnswer) -> tuple[TakenApart, ...]:
    """Say how each line comes apart."""
    return tuple(
        TakenApart(line, tuple("; ".join(filter(None, (what_off(x), past_guess(x)))) for x in off))
        for line, off in groupby(answer.strip, key=lambda one: one.line)
    )


def past_guess(off: OffAnswer) -> str:
    """Say past what it comes off only if a size that is not typed allows; else nothing."""
    past = ", ".join(f"'{name}'" for name in off.past)
    return f"past {past}, if a size there that nobody typed allows" if past else ""


def _off(number: int, off: OffAnswer) -> list[Said]:
    lines = indented(f"[ ] {number:>2}  {what_off(off)}", hang=8)
    past = past_guess(off)
    return lines + (indented(past, by=12, hang=2) if past else [])
