"""What was done of a build: steps and readings of the journal, and the acts that put them there."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from dryfit.app.pages.asked import Asked, Done, Refused, Slip, path
from dryfit.app.pages.build_order import BuildOrder
from dryfit.app.pages.frame import when
from dryfit.app.pages.typed import UNKNOWN, as_written
from dryfit.document.characters import encode
from dryfit.document.read import read_document
from dryfit.model.rebuild import CordPull
from dryfit.model.rules import check as rules
from dryfit.quantities.finding import Finding, Place
from dryfit.store.journal import Entry, Reading, Step, journal, note, refuse_words, strike_out
from dryfit.store.readings import Standing, as_it_stands, last_runs, spelled, with_readings
from dryfit.store.trouble import Trouble

BUILD = "build"
"""What a step of a build has under `of` in the journal."""

LONGEST = 200
BARE = re.compile(r"[+-]?[0-9]*\.?[0-9]+")


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """A reading that was taken: as typed, with what and how, when; struck out, and why."""

    number: int
    typed: str
    how: str
    at: str
    struck: bool
    why: str


def done_steps(asked: Asked) -> dict[str, Entry]:
    """Give the steps that were done, by name, in the order in which they were."""
    entries = journal(asked.store, asked.revision.rebuild)
    return {
        entry.wrote.name: entry
        for entry in entries
        if isinstance(entry.wrote, Step)
        and entry.wrote.how.get("of") == BUILD
        and not entry.struck
        and entry.strikes is None
    }


def readings_of(asked: Asked, check: str) -> tuple[ReadingRow, ...]:
    """List all readings of a check, struck out or not."""
    held = as_it_stands(asked.store, asked.revision.rebuild).entries
    why = {e.strikes: e.wrote.note for _, e in held if isinstance(e.wrote, Step)}
    return tuple(
        ReadingRow(
            entry.number,
            entry.wrote.typed,
            ", ".join(told for told in _how(entry.wrote) if told),
            when(entry.at),
            entry.struck,
            why.get(entry.number, ""),
        )
        for name, entry in held
        if name == check and isinstance(entry.wrote, Reading)
    )


def _how(wrote: Reading) -> tuple[str, ...]:
    return (wrote.instrument, wrote.state, *wrote.how.values())


def last_run(asked: Asked, check: str) -> tuple[Reading, ...]:
    """Give the readings of a check that count: the last ones, with no step between."""
    held = as_it_stands(asked.store, asked.revision.rebuild)
    return tuple(last_runs(held.entries).get(check, ()))


def text_before(asked: Asked, check: str) -> bytes:
    """Give the text with all readings but those of a check: what it should read is told for it."""
    held = as_it_stands(asked.store, asked.revision.rebuild)
    others = tuple((name, entry) for name, entry in held.entries if name != check)
    runs = last_runs(Standing(held.text, others).entries)
    return encode(with_readings(held.text, runs).text)


async def keep_reading(asked: Asked) -> Done:
    """Put a reading into the journal, as typed; a decimal comma becomes a point."""
    form, check = asked.form, asked.form.get("check", "")
    place: Place = ("readings", check)
    checks = asked.document.rebuild.checks
    if check not in checks:
        message, way_out = f"there is no check '{check[:LONGEST]}'", "load the page again"
        raise _refused(asked, place, Finding("reading.check", place, message, way_out))
    reading = _reading(form, check, balance=isinstance(checks[check], CordPull))
    _refuse_unreadable(asked, place, reading)
    with _Told(asked, place):
        note(asked.store, asked.revision.rebuild, reading)
    return Done(path(asked.revision.rebuild, "build", form.get("at", ""), "hold"))


def _reading(form: Mapping[str, str], check: str, *, balance: bool) -> Reading:
    """Take a reading off its boxes; a balance shows newtons if nothing is said."""
    typed = as_written(form.get("typed", ""))
    own = {key: " ".join(form.get(key, "").split()) for key in ("instrument", "state")}
    if not balance:
        return Reading(check, typed, own["instrument"], own["state"])
    newtons = f"{typed} N" if BARE.fullmatch(typed) else typed
    how = {"with": own["instrument"]} if own["instrument"] else {}
    return Reading(check, newtons, "", own["state"], how)


def _refuse_unreadable(asked: Asked, place: Place, reading: Reading) -> None:
    """Refuse what a text could not have as a reading, for the text is to be had with it."""
    if reading.typed == UNKNOWN:
        way_out = "type what the instrument shows; 0 if it does not move"
        raise _refused(asked, place, Finding("reading.empty", place, "nothing was typed", way_out))
    with _Told(asked, place):
        for words in (spelled(reading), reading.state, *reading.how.values()):
            refuse_words(words, LONGEST)
    text = with_readings(asked.revision.text, {reading.check: [reading]})
    document = read_document(text.text)
    found = [*document.findings, *rules(document.rebuild)]
    own = [one for one in found if one.level == "stop" and one.place[:2] == place]
    if own or text.findings:
        raise _refused(asked, place, *(own or text.findings))


async def strike(asked: Asked) -> Done:
    """Strike out a reading, with the reason."""
    form = asked.form
    told = form.get("entry", "")
    number = int(told) if told.isascii() and told.isdigit() and len(told) < 18 else 0
    _strike(asked, ("entry", number), number)
    return Done(path(asked.revision.rebuild, form.get("back", "build"), form.get("at", ""), "hold"))


async def take_back(asked: Asked) -> Done:
    """Say that a step is not done after all, with the reason."""
    form, name = asked.form, asked.form.get("step", "")
    entry = done_steps(asked).get(name)
    _strike(asked, ("undone", name[:LONGEST]), entry.number if entry else 0)
    return Done(path(asked.revision.rebuild, "build", form.get("at", "")))


def _strike(asked: Asked, place: Place, number: int) -> None:
    """Strike out an entry of this unit."""
    why = " ".join(asked.form.get("why", "").split())
    if not why:
        way_out = "say in a word why: misread, dirt, taken off again"
        raise _refused(asked, place, Finding("strike.why", place, "no reason was given", way_out))
    with _Told(asked, place):
        refuse_words(why, LONGEST)
        strike_out(asked.store, asked.revision.rebuild, number, why)


async def keep_step(asked: Asked) -> Done:
    """Put a step that was done into the journal, and go on with the next."""
    form = asked.form
    name, at = form.get("step", ""), form.get("at", "")
    place: Place = ("step", name[:LONGEST])
    note_ = " ".join(form.get("note", "").split())
    if form.get("doubtful") and not note_:
        message = "its reading does not fit, or none was taken"
        way_out = "read it; or say in a word why you go on all the same"
        raise _refused(asked, place, Finding("step.doubtful", place, message, way_out))
    if not name or name[:LONGEST] != name:
        message = "this form does not say which step was done"
        raise _refused(asked, place, Finding("step.name", place, message, "load the page again"))
    how = {"of": BUILD, "step": at[:20], "order": form.get("sign", "")[:40]}
    with _Told(asked, place):
        if name not in done_steps(asked):
            note(asked.store, asked.revision.rebuild, Step(name, note_, how))
    next_ = form.get("next", "")
    return Done(path(asked.revision.rebuild, "build", next_ if next_.isdigit() else ""))


def _refused(asked: Asked, place: Place, *findings: Finding) -> Refused:
    return Refused(Slip(place, asked.form, findings))


@dataclass(frozen=True)
class _Told:
    """Tells trouble with what was typed beside the box it was typed in."""

    asked: Asked
    place: Place

    def __enter__(self) -> None:
        """Begin."""

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        """Turn trouble into a refusal."""
        if isinstance(error, Trouble) and error.finding.code.startswith(("words.", "journal.")):
            raise _refused(self.asked, self.place, error.finding) from error


@dataclass(frozen=True, slots=True)
class Changed:
    """What a change of the text did to a build that was begun.

    Attributes
    ----------
    since
        The last step that was done by another order; empty if the order is as it was.
    gone
        Steps done that are in the order no more.
    skipped
        Steps not done that now come before one that is.
    """

    since: str = ""
    gone: tuple[str, ...] = ()
    skipped: tuple[str, ...] = ()


def changed(order: BuildOrder, done: Mapping[str, Entry]) -> Changed:
    """Compare an order with what was done by it or by another."""
    names = [step.name for step in order.steps]
    other = [name for name, e in done.items() if _sign(e) not in ("", order.sign)]
    if not other or not names:
        return Changed()
    last = max((n for n, name in enumerate(names) if name in done), default=-1)
    return Changed(
        other[-1],
        tuple(name for name in done if name not in names),
        tuple(name for name in names[:last] if name not in done),
    )


def _sign(entry: Entry) -> str:
    return entry.wrote.how.get("order", "")
