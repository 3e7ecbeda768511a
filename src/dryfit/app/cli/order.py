"""The order as a sheet: steps with a box to tick, what each hides, where builds stop, and strip."""

from dryfit.app.cli.page import head, indented
from dryfit.app.usecases.order import OffAnswer, OrderAnswer, StepAnswer

TRUST = (
    "One thing wrong is mended in one go, and rightly. How often things go wrong, and minutes, are "
    "estimates; what one line's parts stop of another's is not looked at."
)


def order_sheet(answer: OrderAnswer) -> str:
    """Write the order of assembly."""
    lines = head(f"Order: {answer.title}" if answer.title else "Order")
    for number, step in enumerate(answer.steps, start=1):
        lines += _step(number, step)
    lines += ["", *head("Undoing")]
    lines += indented(f"This order is the {answer.quality}." if answer.told_risks else UNTOLD)
    if answer.told_risks:
        lines += indented(f"When the finished unit is tried, {answer.at_last}.", hang=2)
        for one in answer.schedules:
            told = f"{one.name}: {one.steps:.1f} steps, {one.minutes:.0f} minutes"
            lines += indented(f"to be expected with {told}", hang=2)
        lines += ["", *indented(TRUST)]
    return "\n".join(lines)


UNTOLD = "Not told what goes wrong where: some size is not known, so any order that can be goes."


def _step(number: int, step: StepAnswer) -> list[str]:
    """Write a step, what it is the last chance for before it, and what to mind."""
    lines = []
    if step.hides:
        hidden = ", ".join(f"'{name}'" for name in step.hides)
        lines += indented(f"last chance to {hidden}", by=10, hang=2)
    named = step.name if step.act == "read" else f"{step.act}: {step.name}"
    lines += indented(f"[ ] {number:>2}  {named}", hang=8)
    for text in (*step.mind, *([step.words] if step.words else [])):
        lines += indented(text, by=12, hang=2)
    return lines


def strip_sheet(answer: OrderAnswer) -> str:
    """Write how the unit comes apart, line by line."""
    lines = head(f"Strip: {answer.title}" if answer.title else "Strip")
    line = None
    for number, off in enumerate(answer.strip, start=1):
        if off.line != line:
            lines += ["", *indented(f"{off.line}:")] if line else indented(f"{off.line}:")
            line = off.line
        lines += _off(number, off)
    lines += ["", *indented(NOTE)]
    return "\n".join(lines)


NOTE = "Note on the way: which way each faces, packs by side, marks, readings as found."


def _off(number: int, off: OffAnswer) -> list[str]:
    parts = ", ".join(f"'{part}'" for part in off.parts)
    whole = " in one" if len(off.parts) > 1 else ""
    lines = indented(f"[ ] {number:>2}  {parts}{whole}, {off.way}", hang=8)
    if off.past:
        past = ", ".join(f"'{name}'" for name in off.past)
        lines += indented(f"past {past}, if a size there that nobody typed allows", by=12, hang=2)
    return lines
