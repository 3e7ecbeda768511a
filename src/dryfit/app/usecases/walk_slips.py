"""Why a walk cannot be answered: too few readings, marks out of order, no fall, too far to go."""

from collections.abc import Iterator
from itertools import pairwise

from dryfit.app.usecases.walk_answers import SlipAnswer
from dryfit.app.usecases.walk_texts import Typed
from dryfit.ask.walk import TOO_FAR, Walk

LEAST_PITCH, MOST_PITCH = 0.2e-3, 12e-3
"""Pitches of nuts that set bearings lie well within [m]: estimate."""

SAME = 1e-9
"""Marks no further apart are one mark."""


def pitch_slip(text: str | None, pitch: float | None) -> Iterator[SlipAnswer]:
    """Refuse what cannot be a pitch."""
    if text is None or pitch is None or pitch <= 0 or LEAST_PITCH <= pitch <= MOST_PITCH:
        return
    yield SlipAnswer(
        "walk.pitch",
        "--pitch",
        f"a pitch of {text.strip()} is {pitch * 1e3:g} mm; nuts have {LEAST_PITCH * 1e3:g} to "
        f"{MOST_PITCH * 1e3:g} mm",
        "write it as 1.5 mm, or as 16 per inch",
    )


def order_slips(typed: list[Typed], given: int, pack: bool) -> Iterator[SlipAnswer]:
    """Refuse a walk of one reading, equal marks, and marks that go back and forth."""
    if given < 2:
        told = "one reading" if given else "no reading"
        yield SlipAnswer(
            "walk.few",
            "readings",
            f"{told}: a line needs two, and a third to check them",
            "read the float at another " + ("pack" if pack else "mark") + ", and better at two",
        )
    yield from _equal(typed, pack)
    marks = [one.reading.mark for one in typed]
    falls = pack and len(marks) > 1 and marks[-1] < marks[0]
    for before, after in pairwise(typed):
        step = after.reading.mark - before.reading.mark
        if (step > SAME) if falls else (step < -SAME):
            yield _back(before, after, pack)


def _equal(typed: list[Typed], pack: bool) -> Iterator[SlipAnswer]:
    """Name each mark that stands there again."""
    for place, one in enumerate(typed):
        same = [t for t in typed[:place] if abs(t.reading.mark - one.reading.mark) <= SAME]
        if same:
            what = "pack" if pack else "mark"
            yield SlipAnswer(
                "walk.same mark",
                one.where,
                f"{one.mark_text} is the same {what} as in {same[0].where}",
                f"of two floats at one {what} write the mean; or is a {what} mistyped?",
            )


def _back(before: Typed, after: Typed, pack: bool) -> SlipAnswer:
    told = f"{after.mark_text} stands behind {before.mark_text}"
    if pack:
        return SlipAnswer(
            "walk.order",
            after.where,
            f"{told}: packs go up and down",
            "write them in order, all growing or all getting thinner",
        )
    return SlipAnswer(
        "walk.order",
        after.where,
        f"{told}: the nut was turned back between them",
        "marks count on as the nut is tightened, and play of thread and ring spoils a float read "
        "after turning back: leave it out, or back off well past and walk anew",
    )


WORDS = {
    "no fall": (
        "walk.no fall",
        "the float stays about the same while the nut was turned by {span}",
        "the ring does not follow (it grips its seat): tap or press it home, turn, read again; or "
        "the nut is at its shoulder, or there was nothing left to take up from the first mark on",
    ),
    "other way": (
        "walk.other way",
        "the float grows from {first} to {last} where a nut that is tightened takes it",
        "were the marks counted as the nut was slackened? then write the last one as 0 deg and "
        "count from there to the tight side, in that order",
    ),
    "pack other way": (
        "walk.other way",
        "from {first} to {last} the float goes the other way than the stacks of the document say",
        "are two readings at each other's pack? else look in the stack on which side the pack lies",
    ),
    "pack no fall": (
        "walk.no slope",
        "from {first} to {last} the readings follow the packs too little to say whether a thicker "
        "pack takes or gives float",
        "try packs that differ more, 0.05 mm (2 thou) or more, and read again; a pack that moves "
        "nothing sits in another place than thought",
    ),
}
"""By trace: code, what was read, and the way out."""


def unlike(trace: str, typed: list[Typed]) -> SlipAnswer:
    """Say that the float does not do what it should."""
    code, message, way_out = WORDS[trace]
    first, last = typed[0], typed[-1]
    told = message.format(
        span=f"{last.reading.mark - first.reading.mark:.0f} degrees",
        first=f"{first.read_text} ({first.mark_text})",
        last=f"{last.read_text} ({last.mark_text})",
    )
    return SlipAnswer(code, "readings", told, way_out)


def line_slips(
    found: Walk, typed: list[Typed], pack: bool, *, known: bool = False
) -> Iterator[SlipAnswer]:
    """Refuse readings that do not go along with what was changed, and a goal too far from them.

    `known` packs may lie far from it: which way they act, and how far, is known without readings.
    """
    unlike_it = [d.trace for d in found.doubts if d.trace in ("no fall", "other way")]
    for trace in unlike_it:
        yield unlike(f"pack {trace}" if pack else trace, typed)
    if not unlike_it and not known:
        yield from too_far(found, typed, pack)


def too_far(found: Walk, typed: list[Typed], pack: bool) -> Iterator[SlipAnswer]:
    """Refuse to extend a line to more than so many times what was walked."""
    if found.reach <= TOO_FAR:
        return
    last, first = typed[-1].reading.mark, typed[0].reading.mark
    span, on = abs(last - first), found.goal.on
    ahead = found.goal.on * (last - first) > 0
    away = abs(on) if ahead else abs(found.goal.at - first)
    begin = last if ahead else first
    half = begin + (found.goal.at - begin) / 2
    to = f"a pack of about {half * 1e3:.2f} mm" if pack else f"the mark {half:.0f} deg"
    side = "beyond the last reading" if ahead else "on the slack side of the first reading"
    yield SlipAnswer(
        "walk.too far",
        "readings",
        f"where to stop lies {_long(away, pack)} {side}, and the readings span only "
        f"{_long(span, pack)}; a line is drawn on by {TOO_FAR:g} times that at most",
        f"read again at {to}, about half way, and put that reading in",
    )


def _long(size: float, pack: bool) -> str:
    return f"{size * 1e3:.2f} mm" if pack else f"{size:.1f} degrees"
