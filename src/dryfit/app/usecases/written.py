"""What a walk written in the document comes to: what `walk` answers, and the pack to fit."""

from dataclasses import dataclass

from dryfit.app.usecases.answers import PackAnswer, WantedAnswer, mm, pack_answer, wanted_answer
from dryfit.app.usecases.walk import walk_answer
from dryfit.app.usecases.walk_answers import WalkAnswer
from dryfit.app.usecases.walk_slips import line_slips, order_slips
from dryfit.app.usecases.walk_texts import Typed
from dryfit.ask.route import Route
from dryfit.ask.walk import Goal
from dryfit.ask.written_walks import TakenWalk
from dryfit.model.parts import Nut
from dryfit.model.rebuild import FloatNeed, NipNeed, Rebuild
from dryfit.quantities import Size
from dryfit.solve.sizes import metres
from dryfit.solve.threads import pitch


@dataclass(frozen=True)
class WrittenWalkAnswer:
    """One walk of the document.

    Attributes
    ----------
    check, part
        What was read, and the setting or nut that was changed.
    walk
        Where it ends; its findings say why that cannot be told. What is wanted in its `end` is
        what there truly is, not what the dial shows of it.
    clear
        Whether it is gone by: all that is off its line can be named.
    wanted
        What is wanted of that float.
    pack, chance
        What to fit from the drawer, and the chance that all it moves is then right.
    quarrel_mm
        By how much the line lies outside of what the sizes make of it.
    """

    check: str
    part: str
    walk: WalkAnswer
    clear: bool
    wanted: WantedAnswer | None
    pack: PackAnswer | None = None
    chance: float | None = None
    quarrel_mm: float = 0.0


def written_answer(rebuild: Rebuild, taken: TakenWalk, route: Route | None) -> WrittenWalkAnswer:
    """Tell a walk; `route` is the one that goes by it, for a setting."""
    return WrittenWalkAnswer(
        taken.check.name,
        taken.part,
        _walk(rebuild, taken),
        taken.clear,
        wanted_answer(taken.target) if taken.target else None,
        pack_answer(route.pack) if route and route.pack else None,
        route.chance if route and route.pack else None,
        mm(route.quarrel) if route else 0.0,
    )


def _walk(rebuild: Rebuild, taken: TakenWalk) -> WalkAnswer:
    """Answer it as `walk` does."""
    pack = not taken.by_nut
    by, unit = ("pack", "mm") if pack else ("nut", "deg")
    typed = [
        Typed(f"walks: {taken.check.name}", step.key, step.read.text, reading, taken.shared)
        for step, reading in zip(taken.steps, taken.readings, strict=True)
    ]
    if taken.walk is None:
        slips = tuple(order_slips(typed, len(typed), pack))
    else:
        slips = tuple(line_slips(taken.walk, typed, pack, known=pack))
    empty = WalkAnswer(False, slips, rebuild.system, by, unit)
    if slips or taken.walk is None:
        return empty
    nut = rebuild.parts[taken.part]
    return walk_answer(
        empty,
        taken.walk,
        typed,
        slope=taken.slope,
        pitch=pitch(nut) if isinstance(nut, Nut) else None,
        across=metres(nut.outside)
        if isinstance(nut, Nut) and isinstance(nut.outside, Size)
        else None,
        goals=_goals(taken),
    )


def _goals(taken: TakenWalk) -> tuple[Goal, tuple[float, float]] | None:
    """Give what is wanted as the true float or nip, with its limits where it has both."""
    target, walk = taken.target, taken.walk
    if target is None or walk is None:
        return None
    nip = walk.yields[1] - walk.looked.line.read_at(walk.goal.at)
    need = target.need
    floats = isinstance(need, FloatNeed) and not isinstance(need, NipNeed)
    goal = Goal("float", -nip) if floats else Goal("nip", nip)
    if not isinstance(need, FloatNeed) or target.low is None or target.high is None:
        return goal, (goal.size, goal.size)
    return goal, (target.low, target.high)
