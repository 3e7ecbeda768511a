"""What raises the chance most for the time it takes, in words."""

from dryfit.app.cli.figures import in_hundred
from dryfit.app.cli.page import head, indented
from dryfit.app.usecases.answers import ActAnswer
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.ask.acts import SETTLE

FIRST_DO = {
    "closing gap": "read the closing gap",
    "read it, then correct": "fit a first pack, read, then correct it",
    "walk to nothing": "walk it to nothing with three packs",
    "difference": "take the difference",
}
"""What a route that begins with a reading asks for."""

BEFORE = {"read it, then correct": "its float", "walk to nothing": "each float of the walk"}
"""What is read on a route, after turning to settle."""

SET_BLIND = "set once, locked, and not read again"
"""How a nut is set whose float nobody reads."""

TURN = {
    "read it, then correct": "read its float locked, and turn it by what is off",
    "walk to nothing": "walk it to nothing by three marks, and on by marks",
}
"""What an act asks for with a nut."""


def raised(answer: ChooseAnswer) -> list[str]:
    """List the acts that raise the chance, most a minute first."""
    if not answer.acts or answer.chance_by_sum is None:
        return []
    lines = head("What raises it most for the time it takes")
    nuts = {one.part for one in answer.settings if one.nut is not None}
    alone = "by the sum of sizes alone" if len(nuts) < len(answer.settings) else SET_BLIND
    lines += indented(f"{alone}: {in_hundred(answer.chance_by_sum)}")
    for act in answer.acts:
        what, then = _act(act, nuts)
        lines += indented(f"{what}: {then}; some {act.minutes:.0f} minutes (estimate)", hang=2)
    return ["\n".join(lines)]


def _act(act: ActAnswer, nuts: set[str]) -> tuple[str, str]:
    """Say what is to be done, and what the chance then is."""
    then = in_hundred(act.chance)
    if act.name == SETTLE:
        turned = f"turn the shaft ten times each way before {BEFORE[act.now]} is read"
        return (
            f"{act.what}: {turned}",
            f"{then}, and {in_hundred(act.chance_without)} if you do not",
        )
    if act.now:
        return f"measure {act.what} by {act.name} instead of {act.now}", f"then {then}"
    return f"{act.what}: {(TURN if act.what in nuts else FIRST_DO)[act.name]}", f"then {then}"


def nothing_raises(answer: ChooseAnswer) -> str:
    """Say why no act is told."""
    if not answer.wanted:
        return "There is no chance to raise: nothing is wanted of the unit, or it cannot be told."
    if answer.lacking:
        return "What raises it is told when all sizes are known."
    return "No act that is known here raises it by as much as one in a hundred."
