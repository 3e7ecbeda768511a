"""The help sheet: one page for another person, filled in as far as is known."""

from dryfit.app.paper.blocks import (
    Block,
    Columns,
    Head,
    Notes,
    Picture,
    Point,
    Points,
    Sheet,
    Squares,
    Table,
    Text,
    Ticks,
)
from dryfit.app.paper.known import Known
from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.usecases.choose import SettingAnswer
from dryfit.app.words.checks import check_name, should
from dryfit.app.words.figures import Figures
from dryfit.app.words.helping import ASKED

MOST = 5
"""So many readings and packs go on one page."""

NOTES_CUT = 260
"""Letters of the owner's notes that go on it."""

HIGH = 74.0
"""Height of the sketch [mm]."""


def help_sheet(known: Known | None) -> Sheet:
    """Write it."""
    half = (len(ASKED) + 1) // 2
    asked = Columns(
        (
            (Ticks(ASKED[:half], size=11.5),),
            (Ticks(ASKED[half:], size=11.5),),
        )
    )
    blocks: tuple[Block, ...] = (
        *_what_it_is(known),
        Head("Readings"),
        Table(("reading", "should be", "read"), _rows(known), (1.6, 1, 0.9), high=7.5),
        Head("What a helper asks first"),
        asked,
        Notes("what has been tried, and what came of it"),
    )
    return Sheet("Help wanted", blocks)


def _what_it_is(known: Known | None) -> tuple[Block, ...]:
    if known is None or not known.drawn.svg:
        sketch = Squares("sketch in section, or a photograph", high=HIGH)
        return (sketch,) if known is None else (*_about(known), sketch, *_packs(known))
    picture = Picture(known.drawn.svg, "half-section", high=HIGH)
    return (Columns(((picture,), (*_about(known), *_packs(known)))),)


def _about(known: Known) -> tuple[Block, ...]:
    notes = known.answer.notes
    cut = notes if len(notes) <= NOTES_CUT else notes[: NOTES_CUT - 1] + "…"
    return (Text(cut, 12),) if cut else ()


def _packs(known: Known) -> tuple[Block, ...]:
    """Say which packs and settings there are, and what is in."""
    told = [
        Point(f"{one.part}{_between(one)}; in it now: {_now(one, known)}")
        for one in known.answer.settings[:MOST]
    ]
    return (Points(tuple(told), size=12.0),) if told else ()


def _between(one: SettingAnswer) -> str:
    return " lies between {} and {}".format(*one.between) if any(one.between) else ""


def _now(one: SettingAnswer, known: Known) -> str:
    return known.show.length(one.fitted_mm) if one.fitted_mm is not None else "not written"


def _rows(known: Known | None) -> tuple[tuple[str | None, ...], ...]:
    if known is None or not known.answer.checks:
        return ((None, None, None),) * MOST
    checks = known.answer.checks
    rows = [_row(check, Figures(known.show.first, both=False)) for check in checks[:MOST]]
    if len(checks) > MOST:
        rows.append((f"and {len(checks) - MOST} more", "", ""))
    return tuple(rows)


def _row(check: CheckAnswer, show: Figures) -> tuple[str | None, ...]:
    told = should(check, show)
    read = check.read
    taken = None
    if read is not None:
        taken = f"{read.value_n:.3g} N" if read.value_mm is None else show.bare(read.value_mm)
    return check_name(check), told.band if told else "not told", taken
