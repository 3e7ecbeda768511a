"""The routes to a pack on the sheet, each with its chance and its sum for a pencil."""

from dryfit.app.usecases.choose import RouteAnswer, SettingAnswer
from dryfit.app.words.figures import AS_TYPED, Figures, in_hundred
from dryfit.app.words.said import Said, head, indented


def routes(one: SettingAnswer, show: Figures) -> list[Said]:
    """List the routes to the pack with the chance of each."""
    if not one.routes:
        return []
    told = [line for route in one.routes for line in route_words(one, route, show)]
    return [*head(f"Routes to {one.part}"), *told]


def route_words(one: SettingAnswer, route: RouteAnswer, show: Figures) -> list[Said]:
    """Say how likely one route is to come right, and how it is gone."""
    if route.chance is None:
        return indented(f"{route.name}: cannot be gone; {route.why_not}", hang=2)
    take = "the best there is, and not good enough" if hopeless(route) else "take this one"
    mark = f"  <- {take}" if route.name == one.route else ""
    lines = indented(f"{route.name}: {in_hundred(route.chance)}{mark}")
    if route.harm >= BINDS_OFTEN:
        lines += indented(f"but it binds in {in_hundred(route.harm)}", by=4)
    return lines + how_words(one, route, show)


BINDS_OFTEN = 0.02

HOPELESS = 0.005
"""What comes right less often is no advice, only the least bad."""


def hopeless(route: RouteAnswer | None) -> bool:
    """Tell a route that as good as never comes right."""
    return route is not None and route.chance is not None and route.chance < HOPELESS


def how_words(one: SettingAnswer, route: RouteAnswer, show: Figures) -> list[Said]:
    """Say how a route from a reading is gone, with its sum for a pencil."""
    if not route.check:
        return []
    sign = "+" if route.sign > 0 else "-"
    offset = " ".join(offset_words(route, show))
    if route.name == "difference":
        start = f"what was in, {show.bare(route.trial_mm)}"
        text = f"{one.part} = {start} {offset} {sign} the float read before the strip"
    else:
        bare = (*route.left_out, *([one.part] if not route.trial_mm else ()))
        out = list(dict.fromkeys(bare))
        left = f"leave out {' and '.join(out)}; " if out else ""
        fit = _trial(one, route, show) if route.trial_mm else ""
        what = READ.get(route.kind, "gap")
        where = f"read the {what} at {route.at} by {route.by}"
        rule = (
            f"what you fitted {offset} {sign} {factor(route)}{what}" if fit else f"{what} {offset}"
        )
        text = f"{left}{fit}{where}; {one.part} = {rule}"
        if route.trials_mm:
            packs = ", ".join(show.bare(t) for t in route.trials_mm)
            text = (
                f"fit {packs} of {one.part} one after the other, and read the float with each; "
                f"they lie on a line, {show.bare(STEP)} of pack to {show.bare(STEP)} of float; "
                f"{one.part} = first pack {offset} {sign} float that the line has there"
            )
    lines = indented(text, by=4, hang=2)
    if route.reading_mm:
        low, _, high = route.reading_mm
        lines += indented(f"it should read {show.band(low, high)}", by=4)
    if route.taken_mm is not None and route.pack is not None:
        made = show.length(route.pack.thickness_mm)
        lines += indented(f"you read {show.length(route.taken_mm)}: {made}", by=4)
    if route.quarrel_mm:
        lines += indented(
            f"Your sizes and this reading quarrel by {show.length(abs(route.quarrel_mm))}: one of "
            "them is wrong. Find out which before you close it.",
            by=4,
        )
    return lines


def offset_words(route: RouteAnswer, show: Figures) -> tuple[str, str]:
    """Give what is added to a reading: its sign and its size."""
    fine = FINE if abs(route.offset_mm) < SMALL else AS_TYPED
    return "+" if route.offset_mm >= 0 else "-", show.bare(abs(route.offset_mm), fine)


def factor(route: RouteAnswer) -> str:
    """Say how many times a reading counts, if not once."""
    return "" if abs(abs(route.sign) - 1) < 0.005 else f"{abs(route.sign):.2f} x "


SMALL, FINE = 0.05, 0.004
"""An offset below the one [mm] is a nip, which counts in thousandths: shown to half the other."""

READ = {"end float": "float", "backlash": "lash"}
"""What is read, by kind of check; else it is a gap."""

STEP = 0.05
"""Packs of a walk differ by so much [mm]."""


def _trial(one: SettingAnswer, route: RouteAnswer, show: Figures) -> str:
    """Say what to fit so that a gap stays open."""
    if route.reading_mm is None:
        return f"fit so much of {one.part} that the cover stands off; "
    return f"fit {show.bare(route.trial_mm)} of {one.part}; "
