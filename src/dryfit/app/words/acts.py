"""How each act of assembly is done, and what may hurt in it: common practice, no source."""

from dryfit.app.usecases.ordering.answers import StepAnswer
from dryfit.plan.actions import Act

INTO = "into"
"""How an act begins that puts what was dressed on the bench into its case."""

PUT = (
    "Clean, dry, no burr; a film of oil.",
    "Square to its seat, by hand as far as it goes.",
    "Home? No light under it, no rock.",
)
PRESS = (
    "Clean, a film of oil, started square by hand.",
    "In one go, through the tight ring. If the feel changes, stop and look.",
)

DO = {
    Act.TAKE.value: ("Clean, dry, looked over for burrs; laid so that it can not roll.",),
    Act.PUT.value: PUT,
    Act.ENTER.value: PUT,
    Act.PRESS.value: PRESS,
    "press in": PRESS,
    INTO: ("In whole, held so that it can not tip.", "Turned a little as it goes; never forced."),
    Act.SCREW.value: (
        "Threads clean; the first turns by hand.",
        "Turn the shaft as it is tightened. If the turning stiffens, stop.",
    ),
    Act.CLOSE.value: (
        "All screws by hand first, then crosswise and evenly, in three rounds.",
        "Turn the shaft all the while. If the turning stiffens, stop.",
    ),
    Act.LOCK.value: ("Lock it as told, then a line of paint across both.",),
}
"""By act: how it is done, sentence by sentence."""

LIFT = "What is heavy hangs in a sling; no fingers and no feet below. Local rules come first."
PUSH = "Guard before the press, eyes covered, nobody in line. A hardened ring is never hammered."
WARM = "What is warmed burns: dry gloves, a thermometer, no flame. Local rules come first."
TEETH = "Lock off the drive. Fingers clear of the teeth while the shaft is turned."

CARE = {
    Act.TAKE.value: LIFT,
    Act.PRESS.value: PUSH,
    "press in": PUSH,
    INTO: LIFT,
    Act.SCREW.value: "Hold what would turn with it; pull the spanner, do not push it.",
    Act.CLOSE.value: TEETH,
}
"""By act: what may hurt."""


def how_done(step: StepAnswer) -> tuple[str, ...]:
    """Say how a step is done; nothing of one that reads, which its check tells.

    >>> how_done(StepAnswer("shaft with what is on it", "into case", (), ()))[0]
    'In whole, held so that it can not tip.'
    """
    return DO.get(_kind(step), ())


def care_words(step: StepAnswer) -> tuple[str, ...]:
    """Say what may hurt in a step.

    >>> care_words(StepAnswer("spacer", "put on", (), ()))
    ()
    """
    own = CARE.get(_kind(step), "")
    warm = any(not one.sprung for one in step.presses)
    return tuple(told for told in (own, WARM if warm else "") if told)


def _kind(step: StepAnswer) -> str:
    return INTO if step.act.startswith(f"{INTO} ") else step.act
