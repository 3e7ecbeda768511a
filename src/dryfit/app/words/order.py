"""The order in words: steps with a box to tick, what each hides, where builds stop, and strip."""

from dataclasses import dataclass
from itertools import groupby

from dryfit.app.usecases.ordering.answers import OffAnswer, OrderAnswer, StepAnswer, TrialAnswer
from dryfit.app.usecases.ordering.no_return import (
    CHECK,
    CUT,
    GASKET,
    LOCK,
    SEAL,
    SEALANT,
    SPOILT,
    THROUGH,
)
from dryfit.app.words.pressing import press_words
from dryfit.app.words.said import Said, head, indented
from dryfit.app.words.strip_down import NOTE as NOTE_BY_KIND
from dryfit.plan.undoing import number as counted

TRUST = (
    "One thing wrong is mended in one go, and rightly. Packs are as fitted, else as advised. How "
    "often things go wrong, and minutes, are estimates: 8 to press a ring home, 15 to draw it off, "
    "20 to warm it."
)

MOST_PAIRS = 3
"""No more pairs of lines are named than this."""


def untold_words(pairs: tuple[str, ...]) -> str:
    """Say of which lines it is not looked at what one stops of the other; nothing if of none.

    >>> untold_words(("'worm' and 'spindle'",))
    "Not looked at, for axes does not tell how they lie: what 'worm' and 'spindle' stop of each
    other."
    """
    if not pairs:
        return ""
    rest = f", and {len(pairs) - MOST_PAIRS} more" if len(pairs) > MOST_PAIRS else ""
    told = "; ".join(pairs[:MOST_PAIRS]) + rest
    return f"Not looked at, for axes does not tell how they lie: what {told} stop of each other."


def trust(answer: OrderAnswer) -> str:
    """Say how far an order is to be trusted."""
    return " ".join(told for told in (TRUST, untold_words(answer.untold_lines)) if told)


def order_words(answer: OrderAnswer) -> list[list[Said]]:
    """Tell the order of assembly, block by block."""
    lines = head(f"Order: {answer.title}" if answer.title else "Order")
    for number, step in enumerate(answer.steps, start=1):
        lines += _step(number, step)
    undoing = [*head("Undoing"), *undoing_words(answer)]
    for one in answer.schedules if answer.told_risks else ():
        told = f"{one.name}: {one.steps:.1f} steps, {one.minutes:.0f} minutes"
        undoing += indented(f"to be expected with {told}", hang=2)
    undoing += indented(trial_words(answer.trial), hang=2) if answer.trial else []
    last = trust(answer) if answer.told_risks else untold_words(answer.untold_lines)
    return [lines, undoing, indented(last)] if last else [lines, undoing]


def undoing_words(answer: OrderAnswer) -> list[Said]:
    """Tell how good the order is, and how often the finished unit is found wrong."""
    if not answer.told_risks:
        return indented(UNTOLD)
    lines = indented(f"This order is the {answer.quality}.")
    return lines + indented(f"When the finished unit is tried, {answer.at_last}.", hang=2)


def trial_words(trial: TrialAnswer) -> str:
    """Say whether a trial build is worth it, and by how much.

    >>> print(trial_words(TrialAnswer("grease", ("cover",), 4, 10, 0, 14, 19, 1.5, 1)))
    A trial build first, without grease, is worth it: some 14 minutes to be expected against 19
    built straight on, 5 less (4 of undoing in it, 10 to take off and put on one step again, 0 of
    undoing after).
    """
    spared = trial.straight_minutes - trial.trial_minutes
    worth = "is worth it" if spared > 0 else "is not worth it"
    worth = "comes to about the same" if abs(spared) < EVEN else worth
    than = f"{abs(spared):.0f} {'less' if spared > 0 else 'more'}"
    steps = f"{counted(len(trial.anew))} step{'' if len(trial.anew) == 1 else 's'}"
    again = f"take off and put on {steps} again" if trial.anew else "read the checks again"
    return (
        f"A trial build first, without {trial.left_out}, {worth}: some {trial.trial_minutes:.0f} "
        f"minutes to be expected against {trial.straight_minutes:.0f} built straight on, {than} "
        f"({trial.dry_minutes:.0f} of undoing in it, {trial.anew_minutes:.0f} to {again}, "
        f"{trial.after_minutes:.0f} of undoing after)."
    )


def trial_named(trial: TrialAnswer) -> str:
    """Name a trial build beside the orders.

    >>> trial_named(TrialAnswer("grease", ("cover",), 4, 10, 0, 14, 19, 1.5, 1))
    'a trial build first, without grease, its strip counted'
    """
    return f"a trial build first, without {trial.left_out}, its strip counted"


EVEN = 1.0
"""What comes nearer than this is told as about the same [min]."""

UNTOLD = "Not told what goes wrong where: some size is not known, so any order that can be goes."


def what_done(step: StepAnswer) -> str:
    """Say what is done in a step.

    >>> what_done(StepAnswer("cover", "put on", (), ()))
    'put on: cover'
    >>> what_done(StepAnswer("read lash", "read", (), ()))
    'read lash'
    >>> what_done(StepAnswer("wash the case", "do", (), ()))
    'wash the case'
    """
    if step.act in NAMED_WHOLE or step.name.startswith(f"{step.act} "):
        return step.name
    return f"{step.act}: {step.name}"


NAMED_WHOLE = frozenset({"read", "do", "see to"})
"""Acts of which the name of the step says what is done."""


def last_chance(step: StepAnswer) -> str:
    """Say what can be done no more after a step; nothing where it hides nothing.

    >>> last_chance(StepAnswer("cover", "put on", ("read lash",), ()))
    "last chance to 'read lash'"
    """
    hidden = ", ".join(f"'{name}'" for name in step.hides)
    return f"last chance to {hidden}" if hidden else ""


def to_mind(step: StepAnswer) -> tuple[str, ...]:
    """Say what to mind in a step: edges, what is pressed past, rings that go home tight.

    >>> to_mind(StepAnswer("cover", "put on", (), ("cover the edge",)))
    ('cover the edge',)
    """
    return (*step.mind, *(told for one in step.presses for told in press_words(one)))


def by_what(step: StepAnswer) -> tuple[str, ...]:
    """Say from where something comes, by which tools, and with which torque.

    >>> from dryfit.app.usecases.ordering.answers import WorkAnswer
    >>> by_what(StepAnswer("nut", "screw up", (), (), work=WorkAnswer(side="tail", torque="")))
    ('comes from tail', 'torque: from your own table')
    """
    work = step.work
    side = f"comes from {work.side}" if work.side else ""
    tools = f"tools: {'; '.join(work.tools)}" if work.tools else ""
    torque = "" if work.torque is None else f"torque: {work.torque or OWN_TABLE}"
    return tuple(told for told in (side, tools, torque) if told)


OWN_TABLE = "from your own table"
"""What is said of a torque that nobody typed."""


def last_sight(step: StepAnswer) -> str:
    """Say which faces can be seen no more after a step, by their letters in its picture.

    >>> from dryfit.app.usecases.ordering.answers import HiddenAnswer, WorkAnswer
    >>> joint = HiddenAnswer("a", "case.joint", "shaft", 10.0, (20.0, 30.0))
    >>> last_sight(StepAnswer("cover", "put on", (), (), work=WorkAnswer(hidden=(joint,))))
    "last chance to see: (a) 'case.joint'"
    """
    faces = ", ".join(
        f"({one.mark}) '{one.face}'" if one.mark else f"'{one.face}'" for one in step.work.hidden
    )
    return f"last chance to see: {faces}" if faces else ""


def no_way_back(step: StepAnswer) -> tuple[str, ...]:
    """Say why a step is a point of no return, if it is one.

    >>> from dryfit.app.usecases.ordering.no_return import NoReturnAnswer
    >>> from dryfit.app.usecases.ordering.answers import WorkAnswer
    >>> nipped = WorkAnswer(no_return=(NoReturnAnswer("gasket", "gasket"),))
    >>> no_way_back(StepAnswer("screws of cover", "close", (), (), work=nipped))
    ("point of no return: once it is opened again 'gasket' is renewed",)
    """
    return tuple(f"point of no return: {one}" for one in why_no_return(step))


def why_no_return(step: StepAnswer) -> tuple[str, ...]:
    """Say why there is no easy way back from a step."""
    return tuple(WHY[one.what].replace("{}", one.of) for one in step.work.no_return)


WHY = {
    CHECK: "'{}' can be done no more without undoing it",
    GASKET: "once it is opened again '{}' is renewed",
    SEAL: "once it is taken out again '{}' is renewed",
    SEALANT: "to open it again sealant is cleaned off and put on anew",
    LOCK: "once it is undone again '{}' is renewed",
    CUT: "no puller gets behind the {}: unless heat frees it, it only comes off cut, goggles on, "
    "and is renewed",
    THROUGH: "no puller gets behind the {}: unless heat frees it, it only comes off by its other "
    "ring, through what rolls in it, and is renewed",
    SPOILT: "to take '{}' off again spoils it",
}
"""Why there is no easy way back: what is renewed is common practice, no source."""


def _step(number: int, step: StepAnswer) -> list[Said]:
    """Write a step, what it is the last chance for before it, and what to mind."""
    chance = last_chance(step)
    lines = indented(chance, by=10, hang=2) if chance else []
    lines += indented(f"[ ] {number:>2}  {what_done(step)}", hang=8)
    below = ("; ".join(by_what(step)), last_sight(step), *no_way_back(step))
    for text in (*below, *to_mind(step), step.words):
        lines += indented(text, by=12, hang=2) if text else []
    return lines


def strip_words(answer: OrderAnswer) -> list[list[Said]]:
    """Tell how the unit comes apart, line by line."""
    told = [head(f"Strip: {answer.title}" if answer.title else "Strip")]
    line = None
    for number, off in enumerate(answer.strip, start=1):
        if off.line != line:
            heading = indented(f"{off.line}:")
            told = [[*told[0], *heading]] if line is None else [*told, heading]
            line = off.line
        told[-1] += _off(number, off)
    return [*told, indented(NOTE)]


NOTE = "Note on the way: which way each faces, packs by side, marks, readings as found."


def what_off(off: OffAnswer) -> str:
    """Say what comes off, and by which way."""
    parts = ", ".join(f"'{part}'" for part in off.parts)
    whole = " in one" if len(off.parts) > 1 else ""
    return f"{parts}{whole}, {off.way}"


@dataclass(frozen=True, slots=True)
class TakenApart:
    """How a line comes apart: what comes off, one after the other."""

    line: str
    steps: tuple[str, ...]


def taken_apart(answer: OrderAnswer) -> tuple[TakenApart, ...]:
    """Say how each line comes apart."""
    return tuple(
        TakenApart(line, tuple("; ".join(filter(None, (what_off(x), past_guess(x)))) for x in off))
        for line, off in groupby(answer.strip, key=lambda one: one.line)
    )


def past_guess(off: OffAnswer) -> str:
    """Say past what it comes off only if a size that is not typed allows; else nothing."""
    past = ", ".join(f"'{name}'" for name in off.past)
    return f"past {past}, if a size there that nobody typed allows" if past else ""


def _off(number: int, off: OffAnswer) -> list[Said]:
    lines = indented(f"[ ] {number:>2}  {what_off(off)}", hang=8)
    for text in (past_guess(off), *to_note(off)):
        lines += indented(text, by=12, hang=2) if text else []
    return lines


def to_note(off: OffAnswer) -> tuple[str, ...]:
    """Say what to write down of each kind of part that comes off.

    >>> to_note(OffAnswer("shaft", ("gasket",), "to cover", (), kinds=("gasket",)))
    ('note: paper, or a metal ring that is a shim; its thickness; kept',)
    """
    return tuple(f"note: {NOTE_BY_KIND[kind]}" for kind in dict.fromkeys(off.kinds))


def picture_words(number: int, step: StepAnswer) -> tuple[str, ...]:
    """Say below the picture of a step what is done in it, and which faces are marked.

    >>> picture_words(3, StepAnswer("cover", "put on", (), ()))
    ('3  put on: cover',)
    """
    by = f", from {step.work.side}" if step.work.side else ""
    marked = (one for one in step.work.hidden if one.mark)
    faces = (f"{one.mark}  hides {one.face}: look at it first" for one in marked)
    return (f"{number}  {what_done(step)}{by}", *faces)


def picture_off(number: int, off: OffAnswer) -> str:
    """Say below the picture of a turn of the strip what comes off, and which way.

    >>> picture_off(1, OffAnswer("shaft", ("cover",), "to cover", ()))
    "1  off: 'cover', to cover"
    """
    return f"{number}  off: {what_off(off)}"
