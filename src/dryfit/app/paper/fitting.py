"""One sheet for each setting: what to fit, the way to it with its sum for a pencil, other ways."""

from dryfit.app.paper.blocks import (
    Block,
    Box,
    Boxes,
    Care,
    Columns,
    Head,
    Notes,
    Setup,
    Sheet,
    Sum,
    Table,
    Term,
    Text,
    said,
    sentence,
)
from dryfit.app.paper.known import Known
from dryfit.app.usecases.choose import RouteAnswer, SettingAnswer
from dryfit.app.words.figures import in_hundred
from dryfit.app.words.fit import advice, why_words
from dryfit.app.words.nuts import TOLD, nut_route_words, set_nut
from dryfit.app.words.said import Said
from dryfit.app.words.trade import CARE
from dryfit.app.words.ways import READ, factor, how_words, offset_words, route_words
from dryfit.model.rebuild import Setting


def setting_sheets(known: Known) -> tuple[Sheet, ...]:
    """Give a sheet for each setting."""
    return tuple(
        _nut_sheet(one, known) if one.nut else _pack_sheet(one, known)
        for one in known.answer.settings
    )


def _pack_sheet(one: SettingAnswer, known: Known) -> Sheet:
    between = "{} and {}".format(*one.between) if any(one.between) else ""
    why = f"It lies between {between}." if between else ""
    route = next((r for r in one.routes if r.name == one.route), None)
    blocks: list[Block] = [Text(sentence(advice(one, known.answer, known.show)), 18, strong=True)]
    blocks += said(why_words(one, known.show))
    blocks += [Text(sentence(one.thicker), 14)] if one.thicker else []
    blocks += [_setup(one, route, known), Care(CARE["thickness"])]
    blocks += _by_sum(one, route, known) if _is_sum(route) else _by_reading(one, route, known)
    blocks += _other_ways(one, route, known)
    return Sheet(f"Fit: {one.part}", (*blocks, Notes()), why=why)


def _is_sum(route: RouteAnswer | None) -> bool:
    return route is not None and not route.check


def _by_sum(one: SettingAnswer, route: RouteAnswer | None, known: Known) -> list[Block]:
    """Put the way and the boxes beside the sum of sizes."""
    fitted = Boxes((_fitted(known), Box("date", "", 0.6)), high=11)
    left = (*_way(one, route, known), fitted, Boxes((Box("pieces"),), high=11))
    terms = _terms(one, known)
    return [Columns((left, tuple(terms)))] if terms else [*left]


def _by_reading(one: SettingAnswer, route: RouteAnswer | None, known: Known) -> list[Block]:
    """Put the way with its sum for a pencil above the sum of sizes."""
    boxes = Boxes((_fitted(known), Box("pieces"), Box("date", "", 0.6)))
    return [*_way(one, route, known), *_terms(one, known), boxes]


def _nut_sheet(one: SettingAnswer, known: Known) -> Sheet:
    nut = one.nut
    if nut is None:
        return Sheet(f"Set: {one.part}", ())
    first, *others = [line for line in set_nut(one, nut, known.show) if line.sort == "text"]
    blocks: list[Block] = [Text(sentence(first.text), 18, strong=True), *said(others)]
    by = next((r.by for r in one.routes if r.by), "dial indicator")
    blocks += [
        Setup((("Tools", f"{by} on a stand; spanner for the nut"), ("To hand", "light oil"))),
        Care(CARE["end float"]),
        Head("Ways to set it"),
    ]
    routes = [r for r in one.routes if r.name in TOLD]
    told = [line for r in routes for line in nut_route_words(one, nut, r, known.show)]
    blocks += said(told, strong=True)
    mark = known.unit
    boxes = (Box("float read, locked", mark), Box("turned by", "degrees"), Box("read again", mark))
    return Sheet(f"Set: {one.part}", (*blocks, Boxes((*boxes, Box("date"))), Notes()))


def _setup(one: SettingAnswer, route: RouteAnswer | None, known: Known) -> Setup:
    """Say what is needed before the pack is made."""
    by = f"{route.by}; " if route and route.by else ""
    rows = [("Tools", f"{by}micrometer for the pack; spanner for the screws")]
    setting = known.rebuild.settings.get(one.part)
    stock = stock_words(setting) if setting else ""
    rows += [("Stock", stock)] if stock else []
    rows += [("To hand", "fine stone for burrs, clean rag, light oil")]
    rows += [("Left out", ", ".join(route.left_out))] if route and route.left_out else []
    return Setup(tuple(rows))


def stock_words(setting: Setting) -> str:
    """List what is in the drawer, or how it is made."""
    if setting.made_from:
        pieces = (
            f"{s.count} of {s.size.text}" if s.count else s.size.text for s in setting.made_from
        )
        return "made from " + ", ".join(pieces)
    if setting.one_of:
        return "one of " + ", ".join(size.text for size in setting.one_of)
    return f"cut to size, {setting.cut_to_size.text}" if setting.cut_to_size else ""


def _way(one: SettingAnswer, route: RouteAnswer | None, known: Known) -> list[Block]:
    """Say how the recommended route is gone, with its sum."""
    if route is None or route.chance is None:
        return []
    head = Head(f"By the {_named(route)}: {in_hundred(route.chance)} to come right")
    how = how_words(one, route, known.show) or [Said(MAKE_IT)]
    lines = [Said(sentence(line.text)) for line in how]
    return [head, *said(lines), *pencil_sum(one, route, known)]


MAKE_IT = "Make it up, measure it whole and nipped flat, and fit it; then read the checks."
"""What is left to do where no reading is asked for."""


def _named(route: RouteAnswer) -> str:
    """Name a route so that `by the` may stand before it."""
    return {"read it, then correct": "reading, then corrected"}.get(route.name, route.name)


MINUS = "\N{MINUS SIGN}"


def pencil_sum(one: SettingAnswer, route: RouteAnswer, known: Known) -> list[Block]:
    """Write the sum of a route that begins with a reading, with boxes for what is read."""
    if not route.check:
        return []
    mark, (sign, size) = known.unit, offset_words(route, known.show)
    sign = sign.replace("-", MINUS)
    offset = Term("by the sizes", sign, given=size)
    result = Term(one.part, "=", mark=mark, wide=1.2, strong=True)
    read = READ.get(route.kind, "gap")
    if not route.trial_mm and route.name != "difference":
        return [Sum((Term(f"{read}, as read", mark=mark), offset, result))]
    back = "+" if route.sign > 0 else MINUS
    start = {"difference": "what was in"}.get(route.name, "what you fitted")
    label = "first pack" if route.trials_mm else start
    times = f"{factor(route)}{read}" + (" on the line there" if route.trials_mm else ", as read")
    return [Sum((Term(label, mark=mark), offset, Term(times, back, mark=mark), result))]


def _terms(one: SettingAnswer, known: Known) -> list[Block]:
    """Write the sum of sizes."""
    if not one.terms:
        return []
    rows = [(term.label, known.show.bare(term.value_mm)) for term in one.terms]
    total = known.show.bare(sum(term.value_mm for term in one.terms))
    rows.append((f"{one.part} by the sum of sizes", total))
    table = Table(("size", "counts"), tuple(rows), (1, 0), right=(1,), tight=1.1)
    return [Head("The sum of sizes"), table]


def _other_ways(one: SettingAnswer, best: RouteAnswer | None, known: Known) -> list[Block]:
    """List all other routes."""
    others = [route for route in one.routes if route is not best]
    told: list[Block] = []
    for route in sorted(others, key=lambda r: r.chance is None):
        told += said(route_words(one, route, known.show), strong=route.chance is not None, size=12)
    return [Head("Other ways"), *told] if told else []


def _fitted(known: Known) -> Box:
    return Box("fitted, whole and nipped", known.unit, strong=True)
