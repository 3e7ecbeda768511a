"""By what a step is done, as far as the document tells: tools, and the torque that was typed."""

from collections.abc import Callable

from dryfit.app.usecases.ordering.checks import reading_of
from dryfit.app.usecases.ordering.presses import PressAnswer
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Check, Rebuild
from dryfit.plan.actions import Act, Step

BY_KIND = {
    "retaining ring": "ring pliers",
    "seal": "sleeve as wide as its shell",
    "key": "soft hammer",
}
"""By what some kinds of part go on: common practice, no source."""

WARM = "to warm it: oil bath or hot plate, thermometer, gloves"

Tools = tuple[str, ...]


def tools_of(rebuild: Rebuild, step: Step, tight: tuple[PressAnswer, ...]) -> Tools:
    """Say by what a step is done; spanners that reach a nut are told by its ways."""
    own = _OF.get(step.act)
    found = own(rebuild, step) if own else ()
    kind = rebuild.parts[step.name].kind if step.name in rebuild.parts else ""
    by_kind = (BY_KIND[kind],) if kind in BY_KIND else ()
    return (*found, *by_kind, *_for_rings(tight))


def _for_rings(tight: tuple[PressAnswer, ...]) -> Tools:
    """Say by what tight rings go home."""
    pushed = [one for one in tight if not one.sprung]
    reached = (one for one in pushed if not one.sleeve_shut)
    faces = (f"the {one.ring}" if one.rolls else "its face" for one in reached)
    sleeves = dict.fromkeys(f"press, or a sleeve on {face}" for face in faces)
    warm = any(one.may_be_warm for one in pushed)
    return (*sleeves, WARM) if warm else tuple(sleeves)


def _screws(rebuild: Rebuild, step: Step) -> Tools:
    del rebuild, step
    return ("key or spanner for its screws",)


def _lock(rebuild: Rebuild, step: Step) -> Tools:
    nuts = (rebuild.parts.get(name) for name in step.after)
    return tuple(n.locked_by for n in nuts if isinstance(n, Nut) and n.locked_by)


def _read(rebuild: Rebuild, step: Step) -> Tools:
    check = check_read(rebuild, step)
    return (check.by or USUAL_INSTRUMENT[check.kind],) if check else ()


def check_read(rebuild: Rebuild, step: Step) -> Check | None:
    """Give the check that is read in a step, if one is."""
    return next((c for c in rebuild.checks.values() if reading_of(c.name) == step.name), None)


def _turned(rebuild: Rebuild, step: Step) -> Tools:
    """Say by what a nut is set that is turned until something reads as it should."""
    if not is_set(rebuild, step.name):
        return ()
    setting = rebuild.settings.get(step.name)
    return ((setting and setting.set_by) or USUAL_INSTRUMENT["end float"],)


_OF: dict[Act, Callable[[Rebuild, Step], Tools]] = {
    Act.CLOSE: _screws,
    Act.LOCK: _lock,
    Act.READ: _read,
    Act.SCREW: _turned,
}


def is_set(rebuild: Rebuild, name: str) -> bool:
    """Tell a nut that is set to a reading from one that is tightened to a torque."""
    nut = rebuild.parts.get(name)
    return isinstance(nut, Nut) and (nut.set_to is not None or name in rebuild.settings)


def torque_of(rebuild: Rebuild, step: Step) -> str | None:
    """Give the torque of a step as typed; empty where it is not known, None where there is none."""
    if step.act is Act.CLOSE:
        return ""
    nut = rebuild.parts.get(step.name)
    if step.act is not Act.SCREW or not isinstance(nut, Nut) or is_set(rebuild, step.name):
        return None
    return nut.torque.text if nut.torque else ""
