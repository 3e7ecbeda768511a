"""Prove and run in: what is proved before it runs, how warm it runs, what is looked at again."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.app.pages.run_in_log import (
    COOLEST,
    MOST_MINUTES,
    PROOF,
    WARMEST,
    WARMTH,
    Run,
    celsius,
    entries_of,
    reasons,
    runs,
)
from dryfit.app.pages.typed import COMMA
from dryfit.app.words.running_in import BEFORE, LATER, Proof
from dryfit.model.parts import Bearing, Cover, Nut, PlainBearing
from dryfit.model.rebuild import Backlash, CordPull, EndFloat, Rebuild, Shake
from dryfit.quantities import Unreadable
from dryfit.quantities.finding import Finding, Place
from dryfit.store.journal import LONGEST, Step, note, refuse_words, strike_out
from dryfit.store.trouble import Trouble

NUMBER = re.compile(r"[0-9]{1,9}(\.[0-9]{1,6})?")


@dataclass(frozen=True, slots=True)
class TickRow:
    """What was noted of a proof: its number in the journal, what, when; struck out, and why."""

    number: int
    note: str
    at: str
    struck: bool
    why: str


@dataclass(frozen=True, slots=True)
class ProofRow:
    """Something to prove, what was noted of it, and whether it is the one to do next."""

    key: str
    title: str
    words: tuple[str, ...]
    care: str
    ticks: tuple[TickRow, ...]
    done: bool
    next: bool


@dataclass(frozen=True)
class RunInPage(Page):
    """What is proved, the log of warmth, what is looked at again.

    `loose` tells that what was refused belongs beside no box that is shown.
    """

    template: ClassVar[str] = "run_in.html"
    frame: Frame
    slip: Slip | None
    proofs: tuple[ProofRow, ...]
    later: tuple[ProofRow, ...]
    runs: tuple[Run, ...]
    places: tuple[str, ...]
    unit: str
    stop: str
    fast: str
    loose: bool


async def page(asked: Asked) -> RunInPage:
    """Show what is proved and how it runs."""
    rebuild = asked.document.rebuild
    inch = rebuild.system == "inch"
    proofs = tuple(_proofs(asked, BEFORE))
    later = tuple(_proofs(asked, tuple(_later(rebuild)), in_turn=False))
    told, slip = runs(asked), asked.slip
    return RunInPage(
        frame(asked, "run-in"),
        slip,
        proofs,
        later,
        told,
        tuple(_places(rebuild)),
        "°F" if inch else "°C",
        "140 °F" if inch else "60 °C",
        "1.8 °F" if inch else "1 °C",
        loose=slip is not None and slip.place not in set(_boxes((*proofs, *later), told)),
    )


def _boxes(proofs: tuple[ProofRow, ...], told: tuple[Run, ...]) -> Iterator[Place]:
    """Name what the boxes of the page are about."""
    yield ("warmth",)
    for proof in proofs:
        yield ("proof", proof.key)
        yield from (("entry", tick.number) for tick in proof.ticks if not tick.struck)
    yield from (("entry", row.number) for run in told for row in run.rows if not row.struck)


def _places(rebuild: Rebuild) -> Iterator[str]:
    """Name where warmth is read: at each bearing."""
    for name, part in rebuild.parts.items():
        if isinstance(part, Bearing | PlainBearing):
            yield name


def _later(rebuild: Rebuild) -> Iterator[Proof]:
    """Say what is looked at again, when, with the checks and screws of this unit."""
    checks = [
        name
        for name, check in rebuild.checks.items()
        if isinstance(check, EndFloat | Backlash | Shake | CordPull) and check.state == "built"
    ]
    tight = [name for name, part in rebuild.parts.items() if isinstance(part, Cover | Nut)]
    own = {
        LATER[0][0]: f"Here: {', '.join(tight)}." if tight else "",
        LATER[2][0]: f"Here: {', '.join(checks)}." if checks else "",
    }
    for time, words in LATER:
        told = (words, own.get(time, ""))
        yield Proof(time, time[:1].upper() + time[1:], tuple(one for one in told if one))


def _proofs(asked: Asked, proofs: tuple[Proof, ...], *, in_turn: bool = True) -> Iterator[ProofRow]:
    entries, why = entries_of(asked, PROOF), reasons(asked)
    open_ = in_turn
    for proof in proofs:
        ticks = tuple(
            TickRow(
                entry.number,
                entry.wrote.note if isinstance(entry.wrote, Step) else "",
                when(entry.at),
                entry.struck,
                why.get(entry.number, ""),
            )
            for entry in entries
            if isinstance(entry.wrote, Step) and entry.wrote.name == proof.key
        )
        done = any(not tick.struck for tick in ticks)
        yield ProofRow(
            proof.key, proof.title, proof.words, proof.care, ticks, done, open_ and not done
        )
        open_ = open_ and done


async def keep_tick(asked: Asked) -> Done:
    """Note in the journal that something was proved."""
    key = asked.form.get("proof", "")
    place: Place = ("proof", key[:LONGEST])
    known = [proof.key for proof in (*BEFORE, *_later(asked.document.rebuild))]
    if key not in known:
        message = "this form does not say what was proved"
        raise _refused(asked, place, Finding("proof.name", place, message, "load the page again"))
    told = " ".join(asked.form.get("note", "").split())
    _keep(asked, place, Step(key, told, {"of": PROOF}))
    return Done(path(asked.revision.rebuild, "run-in", "", _spot(known.index(key))))


def _spot(number: int) -> str:
    return f"proof-{number + 1}"


async def keep_warmth(asked: Asked) -> Done:
    """Put a reading of warmth into the journal."""
    form = asked.form
    place: Place = ("warmth",)
    where = " ".join(form.get("place", "").split())
    minutes, warmth, room = (_typed(form.get(key, "")) for key in ("minutes", "warmth", "room"))
    found = [*_place_findings(where), *_minute_findings(minutes)]
    found += _warmth_findings(asked, "warmth", warmth)
    found += _warmth_findings(asked, "room", room)
    run = form.get("run", "1")
    if found:
        raise _refused(asked, place, *found)
    how = {"of": WARMTH, "place": where, "minutes": minutes, "room": room}
    how["run"] = run if run.isascii() and run.isdigit() and len(run) < 5 else "1"
    _keep(asked, place, Step("warmth", warmth, how))
    return Done(path(asked.revision.rebuild, "run-in", "", "log"))


def _typed(text: str) -> str:
    return COMMA.sub(r"\1.\2", " ".join(text.split()))


def _place_findings(where: str) -> Iterator[Finding]:
    if not where:
        message, way_out = "no place was typed", "say where it is read: at which bearing"
        yield Finding("warmth.place", ("warmth", "place"), message, way_out)


def _minute_findings(minutes: str) -> Iterator[Finding]:
    if not NUMBER.fullmatch(minutes) or float(minutes) > MOST_MINUTES:
        message = f"'{minutes[:20]}' is no number of minutes from 0 to {MOST_MINUTES}"
        message = message if minutes else "no minutes were typed"
        way_out = "type the minutes since it began to run, as 40"
        yield Finding("warmth.minutes", ("warmth", "minutes"), message, way_out)


def _warmth_findings(asked: Asked, box: str, typed: str) -> Iterator[Finding]:
    place: Place = ("warmth", box)
    try:
        read = celsius(typed, asked.document.rebuild.system)
    except Unreadable as wrong:
        yield Finding(wrong.code, place, f"{box}: {wrong.message}", wrong.way_out)
        return
    if not COOLEST <= read <= WARMEST:
        message = f"{box}: {read:.0f} °C is not between {COOLEST:.0f} and {WARMEST:.0f}"
        yield Finding("warmth.range", place, message, "type it with its scale: 38 C, or 100 F")


async def strike(asked: Asked) -> Done:
    """Strike out an entry of the log or of the proofs, with the reason."""
    form = asked.form
    told = form.get("entry", "")
    number = int(told) if told.isascii() and told.isdigit() and len(told) < 18 else 0
    place: Place = ("entry", number)
    why = " ".join(form.get("why", "").split())
    mine = [e.number for of in (WARMTH, PROOF) for e in entries_of(asked, of)]
    if not why or number not in mine:
        message = "no reason was given" if number in mine else f"there is no entry {number}"
        way_out = "say in a word why: misread, wrong place" if number in mine else "load it again"
        raise _refused(asked, place, Finding("strike.why", place, message, way_out))
    try:
        refuse_words(why, LONGEST)
        strike_out(asked.store, asked.revision.rebuild, number, why)
    except Trouble as trouble:
        raise _refused(asked, place, trouble.finding) from trouble
    return Done(path(asked.revision.rebuild, "run-in", "", "log"))


def _keep(asked: Asked, place: Place, step: Step) -> None:
    try:
        note(asked.store, asked.revision.rebuild, step)
    except Trouble as trouble:
        if not trouble.finding.code.startswith("words."):
            raise
        raise _refused(asked, place, trouble.finding) from trouble


def _refused(asked: Asked, place: Place, *findings: Finding) -> Refused:
    return Refused(Slip(place, asked.form, findings))
