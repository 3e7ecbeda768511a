"""`walk`: floats read at marks of a nut or with packs, and where to stop; no document needed."""

from dataclasses import dataclass
from math import pi

from dryfit.app.usecases.walk_answers import (
    DoubtAnswer,
    EndAnswer,
    PointAnswer,
    SpotAnswer,
    WalkAnswer,
)
from dryfit.app.usecases.walk_slips import line_slips, order_slips, pitch_slip, unlike
from dryfit.app.usecases.walk_texts import (
    Slips,
    Typed,
    read_goals,
    read_length,
    read_one,
    read_pitch,
)
from dryfit.ask.lines import NINE_IN_TEN
from dryfit.ask.off_line import SURE, Doubt, pitches_that_fit
from dryfit.ask.walk import Goal, Spot, Walk, chance_within, slope_sign, walk
from dryfit.quantities import System, read_quantity
from dryfit.solve.sizes import metres

MM = 1e3


@dataclass(frozen=True)
class WalkRequest:
    """What was typed, as it was typed.

    Attributes
    ----------
    readings
        Each a mark, a colon and a float: `10 deg: 0.041`.
    system
        What a bare number means.
    pitch
        Of the nut; None where packs were changed.
    want, past
        The float to stop at, or the nip to go on to.
    across
        Diameter on which the marks of the nut are.
    push
        Force with which each reading was taken.
    """

    readings: tuple[str, ...]
    system: System = "mm"
    pitch: str | None = None
    want: str | None = None
    past: str | None = None
    across: str | None = None
    push: str | None = None


def walked(request: WalkRequest) -> WalkAnswer:
    """Answer a walk, or say all that is wrong with it."""
    slips = Slips()
    by = "pack" if request.pitch is None else "nut"
    unit = "mm" if by == "pack" else "deg"
    system, pack = request.system, by == "pack"
    tried = [
        read_one(f"reading {n}", text, system, pack, slips)
        for n, text in enumerate(request.readings, 1)
    ]
    typed = [one for one in tried if one is not None]
    goals = read_goals(request.want, request.past, system, slips)
    pitch = _option(slips, "--pitch", request.pitch, system)
    across = _option(slips, "--across", request.across, system)
    push = _push(slips, request.push)
    slips.extend(pitch_slip(request.pitch, pitch))
    slips.extend(order_slips(typed, len(request.readings), pack))
    empty = WalkAnswer(False, (), system, by, unit)
    if slips:
        return _stopped(empty, slips)
    slope = -pitch / 360 if pitch else float(slope_sign([t.reading for t in typed]))
    if not slope:
        slips.append(unlike("pack no fall", typed))
        return _stopped(empty, slips)
    goal = goals[0] if goals else None
    shared = max(one.shared for one in typed)
    found = walk([t.reading for t in typed], slope, goal=goal, push=push, shared=shared)
    slips.extend(line_slips(found, typed, pack))
    if slips:
        return _stopped(empty, slips)
    return walk_answer(empty, found, typed, slope=slope, pitch=pitch, across=across, goals=goals)


def _stopped(empty: WalkAnswer, slips: Slips) -> WalkAnswer:
    return WalkAnswer(False, tuple(slips), empty.system, empty.by, empty.unit)


def _option(slips: Slips, option: str, text: str | None, system: System) -> float | None:
    """Read the pitch or a diameter, which must be larger than nothing [m]."""
    if text is None:
        return None
    read = read_pitch if option == "--pitch" else (lambda t, s: metres(read_length(t, s)))
    size = slips.reading(option, text, lambda t: read(t, system))
    if size is not None and size <= 0:
        slips.add("walk.minus", option, f"{text.strip()!r} is not larger than 0", "type its size")
        return None
    return size


def _push(slips: Slips, text: str | None) -> float | None:
    """Read the push [N]."""
    if text is None:
        return None
    force = slips.reading("--push", text, lambda t: read_quantity(t, "force", box=True).si)
    if force is not None and force <= 0:
        slips.add("walk.minus", "--push", f"{text.strip()!r} is not larger than 0", "type a force")
        return None
    return force


def walk_answer(
    empty: WalkAnswer,
    found: Walk,
    typed: list[Typed],
    *,
    slope: float,
    pitch: float | None,
    across: float | None,
    goals: tuple[Goal, tuple[float, float]] | None,
) -> WalkAnswer:
    """Turn a walk into plain data."""
    scale = 1.0 if pitch else MM
    points = tuple(
        PointAnswer(
            t.mark_text,
            _round(t.reading.mark * scale),
            _round(t.reading.read * MM),
            _round(off * MM),
            place in found.looked.left_out,
        )
        for place, (t, off) in enumerate(zip(typed, found.off, strict=True))
    )

    def spot(one: Spot) -> SpotAnswer:
        rim = one.on / 360 * pi * across * MM if across and pitch else None
        at, low, high, on = (_round(m * scale) for m in (one.at, one.low, one.high, one.on))
        return SpotAnswer(at, low, high, on, None if rim is None else _round(rim))

    return WalkAnswer(
        True,
        (),
        empty.system,
        empty.by,
        empty.unit,
        _round(slope * MM / scale),
        points,
        found.checked,
        tuple(_doubt(d, found, typed, pitch) for d in found.doubts),
        spot(found.nothing),
        _round(found.own.where(0.0) * scale) if found.own.slope * slope > 0 else None,
        tuple(_round(y * MM) for y in found.yields),  # type: ignore[arg-type]
        _end(found, spot(found.goal), goals),
    )


def _end(
    found: Walk, spot: SpotAnswer, goals: tuple[Goal, tuple[float, float]] | None
) -> EndAnswer:
    """Say where to stop and what it comes to there."""
    goal, (low, high) = goals or (Goal("float", 0.0), (0.0, 0.0))
    half = NINE_IN_TEN * found.ends
    return EndAnswer(
        goal.sort if goals else "nothing",
        _round(low * MM),
        _round(goal.size * MM),
        _round(high * MM),
        spot,
        _round((goal.size - half) * MM),
        _round((goal.size + half) * MM),
        chance_within(goal.size, found.ends, low, high) if high > low else None,
    )


def _doubt(one: Doubt, found: Walk, typed: list[Typed], pitch: float | None) -> DoubtAnswer:
    """Tell one doubt."""
    at = "" if one.first is None else typed[one.first].mark_text
    if one.first is not None or one.off is None:
        return DoubtAnswer(
            one.trace, at, None if one.off is None else _round(one.off * MM), None, ()
        )
    own = found.own
    fits = pitches_that_fit(pitch * one.off, SURE * own.slope_error * 360) if pitch else ()
    return DoubtAnswer(one.trace, at, None, round(one.off, 3), fits)


def _round(value: float) -> float:
    """Give six decimals, and never a nought below nought."""
    return round(value, 6) + 0.0
