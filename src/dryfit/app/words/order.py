"""The order in words: steps with a box to tick, what each hides, where builds stop, and strip."""

from dryfit.app.usecases.order import OffAnswer, OrderAnswer, StepAnswer
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
    undoing = head("Undoing")
    undoing += indented(f"This order is the {answer.quality}." if answer.told_risks else UNTOLD)
    if not answer.told_risks:
        return [lines, undoing]
    undoing += indented(f"When the finished unit is tried, {answer.at_last}.", hang=2)
    for one in answer.schedules:
        told = f"{one.name}: {one.steps:.1f} steps, {one.minutes:.0f} minutes"
        undoing += indented(f"to be expected with {told}", hang=2)
    return [lines, undoing, indented(TRUST)]


UNTOLD = "Not told what goes wrong where: some size is not known, so any order that can be goes."


def _step(number: int, step: StepAnswer) -> list[Said]:
    """Write a step, what it is the last chance for before it, and what to mind."""
    lines: list[Said] = []
    if step.hides:
        hidden = ", ".join(f"'{name}'" for name in step.hides)
        lines += indented(f"last chance to {hidden}", by=10, hang=2)
    named = step.name if step.act == "read" else f"{step.act}: {step.name}"
    lines += indented(f"[ ] {number:>2}  {named}", hang=8)
    for text in (*step.mind, *([step.words] if step.words else [])):
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


def _off(number: int, off: OffAnswer) -> list[Said]:
    parts = ", ".join(f"'{part}'" for part in off.parts)
    whole = " in one" if len(off.parts) > 1 else ""
    lines = indented(f"[ ] {number:>2}  {parts}{whole}, {off.way}", hang=8)
    if off.past:
        past = ", ".join(f"'{name}'" for name in off.past)
        lines += indented(f"past {past}, if a size there that nobody typed allows", by=12, hang=2)
    return lines
