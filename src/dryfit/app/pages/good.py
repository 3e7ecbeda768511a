"""How sure it is with the sizes as they are, and how good is good enough for each of them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dryfit.app.pages.asked import Asked
from dryfit.app.pages.rows import Row
from dryfit.app.pages.tasks import FIRST_LOOK
from dryfit.app.words.figures import in_hundred

if TYPE_CHECKING:
    from dryfit.app.usecases.choose import ChooseAnswer
    from dryfit.app.usecases.matters import MatterAnswer, MattersAnswer


@dataclass(frozen=True, slots=True)
class Chance:
    """A chance in words, of what, and by which route it holds; "" for none."""

    of: str
    told: str
    route: str = ""


@dataclass(frozen=True)
class Numbers:
    """How sure it is, why that cannot be told, and for each box what its size is worth."""

    chances: tuple[Chance, ...]
    why: str
    worth: Mapping[str, str]


Packs = tuple[tuple[str, float], ...]


async def known(asked: Asked, rows: Iterable[Row]) -> Numbers | None:
    """Tell it where it was worked out before; None if not."""
    answer = asked.desk.known("choose", asked.with_readings, FIRST_LOOK)
    if answer is None:
        return None
    asks = (_packs(answer), FIRST_LOOK)
    found = asked.desk.known("matters", asked.with_readings, *asks)
    return None if found is None else _numbers(answer, found, rows)


async def asked_for(asked: Asked, rows: Iterable[Row]) -> Numbers:
    """Have it worked out as a first look, beside the drawing, which is not to wait for it."""
    answer = await asked.work("choose", FIRST_LOOK, pace="long")
    found = await asked.work("matters", _packs(answer), FIRST_LOOK, pace="long")
    return _numbers(answer, found, rows)


def _packs(answer: "ChooseAnswer") -> Packs:
    """Give the packs that are in hand."""
    known = ((one.part, one.in_hand_mm) for one in answer.settings)
    return tuple((part, thick) for part, thick in known if thick is not None)


def _numbers(answer: Any, found: Any, rows: Iterable[Row]) -> Numbers:
    from dryfit.app.words.chances import by_sizes  # it knows arithmetic, which is loaded by now

    told = [*by_sizes(answer)]
    chances = tuple(
        Chance(one.words if n == 0 else ADVISED, in_hundred(one.chance), one.route)
        for n, one in enumerate(told)
    )
    worth = {row.id: words for row in rows if (words := _worth(row, answer, found))}
    return Numbers(chances, "" if chances else _why(answer), worth)


ADVISED = "With what the page Set advises"
"""How the second chance is named here, where no advice stands above it."""


def _why(answer: "ChooseAnswer") -> str:
    """Say why there is no chance to tell."""
    if not answer.answered:
        return "The text has to be put right before anything can be said."
    if answer.lacking:
        keys = ", ".join(one.key for one in answer.lacking[:3])
        more = f" and {len(answer.lacking) - 3} more" if len(answer.lacking) > 3 else ""
        return f"How sure it is can be told once these are known: {keys}{more}."
    if not answer.wanted:
        return "Nothing is wanted of the unit yet, so there is no chance to tell."
    return "There is no pack to be sure of yet."


def _worth(row: Row, answer: "ChooseAnswer", found: "MattersAnswer") -> str:
    """Say what one size is worth."""
    if row.unknown:
        return _unknown(row, answer)
    if not row.key or not row.is_size:
        return ""
    mine = next((one for one in found.sizes if one.key == row.key), None)
    if mine is not None:
        return _share(row, mine, answer)
    if found.every and row.where[0] == "sizes":
        return "Good enough as it is: nothing that is wanted hangs on it."
    return ""


ENOUGH = 0.05
"""What makes less of the doubt is good enough: as `ask.worth` holds it."""


def _share(row: Row, mine: "MatterAnswer", answer: "ChooseAnswer") -> str:
    """Say how much of the doubt a size makes, and what a better reading would bring."""
    told = f"{in_hundred(mine.share)} of the doubt in the {mine.kind} of {mine.of}"
    if mine.share < ENOUGH:
        return f"Good enough as it is: {told}."
    return f"Makes {told}.{_better(row, answer)}"


def _better(row: Row, answer: "ChooseAnswer") -> str:
    """Say what a better instrument would bring to the sum of sizes, where that is worth it."""
    act = next((one for one in answer.acts if one.what == row.key and one.now), None)
    if act is None or answer.chance_by_sum is None:
        return ""
    now, then = in_hundred(answer.chance_by_sum), in_hundred(act.chance)
    return f" Read by {act.name}, the sum of sizes alone comes right in {then}; now in {now}."


def _unknown(row: Row, answer: "ChooseAnswer") -> str:
    """Say what is taken for a size that is not known, or what waits for it."""
    part = str(row.where[1])
    taken = next((t for t in answer.taken_as if t.startswith(f"{part} nipped")), "")
    if taken and row.key == part:
        return f"Taken as: {taken}."
    waits = next((one for one in answer.lacking if one.key == row.key), None)
    if waits is None:
        return "Nothing that is wanted waits for it." if row.key and answer.answered else ""
    if not waits.follows:
        return "What is wanted cannot be told without it."
    way = "more" if waits.follows > 0 else "less"
    return f"What is wanted cannot be told without it: a longer one, {way} float."
