"""The pencil sheet of a walk to nothing: readings, grid, and how it is done."""

from dryfit.app.paper.blocks import (
    Block,
    Box,
    Boxes,
    Care,
    Columns,
    Grid,
    Point,
    Points,
    Sheet,
    Table,
)
from dryfit.app.paper.known import Known
from dryfit.app.usecases.choose import RouteAnswer, SettingAnswer
from dryfit.app.words.walk_trade import CARE, DO, DO_PACKS
from dryfit.ask.route import WALK

ROWS = 6
"""Lines to write readings on."""


def walk_forms(known: Known | None, *, taken_alone: bool = False) -> tuple[Sheet, ...]:
    """Give a form for each setting that a walk can find, or an empty one.

    Parameters
    ----------
    known
        The unit, if there is one.
    taken_alone
        Only where the walk is the route to take, and none if there is no such setting.
    """
    if known is None:
        return (form(),)
    walked = [
        form(one, route, known)
        for one in known.answer.settings
        for route in one.routes
        if route.name == WALK and route.chance is not None
        if not taken_alone or one.route == WALK
    ]
    return tuple(walked) or (() if taken_alone else (form(),))


def form(
    one: SettingAnswer | None = None, route: RouteAnswer | None = None, known: Known | None = None
) -> Sheet:
    """Write one form; what is known of the setting is filled in."""
    mark, by_pack = (known.unit if known else ""), one is not None and one.nut is None
    steps = tuple(Point(text) for text in (DO_PACKS if by_pack else DO))
    nut = () if by_pack else ("pitch", "marks on a diameter of")
    head = tuple(Box(label) for label in (*nut, "push", "dial"))
    want = (Box("float wanted", mark), Box("or past nothing", mark))
    readings = Table(
        ("pack" if by_pack else "mark, pack", "float", "again", "line says"),
        _rows(one, route, known),
        (1.1, 1, 1, 1),
        high=7.5,
    )
    left: tuple[Block, ...] = (Points(steps, size=11.5),)
    right: tuple[Block, ...] = (
        readings,
        Boxes((Box("nothing at"), Box("pack to fit" if by_pack else "stop at")), high=10),
        Boxes(
            (Box("read when in" if by_pack else "read after locking", mark), Box("date")), high=10
        ),
    )
    blocks: tuple[Block, ...] = (
        Boxes((*head, *want), high=9),
        Care(CARE),
        Columns((left, right)),
        Grid("pack" if by_pack else "mark, or pack", columns=60, rows=25),
    )
    if one is None or route is None:
        return Sheet("Walk to nothing", blocks)
    return Sheet(f"Walk to nothing: {one.part}", blocks, why=_why(one, route, known))


def _rows(
    one: SettingAnswer | None, route: RouteAnswer | None, known: Known | None
) -> tuple[tuple[str | None, ...], ...]:
    """Give lines for readings; of packs the ones to begin with are named."""
    named: list[str | None] = []
    if one is not None and route is not None and known is not None and one.nut is None:
        named = [known.show.bare(pack) for pack in route.trials_mm]
    named += [None] * (ROWS - len(named))
    return tuple((name, None, None, None) for name in named)


def _why(one: SettingAnswer, route: RouteAnswer, known: Known | None) -> str:
    """Say what is read, and with what."""
    if known is None:
        return ""
    sizes = ", ".join(known.show.bare(size) for size in route.trials_mm)
    if one.nut is not None:
        return f"Float of {route.at} by {route.by}, at marks of {one.part} near {sizes} of float."
    return f"Float of {route.at} by {route.by}, with packs of {sizes}."
