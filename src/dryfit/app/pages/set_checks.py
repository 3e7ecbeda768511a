"""What every check should read, as the rows of a table with a small picture each."""

from dryfit.app.pages import set_view as view
from dryfit.app.pages.strips import strip
from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.words.checks import (
    aside,
    check_name,
    reading_words,
    reason_words,
    should,
    unread,
    what_read,
)
from dryfit.app.words.figures import Figures, in_hundred
from dryfit.app.words.needs import limits
from dryfit.model.rebuild import Rebuild

MOST = 4
"""So many reasons stand beside a check."""

INCH = 25.4
"""Millimetres of an inch: exact by definition."""


def shown(check: CheckAnswer, rebuild: Rebuild, show: Figures) -> view.Shown:
    """Tell one check."""
    words = should(check, show)
    wanted = check.wanted
    within = "" if check.within is None else f"; {in_hundred(check.within)} to be within"
    more, less = (
        tuple(reason_words(reasons, show, "more, less likely than these", most=MOST))
        for reasons in (check.more, check.less)
    )
    return view.Shown(
        check_name(check),
        what_read(check),
        limits(wanted, show) if wanted else "",
        f"{wanted.source}{within}" if wanted else "",
        words.typed if words else "",
        words.band if words else "",
        _strip(check, rebuild, f"expected {words.band}" if words else ""),
        "" if words else unread(check),
        tuple(line.text for line in aside(check, show)),
        more,
        less,
        tuple(line.text for line in reading_words(check, show)),
        check.name,
    )


def _strip(check: CheckAnswer, rebuild: Rebuild, told: str) -> view.Strip | None:
    """Draw what is wanted and expected, in newtons or in the lengths of the document."""
    wanted = check.wanted
    if check.force is not None:
        force = check.force
        limits_n = (wanted.low_n, wanted.high_n) if wanted else (None, None)
        return strip(limits_n, (force.low_n, force.expected_n, force.high_n), "N", told)
    low, typed, high = check.low_mm, check.expected_mm, check.high_mm
    if check.cannot or low is None or typed is None or high is None:
        return None
    scale, unit = (INCH, "in") if rebuild.system == "inch" else (1.0, "mm")
    ends = (wanted.low_mm, wanted.high_mm) if wanted else (None, None)
    limits_mm = tuple(None if end is None else end / scale for end in ends)
    expected = (low / scale, typed / scale, high / scale)
    return strip((limits_mm[0], limits_mm[1]), expected, unit, told)
