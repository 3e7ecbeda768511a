"""A rebuild with its readings written into the text, to be mailed and kept.

Readings live in the journal. Of each check the last run goes into the text: what was read one after
the other in one state with no step of assembly between. What was read before stays in the journal.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dryfit.document.edit import Edit, Spliced, splice
from dryfit.document.nodes import Mapping as Group
from dryfit.document.nodes import Node, Scalar, reach
from dryfit.document.read import FORCE
from dryfit.document.spell import spellings
from dryfit.document.tree import read_tree
from dryfit.quantities.finding import Finding, Place
from dryfit.store.journal import Entry, Reading, journal
from dryfit.store.opening import Store
from dryfit.store.renames import SECTION, name_now
from dryfit.store.revisions import history, newest

READINGS = "readings"
SAYS_HOW_SURE = re.compile(r"\bby\b|\+/-|±")
"""A value that says itself how sure it is."""


@dataclass(frozen=True, slots=True)
class Exported:
    """A text with its readings, and what could not be written into it: that is in the journal."""

    text: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """The newest text and the journal; each reading has the name that its check has now."""

    text: str
    entries: tuple[tuple[str, Entry], ...]


def export(store: Store, rebuild: int) -> Exported:
    """Give the newest text of a rebuild with the readings of its journal."""
    return written_out(as_it_stands(store, rebuild))


def written_out(held: Standing) -> Exported:
    """Write the last run of each check into the text."""
    return with_readings(held.text, last_runs(held.entries))


def as_it_stands(store: Store, rebuild: int) -> Standing:
    """Take text and journal at one moment."""
    with store.database.steady():
        now = newest(store, rebuild)
        past = {each.number: each for each in history(store, rebuild)}
        entries = journal(store, rebuild)
    named = tuple(
        (name_now(entry.wrote.check, entry.revision, now.number, past), entry)
        if isinstance(entry.wrote, Reading)
        else ("", entry)
        for entry in entries
    )
    return Standing(now.text, named)


def last_runs(entries: Iterable[tuple[str, Entry]]) -> dict[str, list[Reading]]:
    """Pick the last run of each check: in one state, and with no step between."""
    runs: dict[str, list[Reading]] = {}
    ended: set[str] = set()
    for check, entry in entries:
        wrote = entry.wrote
        if entry.struck or entry.strikes is not None:
            continue
        if not isinstance(wrote, Reading):
            ended = set(runs)
        elif check in runs and check not in ended and runs[check][-1].state == wrote.state:
            runs[check].append(wrote)
        else:
            runs[check] = [wrote]
            ended.discard(check)
    return runs


def with_readings(text: str, runs: Mapping[str, list[Reading]]) -> Exported:
    """Write the readings of each check into a text."""
    findings: list[Finding] = []
    for check, run in runs.items():
        if _at(text, (SECTION, check)) is None:
            message = f"'{check}' is no check of this text; its readings stay in the journal"
            way_out = f"add a check '{check}', or leave it"
            findings.append(Finding("export.check", (SECTION,), message, way_out, "note"))
            continue
        written = _write(text, (READINGS, check), [spelled(reading) for reading in run])
        text = written.text
        findings += written.findings
    return Exported(text, tuple(findings))


def spelled(reading: Reading) -> str:
    """Write a reading as it stands in a text.

    >>> spelled(Reading("end float", "0.11", "dial indicator"))
    '0.11 by dial indicator'
    >>> spelled(Reading("end float", "0.11 +/- 0.01", "dial indicator"))
    '0.11 +/- 0.01'

    A force names no instrument in a text; in the journal it stands with it.

    >>> spelled(Reading("cord", "6.5 N", "spring balance"))
    '6.5 N'
    """
    typed = " ".join(reading.typed.split())
    if not reading.instrument or SAYS_HOW_SURE.search(typed) or FORCE.search(typed):
        return typed
    return f"{typed} by {reading.instrument}"


def _write(text: str, place: Place, typed: list[str]) -> Spliced:
    """Put one reading or a list of them at a place, whatever stands there."""
    there = _at(text, place)
    many = "[" + ", ".join(spellings(each, flow=True)[0] for each in typed) + "]"
    value = typed[0] if len(typed) == 1 else many
    if isinstance(there, Scalar) and len(typed) == 1:
        return splice(text, Edit("set", place, typed=value))
    if there is None:
        return splice(text, Edit("add", place, typed=value))
    if text[there.start : there.end] == value:
        return Spliced(text)
    group = _at(text, place[:-1])
    alone = isinstance(group, Group) and len(group.entries) == 1
    taken_out = splice(text, Edit("remove", place[:-1] if alone else place))
    added = splice(taken_out.text, Edit("add", place, typed=value))
    return added if not added.findings else Spliced(text, added.findings)


def _at(text: str, place: Place) -> Node | None:
    root = read_tree(text).root
    steps = reach(root, place) if root else []
    return steps[-1].node if len(steps) == len(place) + 1 else None
