"""The record for the next owner: packs, readings as left, oil and grease, parts renewed."""

from dryfit.app.paper.blocks import Block, Box, Boxes, Head, Notes, Sheet, Table
from dryfit.app.paper.known import Known, name_and_kind
from dryfit.app.words.checks import check_name, should
from dryfit.app.words.figures import Figures
from dryfit.app.words.fit import taken_in_hand


def record_sheets(known: Known | None) -> tuple[Sheet, ...]:
    """Write it."""
    return _as_left(known), _parts(known)


def _as_left(known: Known | None) -> Sheet:
    packs: tuple[tuple[str | None, ...], ...] = ((None, None, None, None),) * 2
    readings: tuple[tuple[str | None, ...], ...] = ((None, None, None, None),) * 4
    if known is not None:
        show = Figures(known.show.first, both=False)
        packs = tuple(
            (one.part, taken_in_hand(one, show, "as it is"), None, None)
            for one in known.answer.settings
        )
        readings = tuple(
            (check_name(c), told.band if (told := should(c, show)) else "not told", None, None)
            for c in known.answer.checks
        )
    blocks: list[Block] = [
        Boxes((Box("rebuilt by"), Box("date"), Box("hours or years since the last")), high=12)
    ]
    if packs:
        heads = ("setting", "worked out", "fitted", "pieces")
        blocks += [Head("Packs and settings"), Table(heads, packs, (1, 1.4, 0.9, 1))]
    heads = ("check", "should read", "as left", "by, date")
    blocks += [Head("Readings as left"), Table(heads, readings, (1.2, 1.2, 0.9, 1))]
    return Sheet("Record for the next owner", (*blocks, *_wet()))


def _wet() -> tuple[Block, ...]:
    """Give boxes for oil, grease and the first run."""
    oil = (Box("oil: kind", wide=2), Box("how much"), Box("level at"))
    grease = (Box("grease: kind", wide=2), Box("how much"), Box("where"))
    run = (Box("first run: speeds, hours", wide=2), Box("warmest at"), Box("look again by"))
    return Head("Oil, grease, first run"), Boxes(oil), Boxes(grease), Boxes(run), Notes()


def _parts(known: Known | None) -> Sheet:
    rows: tuple[tuple[str | None, ...], ...] = ((None, None, None, None),) * 16
    if known is not None and known.rebuild.parts:
        parts = known.rebuild.parts.values()
        rows = tuple((name_and_kind(part), None, None, None) for part in parts)
    heads = ("part", "kept, renewed, remade", "figures on it, size", "state, why")
    table = Table(heads, rows, (1.1, 0.9, 1.2, 1), high=8.0)
    return Sheet("Record: parts", (table, Notes("left for later, and what to watch")))
