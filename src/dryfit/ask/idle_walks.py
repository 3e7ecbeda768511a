"""Walks that cannot be ones: the pack or nut does not move the float, or its pitch is not known."""

from dryfit.ask.asking import Asking
from dryfit.ask.slopes import pack_slope
from dryfit.ask.starts import LEAST_READ
from dryfit.ask.written_walks import SLACK, SLACKER
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Walked
from dryfit.quantities import Finding, Place
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.sizes import metres


def idle_walks(asking: Asking) -> tuple[Finding, ...]:
    """Find walks whose pack or nut does not move their float, and nuts without a pitch."""
    found = []
    for name, written in asking.rebuild.walks.items():
        part = asking.rebuild.parts.get(written.with_)
        place: Place = ("walks", name, "with")
        if isinstance(part, Nut) and not part.thread:
            way = f"write thread: M45x1.5 with '{written.with_}'"
            message = f"the pitch of '{written.with_}' is not known"
            found.append(Finding("walk.pitch", place, message, way))
        elif not _moves(asking, written):
            message = f"'{written.with_}' does not move '{name}'"
            way = "name the pack or nut that was changed, or the float that was read"
            found.append(Finding("walk.moves nothing", place, message, way))
    return tuple(found)


def _moves(asking: Asking, written: Walked) -> bool:
    """Tell whether a float follows what was changed; one without an answer tells so itself."""
    check, part = asking.rebuild.checks[written.check], asking.rebuild.parts[written.with_]
    try:
        if asking.as_typed(check, {}).lacking:
            return True
        if isinstance(part, Nut):
            slack, slacker = ({part.name: metres(to)} for to in (SLACK, SLACKER))
            return abs(asking.typed(check, slack) - asking.typed(check, slacker)) > LEAST_READ
        return bool(pack_slope(asking, check, {}, written.with_))
    except NoAnswer:
        return True
