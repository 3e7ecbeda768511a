"""What stands on the Strip page: things to tick, each with its note, and marks."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from dryfit.app.pages.asked import Asked, Slip
from dryfit.app.pages.frame import when
from dryfit.app.words.strip_down import notes_of
from dryfit.model.rebuild import Rebuild
from dryfit.quantities.finding import Finding
from dryfit.store.journal import Entry, Step, journal

PHASE = {"phase": "strip"}
"""How a step of the strip is told from one of the build."""

MARK = "mark"
"""What a note of marks is called, before the part it is on."""


@dataclass(frozen=True, slots=True)
class Tick:
    """Something to do and to note.

    Attributes
    ----------
    number
        On the page, counted from 0.
    step
        What it is called in the journal.
    title, told
        What it is, and what to write down.
    entry
        Its entry in the journal; 0 where it has none.
    note, at
        What was noted, and when.
    typed, findings
        What was typed and not kept, and why.
    """

    number: int
    step: str
    title: str
    told: str
    entry: int
    note: str
    at: str
    typed: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class LineTicks:
    """A line of the unit with what to note at each of its parts."""

    name: str
    ends: str
    ticks: tuple[Tick, ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """A note of marks: its entry, what it is on, what was noted, and when."""

    entry: int
    on: str
    note: str
    at: str


class Ticks:
    """Makes ticks, numbered through the page, from what the journal says."""

    def __init__(self, asked: Asked) -> None:
        steps = (e for e in journal(asked.store, asked.revision.rebuild) if _of_strip(e))
        self._done: dict[str, Entry] = {}
        for entry in steps:
            self._done[_step(entry).name] = entry
        self._slip = asked.slip
        self._made = 0

    @property
    def begun(self) -> bool:
        """Whether anything of the strip was noted."""
        return bool(self._done)

    def of(self, step: str, title: str, told: str = "") -> Tick:
        """Make the next one."""
        entry, slip = self._done.get(step), self._slip_of(step)
        number, self._made = self._made, self._made + 1
        return Tick(
            number,
            step,
            title,
            told,
            entry.number if entry else 0,
            _step(entry).note if entry else "",
            when(entry.at) if entry else "",
            slip.typed.get("note", "") if slip else "",
            slip.findings if slip else (),
        )

    def _slip_of(self, step: str) -> Slip | None:
        return self._slip if self._slip and self._slip.typed.get("step") == step else None


def _of_strip(entry: Entry) -> bool:
    noted = isinstance(entry.wrote, Step) and entry.wrote.how.get("phase") == PHASE["phase"]
    return noted and not entry.struck and entry.strikes is None


def _step(entry: Entry) -> Step:
    if not isinstance(entry.wrote, Step):
        raise TypeError(f"entry {entry.number} is no step")
    return entry.wrote


def line_ticks(rebuild: Rebuild, ticks: Ticks) -> Iterator[LineTicks]:
    """List the parts of each line, each with what to write down."""
    for line in rebuild.lines.values():
        rows = notes_of(rebuild, line)
        made = tuple(
            ticks.of(
                f"strip {line.name}: {name}", name, note if kind == name else f"{kind}: {note}"
            )
            for name, kind, note in rows
        )
        yield LineTicks(line.name, f"from {line.first} to {line.last}", made)


def marks(asked: Asked) -> tuple[Mark, ...]:
    """List the marks that were noted, as they came."""
    noted = (e for e in journal(asked.store, asked.revision.rebuild) if _of_strip(e))
    return tuple(
        Mark(e.number, _step(e).how.get("on", ""), _step(e).note, when(e.at))
        for e in noted
        if _step(e).how.get("sort") == MARK
    )


def can_be_shown(rebuild: Rebuild) -> tuple[str, ...]:
    """List what a photograph or a mark may be of."""
    named: Mapping[str, None] = dict.fromkeys(
        ("the whole unit", *rebuild.lines, *rebuild.parts, *rebuild.meshes)
    )
    return tuple(named)
