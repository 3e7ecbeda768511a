"""A hold point: what a check should read, the verdict on what was read, what more and less mean.

What it should read is worked out for the text with the readings of all other checks: a reading
does not change what it is judged by, and its verdict is there as soon as it is typed.
"""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, ClassVar

from dryfit.app.pages.asked import Asked, Page, path
from dryfit.app.pages.build_done import last_run, text_before
from dryfit.app.pages.tasks import FIRST_LOOK
from dryfit.quantities.finding import Finding
from dryfit.quantities.unreadable import Unreadable
from dryfit.store.readings import spelled

if TYPE_CHECKING:
    from dryfit.app.usecases.answers import CheckAnswer
    from dryfit.app.usecases.choose import ChooseAnswer
    from dryfit.app.usecases.judge import JudgeAnswer
    from dryfit.app.words.figures import Figures


@dataclass(frozen=True, slots=True)
class Go:
    """What the step is sent with as done, and where to go on.

    Attributes
    ----------
    unit, at, step, sign
        Of which unit, which step by number and name, of which order.
    next, next_title
        The step that follows; empty after the last.
    done
        Whether it was done before.
    doubtful
        Whether it takes a reason to go on: nothing was read, or what was does not fit.
    note
        What was typed a moment ago.
    """

    unit: int
    at: str
    step: str
    sign: str
    next: str
    next_title: str
    done: bool
    doubtful: bool = False
    note: str = ""


@dataclass(frozen=True)
class HoldPiece(Page):
    """What is said of a check.

    Attributes
    ----------
    at, check
        Number of its step, and its name.
    sort, word, told, value
        The verdict and what was read; empty where nothing was.
    far
        Readings that are far out, to be typed again.
    should, wanted, aside
        What it should read, what is wanted, what lies behind it.
    svg
        The reading beside its bands.
    more, less
        What would make it read more, and less.
    side
        On which of these sides it was read.
    later
        Where the usual number of draws is asked for; empty where this is it.
    go
        How to go on from here.
    """

    template: ClassVar[str] = "hold.html"
    at: str
    check: str
    sort: str = ""
    word: str = ""
    told: str = ""
    value: str = ""
    far: tuple[Finding, ...] = ()
    should: str = ""
    wanted: str = ""
    aside: tuple[str, ...] = ()
    svg: str = ""
    more: tuple[str, ...] = ()
    less: tuple[str, ...] = ()
    side: str = ""
    later: str = ""
    go: Go | None = None


async def hold(asked: Asked, check: str, go: Go) -> HoldPiece:
    """Say what a check should read, a first look first."""
    data, usual = text_before(asked, check), asked.query.get("look") == "usual"
    kept = asked.revision
    of = kept.rebuild, kept.number
    if usual:
        answer = await asked.desk.ask("choose", data, of=of, pace="long")
    else:
        answer = await asked.desk.ask("choose", data, FIRST_LOOK, of=of)
    return _piece(asked, check, answer, go, first=not usual)


def hold_known(asked: Asked, check: str, go: Go) -> HoldPiece | None:
    """Say it at once, if it has been worked out; nothing if not."""
    data = text_before(asked, check)
    answer = asked.desk.known("choose", data)
    if answer is not None:
        return _piece(asked, check, answer, go, first=False)
    answer = asked.desk.known("choose", data, FIRST_LOOK)
    return _piece(asked, check, answer, go, first=True) if answer is not None else None


def _piece(asked: Asked, check: str, answer: "ChooseAnswer", go: Go, *, first: bool) -> HoldPiece:
    """Tell a check; what is needed for it is loaded by now, as the answer is there."""
    from dryfit.app.words.figures import figures

    own = next((one for one in answer.checks if one.name == check), None)
    if own is None:
        told = "the text has to be put right before it can be said what this should read"
        return HoldPiece(go.at, check, "unknown", "Not known", told, go=go)
    show = figures(asked.document.rebuild.system, "both")
    later = f"{path(go.unit, 'build/hold', go.at)}?look=usual" if first else ""
    piece = _told(asked, go.at, own, show, later)
    doubtful = piece.sort in ("", "out", "again")
    return replace(piece, go=replace(go, doubtful=doubtful))


def _told(asked: Asked, at: str, check: "CheckAnswer", show: "Figures", later: str) -> HoldPiece:
    from dryfit.app.words.checks import aside, reason_words, should, unread
    from dryfit.app.words.judged import told_value, verdict
    from dryfit.app.words.needs import limits

    told = should(check, show)
    judged = _judged(asked, check)
    said = verdict(judged, check, show) if judged else None
    band = f"{told.typed}; nine times in ten {told.band}" if told else unread(check)
    rest = "more, less likely than these"
    return HoldPiece(
        at,
        check.name,
        said.sort if said else "",
        said.word if said else "",
        said.told if said else "",
        told_value(judged, show) if judged else "",
        judged.far if judged else (),
        f"Should {told.verb} {band}" if told else f"It {band}",
        f"{limits(check.wanted, show)} ({check.wanted.source})" if check.wanted else "",
        tuple(one.text for one in aside(check, show)),
        _svg(asked, check, judged),
        tuple(reason_words(check.more, show, rest)),
        tuple(reason_words(check.less, show, rest)),
        judged.side if judged else "",
        later,
    )


def _judged(asked: Asked, check: "CheckAnswer") -> "JudgeAnswer | None":
    """Judge the readings that count; nothing where none was taken or can be read."""
    from dryfit.app.usecases.judge import JudgeRequest, doubt_of, judge

    run = last_run(asked, check.name)
    if not run:
        return None
    rebuild = asked.document.rebuild
    doubt = doubt_of(rebuild, run[-1].instrument or check.by, check.expected_mm or 0.0)
    typed = tuple(spelled(reading) for reading in run)
    try:
        return judge(JudgeRequest(check, typed, rebuild.system, doubt))
    except Unreadable:
        return None


def _svg(asked: Asked, check: "CheckAnswer", judged: "JudgeAnswer | None") -> str:
    """Draw a reading beside its bands, in the unit of the text."""
    from dryfit.draw.plot_band import BandPlot, band_plot
    from dryfit.draw.svg import svg

    force, wanted = check.force, check.wanted
    inch = asked.document.rebuild.system == "inch" and not force
    scale, unit = (1 / 25.4, "in") if inch else (1.0, "N" if force else "mm")

    def shown(value: float | None) -> float | None:
        return None if value is None else value * scale

    band = (force.low_n, force.high_n) if force else (check.low_mm, check.high_mm)
    limits = (wanted.low_mm, wanted.high_mm) if wanted and not force else (None, None)
    drawn = band_plot(
        BandPlot(
            f"{check.name} beside what it should read",
            unit,
            (shown(band[0]), shown(band[1])),
            (shown(limits[0]), shown(limits[1])),
            shown(judged.value) if judged else None,
        )
    )
    return svg(drawn) if drawn else ""
