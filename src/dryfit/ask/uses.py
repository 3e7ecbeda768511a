"""What the trade wants of a line or mesh, by what the unit is used for and how it is laid out.

Figures marked common practice come from no standard. Each row says what happens beyond either side.
Nothing here is for the turning torque of bearings: a figure for new ones misleads with used ones.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from dryfit.solve.recommended import preload_limits

COMMON = "common practice, no source"
TEXTBOOK = "a textbook on rolling bearings, [CHIKHACHEVA]"


class Layout(Enum):
    """How a shaft is held along its line."""

    PLAIN = "between plain faces"
    TAPERS = "tapers set against each other"
    ANGULAR = "angular contact bearings set against each other"
    MATCHED = "matched bearings"
    SPRUNG = "a spring behind a bearing"
    FIXED = "a bearing that stops both ways"


@dataclass(frozen=True, slots=True)
class Row:
    """Limits in the need's own unit, and what lies beyond them.

    Attributes
    ----------
    kind
        Kind of need.
    low, high
        Its limits [m], [N], or share of rating [-]; None for an open side.
    less, more
        What happens beyond each.
    source
        Where they come from.
    """

    kind: str
    low: float | None
    high: float | None
    less: str
    more: str
    source: str = COMMON


BINDS = "it binds as soon as the shaft is warmer than the case"
KNOCKS = "it knocks when the drive is reversed, and gears wander in mesh"
SLACK = "balls skid and the spindle chatters"
HOT = "it runs hot, and the rows wear"
NOT_TRUE = "the face of the work is not flat"
LOST = "float is felt as lost motion at the wheel"


def _preload(first: str, last: str, less: str = SLACK, more: str = HOT) -> Row:
    return Row("preload", *preload_limits(first, last), less, more)


@dataclass(frozen=True, slots=True)
class Asked:
    """What a row may depend on: largest bore of the line's bearings [m]."""

    bore: float


def always(row: Row) -> Callable[[Asked], Row]:
    """Give the same row whatever the bore."""
    return lambda _: row


def _by_bore(table: tuple[tuple[float, float, float], ...]) -> Callable[[Asked], Row]:
    """Give the float of a pair that is set against each other by its bore [mm, um, um]."""

    def row(asked: Asked) -> Row:
        low, high = next((a, b) for top, a, b in table if asked.bore <= top * 1e-3)
        return Row("float", low * 1e-6, high * 1e-6, BINDS, KNOCKS, TEXTBOOK)

    return row


WIDEST = 1e6

TAPERS_APART = (
    (30.0, 40.0, 70.0),
    (50.0, 50.0, 100.0),
    (80.0, 80.0, 150.0),
    (120.0, 120.0, 200.0),
    (WIDEST, 200.0, 300.0),
)
"""Tapers of 10 to 16 degrees, one at each end: bore up to, least and greatest float [mm, um]."""

ANGULAR_APART = (
    (30.0, 30.0, 50.0),
    (50.0, 40.0, 70.0),
    (80.0, 50.0, 100.0),
    (120.0, 60.0, 150.0),
    (WIDEST, 100.0, 200.0),
)
"""Angular contact ball bearings of 12 degrees, one at each end: the same."""

THRUST = Row("float", 0.10e-3, 0.30e-3, BINDS, KNOCKS)


def _spring(asked: Asked) -> Row:
    """Push 4 to 10 newtons for each millimetre of bore."""
    bore = asked.bore * 1e3
    rattles = "the bearing rattles, and its balls skid"
    return Row("preload", 4.0 * bore, 10.0 * bore, rattles, "it runs warm, and wears")


Rows = dict[Layout, Callable[[Asked], Row]]

GEARBOX: Rows = {
    Layout.PLAIN: always(THRUST),
    Layout.TAPERS: _by_bore(TAPERS_APART),
    Layout.ANGULAR: _by_bore(ANGULAR_APART),
    Layout.MATCHED: always(_preload("none", "medium")),
    Layout.SPRUNG: _spring,
}

SPINDLE: Rows = {
    Layout.PLAIN: always(Row("float", 0.01e-3, 0.05e-3, "the thrust collar runs hot", NOT_TRUE)),
    Layout.TAPERS: always(Row("float", 0.0, 0.01e-3, HOT, NOT_TRUE)),
    Layout.ANGULAR: always(_preload("light", "medium")),
    Layout.MATCHED: always(_preload("light", "medium")),
    Layout.SPRUNG: _spring,
}

CROSSING = "the pinion moves out of mesh under load: lash comes and goes"

RIGHT_ANGLE: Rows = {
    **GEARBOX,
    Layout.ANGULAR: always(_preload("light", "medium", CROSSING)),
    Layout.MATCHED: always(_preload("light", "medium", CROSSING)),
}


@dataclass(frozen=True, slots=True)
class Use:
    """What a use asks for.

    Attributes
    ----------
    rows
        By layout of a shaft's line.
    bevels
        Quality of the table of lash for bevels; empty where it sets no lash.
    """

    rows: Rows
    bevels: str = ""


def _only(row: Row) -> Use:
    return Use({Layout.PLAIN: always(row)})


USES: dict[str, Use] = {
    "lay-shaft on thrust washers": _only(THRUST),
    "shaft between plain thrust faces": _only(THRUST),
    "plain headstock spindle": _only(SPINDLE[Layout.PLAIN](Asked(0.0))),
    "worm, slow": _only(Row("float", 0.10e-3, 0.15e-3, BINDS, LOST)),
    "worm, indexing": _only(Row("float", 0.005e-3, 0.020e-3, BINDS, LOST)),
    "gearbox": Use(GEARBOX, "commercial"),
    "headstock": Use(SPINDLE),
    "spindle": Use(SPINDLE),
    "bench drill": Use(SPINDLE),
    "right-angle drive": Use(RIGHT_ANGLE, "commercial"),
    "milling head": Use({**RIGHT_ANGLE, **SPINDLE}, "accurate"),
}
"""By the `kind` under `used for`."""
