"""The order of a build as its pages show it: words and a small picture for each step."""

from dataclasses import dataclass, field
from hashlib import sha256
from typing import TYPE_CHECKING

from dryfit.app.usecases.opening import FindingAnswer
from dryfit.model.rebuild import Check, Rebuild

if TYPE_CHECKING:
    from dryfit.app.usecases.ordering.answers import StepAnswer


@dataclass(frozen=True, slots=True)
class BuildStep:
    """One step.

    Attributes
    ----------
    number, name, title
        Counted from 1, its name in the order, and what is done.
    check
        The check that is read in it; empty if none is.
    set_up
        Of a check: in which state it is read, and what is pushed, held or wound where.
    do, by, mind, care
        How it is done, by what, what to mind and what may hurt, in sentences.
    before
        What it is the last chance for.
    no_return
        Why there is no easy way back.
    stops
        Of a check: how often a build stops there.
    svg
        Its picture.
    """

    number: int
    name: str
    title: str
    check: str
    set_up: tuple[str, ...]
    do: tuple[str, ...]
    by: tuple[str, ...]
    mind: tuple[str, ...]
    care: tuple[str, ...]
    before: tuple[str, ...]
    no_return: tuple[str, ...]
    stops: str
    svg: str


@dataclass(frozen=True)
class BuildOrder:
    """The order of a unit; without steps where none can be told."""

    steps: tuple[BuildStep, ...]
    told: tuple[str, ...]
    findings: tuple[FindingAnswer, ...]
    sign: str = field(default="")
    """Alike for orders that are alike, and for no others."""

    def step(self, at: str) -> BuildStep | None:
        """Find a step by its number."""
        number = int(at) if at.isascii() and at.isdigit() and len(at) < 6 else 0
        return self.steps[number - 1] if 0 < number <= len(self.steps) else None


def build_order(data: bytes) -> BuildOrder:
    """Derive the order of a text, with a picture for each step; takes seconds."""
    from dryfit.app.usecases.opening import open_text
    from dryfit.app.usecases.order import order_of
    from dryfit.app.usecases.steps import staged, step_drawn
    from dryfit.app.words.order import TRUST, undoing_words
    from dryfit.draw.svg import svg

    opened = open_text(data)
    answer = order_of(opened)
    if not answer.steps:
        return BuildOrder((), (), answer.findings)
    stage = staged(opened, answer)
    pictures = [svg(step_drawn(stage, n + 1, told=False)) for n in range(len(answer.steps))]
    steps = tuple(
        _step(opened.rebuild, number, one, picture)
        for number, (one, picture) in enumerate(zip(answer.steps, pictures, strict=True), 1)
    )
    told = tuple(said.text for said in undoing_words(answer))
    sign = sha256("\n".join(step.name for step in steps).encode()).hexdigest()[:16]
    return BuildOrder(steps, (*told, TRUST) if answer.told_risks else told, answer.findings, sign)


def _step(rebuild: Rebuild, number: int, step: "StepAnswer", picture: str) -> BuildStep:
    from dryfit.app.words import acts
    from dryfit.app.words import order as words

    title = words.what_done(step)
    check = _check(rebuild, step)
    chances = (words.last_chance(step), words.last_sight(step))
    return BuildStep(
        number,
        step.name,
        title[:1].upper() + title[1:],
        check.name if check else "",
        _set_up(rebuild, check) if check else (),
        acts.how_done(step),
        words.by_what(step),
        words.to_mind(step),
        acts.care_words(step),
        tuple(chance for chance in chances if chance),
        words.why_no_return(step),
        step.words,
        picture,
    )


def _check(rebuild: Rebuild, step: "StepAnswer") -> Check | None:
    """Find the check that is read in a step."""
    from dryfit.app.usecases.ordering.checks import reading_of

    if step.act != "read":
        return None
    return next((c for n, c in rebuild.checks.items() if reading_of(n) == step.name), None)


def _set_up(rebuild: Rebuild, check: Check) -> tuple[str, ...]:
    """Say in which state a check is read, and what is pushed, held or wound where."""
    from dryfit.app.words.states import how_held, state_words

    held = how_held(check)
    return (state_words(rebuild, check.state), *([held] if held else []))
