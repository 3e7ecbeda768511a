"""What is pressed harder than it bears: rings on their seats, threads, rows against each other."""

from collections.abc import Iterator
from math import inf

from dryfit.mechanics.materials import MATERIALS
from dryfit.mechanics.press import rise_to_slip_on
from dryfit.mechanics.threads import thread, thread_size
from dryfit.model.parts import Bearing, Nut
from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Finding, Size
from dryfit.quantities.rounding import two_figures
from dryfit.solve.benchtop import NoAnswer, NotYet, lay_on
from dryfit.solve.growth import tight
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.preloads import carried
from dryfit.solve.rings import INNER, OUTER, on_rings, owner, ring
from dryfit.solve.sample import Sample, sample
from dryfit.solve.seats import seats
from dryfit.solve.sizes import metres
from dryfit.solve.spelled import spelled
from dryfit.solve.states import COLD, Fitted
from dryfit.solve.threads import clamp_force

TIGHTEST = 1 / 500
"""Share of its diameter by which no ring is pressed: common practice keeps to half of that."""

YIELDS = 300e6
"""Stress that shafts of plain steel bear in their thread: estimate [Pa]."""

BARELY, WORDS_FAIL = 1.5, 10.0
"""Below the one and beyond the other the figure says nothing more [-]."""


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
    Limits are common practice or estimates; see `TIGHTEST`, `YIELDS` and `solve.preloads`.

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
            opens = _opens(part, own) if side == INNER else over
            if opens < over:
                yield _too_cool(rebuild, part, own, (opens, over))


def _opens(part: Bearing, bore: Size) -> float:
    """Say by how much a bore opens as warm as it was fitted; without end where it was not [m]."""
    rise = part.fitted_hot_by
    return MATERIALS["steel"].expansion * rise.si * metres(bore) if rise else inf


def _too_cool(rebuild: Rebuild, part: Bearing, bore: Size, sizes: tuple[float, float]) -> Finding:
    """Tell a ring whose heat does not open it as far as it is tight."""
    opens, over = sizes
    lacks = float(rise_to_slip_on(over - opens, metres(bore), MATERIALS["steel"].expansion))
    told = part.fitted_hot_by.text if part.fitted_hot_by else ""
    return Finding(
        "ring.too cool",
        ("parts", part.name, "fitted hot by"),
        f"fitted hot by {told} '{part.name}' opens by {spelled(opens, rebuild, fine=True)}, and it "
        f"is {spelled(over, rebuild, fine=True)} tight: heat alone does not get it on",
        f"press it home as well, or cool the shaft by {two_figures(lacks)} K and some more for "
        "play; or measure the seat again",
        "note",
    )


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
    for row in carried(bench, still):
        times = float(row.strain[0])
        if times > 1:
            much = f"{two_figures(times)} times" if times < WORDS_FAIL else "far more than"
            much = much if times > BARELY else "more than"
            force = two_figures(float(abs(row.force[0])))
            yield Finding(
                "row.harmful",
                ("parts", row.bearing),
                f"'{row.bearing}' is pressed by {force} N with nothing pushing on the shaft: "
                f"{much} what does harm to its row (common practice, no source)",
                "do not run it so: look for a spacer, shim, fit or setting that is out",
                "note",
            )
