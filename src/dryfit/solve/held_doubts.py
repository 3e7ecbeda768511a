"""What arithmetic finds wrong in how shafts are held: open ends, two fixed ends, solid springs."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from dryfit.mechanics.springs import spring_force
from dryfit.model.parts import SpringWasher
from dryfit.model.rebuild import EndFloat, Line, Rebuild
from dryfit.quantities import Finding, Size
from dryfit.quantities.rounding import two_figures
from dryfit.solve.benchtop import NoAnswer, NothingStops, NotYet, lay_on
from dryfit.solve.bodies import BODIES
from dryfit.solve.elastic import Held
from dryfit.solve.luck import Luck, NoLuck, full
from dryfit.solve.network import Network, floating, network
from dryfit.solve.predict import predict
from dryfit.solve.rigid import room
from dryfit.solve.rings import INNER, OUTER, owner, ring
from dryfit.solve.sample import Sample, sample
from dryfit.solve.sizes import metres
from dryfit.solve.spelled import spelled
from dryfit.solve.states import COLD, Fitted

SLACK = 5e-6
"""An outer ring with no more room than this is held both ways [m]."""

TOUCHED = 1e-6
"""A spring pressed by less pushes nothing [m]."""

NEARLY = 0.98
"""A spring pressed by this share of its travel is taken as solid [-]."""


def held_doubts(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what is doubtful in how shafts are held; all of it notes.

    Parameters
    ----------
    rebuild
        A unit that keeps the rules of `model.rules` [rebuild]

    Returns
    -------
    findings
        All of them, with their places [findings]

    Valid
    -----
    References that hold, known threads; see `line_doubts`.

    Source
    ------
    None needed.

    Examples
    --------
    >>> held_doubts(Rebuild("mm"))
    ()
    """
    drawn = sample(rebuild, NoLuck())
    return tuple(
        finding for line in rebuild.lines.values() for finding in _line(rebuild, line, drawn)
    )


def _line(rebuild: Rebuild, line: Line, drawn: Sample) -> Iterator[Finding]:
    """Look at one line."""
    parts = dict.fromkeys(s.part for stack in line.stacks for s in stack.spots)
    if not floating(rebuild) & set(parts):
        yield Finding(
            "line.no shaft",
            ("lines", line.name),
            f"no shaft or cluster lies in '{line.name}', so nothing floats along it",
            "put its shaft into a stack, with kind: shaft",
            "note",
        )
    yield from _open_shafts(rebuild, parts, drawn)
    fitted = {name: setting.fitted for name, setting in rebuild.settings.items()}
    if any(fitted[name] is None for name in parts if name in fitted):
        return  # with a pack still to choose nothing is known to be tight
    packs = {n: full(drawn.draws, metres(s) if s else 0.0) for n, s in fitted.items()}
    put = Fitted(packs, COLD, {}, {})
    yield from _not_home(rebuild, line, put)
    springs = [name for name in parts if isinstance(rebuild.parts[name], SpringWasher)]
    if springs:
        yield from _springs(rebuild, line, drawn, put)
    else:
        yield from _two_fixed(line, network(rebuild, line, drawn, put))


def _open_shafts(rebuild: Rebuild, parts: dict[str, None], drawn: Sample) -> Iterator[Finding]:
    """Tell each shaft that runs out, if no check says so already."""
    asked = {
        getattr(one, "of", "")
        for group in (rebuild.needs, rebuild.checks)
        for one in group.values()
    }
    packs = {name: full(drawn.draws, 0.0) for name in rebuild.settings}
    for name in parts:
        if not BODIES[rebuild.parts[name].kind].floats or name in asked:
            continue
        try:
            predict(rebuild, EndFloat(name, "end float", of=name), drawn, packs=packs)
        except NothingStops as open_end:
            yield Finding(
                "shaft.open end",
                ("parts", name),
                f"{open_end}: '{name}' can run out of its line",
                "add the stack that stops it, or leave it so if its gears or coupling hold it",
                "note",
            )
        except NoAnswer:
            continue  # told by the checks of the line


def _two_fixed(line: Line, net: Network) -> Iterator[Finding]:
    """Tell two bearings that both hold the shaft both ways with no gap."""
    if any(layout.lacking for layout in net.layouts.values()):
        return
    bearings = dict.fromkeys(owner(body) for body in net.layouts if body != owner(body))
    fixed = [name for name in bearings if _is_fixed(net, name)]
    if len(fixed) > 1:
        yield Finding(
            "line.two fixed",
            ("lines", line.name),
            f"'{fixed[0]}' and '{fixed[1]}' each hold the shaft both ways, and no spring or gap "
            "gives: their sizes alone decide whether it is nipped, and warm it is nipped more",
            "leave a gap beside one outer ring, or put a spring washer there",
            "note",
        )


def _is_fixed(net: Network, bearing: str) -> bool:
    """Tell whether a bearing stops both ways, with both its rings held both ways."""
    inner, outer = ring(bearing, INNER), ring(bearing, OUTER)
    rows = {(c.before, c.after) for c in net.contacts if owner(c.before) == owner(c.after)}
    others = [c for c in net.closed if owner(c.before) != owner(c.after)]
    ways = {(inner, outer), (outer, inner)}
    held = all(
        any(c.before == body for c in others) and any(c.after == body for c in others)
        for body in (inner, outer)
    )
    slack = room(others, outer, net.case)
    return ways <= rows and held and slack is not None and float(np.min(slack)) <= SLACK


def _springs(rebuild: Rebuild, line: Line, drawn: Sample, put: Fitted) -> Iterator[Finding]:
    """Look at each spring when all is built."""
    try:
        held = lay_on(rebuild, drawn, put, line).at_rest({})
    except (NoAnswer, NotYet):
        return  # told by the checks of the line, or not to be said yet
    for contact in held.contacts:
        part = rebuild.parts.get(contact.before)
        if isinstance(part, SpringWasher) and contact.law and contact.law.formula is spring_force:
            pressed = float(np.mean(contact.length - held.distance(contact)))
            travel = float(np.mean(contact.law.arguments["travel"]))
            left = room(held.net.closed, part.name, held.net.case)
            clear = -pressed if left is None else float(np.mean(left))
            yield from _spring(rebuild, part, (pressed, clear, travel))
            push = float(np.mean(held.force(contact.before, contact.after)))
            yield from _stuck(held, part.name, push)


def _not_home(rebuild: Rebuild, line: Line, put: Fitted) -> Iterator[Finding]:
    """Tell a ring that stopped short of its shoulder, and that nothing then brings home."""
    if not any(
        getattr(rebuild.parts.get(spot.part), "pressed_with", None)
        or getattr(rebuild.parts.get(spot.part), "fitted_hot_by", None)
        for stack in line.stacks
        for spot in stack.spots
    ):
        return
    drawn = sample(rebuild, Luck(FEW))
    packs = {name: full(drawn.draws, float(pack[0])) for name, pack in put.packs.items()}
    try:
        held = lay_on(rebuild, drawn, replace(put, packs=packs), line).at_rest({})
    except (NoAnswer, NotYet):
        return
    for grip in held.net.grips:
        gaps = [
            np.maximum(held.distance(c) - c.length, 0.0)
            for c in held.net.closed
            if {c.before, c.after} == {grip.host, grip.body}
        ]
        gap = float(np.quantile(np.min(gaps, axis=0), 0.95)) if gaps else 0.0
        if gap > HOME and float(np.max(grip.short)) > HOME:
            yield Finding(
                "ring.not home",
                ("parts", owner(grip.body)),
                f"'{owner(grip.body)}' may stand {spelled(gap, rebuild)} off its shoulder: it "
                f"grips with some {two_figures(float(np.median(grip.limit)))} N, and what pulls "
                "it home pulls less",
                "press it home, or hold it up until it is cold; then look with the thinnest feeler",
                "note",
            )


HOME = 3e-6
"""A ring so near to its shoulder is home [m]: estimate."""

FEW = 200
"""Draws to look at a ring with."""


def _stuck(held: Held, spring: str, push: float) -> Iterator[Finding]:
    """Tell a ring that grips its seat or pocket harder than the spring behind it pushes."""
    for contact in held.net.closed:
        ends = {contact.before, contact.after}
        if spring not in ends:
            continue
        for grip in held.net.grips:
            if grip.body in ends and (limit := float(np.mean(grip.limit))) > max(push, STUCK):
                yield Finding(
                    "ring.stuck",
                    ("parts", owner(grip.body)),
                    f"'{owner(grip.body)}' grips '{grip.host}' with {two_figures(limit)} N, and "
                    f"'{spring}' pushes with {two_figures(push)} N: it cannot slide as it should",
                    "open its pocket, or take down its seat, to a sliding fit; warm, it forces "
                    "what the shaft grows into the other bearings",
                    "note",
                )


STUCK = 30.0
"""A ring that holds less slides by hand: estimate [N]."""


def _spring(
    rebuild: Rebuild, part: SpringWasher, lengths: tuple[float, float, float]
) -> Iterator[Finding]:
    """Tell a spring that is flat, or not touched."""
    pressed, clear, travel = lengths
    if pressed < TOUCHED:
        yield Finding(
            "spring.loose",
            ("parts", part.name),
            f"'{part.name}' has {spelled(clear, rebuild)} more room than it is high: it pushes "
            "nothing",
            "put a shim behind it, or fit a higher one",
            "note",
        )
    elif isinstance(part.solid, Size) and pressed > NEARLY * travel:
        short = -clear - travel
        lacks = f", with {spelled(short, rebuild)} less room than that" if short > TOUCHED else ""
        yield Finding(
            "spring.solid",
            ("parts", part.name),
            f"'{part.name}' is pressed solid, to {part.solid.text}{lacks}: it holds the ring fast",
            "give it room: a thinner shim behind it, or a spigot that reaches in less",
            "note",
        )
