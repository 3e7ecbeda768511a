"""What is wanted of a unit, as written or as offered: before anything is worked out."""

from dryfit.app.pages.set_view import Wanted
from dryfit.app.usecases.answers import wanted_answer
from dryfit.app.words.figures import Figures, figures
from dryfit.app.words.needs import limits
from dryfit.ask.targets import Target, targets
from dryfit.document.read import read_document
from dryfit.model.rebuild import BUILT
from dryfit.model.rules import check
from dryfit.quantities.finding import stops


def wanted(data: bytes) -> tuple[Wanted, ...]:
    """List what is wanted; nothing where the text has to be put right first."""
    document = read_document(data)
    rebuild = document.rebuild
    if stops([*document.findings, *check(rebuild)]):
        return ()
    show = figures(rebuild.system, None)
    return tuple(_wanted(target, show) for target in targets(rebuild))


def _wanted(target: Target, show: Figures) -> Wanted:
    one = wanted_answer(target)
    state = "" if one.state == BUILT else f", {one.state}"
    keys = ((key, getattr(target.need, key, None)) for key in KEYS)
    return Wanted(
        one.need,
        f"{one.kind} of {one.of}{state}",
        limits(one, show),
        one.source,
        f"Less: {one.less}. More: {one.more}.",
        tuple((key, value) for key, value in keys if value and value != BUILT),
    )


KEYS = ("kind", "of", "mesh", "on", "pinion", "wheel", "state")
"""Keys of a need that are words."""
