"""What is wanted of the finished unit, on the sheet: limits, what it will be, and how likely."""

from dryfit.app.usecases.answers import NeedAnswer, WantedAnswer
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.app.words.figures import AS_TYPED, Figures, in_hundred
from dryfit.app.words.said import Said, head, indented
from dryfit.quantities.rounding import two_figures

TOO_HARD = (
    "TOO HARD: so pressed, a row carries more than it bears at rest. Do not close it so; take the "
    "nip out first."
)


def needs(answer: ChooseAnswer, show: Figures) -> list[Said]:
    """Say how each need stands that no check shows."""
    lines = [line for one in needs_left(answer) for line in need_words(one, show)]
    return [*head("What is wanted"), *lines] if lines else []


def needs_left(answer: ChooseAnswer) -> list[NeedAnswer]:
    """Give the needs that no check shows and that can be told."""
    shown = {check.wanted.need for check in answer.checks if check.wanted}
    return [n for n in answer.needs if n.wanted.need not in shown and not n.lacking]


def need_words(need: NeedAnswer, show: Figures) -> list[Said]:
    """Say what is wanted, what it will be, and what lies beyond."""
    wanted = need.wanted
    state = "" if wanted.state == "built" else f", {wanted.state}"
    about = f"{wanted.kind} of {wanted.of}{state}"
    lines = indented(f"{about}: {limits(wanted, show)} ({wanted.source})", hang=2)
    lines += indented(
        f"{_will_be(need, show)}; {in_hundred(need.chance or 0.0)} to be within", by=4
    )
    if need.force:
        force = need.force
        lines += indented(
            f"rows pressed together with {two_figures(force.expected_n)} N; nine times in ten "
            f"{two_figures(force.low_n)} to {two_figures(force.high_n)} N",
            by=4,
        )
    if need.strain > 1:
        lines += indented(TOO_HARD, by=4)
    lines += indented(f"less: {wanted.less}; more: {wanted.more}", by=4, hang=2)
    return lines


def _will_be(need: NeedAnswer, show: Figures) -> str:
    """Say what it will be, in words where it is told in words."""
    if need.expected_mm is not None and need.low_mm is not None and need.high_mm is not None:
        half = max((need.high_mm - need.low_mm) / 2, 0.002)
        band = show.band(need.low_mm, need.high_mm, half)
        return f"will be {show.bare(need.expected_mm, half)}; nine times in ten {band}"
    if need.words:
        first, last = need.words
        return f"will be {first}" if first == last else f"will be {first} to {last}"
    return "the rows are not rated: give each bearing its rating" if not need.force else "by force"


def limits(wanted: WantedAnswer, show: Figures) -> str:
    """Show a range with one side or two."""
    if wanted.words:
        return wanted.words
    if wanted.low_n is not None or wanted.high_n is not None:
        return _between(wanted.low_n, wanted.high_n)
    low, high = wanted.low_mm, wanted.high_mm
    if low is not None and high is not None:
        return show.band(low, high, min(AS_TYPED, (high - low) / 2))
    if low is not None:
        return f"at least {show.length(low)}"
    return f"at most {show.length(high or 0.0)}"


def _between(low: float | None, high: float | None) -> str:
    if low is not None and high is not None:
        return f"{low:.3g} to {high:.3g} N"
    return f"at least {low:.3g} N" if low is not None else f"at most {high or 0.0:.3g} N"
