"""What is pressed harder than it bears: rings on their seats, threads, rows against each other."""

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from dryfit.mechanics.preload import PRELOAD_CLASSES, preload_share
from dryfit.mechanics.ratings import (
    dynamic_factor,
    dynamic_rating,
    dynamic_thrust_factor,
    dynamic_thrust_rating,
)
from dryfit.mechanics.threads import thread, thread_size
from dryfit.model.parts import Bearing, Nut
from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Finding, Size
from dryfit.quantities.rounding import two_figures
from dryfit.solve.benchtop import Bench, NoAnswer, NotYet, lay_on
from dryfit.solve.elastic import Held
from dryfit.solve.growth import tight
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.rings import INNER, OUTER, on_rings, owner, ring
from dryfit.solve.rows import Inside
from dryfit.solve.sample import Sample, sample
from dryfit.solve.seats import seats
from dryfit.solve.sizes import metres
from dryfit.solve.spelled import spelled
from dryfit.solve.states import COLD, Fitted
from dryfit.solve.threads import clamp_force
from dryfit.solve.turning import row_force

TIGHTEST = 1 / 500
"""Share of its diameter by which no ring is pressed: common practice keeps to half of that."""

YIELDS = 300e6
"""Stress that shafts of plain steel bear in their thread: estimate [Pa]."""

HARMFUL = PRELOAD_CLASSES[-2].up_to
"""Sum of the ball loads over the dynamic rating beyond which a preload does harm [-]."""

BARELY, WORDS_FAIL = 1.5, 10.0
"""Below the one and beyond the other the figure says nothing more [-]."""

FREE = np.radians(15.0)
"""Contact angle of a deep groove row under a heavy push: estimate [rad]."""

ROLLERS = 4.0
"""A roller carries so many times what a ball of its diameter does: estimate, on the mild side."""


def press_doubts(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what is pressed harder than it bears; all of it notes.

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
    Limits are common practice or estimates; see `TIGHTEST`, `YIELDS`, `HARMFUL`.

    Examples
    --------
    >>> press_doubts(Rebuild("mm"))
    ()
    """
    drawn = sample(rebuild, NoLuck())
    told: dict[tuple[object, ...], Finding] = {}
    for line in rebuild.lines.values():
        for finding in (*_rings(rebuild, line, drawn), *_rows(rebuild, line, drawn)):
            told.setdefault((finding.code, finding.place), finding)
    return (*told.values(), *_nuts(rebuild))


def _rings(rebuild: Rebuild, line: Line, drawn: Sample) -> Iterator[Finding]:
    """Tell rings that would crack, or be squeezed, by what their seat is too large."""
    stacks = [on_rings(rebuild, stack.spots) for stack in line.stacks]
    sits = seats(rebuild, stacks)
    for name in dict.fromkeys(owner(spot.part) for spots in stacks for spot in spots):
        part = rebuild.parts[name]
        if not isinstance(part, Bearing):
            continue
        for field, own, side in (("seat", part.bore, INNER), ("pocket", part.outside, OUTER)):
            if not isinstance(own, Size):
                continue
            host = sits.get(ring(name, side), "")
            over = float(tight(rebuild, part, drawn.draws, field, host)[0])
            if over > TIGHTEST * metres(own):
                yield _tight(rebuild, part, field, over)


def _tight(rebuild: Rebuild, part: Bearing, field: str, over: float) -> Finding:
    own, at = (part.bore, "on") if field == "seat" else (part.outside, "in")
    most = spelled(TIGHTEST * metres(own), rebuild) if isinstance(own, Size) else ""
    named = getattr(part, field) is not None
    return Finding(
        "bearing.tight",
        ("parts", part.name, field) if named else ("parts", part.name),
        f"'{part.name}' would be {spelled(over, rebuild)} tight {at} its {field}; a ring of its "
        f"size bears no more than {most}: it cracks, or its row is nipped",
        f"measure the {field} and the ring again",
        "note",
    )


def _nuts(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell nuts that pull harder than their thread bears."""
    for name, part in rebuild.parts.items():
        if not isinstance(part, Nut) or part.torque is None or not part.thread:
            continue
        size = thread_size(part.thread)
        area = float(thread(size.diameter, size.pitch, size.form).stress_area)
        force = float(clamp_force(rebuild, part, NoLuck())[0])
        if force > YIELDS * area:
            yield Finding(
                "nut.overdone",
                ("parts", name, "torque"),
                f"{part.torque.text} on {part.thread} pull with about {two_figures(force)} N; from "
                f"{two_figures(YIELDS * area)} N on a steel shaft stretches for good (estimate)",
                "look at the figure and its unit: N.m, lbf.ft or lbf.in?",
                "note",
            )


def _rows(rebuild: Rebuild, line: Line, drawn: Sample) -> Iterator[Finding]:
    """Tell rows that are pressed against each other so hard that it does harm."""
    fitted = {name: setting.fitted for name, setting in rebuild.settings.items()}
    here = {spot.part for stack in line.stacks for spot in stack.spots}
    if any(fitted[name] is None for name in here & set(fitted)):
        return  # with a pack still to choose nothing is known to be tight
    packs = {name: full(drawn.draws, metres(s) if s else 0.0) for name, s in fitted.items()}
    try:
        bench = lay_on(rebuild, drawn, Fitted(packs, COLD, {}, {}), line)
        if not bench.net.gives:
            return
        still = bench.at_rest({})
    except (NoAnswer, NotYet):
        return  # told by what is read along the line, or not to be said yet
    for name in dict.fromkeys(owner(c.before) for c in still.contacts if _is_row(c)):
        bears = BEARS.get(rebuild.parts[name].kind)
        if bears is None:
            continue
        force = float(row_force(still, name)[0])
        share = bears(bench, still, name, force)
        if share > HARMFUL:
            times = share / HARMFUL
            much = f"{two_figures(times)} times" if times < WORDS_FAIL else "far more than"
            much = much if times > BARELY else "more than"
            yield Finding(
                "row.harmful",
                ("parts", name),
                f"'{name}' is pressed by {two_figures(force)} N with nothing pushing on the shaft: "
                f"{much} what does harm to its row (common practice, no source)",
                "do not run it so: look for a spacer, shim, fit or setting that is out",
                "note",
            )


def _is_row(contact: Any) -> bool:
    """Tell a row, between the rings of one bearing, from other contacts."""
    return owner(contact.before) == owner(contact.after)


Share = Callable[[Bench, Held, str, float], float]


def _balls(of_a_ball: float = 1.0) -> Share:
    """Give the share of a row that leans."""

    def share(bench: Bench, still: Held, name: str, force: float) -> float:
        inside: Inside = bench.sample.others[("filled", name)]
        own = [c.law for c in still.contacts if _is_row(c) and owner(c.before) == name and c.law]
        angle = next((law.arguments["angle"] for law in own if "angle" in law.arguments), FREE)
        ball, pitch, count = (float(x[0]) for x in (inside.ball, inside.pitch, inside.count))
        leans = float(np.clip(np.mean(angle), FREE / 2, np.pi / 2 - 0.2))
        lean = float(np.clip(ball * np.cos(leans) / pitch, 0.01, 0.4))
        rating = of_a_ball * dynamic_rating(dynamic_factor(lean), ball, count, angle=leans)
        return float(preload_share(force, leans, rating))

    return share


def _flat(bench: Bench, _: Held, name: str, force: float) -> float:
    """Give the share of a row of thrust balls."""
    inside: Inside = bench.sample.others[("filled", name)]
    ball, pitch, count = (float(x[0]) for x in (inside.ball, inside.pitch, inside.count))
    lean = float(np.clip(ball / pitch, 0.01, 0.2))
    rating = dynamic_thrust_rating(dynamic_thrust_factor(lean), ball, count)
    return float(preload_share(force, np.pi / 2, rating))


BEARS: dict[str, Share] = {
    "angular contact ball": _balls(),
    "deep groove ball": _balls(),
    "two-row ball": _balls(),
    "thrust ball": _flat,
    "taper roller": _balls(ROLLERS),
}
"""Preload over the rating of a row, by kind of bearing."""
