"""A walk to nothing: readings, what is off, where nothing is, where to stop."""

from dryfit.app.usecases.walk_answers import (
    DoubtAnswer,
    EndAnswer,
    PointAnswer,
    SpotAnswer,
    WalkAnswer,
)
from dryfit.app.words.figures import Figures, in_hundred
from dryfit.app.words.said import Said, head, indented, row, title
from dryfit.app.words.walk_trade import (
    AFTER,
    BLIND,
    CARE,
    HOW,
    PACK_REASONS,
    REASONS,
    TOO_FAR_ON,
)

FINE = 0.004
"""Half width [mm] that shows a reading to 0.001 mm or a tenth of a thou."""

LONGEST = 20
"""Letters of a mark in the table of readings."""

LEAST_SHOWN = 0.0015
"""A float or nip of no more than this [mm] is shown as nothing."""

THERE = {"deg": 1.0, "mm": 0.003}
"""Nearer than this to where to stop nothing is gained by going on."""


def walked(answer: WalkAnswer, show: Figures) -> list[list[Said]]:
    """Say all there is to say, by heads."""
    blocks = [_title(answer, show), _readings(answer, show)]
    if answer.doubts:
        blocks.append(off_the_line(answer, show))
    return [*blocks, _nothing(answer, show), _stop(answer, show), _next(answer)]


def _title(answer: WalkAnswer, show: Figures) -> list[Said]:
    lines = title("Walk to nothing")
    rate = answer.mm_per_unit or 0.0
    if answer.by == "nut":
        pitch = show.length(-rate * 360, FINE)
        told = f"Pitch {pitch}: 10 degrees tighter take {show.length(-rate * 10, FINE)} of float."
    else:
        told = f"A thicker pack {'takes' if rate < 0 else 'gives'} float, as much as it is thicker."
    return [*lines, *indented(told, by=0)]


def _readings(answer: WalkAnswer, show: Figures) -> list[Said]:
    return [*head("Readings"), *point_lines(answer, show), *indented(checked(answer), hang=2)]


def point_lines(answer: WalkAnswer, show: Figures) -> list[Said]:
    """List the readings, each with how it lies to the line."""
    cells = points(answer, show)
    wide = max(len(name) for name, _, _ in cells)
    return [row(f"  {name:<{wide}}  {read}  {lies}") for name, read, lies in cells]


def points(answer: WalkAnswer, show: Figures) -> list[tuple[str, str, str]]:
    """Give each reading: its mark or pack, what was read, and how it lies to the line."""
    return [_point(point, answer, show) for point in answer.points]


def _name(point: PointAnswer, answer: WalkAnswer) -> str:
    """Name a mark as it was typed, or by its figure where that is long."""
    typed = " ".join(point.typed.split())
    return typed if len(typed) <= LONGEST else f"{point.at:.3f} {answer.unit}"


def _point(point: PointAnswer, answer: WalkAnswer, show: Figures) -> tuple[str, str, str]:
    """Write one reading and how it lies to the line."""
    off = show.bare(abs(point.off_mm), FINE)
    nought = not any(digit in "123456789" for digit in off)
    side = "on the line" if nought else f"{off} {'above' if point.off_mm > 0 else 'below'} the line"
    left = ", left out of it" if point.left_out else ""
    return _name(point, answer), show.bare(point.read_mm, FINE), side + left


def checked(answer: WalkAnswer) -> str:
    """Say how far the readings check each other."""
    against = "the thread" if answer.by == "nut" else "the packs"
    if answer.checked == "none":
        return f"Two readings: no check on a line but {against}. Read a third before you trust it."
    if answer.checked == "whole":
        how = "Three readings are judged as a whole; with a fourth, one off the line can be named."
    else:
        how = "Each reading is judged against the line of the others."
    if answer.doubts:
        return how
    return f"{how} They lie on it as well as the dial and the {_moved(answer)} can be trusted."


def _moved(answer: WalkAnswer) -> str:
    return "marks" if answer.by == "nut" else "packs"


def off_the_line(answer: WalkAnswer, show: Figures) -> list[Said]:
    """Name what is off the line, with its reasons."""
    lines = head("Off the line")
    alone = len({doubt.trace for doubt in answer.doubts} - {"whole"}) < 2
    lines += [] if alone else indented("It may be any of these:")
    for doubt in answer.doubts:
        lines += indented(_doubt(doubt, answer, show), hang=2)
        table = REASONS if answer.by == "nut" else {**REASONS, **PACK_REASONS}
        for reason in table[doubt.trace]:
            lines += indented(f"- {reason}", by=4, hang=2)
        if doubt.pitches:
            lines += indented(f"these pitches would fit: {', '.join(doubt.pitches)}", by=4, hang=2)
    return lines


def _doubt(doubt: DoubtAnswer, answer: WalkAnswer, show: Figures) -> str:
    """Say what a doubt looks like."""
    if doubt.share is not None:
        whose = "the thread" if answer.by == "nut" else "the packs"
        told = f"The float changes {doubt.share:.2f} times as fast as {whose} should make it."
        used = len(answer.doubts) == 1
        return told + (" What follows goes by the readings' own slope." if used else "")
    if doubt.off_mm is None:
        return (
            f"Together the readings are further off than the dial and the {_moved(answer)} "
            "explain, and which one it is cannot be told. The bands below are widened; read again "
            "before you go on."
        )
    off = f"{show.bare(abs(doubt.off_mm), FINE)} {'more' if doubt.off_mm > 0 else 'less'}"
    if doubt.trace == "flat":
        return f"From {doubt.typed} on the readings flatten out near nothing, and are left out."
    if doubt.trace == "stays":
        left = any(point.left_out and point.typed == doubt.typed for point in answer.points)
        told = f"{doubt.typed} reads about the same as the one before, {off} than its line"
        return f"{told}, and is left out." if left else f"{told}: what stands before is left out."
    if doubt.trace.startswith("shift"):
        return f"From {doubt.typed} on all read {off} than those before, which are left out."
    return f"{doubt.typed} reads {off} than the line of the others."


def _nothing(answer: WalkAnswer, show: Figures) -> list[Said]:
    """Say where nothing is, how sure that is, and what yields under the push."""
    spot, yields = answer.nothing, answer.yields_mm
    if spot is None or yields is None:
        return []
    lines = head("Where nothing is")
    lines += indented(f"the dial would read nothing {_place(spot, answer, show)}", hang=2)
    half = (spot.high - spot.low) / 2
    lines += indented(f"plus or minus {marks(half, answer, show)}, nine times in ten", by=4)
    if any(doubt.share is not None for doubt in answer.doubts) and len(answer.doubts) > 1:
        own = answer.nothing_by_readings
        if own is not None:
            lines += indented(f"by the readings' own slope: {at_mark(own, answer, show)}", by=4)
    about, most = (marks(y / abs(answer.mm_per_unit or 1.0), answer, show) for y in yields[1:])
    lines += indented(
        f"What yields under the push is in every reading: about {show.length(yields[1], FINE)}, "
        f"{show.length(yields[2], FINE)} at most (estimate). So the rows touch about {about} "
        f"before that, {most} at most.",
        hang=2,
    )
    return lines


def _stop(answer: WalkAnswer, show: Figures) -> list[Said]:
    """Say which way to go, how far, and what it is then."""
    end = answer.end
    if end is None:
        return []
    lines = head(f"Where to stop: {_wish(end, show)}")
    unsure = any(doubt.off_mm is None for doubt in answer.doubts)
    first = "once that is cleared up: " if unsure else ""
    lines += indented(first + go(end.spot, answer, show), hang=2)
    chance = "" if end.chance is None else f"; {in_hundred(end.chance)} to be within"
    lines += indented(f"it is then {ends(end, show)}, nine times in ten{chance}", hang=2)
    if end.sort == "nip":
        lines += indented("The nip is counted from where the rows touch.")
        lines += indented(BLIND)
    elif end.sort == "float":
        lines += indented("The float is as the dial reads it, at the same push.")
    return lines


def _wish(end: EndAnswer, show: Figures) -> str:
    """Name what is wanted."""
    if end.sort == "nothing":
        return "nothing"
    if end.high_wanted_mm > end.low_wanted_mm:
        size = show.band(end.low_wanted_mm, end.high_wanted_mm, FINE)
    else:
        size = show.length(end.wanted_mm, FINE)
    return f"{size} {'of float' if end.sort == 'float' else 'of nip, past nothing'}"


def ends(end: EndAnswer, show: Figures) -> str:
    """Say the float or nip it comes to; what is below nothing is the other one."""
    low, high = end.low_mm, end.high_mm
    this, other = ("nip", "float") if end.sort == "nip" else ("float", "nip")
    if low > LEAST_SHOWN:
        return f"a {this} of {show.band(low, high, FINE)}"
    below = f"a {other} of {show.length(-low, FINE)}" if low < -LEAST_SHOWN else "nothing"
    return f"between {below} and a {this} of {show.length(high, FINE)}"


def go(spot: SpotAnswer, answer: WalkAnswer, show: Figures) -> str:
    """Say which way to go and how far."""
    if answer.by == "pack":
        if abs(spot.on) < THERE["mm"]:
            return "stay with the last pack: it is there"
        way = "thicker" if spot.on > 0 else "thinner"
        on = show.length(abs(spot.on), FINE)
        return f"fit a pack of {show.length(spot.at, FINE)}: {on} {way} than the last"
    if abs(spot.on) < THERE["deg"]:
        return "stay at the last mark: it is there, as near as a nut can be set"
    rim = "" if spot.on_rim_mm is None else f", {_rim(spot.on_rim_mm, show)}"
    on = f"{marks(abs(spot.on), answer, show)}{rim}"
    if spot.on > 0:
        return f"tighten {on}, to {spot.at:.1f} degrees"
    return (
        f"you are {on} past it: back off well past, press the ring back, turn, and come again to "
        f"{spot.at:.1f} degrees"
    )


def _place(spot: SpotAnswer, answer: WalkAnswer, show: Figures) -> str:
    """Say a mark and how far it is from the last one."""
    if answer.by == "pack":
        way = "thicker" if spot.on > 0 else "thinner"
        on = show.length(abs(spot.on), FINE)
        return f"{at_mark(spot.at, answer, show)}, {on} {way} than the last"
    way = "on from" if spot.on >= 0 else "back from"
    rim = "" if spot.on_rim_mm is None else f", {_rim(spot.on_rim_mm, show)}"
    on = f"{marks(abs(spot.on), answer, show)} {way} the last mark{rim}"
    return f"{at_mark(spot.at, answer, show)}: {on}"


def at_mark(at: float, answer: WalkAnswer, show: Figures) -> str:
    """Say a mark or a pack."""
    if answer.by == "pack":
        return f"with a pack of {show.length(at, FINE)}"
    return f"at {at:.1f} degrees"


def _rim(mm: float, show: Figures) -> str:
    """Say how far that is where the marks are."""
    return f"{show.length(abs(mm), 0.4)} at the marks"


def marks(size: float, answer: WalkAnswer, show: Figures) -> str:
    """Say a difference of marks, with its unit."""
    return show.length(size, FINE) if answer.by == "pack" else f"{size:.1f} degrees"


def _next(answer: WalkAnswer) -> list[Said]:
    """Say how to read, how to go back, and what comes after."""
    lines = head("At the bench")
    for text in (HOW[answer.by], TOO_FAR_ON[answer.by], AFTER[answer.by], CARE):
        lines += indented(text)
    return lines
