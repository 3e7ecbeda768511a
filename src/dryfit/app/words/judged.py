"""The verdict on a reading in words: one word, and a sentence behind it."""

from dataclasses import dataclass

from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.usecases.judge import JudgeAnswer, Sort, StandAnswer
from dryfit.app.words.checks import unread
from dryfit.app.words.figures import Figures
from dryfit.ask.expect import DOUBTFUL
from dryfit.quantities.rounding import two_figures

WORD: dict[Sort, str] = {
    "fits": "Fits",
    "out": "Out",
    "unknown": "Not known",
    "again": "Look again",
}


@dataclass(frozen=True, slots=True)
class Verdict:
    """A verdict: its sort, its word, and what is said with it."""

    sort: Sort
    word: str
    told: str


def verdict(answer: JudgeAnswer, check: CheckAnswer, show: Figures) -> Verdict:
    """Tell a verdict."""
    return Verdict(answer.sort, WORD[answer.sort], _told(answer, check, show))


def _told(answer: JudgeAnswer, check: CheckAnswer, show: Figures) -> str:
    expected, wanted = answer.expected, answer.wanted
    if answer.sort == "unknown":
        return f"this {unread(check)}"
    if answer.sort == "fits":
        told = "within what is wanted" if wanted else "as your sizes say"
        return told if expected else f"{told}; what it should read {unread(check)}"
    if wanted and wanted.how != "inside":
        return _beyond(answer, wanted, check, show)
    if answer.coarse:
        return f"typed to {_size(answer, answer.step, show)} only, too coarse: read it finer"
    if expected and expected.how == "outside":
        off = f"{_size(answer, expected.off, show)} {expected.side} than your sizes explain"
        return f"within what is wanted, but {off}: find out why" if wanted else off
    return DOUBTFUL


def _beyond(answer: JudgeAnswer, wanted: StandAnswer, check: CheckAnswer, show: Figures) -> str:
    """Say how far a reading lies beyond what is wanted, and what that would mean."""
    off = f"{_size(answer, wanted.off, show)} {wanted.side} than wanted"
    if wanted.how == "edge":
        may = _size(answer, max(answer.doubt, answer.step / 2), show)
        return f"{off}, and the reading may be off by {may}: read it again"
    means = getattr(check.wanted, wanted.side, "")
    return f"{off}: {means}" if means else off


def told_value(answer: JudgeAnswer, show: Figures) -> str:
    """Give what was read, as finely as it was typed, in both systems.

    Of several readings it is their mean, with the least and the greatest.
    """
    if answer.unit == "N":
        return f"{two_figures(answer.value)} N"
    half = _half(answer)
    value = show.length(answer.value, half)
    if answer.count == 1:
        return value
    return f"{value}, mean of {answer.count}: {show.band(answer.least, answer.most, half)}"


def _half(answer: JudgeAnswer) -> float:
    """Half width [mm] that shows a length as finely as it was typed."""
    return 2 * answer.step or 0.02


def _size(answer: JudgeAnswer, value: float, show: Figures) -> str:
    if answer.unit == "N":
        return f"{two_figures(value)} N"
    return show.bare(value, min(_half(answer), max(2 * value, 0.002)))
