"""One sheet for each check: set-up, caution, how it is read, what it should read, boxes."""

from dryfit.app.paper.blocks import (
    Block,
    Box,
    Boxes,
    Care,
    Columns,
    Figure,
    Figures,
    Notes,
    Point,
    Points,
    Setup,
    Sheet,
    Text,
    Ticks,
    said,
    sentence,
)
from dryfit.app.paper.known import Known, figure
from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.words.checks import (
    Should,
    aside,
    check_name,
    reading_words,
    reason_words,
    should,
    unread,
    what_read,
)
from dryfit.app.words.figures import in_hundred
from dryfit.app.words.fit import taken_in_hand
from dryfit.app.words.needs import limits
from dryfit.app.words.states import how_held, state_words
from dryfit.app.words.trade import BESIDE, CARE, HOW

MOST = 5
"""So many reasons stand beside a reading."""

CLEAN = "light oil, clean rag"


def check_sheets(known: Known) -> tuple[Sheet, ...]:
    """Give a sheet for each check."""
    return tuple(_sheet(check, known) for check in known.answer.checks)


def _sheet(check: CheckAnswer, known: Known) -> Sheet:
    read = f"Read the {what_read(check)}."
    return Sheet(f"Check: {check_name(check)}", tuple(_blocks(check, known)), why=read)


def _blocks(check: CheckAnswer, known: Known) -> list[Block]:
    blocks: list[Block] = [_setup(check, known), Care(CARE[check.kind]), Ticks(steps(check.kind))]
    told = should(check, known.show)
    if told is None:
        return [*blocks, Text(f"This {unread(check)}.", strong=True), *boxes(known.unit), Notes()]
    blocks += [
        _figures(check, told, known),
        *(Text(sentence(line.text)) for line in aside(check, known.show)),
    ]
    blocks += _taken(check, known)
    blocks += boxes("N" if check.force else known.unit)
    return [*blocks, _beyond(check, known), Notes()]


def _setup(check: CheckAnswer, known: Known) -> Setup:
    """Say what is needed, and what the unit has to be like, before it is read."""
    rows = [
        ("Tools", f"{check.by}; {BESIDE[check.kind]}"),
        ("To hand", CLEAN),
        ("State", state_words(known.rebuild, check.state)),
    ]
    held = how_held(known.rebuild.checks.get(check.name))
    rows += [("Held", held)] if held else []
    fitted = [taken_in_hand(one, known.show, "as it is") for one in known.answer.settings]
    rows += [("Fitted", "; ".join(fitted))] if fitted else []
    return Setup(tuple(rows))


def steps(kind: str) -> tuple[str, ...]:
    """Take how a check is read apart into steps."""
    return tuple(f"{step.rstrip('.')}." for step in HOW[kind].split(". "))


def _figures(check: CheckAnswer, told: Should, known: Known) -> Figures:
    figures = [
        Figure(f"should {told.verb}", told.typed, size=28, strong=True),
        figure("nine times in ten", told.band),
    ]
    wanted = check.wanted
    if wanted is None:
        return Figures(tuple(figures), (1, 1.4))
    chance = "" if check.within is None else f", {in_hundred(check.within)} to be within"
    label = f"wanted, {wanted.source}{chance}"
    return Figures((*figures, figure(label, limits(wanted, known.show))), (1, 1.2, 1.4))


def _taken(check: CheckAnswer, known: Known) -> tuple[Block, ...]:
    """Say what a reading that was taken comes to."""
    return said(reading_words(check, known.show), strong=True)


def boxes(mark: str) -> list[Block]:
    """Give boxes for three readings, their mean and the date."""
    three = tuple(Box(label, mark) for label in ("first", "second", "third"))
    return [Boxes((*three, Box("their mean", mark, 1.15, strong=True), Box("date", "", 1.15)))]


def _beyond(check: CheckAnswer, known: Known) -> Columns:
    """Say what more and less would mean, side by side."""
    sides = [("If it reads more", check.more), ("If it reads less", check.less)]
    columns = []
    for label, reasons in sides:
        words = reason_words(reasons, known.show, "more, less likely than these", most=MOST)
        points = tuple(Point(word) for word in words or ["nothing that is known here"])
        columns.append((Points(points, label, dashed=True, size=12.0),))
    return Columns(tuple(columns))
