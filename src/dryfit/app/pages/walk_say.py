"""A walk answered, in the words of a page: of no unit, or as written in one.

All sentences are those of `app.words`. This is done where answers are worked out.
"""

import re
from collections.abc import Iterable

from dryfit.app.pages.set_plots import shown
from dryfit.app.pages.set_view import Plot
from dryfit.app.pages.typed import as_written
from dryfit.app.pages.walk_view import Part, Point, WalkTold, WalkTyped, mark_written
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.plot_units import plotting
from dryfit.app.usecases.plot_walks import walk_drawn
from dryfit.app.usecases.walk import WalkRequest
from dryfit.app.usecases.walk import walked as ask
from dryfit.app.usecases.walk_answers import SlipAnswer, WalkAnswer
from dryfit.app.usecases.walk_slips import order_slips
from dryfit.app.usecases.walk_texts import Slips, read_one
from dryfit.app.usecases.written import written_answer
from dryfit.app.words.figures import Figures, figures
from dryfit.app.words.said import Said
from dryfit.app.words.walk import go, points
from dryfit.app.words.walk import walked as in_words
from dryfit.app.words.written import written_walk
from dryfit.ask.written_walks import taken_walks
from dryfit.quantities import System
from dryfit.quantities.finding import Finding


def walked(typed: WalkTyped) -> WalkTold:
    """Answer a walk that belongs to no unit."""
    numbers = [n for n, row in enumerate(typed.rows, 1) if any(box.strip() for box in row)]
    answer = ask(
        WalkRequest(
            tuple(_reading(typed.rows[n - 1], typed) for n in numbers),
            typed.system,
            as_written(typed.pitch) if typed.by == "nut" else None,
            *(_option(text) for text in (typed.want, typed.past, typed.across, typed.push)),
        )
    )
    if not answer.answered:
        return WalkTold("", tuple(_finding(slip, numbers) for slip in answer.findings))
    show = figures("mm" if answer.system == "mm" else "inch", None)
    blocks = in_words(answer, show)
    title, *middle, nothing, stop, after = blocks
    return WalkTold(
        "",
        (),
        _part(stop),
        _points(answer, show),
        tuple(_part(block) for block in (nothing, title, *middle, after)),
        _plot(answer, "Walk to nothing", "nut" if answer.by == "nut" else "pack"),
    )


def rows_read(rows: tuple[tuple[str, str], ...], by: str, system: System) -> tuple[Finding, ...]:
    """Read the rows of a walk of a unit, and say what is wrong with each."""
    slips, typed = Slips(), WalkTyped(rows, "pack" if by == "pack" else "nut")
    numbers = [n for n, row in enumerate(rows, 1) if any(box.strip() for box in row)]
    pack = by == "pack"
    tried = [
        read_one(f"reading {place}", _reading(rows[n - 1], typed), system, pack, slips)
        for place, n in enumerate(numbers, 1)
    ]
    told = [one for one in tried if one is not None]
    slips.extend(s for s in order_slips(told, len(numbers), pack) if s.code == "walk.same mark")
    return tuple(_finding(slip, numbers) for slip in slips)


def walks_of(data: bytes, part: str) -> tuple[WalkTold, ...]:
    """Answer the walks of a unit that are written for a setting or nut."""
    opened = open_text(data)
    if opened.stopped:
        told = (f"{one.message}; {one.way_out}" for one in opened.findings if one.level == "stop")
        head = "The text has to be put right first"
        return (WalkTold("", (), None, (), (Part(head, tuple(told)),)),)
    asked, show = plotting(opened.rebuild), figures(opened.system, None)
    found = []
    for taken in taken_walks(asked.asking, asked.wanted, asked.packs):
        if taken.part != part:
            continue
        one = written_answer(opened.rebuild, taken, None)
        title = f"Walk to nothing: {one.check}, by {one.part}"
        said, *lines = (line for line in written_walk(one, show) if line.sort != "row")
        lead = go(one.walk.end.spot, one.walk, show) if one.walk.end else ""
        lines.sort(key=lambda line: lead not in line.text)
        plot = _plot(one.walk, title, one.part)
        stop, read = _part([said, *lines]), _points(one.walk, show)
        found.append(WalkTold(one.check, (), stop, read, (), plot))
    return tuple(found)


def _reading(row: tuple[str, str], typed: WalkTyped) -> str:
    return f"{mark_written(row[0], typed.by)}: {as_written(row[1])}"


def _option(text: str) -> str | None:
    return as_written(text) if text.strip() else None


BOX = re.compile(r"--(\w+)")
READING = re.compile(r"reading (\d+)")


def _finding(slip: SlipAnswer, numbers: list[int]) -> Finding:
    """Put a slip beside its box; `numbers` are those of the rows that were typed."""

    def row(found: re.Match[str]) -> str:
        return f"row {numbers[int(found[1]) - 1]}"

    message, way_out = (
        BOX.sub(r"'\1'", READING.sub(row, text)) for text in (slip.message, slip.way_out)
    )
    at = READING.fullmatch(slip.where)
    if at:
        return Finding(slip.code, ("row", numbers[int(at[1]) - 1]), message, way_out)
    option = BOX.fullmatch(slip.where)
    return Finding(slip.code, (option[1],) if option else (), message, way_out)


def _part(said: Iterable[Said]) -> Part:
    head, *rest = said
    lines = (one.text.strip() for one in rest if one.sort == "text")
    return Part(head.text, tuple(line[:1].upper() + line[1:] for line in lines if line))


def _points(answer: WalkAnswer, show: Figures) -> tuple[Point, ...]:
    return tuple(Point(*cells) for cells in points(answer, show))


def _plot(answer: WalkAnswer, title: str, moved: str) -> Plot | None:
    drawn = walk_drawn(answer, title, moved)
    return shown(drawn) if drawn else None
