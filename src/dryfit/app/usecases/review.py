"""`review`: what is wrong with a text, and what is not known yet."""

from dataclasses import dataclass

from dryfit.app.usecases.answers import LackingAnswer, lacking_answer
from dryfit.app.usecases.opening import FindingAnswer, Opened, open_text
from dryfit.model.rebuild import Check, Need
from dryfit.quantities import NotKnown


@dataclass(frozen=True)
class ReviewRequest:
    """A text as it stands in a file."""

    data: bytes


@dataclass(frozen=True)
class ReviewAnswer:
    """What was found.

    Attributes
    ----------
    title
        Of the rebuild.
    ready
        Whether questions can be answered.
    parts, sizes, not_known
        How many there are.
    findings
        All that is wrong, in the order of the lines.
    lacking
        Sizes to measure before every check can be said.
    """

    title: str
    ready: bool
    parts: int
    sizes: int
    not_known: int
    findings: tuple[FindingAnswer, ...]
    lacking: tuple[LackingAnswer, ...]


def review(request: ReviewRequest) -> ReviewAnswer:
    """Review a rebuild."""
    opened = open_text(request.data)
    rebuild = opened.rebuild
    unknown = sum(isinstance(b.size, NotKnown) for b in rebuild.sizes.values())
    return ReviewAnswer(
        rebuild.title,
        not opened.stopped,
        len(rebuild.parts),
        len(rebuild.sizes),
        unknown,
        opened.findings,
        () if opened.stopped else _lacking(opened),
    )


def _lacking(opened: Opened) -> tuple[LackingAnswer, ...]:
    """List the sizes that some need or check still lacks."""
    from dryfit.ask.asking import Asking
    from dryfit.ask.expect import checks_of
    from dryfit.ask.slopes import lacking_or_none
    from dryfit.ask.targets import targets

    asking, wanted = Asking(opened.rebuild, 1), targets(opened.rebuild)
    asked: list[Check | Need] = [*checks_of(asking, wanted), *(t.need for t in wanted)]
    found = {s.key: s for question in asked for s in lacking_or_none(asking, question, {})}
    return tuple(lacking_answer(slope) for slope in found.values())
