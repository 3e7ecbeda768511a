"""What to fit, where, why, and which way it works."""

from dryfit.app.usecases.choose import ChooseAnswer, RouteAnswer, SettingAnswer
from dryfit.app.usecases.written import WrittenWalkAnswer
from dryfit.app.words.figures import Figures
from dryfit.app.words.nuts import nut_routes, set_nut, stands
from dryfit.app.words.said import Said, head, indented, row
from dryfit.app.words.ways import READ, hopeless, routes
from dryfit.app.words.written import pieces
from dryfit.ask.packs import MOST_PIECES


def fit(one: SettingAnswer, answer: ChooseAnswer, show: Figures) -> list[Said]:
    """Say what to fit, where, why, and which way it works."""
    if one.nut is not None:
        return set_nut(one, one.nut, show)
    lines = head(f"Fit: {one.part}")
    lines += indented(advice(one, answer, show), hang=2)
    if one.fitted_mm is not None:
        lines += indented(f"in now: {show.length(one.fitted_mm)}")
    if any(one.between):
        lines += indented(f"lies between {one.between[0]} and {one.between[1]}")
    lines += _sum(one, show)
    lines += why_words(one, show)
    lines += indented(one.thicker, hang=2) if one.thicker else []
    return lines


def _idle(answer: ChooseAnswer, one: SettingAnswer) -> str:
    """Say why nothing can be said of a setting, where it has no route."""
    if any(found.code == "want.none" for found in answer.findings):
        return "moves nothing that is wanted: say under needs: what float is wanted"
    if not answer.wanted:
        return "cannot be said until what is noted above is put right"
    if not any(one.between):
        return "moves nothing that is wanted: put it into the stack where it belongs"
    names = ", ".join(f"'{wanted.need}'" for wanted in answer.wanted)
    return f"moves nothing that is wanted ({names}): take it out of the settings, or add a need"


def advice(one: SettingAnswer, answer: ChooseAnswer, show: Figures) -> str:
    """Say what to fit, what to do first, or why it moves nothing."""
    begun = [walk for walk in answer.walks if walk.part == one.part]
    return _advice(one, show, begun) or _idle(answer, one)


def _advice(one: SettingAnswer, show: Figures, begun: list[WrittenWalkAnswer]) -> str:
    """Say what to fit, or what to do first; nothing where it moves nothing."""
    route = next((r for r in one.routes if r.name == one.route), None)
    muddled = any(not walk.clear for walk in begun)
    if one.pack is not None and hopeless(route) and one.why == "drawer":
        nearest = show.length(one.pack.thickness_mm) if one.pack.thickness_mm else "none at all"
        return f"nothing that can be made will do; the nearest is {nearest}{pieces(one.pack)}"
    if one.pack is not None and one.pack.thickness_mm == 0:
        return "none"
    if one.pack is not None:
        by = f", by the {_read(route)} you read" if route and route.taken_mm is not None else ""
        by += "; but first clear up the walk: see below" if muddled else ""
        return f"{show.length(one.pack.thickness_mm)}{pieces(one.pack)}{by}"
    if route is not None and begun:
        return f"first {'clear up' if muddled else 'go on with'} the walk: see below"
    if route is not None:
        return f"first {FIRST_DO[route.name]}: see the routes below; the sum is not sure enough"
    if one.wished_mm is not None:
        return f"the sum asks for {show.length(one.wished_mm)}; nothing in the drawer comes near"
    if one.routes:
        return "cannot be said yet: measure what is not known, or go a route below"
    return ""


def _read(route: RouteAnswer) -> str:
    """Name what was read."""
    if route.trials_mm:
        return "walk"
    return READ.get(route.kind, route.name) if route.name != "difference" else route.name


FIRST_DO = {
    "closing gap": "read the closing gap",
    "read it, then correct": "fit a first pack, read, then correct it",
    "walk to nothing": "walk it to nothing with three packs",
    "difference": "take the difference",
}
"""What a route that begins with a reading asks for."""

ABSURD = 5.0
"""A pack further than this [mm] from any in the drawer is rather a slip in the sizes."""


ABSURD = 5.0
"""A pack further than this [mm] from any in the drawer is rather a slip in the sizes."""


def why_words(one: SettingAnswer, show: Figures) -> list[Said]:
    """Say why what is fitted is not what the sum asks for."""
    if one.wished_mm is None:
        return []
    if one.pack is None and not one.route and abs(one.wished_mm) > ABSURD:
        return indented(
            "Look for a slip: a size in the other unit, a minus left out or put in, a stack in "
            "the wrong order.",
            hang=2,
        )
    if one.wished_mm < 0:
        return indented(
            f"No pack gives that: another part must make up {show.length(-one.wished_mm)}.", hang=2
        )
    if one.why == "harm":
        return indented(
            "Not the nearest to the sum: that one would bind in more than 2 builds in 100.", hang=2
        )
    if one.why == "drawer":
        return indented(_short(one, one.wished_mm, show), hang=2)
    return []


def _short(one: SettingAnswer, wished: float, show: Figures) -> str:
    """Say by how much the drawer misses what the sum asks for, and what would make it."""
    off = (one.pack.thickness_mm if one.pack else 0.0) - wished
    missed = f"{show.length(abs(off))} too {'thick' if off > 0 else 'thin'}"
    most = f" with {MOST_PIECES} pieces, the most that are stacked" if _stacked_high(one) else ""
    return (
        f"The drawer comes no nearer to what the sum asks for{most}: {missed}. Get what makes "
        f"{show.length(wished)}."
    )


def _stacked_high(one: SettingAnswer) -> bool:
    return one.pack is not None and len(one.pack.pieces) >= MOST_PIECES


def _sum(one: SettingAnswer, show: Figures) -> list[Said]:
    """Write the sum that gives the pack, one size a line."""
    rows = sum_rows(one, show)
    wide = max((len(figure) for figure, _ in rows[:-1]), default=0)
    return [row(f"    {figure:>{wide}}  {label}") for figure, label in rows]


def sum_rows(one: SettingAnswer, show: Figures) -> list[tuple[str, str]]:
    """Give the sizes that make up the pack, each with its sign and what it is of, and their sum."""
    if not one.terms:
        return []
    rows = [(show.bare(term.value_mm), term.label) for term in one.terms]
    total = sum(term.value_mm for term in one.terms)
    return [*rows, (show.bare(total), "by the sum of sizes")]


def in_hand(one: SettingAnswer, show: Figures, now: str) -> str:
    """Say which pack the readings are for, and what to do where it is a guess."""
    if one.in_hand_mm is None:
        return f"The readings below are with no {one.part}, as none can be chosen yet."
    guess = one.pack is None and one.fitted_mm is None and one.nut is None
    ask = "; put in fitted: what you make it, and ask again" if guess else ""
    return f"The readings below are with {taken_in_hand(one, show, now)}{ask}."


def taken_in_hand(one: SettingAnswer, show: Figures, now: str) -> str:
    """Name what is taken to be in."""
    if one.in_hand_mm is None:
        return f"no {one.part}"
    if one.nut is not None:
        to = stands(one.in_hand_mm - one.nut.locking_mm, show)
        return f"{one.part} set to {to}" + (f", {now}" if one.fitted_mm is not None else "")
    how = f"in, {now}" if one.fitted_mm is not None else "fitted"
    how += ", by the sum of sizes" if one.pack is None and one.fitted_mm is None else ""
    return f"{show.length(one.in_hand_mm)} of {one.part} {how}"


def ways(one: SettingAnswer, show: Figures) -> list[Said]:
    """List the routes to one setting."""
    return nut_routes(one, one.nut, show) if one.nut is not None else routes(one, show)
