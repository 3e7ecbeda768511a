"""The walks of the document on the sheet: readings, what is off, where nothing is, what to do."""

from dryfit.app.usecases.answers import PackAnswer
from dryfit.app.usecases.walk_answers import EndAnswer, WalkAnswer
from dryfit.app.usecases.written import WrittenWalkAnswer
from dryfit.app.words.figures import Figures, in_hundred
from dryfit.app.words.needs import limits
from dryfit.app.words.said import Said, head, indented
from dryfit.app.words.walk import (
    FINE,
    at_mark,
    checked,
    ends,
    go,
    marks,
    off_the_line,
    point_lines,
)


def written_walk(one: WrittenWalkAnswer, show: Figures) -> list[Said]:
    """Write one walk."""
    lines = head(f"Walk: {one.check}, by {one.part}")
    answer = one.walk
    if not answer.answered:
        for slip in answer.findings:
            lines += [*indented(slip.message, hang=2), *indented(slip.way_out, by=4)]
        return [*lines, *(_pack(one, show) if one.clear else [])]
    lines += point_lines(answer, show) + indented(checked(answer), hang=2)
    lines += off_the_line(answer, show)[1:] if answer.doubts else []
    lines += _nothing(answer, show)
    if one.wanted is not None and answer.end is not None:
        want = f"{one.wanted.kind} wanted: {limits(one.wanted, show)} ({one.wanted.source})"
        lines += indented(want, hang=2)
        lines += _nut(one, answer.end, show) if answer.by == "nut" else _by_pack(one, show)
    return lines


def _nothing(answer: WalkAnswer, show: Figures) -> list[Said]:
    """Say where the dial would read nothing, how sure that is, and where the rows touch."""
    spot, yields, rate = answer.nothing, answer.yields_mm, answer.mm_per_unit
    if spot is None or yields is None or rate is None:
        return []
    half = marks((spot.high - spot.low) / 2, answer, show)
    lines = indented(
        f"the dial would read nothing {at_mark(spot.at, answer, show)}, plus or minus {half}, nine "
        "times in ten",
        hang=2,
    )
    if yields[1] >= LEAST_YIELD:
        touch = at_mark(spot.at + yields[1] / rate, answer, show)
        lines += indented(
            f"{show.length(yields[1], FINE)} of each reading is what yields under the push: parts "
            f"truly touch {touch}",
            hang=2,
        )
    return lines


LEAST_YIELD = 0.0005
"""What yields less than this [mm] is not told."""


def _by_pack(one: WrittenWalkAnswer, show: Figures) -> list[Said]:
    """Say what that asks for, and what the drawer gives."""
    end = one.walk.end
    asked = f"that asks for {show.length(end.spot.at, FINE)}" if end else ""
    if not one.clear:
        return indented(f"{asked}, once the above is cleared up: read again first", hang=2)
    return indented(asked) + _pack(one, show)


def _pack(one: WrittenWalkAnswer, show: Figures) -> list[Said]:
    """Name the pack from the drawer."""
    if one.pack is None or one.chance is None:
        return []
    told = f"fit {show.length(one.pack.thickness_mm)}{pieces(one.pack)}"
    lines = indented(f"{told}: {in_hundred(one.chance)} to be right, by what you read", hang=2)
    if one.quarrel_mm:
        off = show.length(abs(one.quarrel_mm))
        lines += indented(
            f"Your sizes would have {off} {'less' if one.quarrel_mm > 0 else 'more'} float than "
            "you read: one of them is wrong. Find out which before you close it.",
            hang=2,
        )
    return lines


def pieces(pack: PackAnswer | None) -> str:
    """Name the pieces of a pack, if it has more than one."""
    if pack is None or len(pack.pieces) < 2:
        return ""
    return "  =  " + " + ".join(pack.pieces)


def _nut(one: WrittenWalkAnswer, end: EndAnswer, show: Figures) -> list[Said]:
    """Say how far to turn, what it is then, and what the dial shows there."""
    first = "" if one.clear else "once the above is cleared up: "
    lines = indented(first + go(end.spot, one.walk, show), hang=2)
    chance = "" if end.chance is None else f"; {in_hundred(end.chance)} to be within"
    lines += indented(f"it is then {ends(end, show)}, nine times in ten{chance}", hang=2)
    shows = (end.wanted_mm if end.sort == "float" else -end.wanted_mm) + (
        one.walk.yields_mm or ZERO
    )[1]
    if shows > 0:
        lines += indented(f"there the dial should read {show.length(shows, FINE)}")
    return lines


ZERO = (0.0, 0.0, 0.0)
