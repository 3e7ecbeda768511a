"""A nut that adjusts on the sheet: what the dial shows when it is set, and how far to turn it."""

from dryfit.app.usecases.choose import NutAnswer, RouteAnswer, SettingAnswer
from dryfit.app.words.figures import Figures, in_hundred
from dryfit.app.words.said import Said, head, indented

FINE = 0.0005
"""Floats to which a nut is set are shown to half of this [mm]."""

THERE = 1.0
"""Nobody turns a nut by less [deg]: estimate."""


def set_nut(one: SettingAnswer, nut: NutAnswer, show: Figures) -> list[Said]:
    """Say how to set it, from where, and which way it works."""
    lines = head(f"Set: {one.part}")
    route = next((r for r in one.routes if r.name == one.route), None)
    lines += indented(_advice(one, nut, route, show), hang=2)
    if one.fitted_mm is not None:
        now = show.length(one.fitted_mm, FINE)
        lines += indented(f"in now: a float of {now}{_turn(nut)}", hang=2)
    if nut.locking_mm:
        lines += indented(
            "do the lock nut up each time before you read: it takes about "
            f"{show.length(nut.locking_mm, FINE)} out of the float, each time as much",
            hang=2,
        )
    else:
        lines += indented("hold it while it is locked, and read again: a nut is easily dragged on")
    lines += indented(one.thicker, hang=2) if one.thicker else []
    return lines


def _advice(one: SettingAnswer, nut: NutAnswer, route: RouteAnswer | None, show: Figures) -> str:
    to = stands(nut.to_mm, show)
    if route is not None and route.name == "walk to nothing":
        return f"walk it to nothing, and {_past(nut)}: {to}"
    if nut.shown_mm is None:
        return to
    by = f" by {route.by}" if route else ""
    shown = f"turn it until the dial shows {show.length(nut.shown_mm, FINE)}{by}: {to}"
    yields = nut.shown_mm - max(nut.to_mm, 0.0) > FINE
    return f"{shown}, and the rest is what the rows yield under the push" if yields else shown


def stands(to: float, show: Figures) -> str:
    """Say to what a nut is set [mm]: a float, nothing, or beyond it."""
    if abs(to) < FINE:
        return "just no float"
    return f"{show.length(abs(to), FINE)} of {'float' if to > 0 else 'nip'}"


def _turn(nut: NutAnswer) -> str:
    """Say how far to turn it from where it is."""
    if nut.tighten_deg is None:
        return ""
    if abs(nut.tighten_deg) < THERE:
        return "; it is there, as near as a nut can be set"
    way = "tighten" if nut.tighten_deg > 0 else "slacken"
    return f"; {way} it by about {abs(nut.tighten_deg):.0f} degrees, and read"


def _past(nut: NutAnswer) -> str:
    """Say how far beyond where the float ends."""
    if nut.past_deg is None or abs(nut.past_deg) < THERE:
        return "stop there"
    if nut.past_deg > 0:
        return f"tighten it {nut.past_deg:.0f} degrees past that"
    return f"stop {-nut.past_deg:.0f} degrees short of that"


def nut_routes(one: SettingAnswer, nut: NutAnswer, show: Figures) -> list[Said]:
    """List the ways to set it with the chance of each."""
    told = [r for r in one.routes if r.name in TOLD]
    lines = [line for route in told for line in nut_route_words(one, nut, route, show)]
    return [*head(f"Ways to set {one.part}"), *lines]


def nut_route_words(
    one: SettingAnswer, nut: NutAnswer, route: RouteAnswer, show: Figures
) -> list[Said]:
    """Say how likely one way is to come right, and how it is gone."""
    name = TOLD[route.name]
    if route.chance is None:
        return indented(f"{name}: cannot be gone; {route.why_not}", hang=2)
    mark = "  <- take this one" if route.name == one.route else ""
    return indented(f"{name}: {in_hundred(route.chance)}{mark}") + _how(route, nut, show)


TOLD = {"read it, then correct": "by the float you read", "walk to nothing": "walk to nothing"}


def _how(route: RouteAnswer, nut: NutAnswer, show: Figures) -> list[Said]:
    if route.name == "walk to nothing":
        floats = ", ".join(show.bare(t) for t in route.trials_mm)
        return indented(
            f"read the float at three marks of the nut, at about {floats}; see where their line "
            f"has nothing (dryfit walk, or walks: in the text); {_past(nut)}",
            by=4,
            hang=2,
        )
    lines = indented(
        "read the float, turn the nut by what is too much, turn the shaft, and read again", by=4
    )
    if route.reading_mm:
        low, _, high = route.reading_mm
        lines += indented(f"when it is right it may show {show.band(low, high)}", by=4)
    return lines
