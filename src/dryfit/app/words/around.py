"""What stands around the figures: title, sizes not known yet, what is taken for granted."""

from dryfit.app.usecases.answers import LackingAnswer
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.app.words.figures import Figures
from dryfit.app.words.said import Said, head, indented, title
from dryfit.app.words.trade import SMALL_PRINT


def titled(answer: ChooseAnswer) -> list[Said]:
    """Name the unit, with the notes of its owner."""
    return [*title(named(answer)), *indented(answer.notes, by=0)]


def named(answer: ChooseAnswer) -> str:
    """Name the unit."""
    return answer.title or "A rebuild without a title"


def lacking_sizes(lacking: tuple[LackingAnswer, ...], show: Figures) -> list[Said]:
    """Say what is to be measured first, and what it would change."""
    if not lacking:
        return []
    step = show.bare(0.1) if show.first == "mm" else show.bare(0.0254, 0.002)
    lines = head("Not known yet: measure this first")
    for size in lacking:
        way = "more" if size.follows > 0 else "less"
        moves = f": each {step} longer gives {step} {way} float" if size.follows else ""
        lines += indented(f"{size.key}{moves}", hang=2)
    return lines


def taken(answer: ChooseAnswer) -> list[Said]:
    """Say what was taken for granted."""
    if not answer.taken_as:
        return []
    return indented("Taken as, since you do not say: " + "; ".join(answer.taken_as), by=0)


def small_print() -> list[Said]:
    """Say the limits of all this."""
    return indented(SMALL_PRINT, by=0)
