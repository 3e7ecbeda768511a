"""The marks of the steps: what is done, what is now, what is to come, and where it is held."""

from collections.abc import Mapping
from dataclasses import dataclass

from dryfit.app.pages.build_order import BuildOrder
from dryfit.app.pages.frame import when
from dryfit.store.journal import Entry

NO_RETURN = "point of no return: {}"


@dataclass(frozen=True, slots=True)
class StepMark:
    """A step in the strip of marks and in the list: `done`, `now` or `to come`."""

    number: int
    title: str
    state: str
    hold: bool
    note: str
    told: tuple[str, ...]


def marks_of(order: BuildOrder, done: Mapping[str, Entry], here: int = 0) -> tuple[StepMark, ...]:
    """Mark every step; `now` is the one that is shown, else the first that is not done."""
    first = next((step.number for step in order.steps if step.name not in done), 0)
    return tuple(
        StepMark(
            step.number,
            step.title,
            "now"
            if step.number == (here or first)
            else ("done" if step.name in done else "to come"),
            bool(step.check),
            _noted(done.get(step.name)),
            tuple(told for told in (step.stops, *map(NO_RETURN.format, step.no_return)) if told),
        )
        for step in order.steps
    )


def _noted(entry: Entry | None) -> str:
    if entry is None:
        return ""
    told = getattr(entry.wrote, "note", "")
    return f"Done {when(entry.at)}" + (f": {told}" if told else "")
