"""How sure it is: by the sizes, with what usually goes wrong, and what raises it."""

from dataclasses import dataclass
from math import ceil

from dryfit.app.usecases.answers import ActAnswer, SparedAnswer
from dryfit.app.usecases.choose import ChooseAnswer, SettingAnswer
from dryfit.app.words.figures import in_hundred
from dryfit.app.words.fit import FIRST_DO
from dryfit.app.words.said import Said, head, indented
from dryfit.ask.acts import EARLY, GAUGE, SETTLE, SPANNER, TRIAL
from dryfit.ask.asking import DRAWS
from dryfit.ask.route import DIFFERENCE, GAP, SUM, TAKE_OUT, WALK


def sure(answer: ChooseAnswer) -> list[Said]:
    """Say the first-time chance, of the advice and of what is in now."""
    lines = head("How sure")
    if unexplained(answer):
        lines += indented(
            "A reading below does not fit your sizes. Find out why first: until then these "
            "chances do not hold."
        )
    for one in by_sizes(answer):
        lines += _chances(answer, one.words, one.chance, one.harm)
        lines += indented(one.route, by=4, hang=2) if one.route else []
    lines += usual_lines(answer)
    return lines if len(lines) > 1 else []


def unexplained(answer: ChooseAnswer) -> bool:
    """Tell whether a reading was taken that does not fit the sizes."""
    return any(c.read and "explain" in c.read.verdict for c in answer.checks)


@dataclass(frozen=True, slots=True)
class Told:
    """A chance, of what, the harm beside it, and by which route it holds; "" for none."""

    words: str
    chance: float
    harm: float | None
    route: str = ""


def by_sizes(answer: ChooseAnswer) -> list[Told]:
    """Give the chances by the sizes: of what is in now, and of the advice where that is other."""
    by = "the sizes and the walk" if any(walk.pack for walk in answer.walks) else "the sizes"
    found, as_it_is = [], answer.chance_as_it_is
    if as_it_is is not None:
        found.append(Told(f"As it is now, by {by}", as_it_is, answer.harm_as_it_is))
    if answer.chance is not None and not (as_it_is is not None and _stays(answer.settings)):
        fresh = f"That it closes up right first time, by {by}"
        words = fresh if as_it_is is None else _advised(answer)
        found.append(Told(words, answer.chance, answer.harm, by_route(answer)))
    return found


def by_route(answer: ChooseAnswer) -> str:
    """Say by which route a chance holds, and what it is by the sum of sizes alone."""
    gone = [one for one in answer.settings if one.route]
    if not gone:
        return ""
    routes = "; ".join(f"{one.part} {GONE[one.route]}" for one in gone)
    told = f"if it is done as advised: {routes}"
    other = "" if all(one.route == SUM for one in gone) else without_acts(answer)
    return f"{told}. {other[:1].upper()}{other[1:]}" if other else told


GONE = {
    SUM: "by the sum of sizes",
    GAP: "by the closing gap",
    DIFFERENCE: "by the difference to what was in",
    TAKE_OUT: "by a float read with a first one in, then corrected",
    WALK: "by a walk to nothing",
}
"""How a setting is found, by its route."""


def usual_lines(answer: ChooseAnswer) -> list[Said]:
    """Say the second figure, how far it may be off, and what costs most."""
    usual = answer.usual
    if usual is None:
        return []
    as_it_is = answer.chance_as_it_is
    lines = indented(
        f"{usual_words(answer)}: {in_hundred(usual.chance)} (estimate; "
        f"{in_hundred(usual.double)} if twice as much goes wrong)"
    )
    if usual.chance - usual.unchecked > AS_GOOD:
        lines += indented(f"and the checks not read: {in_hundred(usual.unchecked)}", by=4)
    by_sizes = answer.chance if as_it_is is None else as_it_is
    if usual.slips and (by_sizes or 0.0) - usual.chance > AS_GOOD / 2:
        words = "; ".join(slip.words for slip in usual.slips)
        lines += indented(f"look for: {words}", by=4, hang=2)
    return lines


def usual_words(answer: ChooseAnswer) -> str:
    """Name the second figure."""
    told = "With" if answer.chance_as_it_is is None else "As it is now, with"
    return f"{told} what usually goes wrong"


AS_GOOD = 0.01
"""Chances so near to each other are not told apart."""


def _stays(settings: tuple[SettingAnswer, ...]) -> bool:
    """Tell whether what is in now is what should be in."""
    return all(
        one.fitted_mm is not None
        and one.pack is not None
        and abs(one.pack.thickness_mm - one.fitted_mm) < SAME
        for one in settings
    )


SAME = 0.001
"""Packs that differ by less [mm] are the same."""


def _chances(answer: ChooseAnswer, told: str, chance: float, harm: float | None) -> list[Said]:
    """Say a chance and the harm beside it."""
    return [*indented(f"{told}: {in_hundred(chance)}"), *harm_words(answer, harm)]


def harm_words(answer: ChooseAnswer, harm: float | None) -> list[Said]:
    """Say how likely it is that it comes to harm."""
    if harm is None:
        return []
    when = "when it is warm" if answer.hot else "cold"
    harmed = "is pressed too hard" if any(n.force for n in answer.needs) else "binds"
    return indented(f"that it {harmed} {when}: {in_hundred(harm)}", by=4)


def _advised(answer: ChooseAnswer) -> str:
    if all(one.nut is not None for one in answer.settings):
        return "Set as told above"
    made = all(one.pack is not None for one in answer.settings)
    return "With the pack above" if made else "Done as told above"


def first_look(answer: ChooseAnswer) -> list[Said]:
    """Say how sure it is with what is tried on, and that it is a first look."""
    if not answer.first_look:
        return []
    lines = head("Tried on" if answer.first_look >= DRAWS else "Tried on: a first look")
    if answer.chance_as_it_is is not None:
        told = "All as wanted, by the sizes"
        lines += _chances(answer, told, answer.chance_as_it_is, answer.harm_as_it_is)
    good = ceil(100 / answer.first_look**0.5)  # two standard errors at most
    lines += indented(f"of {answer.first_look} units drawn, so good to {good} in 100")
    return lines


def nothing_raises(answer: ChooseAnswer) -> str:
    """Say why no act is told."""
    if not answer.wanted:
        return "There is no chance to raise: nothing is wanted of the unit, or it cannot be told."
    if answer.lacking:
        return "What raises it is told when all sizes are known."
    return "No act that is known here raises it by as much as one in a hundred."


def raises(answer: ChooseAnswer) -> list[Said]:
    """List the acts that raise the chance, most a minute first."""
    if not answer.acts:
        return []
    lines = head("What raises it most for the time it takes")
    if answer.chance_by_sum is not None:
        lines += indented(without_acts(answer))
    for act in acts(answer):
        lines += indented(f"{act.what}: then {act.then}; some {act.minutes} (estimate)", hang=2)
    return lines


def without_acts(answer: ChooseAnswer) -> str:
    """Say what the chance is without any act; nothing where that is not known."""
    if answer.chance_by_sum is None:
        return ""
    nuts = [one for one in answer.settings if one.nut is not None]
    alone = "by the sum of sizes alone" if len(nuts) < len(answer.settings) else SET_BLIND
    return f"{alone}: {in_hundred(answer.chance_by_sum)}"


@dataclass(frozen=True, slots=True)
class Worded:
    """An act in words: what to do, the chance that it then is, and how long it takes."""

    what: str
    then: str
    minutes: str


def acts(answer: ChooseAnswer) -> list[Worded]:
    """Put each act into words."""
    nuts = {one.part for one in answer.settings if one.nut is not None}
    return [
        Worded(_what(act, nuts), _then(act), f"{act.minutes:.0f} minutes") for act in answer.acts
    ]


def _then(act: ActAnswer) -> str:
    then = in_hundred(act.chance)
    if act.name == SETTLE:
        return f"{then}, and {in_hundred(act.chance_without)} if you do not"
    if act.name in TOOLS:
        without = in_hundred(act.chance_without)
        return f"{then}, and {without} without, with what usually goes wrong"
    return then


def _what(act: ActAnswer, nuts: set[str]) -> str:
    if act.name == SETTLE:
        turned = f"turn the shaft ten times each way before {BEFORE[act.now]} is read"
        return f"{act.what}: {turned}"
    if act.name in TOOLS:
        return TOOLS[act.name].format(what=act.what)
    if act.now:
        return f"measure {act.what} by {act.name} instead of {act.now}"
    return f"{act.what}: {(TURN if act.what in nuts else FIRST_DO)[act.name]}"


TOOLS = {
    GAUGE: "make a gauge first by which '{what}' can be read with all in",
    SPANNER: "make a spanner first that gets to '{what}'",
}
"""What an act asks for that begins with a tool."""


def spares(answer: ChooseAnswer) -> list[Said]:
    """List what spares undoing, by the order of work."""
    lines = head("What spares undoing") if answer.spared else []
    for one in answer.spared:
        told = f"{spared_words(one)}: {spared_minutes(one)}"
        lines += indented(told, hang=2)
    return lines


def sparing(answer: ChooseAnswer) -> list[Worded]:
    """Put what takes time to spare undoing into words, to stand beside what raises a chance.

    A check read early takes none: it stands so in the order of work.
    """
    return [
        Worded(
            spared_words(one),
            f"{one.spared_minutes:.0f} minutes less of undoing",
            f"{one.minutes:.0f} minutes",
        )
        for one in answer.spared
        if one.minutes
    ]


def spared_words(one: SparedAnswer) -> str:
    """Say what is to be done.

    >>> spared_words(SparedAnswer(EARLY, "end float", "cover", 0, 6))
    "read 'end float' before 'cover'"
    """
    return SPARES[one.name].format(what=one.what, before=one.before)


def spared_minutes(one: SparedAnswer) -> str:
    """Say what it takes and what it spares.

    >>> spared_minutes(SparedAnswer(EARLY, "end float", "cover", 0, 6))
    'some 6 minutes less of undoing to be expected than if it is read at last (estimate)'
    >>> spared_minutes(SparedAnswer(TRIAL, "grease", "", 10, 15))
    'some 10 minutes, for 15 less of undoing to be expected (estimate)'
    """
    if one.minutes:
        return (
            f"some {one.minutes:.0f} minutes, for {one.spared_minutes:.0f} less of undoing to be "
            "expected (estimate)"
        )
    return (
        f"some {one.spared_minutes:.0f} minutes less of undoing to be expected than if it is read "
        "at last (estimate)"
    )


SPARES = {
    EARLY: "read '{what}' before '{before}'",
    TRIAL: "build it once without {what}, read all checks, and strip it again",
    SPANNER: "make a spanner first that gets to '{what}' with more in",
}
"""What an act asks for that spares undoing."""

BEFORE = {"read it, then correct": "its float", "walk to nothing": "each float of the walk"}
"""What is read on a route, after turning to settle."""

SET_BLIND = "set once, locked, and not read again"
"""How a nut is set whose float nobody reads."""

TURN = {
    "read it, then correct": "read its float locked, and turn it by what is off",
    "walk to nothing": "walk it to nothing by three marks, and on by marks",
}
"""What an act asks for with a nut."""
