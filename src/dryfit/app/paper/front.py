"""What stands before the work: cover, what was found in the text, what is wanted and how sure."""

from dryfit.app.paper.blocks import (
    Block,
    Figure,
    Figures,
    Head,
    Notes,
    Picture,
    Point,
    Points,
    Sheet,
    Squares,
    Table,
    Text,
    said,
)
from dryfit.app.paper.known import Known
from dryfit.app.usecases.opening import FindingAnswer
from dryfit.app.words.around import lacking_sizes, named
from dryfit.app.words.chances import (
    Told,
    acts,
    by_sizes,
    nothing_raises,
    raises,
    sparing,
    sure,
    usual_words,
)
from dryfit.app.words.figures import in_hundred
from dryfit.app.words.needs import need_words


def cover(known: Known) -> Sheet:
    """Give the cover: title, chances, drawing."""
    answer, drawn = known.answer, known.drawn
    blocks: list[Block] = [Text(answer.notes, 13)] if answer.notes else []
    picture = (
        Picture(drawn.svg, f"half-section of {named(answer)}") if drawn.svg else Squares(drawn.why)
    )
    return Sheet(named(answer), (*blocks, *_chances(known), picture), cover=True)


def _chances(known: Known) -> list[Block]:
    """Give the two first-time chances, or say why there are none."""
    answer = known.answer
    told = [(_done(one), one.chance) for one in by_sizes(answer)]
    if answer.usual is not None:
        told.append((f"{usual_words(answer)} (estimate)", answer.usual.chance))
    if told:
        size = BIG if len(told) < 3 else SMALLER
        figures = [Figure(w, in_hundred(chance), size=size, strong=True) for w, chance in told]
        return [Figures(tuple(figures), (1.0,) * len(figures))]
    why = nothing_raises(answer) if answer.answered else STOPPED
    return [Text(why, 14, strong=True)]


def _done(one: Told) -> str:
    """Name a chance; by which routes it holds is told on the sheet of what is wanted."""
    return f"{one.words}, done as advised" if one.route else one.words


BIG, SMALLER = 36.0, 23.0
"""Size of type of the first-time chances, two of them or three [pt]."""

STOPPED = "No chance is told, and no pack: the text has to be put right first. See the next sheet."


def wanted(findings: tuple[FindingAnswer, ...], known: Known) -> tuple[Sheet, ...]:
    """Say what was found in the text, what is wanted, how sure it is, and what raises it."""
    answer = known.answer
    if not answer.answered:
        return noted(findings)
    found = (*_found(findings), *_lacking(known))
    head = (Head(PUT_RIGHT),) if findings else ()
    blocks = (*head, *found, *_needs(known), *_sure(known), Notes())
    return (Sheet("What is wanted, and how sure it is", blocks),)


PUT_RIGHT = "To put right or to keep in mind"


def noted(findings: tuple[FindingAnswer, ...]) -> tuple[Sheet, ...]:
    """Give a sheet for what was found alone; none where nothing was."""
    return (Sheet(PUT_RIGHT, (*_found(findings), Notes())),) if findings else ()


def _found(findings: tuple[FindingAnswer, ...]) -> tuple[Block, ...]:
    """List what was found in the text."""
    blocks: list[Block] = []
    for found in findings:
        line = f"line {found.line}, {found.level}" if found.line else found.level
        told = (Point(f"{line}: {found.message}"), Point(found.way_out, 1))
        blocks.append(Points(tuple(point for point in told if point.text)))
    return tuple(blocks)


def _lacking(known: Known) -> tuple[Block, ...]:
    """List what is not known yet."""
    lacking = lacking_sizes(known.answer.lacking, known.show)
    return (Head(lacking[0].text), *said(lacking)) if lacking else ()


def _needs(known: Known) -> tuple[Block, ...]:
    """Say what is wanted."""
    needs = [n for n in known.answer.needs if not n.lacking]
    told = [line for one in needs for line in need_words(one, known.show)]
    return (Head("What is wanted"), *said(told, strong=True)) if told else ()


def _sure(known: Known) -> tuple[Block, ...]:
    """Say how sure it is, and what raises it."""
    certain, raising = sure(known.answer), raises(known.answer)
    first: tuple[Block, ...] = (Head("How sure"), *said(certain)) if certain else ()
    heads = ("done", "act", "then", "takes, by estimate")
    rows = [(None, act.what, act.then, act.minutes) for act in acts(known.answer)]
    rows += [(None, one.what, one.then, one.minutes) for one in sparing(known.answer)]
    table = (Table(heads, tuple(rows), (0.22, 2.2, 0.7, 0.5)),) if rows else ()
    if not raising:
        return (*first, Text(nothing_raises(known.answer)), *table)
    by_sum = () if known.answer.chance_by_sum is None else said(raising[1:2])
    return (*first, Head(raising[0].text), *by_sum, *table)
