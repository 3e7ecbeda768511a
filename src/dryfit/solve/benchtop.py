"""The unit as it lies on the bench when a check is read: fitted so, as warm as that, and pushed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from dryfit.model.parts import Shaft
from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Quantity
from dryfit.solve.elastic import Held, Stray, hold
from dryfit.solve.luck import Array, full
from dryfit.solve.network import Network, network
from dryfit.solve.newton import FAR, Unsettled
from dryfit.solve.replay import built, with_grips
from dryfit.solve.rigid import room
from dryfit.solve.rings import owner
from dryfit.solve.sample import Sample
from dryfit.solve.spelled import spelled
from dryfit.solve.states import Fitted, digest

PUSH, PUSH_SPREAD = 50.0, 0.3
"""A push by hand on the end of a shaft where none is told [N], and how far it may differ [-]."""


class NoAnswer(Exception):
    """Something asked of a unit has no answer; the text says why.

    Attributes
    ----------
    way_out
        What to do, in words for the bench.
    code
        Short name of the finding that tells it.
    open_end
        Whether a stop is lacking.
    """

    code = "line.no answer"
    open_end = False

    def __init__(self, why: str, way_out: str) -> None:
        super().__init__(why)
        self.way_out = way_out


class NothingStops(NoAnswer):
    """A part runs out of the line: nothing stops it one way.

    Attributes
    ----------
    part
        The part that runs out.
    """

    code = "line.open end"
    open_end = True

    def __init__(self, part: str) -> None:
        super().__init__(
            f"nothing stops {part} one way",
            "add the stack that stops it, from the case or a cover on its joint",
        )
        self.part = part


class LeftOut(NoAnswer):
    """What would be read lies on the bench in this state."""

    code = "state.leaves out"

    def __init__(self, part: str, state: str) -> None:
        super().__init__(
            f"'{part}' is left out in state '{state}'",
            f"take it out of left out, or read this in another state than {state}",
        )


class FarOut(NoAnswer):
    """What stops a part lies so far off that one of the sizes is a slip."""

    code = "line.far out"


class NoRest(NoAnswer):
    """The parts of a line are pressed so hard that no place of rest was found."""

    code = "line.unsettled"

    def __init__(self, line: str) -> None:
        super().__init__(
            f"the parts of '{line}' push each other harder than can be worked out",
            "look for a fit, a torque or a size that is far out, such as one in the other unit",
        )


class NotYet(Exception):
    """A line that gives cannot be brought to rest while sizes of it are not known.

    Attributes
    ----------
    lacking
        Their keys.
    """

    def __init__(self, lacking: frozenset[str]) -> None:
        super().__init__(f"not known: {', '.join(sorted(lacking))}")
        self.lacking = lacking


@dataclass(frozen=True, slots=True)
class Bench:
    """A unit in the state in which a check is read, and the line along which it is read."""

    rebuild: Rebuild
    sample: Sample
    put: Fitted
    line: Line
    net: Network
    begin: Held | None = None

    @property
    def lacking(self) -> frozenset[str]:
        """Keys of what is neither known of the line nor assumed."""
        every = (layout.lacking for layout in self.net.layouts.values())
        return frozenset().union(*every) - {*self.put.assumed}

    @property
    def left_out(self) -> frozenset[str]:
        """Parts that are not fitted."""
        return self.put.now.left_out

    def along(self, line: Line) -> "Bench":
        """Look along another line of the same unit."""
        return lay_on(self.rebuild, self.sample, self.put, line)

    def at_rest(self, pushes: Mapping[str, Array], start: Held | None = None) -> Held:
        """Bring the line to rest; what runs away is told by the name of its part."""
        if self.lacking:
            raise NotYet(self.lacking)
        key = ("rest", self.line.name, mark_of(self.put, self.line), digest(pushes))
        return self.sample.latest(key, lambda: self._held(pushes, start))

    def _held(self, pushes: Mapping[str, Array], start: Held | None) -> Held:
        start = start or (self.at_rest({}) if pushes else self.begin)
        loads = {**pushes}
        for name, weight in self._weights().items():
            loads[name] = loads.get(name, 0.0) + weight
        try:
            return hold(self.net, loads, start)
        except Stray as stray:
            raise _astray(self, stray, pushes) from stray
        except Unsettled as unsettled:
            raise NoRest(self.line.name) from unsettled

    def _weights(self) -> dict[str, Array]:
        """Give what each shaft of an upright line weighs along it."""
        found = {}
        for name in {c.before for c in self.net.contacts} | {c.after for c in self.net.contacts}:
            part = self.rebuild.parts.get(name)
            if isinstance(part, Shaft) and part.weight:
                way = 1.0 if part.weighs_towards == self.line.last else -1.0
                found[name] = full(self.sample.draws, way * part.weight.si)
        return found

    def push(self, check: str, told: Quantity | None) -> Array:
        """Draw a push by hand, as far as hands keep to it [N], shape (n,)."""
        force = full(self.sample.draws, told.si if told else PUSH)
        drawn: Array = force * (1 + PUSH_SPREAD * self.sample.draws.flat("checks", check, "push"))
        return drawn


def _astray(bench: Bench, stray: Stray, pushes: Mapping[str, Array]) -> NoAnswer:
    """Tell a part that nothing stops from one whose stop the sizes put far off."""
    pushed = sorted(stray.bodies, key=lambda body: body not in pushes)
    rooms = {body: room(bench.net.closed, body, bench.net.case) for body in pushed}
    middles = {body: float(np.mean(left)) for body, left in rooms.items() if left is not None}
    asked = [body for body in pushed if body in pushes] or pushed
    for body in asked:
        if body not in middles:
            return NothingStops(owner(body))
    return _far_out(bench, owner(asked[0]), middles[asked[0]])


def _far_out(bench: Bench, part: str, left: float) -> FarOut:
    """Say how far off what stops a part is."""
    named = f"'{bench.line.name}'"
    slip = "look for a size or pack in the other unit, a minus left out or put in"
    if left > FAR:
        return FarOut(f"the sizes leave '{part}' {spelled(left, bench.rebuild)} to run", slip)
    if left < -FAR:
        over = spelled(-left, bench.rebuild)
        return FarOut(f"the parts of {named} are {over} too long for their room", slip)
    return FarOut(
        f"'{part}' is pushed so hard that it goes further than {spelled(FAR, bench.rebuild)}",
        "look for a force, torque or weight that is far out, or for a cover typed too thin",
    )


def mark_of(put: Fitted, line: Line) -> str:
    """Tell how one line is put together from another way by a digest of all that makes it up.

    Parameters
    ----------
    put
        Packs and state [fitted]
    line
        The line, whose packs alone count [line]

    Returns
    -------
    mark
        The same for the same draws, sizes and state [text]

    Valid
    -----
    Any state.

    Source
    ------
    As `states.digest`.

    Examples
    --------
    >>> from dryfit.solve.states import COLD
    >>> from dryfit.model.rebuild import Stack
    >>> from dryfit.model.spots import Spot
    >>> stack = Stack("on the shaft", (Spot("shim", "first end"),))
    >>> line = Line("spindle", "nose", "tail", (stack,))
    >>> one, other = (Fitted({}, COLD, {"shim": extra}, {}) for extra in (0.0, 1e-6))
    >>> mark_of(one, line) == mark_of(other, line)
    False
    """
    now = put.now
    words = [*sorted(now.left_out), now.screws, now.nuts, *_told(put.assumed)]
    words += [f"{name} {size.text}" for name, size in sorted(now.fitted.items())]
    here = {spot.part for stack in line.stacks for spot in stack.spots}
    packs = {name: pack for name, pack in put.packs.items() if name in here}
    extra = {n: np.asarray(more) for n, more in put.extra.items() if owner(n.split(".")[0]) in here}
    return digest(packs, extra, now.growth, now.rises, words="\x1f".join(words))


def _told(values: Mapping[str, float]) -> list[str]:
    return [f"{name} {value!r}" for name, value in sorted(values.items())]


def lay_on(rebuild: Rebuild, sample: Sample, put: Fitted, line: Line) -> Bench:
    """Put a unit together and look along one of its lines.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    sample
        True sizes [m], shape (n,) each
    put
        Packs and state [fitted]
    line
        One of its lines [line]

    Returns
    -------
    bench
        The unit in that state; what grips sits where the cold build left it [bench]

    Raises
    ------
    NoAnswer
        A body that nothing stops, or nothing near.
    NotYet
        Sizes of a line that gives are not known.

    Valid
    -----
    As `network` and `replay`.

    Source
    ------
    None needed.

    Examples
    --------
    See tests/solve/test_replay.py for worked units.

    >>> PUSH
    50.0
    """
    mark = mark_of(put, line)
    net = sample.latest(("laid", line.name, mark), lambda: network(rebuild, line, sample, put))
    bench = Bench(rebuild, sample, put, line, net)
    if net.gives and bench.lacking:
        raise NotYet(bench.lacking)
    if net.grips:
        key = ("built", line.name, mark_of(put.cold, line))
        try:
            cold = sample.latest(key, lambda: built(network(rebuild, line, sample, put.cold)))
        except Stray as stray:
            raise _astray(bench, stray, {}) from stray
        except Unsettled as unsettled:
            raise NoRest(line.name) from unsettled
        warm = put.now.growth
        sits = {
            body: cold.sits[body] * warm.get(host, 1.0)
            for body, host in [(g.body, g.host) for g in net.grips if g.body in cold.sits]
        }
        bench = replace(bench, net=with_grips(net, sits), begin=cold.held)
    return bench
