"""Small invented units: what the user types, in texts.py, and the same line drawn by hand.

By hand means: which faces meet and how far apart, which row lies between which rings and from where
it presses, what pulls, and what each part gives. "front in" is the inner ring of the bearing
"front", "front out" its outer ring; both are drawn at their first faces. All lengths are in mm.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from tests.oracle.energies import (
    Drawing,
    Law,
    Row,
    Spring,
    deep_groove,
    faces,
    half,
    half_rings,
    plate,
    pull,
    spring_washer,
    taper,
    tightened,
)
from tests.oracle.texts import (
    BRANCH,
    COVERED,
    FIXED_AND_FLOATING,
    GROOVES,
    HEADSTOCK,
    OVERHUNG,
    PAIR,
    RIGID_TEXT,
    SET_BY_RING,
    SET_OF_THREE,
    TANDEM,
    THRUST,
    TWO_ROW,
)


@dataclass(frozen=True)
class Unit:
    """A typed unit and its first line by hand.

    Attributes
    ----------
    text
        What the user types.
    springs, drawn, weights
        The line by hand; `drawn` has all its bodies [mm], `weights` act in the text too [N].
    origins
        The spot of a body where it is drawn, if that is not its first face.
    pushes
        Loads under which it is compared besides without any [N].
    packs
        Packs fitted [mm].
    floats
        The part whose end float the text asks for, and the push [N].
    """

    text: str
    springs: tuple[Spring, ...]
    drawn: Mapping[str, float]
    origins: Mapping[str, str]
    pushes: tuple[Mapping[str, float], ...] = ()
    packs: Mapping[str, float] = field(default_factory=dict)
    floats: tuple[str, float] | None = None
    weights: Mapping[str, float] = field(default_factory=dict)

    @property
    def drawing(self) -> Drawing:
        """The line by hand."""
        return Drawing(self.springs, self.drawn, self.weights)


def touch(before: str, after: str, apart: float, *gives: float) -> Spring:
    """Two faces."""
    return Spring(before, after, apart, faces(sum(gives)))


def tail_stop(name: str, apart: float, law: Law) -> Spring:
    """A row that stops its inner ring on the way to the last end."""
    return Spring(f"{name} in", f"{name} out", apart, law, row=True)


def nose_stop(name: str, apart: float, law: Law) -> Spring:
    """A row that stops its inner ring on the way to the first end."""
    return Spring(f"{name} out", f"{name} in", apart, law, row=True)


def both_stop(name: str, law: Law) -> Spring:
    """A row whose one law works both ways, from the middle of its float, rings of one width."""
    return Spring(f"{name} in", f"{name} out", 0.0, law)


def pair(inner: float, outer: float, *, back_to_back: bool) -> Unit:
    """Write a pair with spacers of these lengths."""
    ways = ("tail", "nose") if back_to_back else ("nose", "tail")
    text = PAIR.replace("FRONT", ways[0]).replace("REAR", ways[1])
    size, wide = (35, 62, 14), 14.0
    row = Row(size, 25)
    ring_in, ring_out = half_rings(size)
    tube_in, tube_out = half(43, 35, inner), half(62, 54, outer)
    stops = (tail_stop, nose_stop) if back_to_back else (nose_stop, tail_stop)
    return Unit(
        text.replace("INNER", f"{inner:.3f}").replace("OUTER", f"{outer:.3f}"),
        (
            touch("spindle", "front in", 0, ring_in),
            touch("front in", "inner spacer", wide, ring_in, tube_in),
            touch("inner spacer", "rear in", inner, tube_in, ring_in),
            touch("rear in", "nut", wide, ring_in),
            Spring("nut", "spindle", 0, pull(tightened(28, 35, 1.5))),
            touch("case", "front out", 0, ring_out),
            touch("front out", "outer spacer", wide, ring_out, tube_out),
            touch("outer spacer", "rear out", outer, tube_out, ring_out),
            touch("rear out", "ring", wide, ring_out),
            Spring("ring", "case", 0, pull(tightened(45, 64, 2))),
            stops[0]("front", row.proud(150), row.law),
            stops[1]("rear", row.proud(150), row.law),
        ),
        {
            "case": 0, "spindle": 0, "front in": 0, "inner spacer": wide, "rear in": wide + inner,
            "nut": 2 * wide + inner, "front out": 0, "outer spacer": wide,
            "rear out": wide + outer, "ring": 2 * wide + outer,
        },
        {"case": "step", "spindle": "shoulder"},
        pushes=({"spindle": 90.0}, {"spindle": -250.0}),
        floats=("spindle", 60.0),
    )  # fmt: skip


def tandem() -> Unit:
    """Two that share the weight of an upright spindle; the other way nothing stops it."""
    size, wide = (25, 52, 15), 15.0
    row = Row(size, 40)
    ring_in, ring_out = half_rings(size)
    return Unit(
        TANDEM,
        (
            touch("lower in", "upper in", wide, ring_in, ring_in),
            touch("upper in", "spindle", wide, ring_in),
            touch("case", "lower out", 0, ring_out),
            touch("lower out", "upper out", wide, ring_out, ring_out),
            nose_stop("lower", row.proud(50), row.law),
            nose_stop("upper", row.proud(50), row.law),
        ),
        {
            "case": 0, "lower in": 0, "upper in": wide, "spindle": 2 * wide, "lower out": 0,
            "upper out": wide,
        },
        {"case": "step", "spindle": "collar"},
        weights={"spindle": -240.0},
        pushes=({"spindle": -600.0},),
    )  # fmt: skip


def _set_of_three() -> Unit:
    """Two in tandem at the nose against one, spacers before the last."""
    size, wide, span = (40, 68, 15), 15.0, 30.0
    row = Row(size, 15)
    ring_in, ring_out = half_rings(size)
    tube_in, tube_out = half(48, 40, span), half(68, 60, span)
    return Unit(
        SET_OF_THREE,
        (
            touch("spindle", "one in", 0, ring_in),
            touch("one in", "two in", wide, ring_in, ring_in),
            touch("two in", "inner spacer", wide, ring_in, tube_in),
            touch("inner spacer", "three in", span, tube_in, ring_in),
            touch("three in", "nut", wide, ring_in),
            Spring("nut", "spindle", 0, pull(tightened(35, 40, 1.5))),
            touch("case", "one out", 0, ring_out),
            touch("one out", "two out", wide, ring_out, ring_out),
            touch("two out", "outer spacer", wide, ring_out, tube_out),
            touch("outer spacer", "three out", span, tube_out, ring_out),
            touch("three out", "ring", wide, ring_out),
            Spring("ring", "case", 0, pull(tightened(50, 70, 2))),
            tail_stop("one", row.proud(120), row.law),
            tail_stop("two", row.proud(120), row.law),
            nose_stop("three", row.proud(240), row.law),
        ),
        {
            "case": 0, "spindle": 0, "one in": 0, "two in": wide, "inner spacer": 2 * wide,
            "three in": 2 * wide + span, "nut": 3 * wide + span, "one out": 0, "two out": wide,
            "outer spacer": 2 * wide, "three out": 2 * wide + span, "ring": 3 * wide + span,
        },
        {"case": "step", "spindle": "shoulder"},
        pushes=({"spindle": 300.0},),
        floats=("spindle", 100.0),
    )  # fmt: skip


def headstock(set_to: float) -> Unit:
    """Tapers back to back, cups outside a wall of 150, a spacer under the nut that adjusts."""
    front, rear = (40, 80, 18), (35, 72, 17)
    wall, plain = 150.0, 12.0
    (front_in, front_out), (rear_in, rear_out) = half_rings(front), half_rings(rear)
    tube = half(45, 35, plain)
    # just touching: the shoulder 19.75 before the wall, the back of the rear cone 18.25 behind it
    to_nut = 19.75 + wall + 18.25 + plain
    return Unit(
        HEADSTOCK.replace("SET_TO", f"{set_to:.3f}"),
        (
            touch("spindle", "front in", 0, front_in),
            touch("rear in", "sleeve", 17, rear_in, tube),
            touch("sleeve", "nut", plain, tube),
            touch("nut", "spindle", -(to_nut + set_to)),
            touch("front out", "case", 18, front_out),
            touch("case", "rear out", wall, rear_out),
            tail_stop("front", 19.75 - 18, taper(front, 14)),
            nose_stop("rear", 18.25 - 17, taper(rear, 15)),
        ),
        {
            "case": 0, "spindle": -19.75, "front in": -19.75, "front out": -18, "rear out": wall,
            "rear in": wall + 1.25, "sleeve": wall + 18.25, "nut": wall + 30.25,
        },
        {"case": "front", "spindle": "flange"},
        pushes=({"spindle": 400.0}, {"spindle": -60.0}),
        floats=("spindle", 120.0),
    )  # fmt: skip


def set_by_ring(set_to: float) -> Unit:
    """Tapers face to face on a worm, cones outside two collars, a threaded ring behind a cup."""
    size = (25, 52, 15)
    ring_in, ring_out = half_rings(size)
    return Unit(
        SET_BY_RING.replace("SET_TO", f"{set_to:.3f}"),
        (
            touch("near in", "worm", 15, ring_in),
            touch("worm", "far in", 64, ring_in),
            touch("ring", "near out", 0, ring_out),
            touch("far out", "case", 15, ring_out),
            touch("case", "ring", -(2 * 16.25 + 64 + set_to)),
            nose_stop("near", 16.25 - 15, taper(size, 14)),
            tail_stop("far", 16.25 - 15, taper(size, 14)),
        ),
        {
            "case": 0, "far out": -15, "far in": -16.25, "worm": -80.25, "near in": -95.25,
            "near out": -96.5 - set_to, "ring": -96.5 - set_to,
        },
        {"case": "floor", "worm": "near collar", "ring": "last end"},
        pushes=({"worm": 500.0}, {"worm": -40.0}),
        floats=("worm", 150.0),
    )  # fmt: skip


def covered(shim: float) -> Unit:
    """Face to face, cups outside, set by the shim under a cover that bends.

    The rows just touch with 94.5 from step to spigot: shim 0.3.
    """
    size = (30, 62, 16)
    row = Row(size, 30).law
    ring_in, ring_out = half_rings(size)
    return Unit(
        COVERED,
        (
            touch("inner in", "shaft", 16, ring_in),
            touch("shaft", "outer in", 62.5, ring_in),
            touch("case", "inner out", 0, ring_out),
            touch("outer out", "cover", 16 - 4.2, ring_out, plate(88, 60, 7)),
            touch("case", "shim", 90),
            touch("shim", "cover", shim),
            touch("cover", "case", -(90 + shim)),
            nose_stop("inner", 0, row),
            tail_stop("outer", 0, row),
        ),
        {
            "case": 0, "inner out": 0, "inner in": 0, "shaft": 16, "outer in": 78.5,
            "outer out": 78.2 + shim, "shim": 90, "cover": 90 + shim,
        },
        {"case": "step", "shaft": "inner shoulder", "cover": "flange"},
        pushes=({"shaft": 200.0}, {"shaft": -30.0}),
        packs={"shim": shim},
        floats=("shaft", 80.0),
    )  # fmt: skip


UPPER, LOWER = (17, 40, 12), (20, 47, 14)


def _grooves(spigot: float, rest: str, mouth: tuple[Spring, ...], wave: float | None) -> Unit:
    """Two deep grooves, shoulders inboard; the rings just fit with the spigot at -6."""
    (upper_in, upper_out), (lower_in, _) = half_rings(UPPER), half_rings(LOWER)
    text = GROOVES.replace("SPIGOT", f"{spigot:.3f}").replace("REST ", rest)
    if wave is None:
        kept = text.split("  wave:")[0], text.split("solid: 1.300 +/- 0.001}\n")[1]
        text = "".join(kept)
    return Unit(
        text,
        (
            touch("upper in", "spindle", 12, upper_in),
            touch("spindle", "lower in", 58, lower_in),
            touch("case", "upper out", 0, upper_out),
            touch("case", "cover", 90),
            touch("cover", "case", -90),
            both_stop("upper", deep_groove(UPPER, 0.012)),
            both_stop("lower", deep_groove(LOWER, 0.014)),
            *mouth,
        ),
        {
            "case": 0, "upper out": 0, "upper in": 0, "spindle": 12, "lower in": 70,
            "lower out": 70, "cover": 90,
        } | ({} if wave is None else {"wave": wave}),
        {"case": "step", "spindle": "upper shoulder", "cover": "flange"},
        pushes=({"spindle": 50.0}, {"spindle": -400.0}),
        floats=("spindle", 70.0),
    )  # fmt: skip


def cover_gap(gap: float) -> Unit:
    """Nothing but a gap between the lower outer ring and the cover."""
    spigot = gap - 6
    shut = touch("lower out", "cover", 14 - spigot, half_rings(LOWER)[1])
    return _grooves(spigot, "", (shut,), None)


def sprung(height: float) -> Unit:
    """A wave washer as high as this between the lower outer ring and the cover.

    140 N at 1.2 mm of deflection; solid at 2.9 mm.
    """
    spigot = height - 6
    mouth = (
        touch("lower out", "wave", 14),
        Spring("wave", "cover", 4.2 - spigot, spring_washer(140 / 1.2e-3, 2.9e-3)),
    )
    return _grooves(spigot, "wave, ", mouth, 84.0)


def fixed_and_floating() -> Unit:
    """A deep groove held both rings; at the other end an outer ring slides in its pocket."""
    fixed, free, wide = (30, 62, 16), (25, 52, 15), 16.0
    (fixed_in, fixed_out), (free_in, _) = half_rings(fixed), half_rings(free)
    return Unit(
        FIXED_AND_FLOATING,
        (
            touch("nut", "fixed in", 0, fixed_in),
            touch("fixed in", "shaft", wide, fixed_in),
            Spring("shaft", "nut", 0, pull(tightened(30, 30, 1.5))),
            touch("shaft", "free in", 120, free_in),
            touch("cover", "fixed out", 5.99, fixed_out),
            touch("fixed out", "case", wide, fixed_out),
            touch("cover", "case", 22),
            touch("case", "cover", -22),
            both_stop("fixed", deep_groove(fixed, 0.016)),
            both_stop("free", deep_groove(free, 0.014)),
        ),
        {
            "case": 0, "cover": -22, "fixed out": -16, "fixed in": -16, "nut": -16, "shaft": 0,
            "free in": 120, "free out": 120,
        },
        {"case": "step", "cover": "flange", "shaft": "shoulder", "nut": "last end"},
        pushes=({"shaft": 150.0}, {"shaft": -150.0}),
        floats=("shaft", 90.0),
    )  # fmt: skip


def thrust(room: float) -> Unit:
    """A screw collar between two thrust races, between a wall and a cover; they fit 40.000."""
    size = (20, 40, 5)
    row = Row(size, 90, "thrust ball").law
    ring_in, ring_out = half_rings(size)
    return Unit(
        THRUST.replace("ROOM", f"{room:.3f}"),
        (
            touch("cover", "near out", 0, ring_out),
            touch("near in", "screw", 5, ring_in),
            touch("screw", "far in", 12, ring_in),
            touch("far out", "case", 5, ring_out),
            touch("cover", "case", room),
            touch("case", "cover", -room),
            nose_stop("near", 14 - 5, row),
            tail_stop("far", 14 - 5, row),
        ),
        {
            "case": 0, "far out": -5, "far in": -14, "screw": -26, "near in": -31,
            "near out": -room, "cover": -room,
        },
        {"case": "wall", "cover": "flange", "screw": "near face"},
        pushes=({"screw": 350.0}, {"screw": -20.0}),
        floats=("screw", 100.0),
    )  # fmt: skip


def overhung(shim: float) -> Unit:
    """A pinion on tapers back to back in a cartridge, whose flange stands on a shim."""
    front, rear = (30, 62, 16), (25, 52, 15)
    (front_in, front_out), (rear_in, rear_out) = half_rings(front), half_rings(rear)
    flange = 110 + shim
    step = flange - 30
    return Unit(
        OVERHUNG,
        (
            touch("pinion", "front in", 0, front_in),
            touch("rear in", "adjuster", 15, rear_in),
            touch("adjuster", "pinion", -(17.25 + 25 + 16.25 - 0.006)),
            touch("front out", "quill", 16 - (-30), front_out),
            touch("quill", "rear out", -30 + 25, rear_out),
            touch("case", "shim", 110),
            touch("shim", "quill", shim),
            touch("quill", "case", -flange),
            tail_stop("front", 17.25 - 16, taper(front, 14)),
            nose_stop("rear", 16.25 - 15, taper(rear, 14)),
        ),
        {
            "case": 0, "shim": 110, "quill": flange, "front out": step - 16,
            "front in": step - 17.25, "pinion": step - 17.25, "rear out": step + 25,
            "rear in": step + 26.25, "adjuster": step + 41.25,
        },
        {"case": "axis", "quill": "flange", "pinion": "shoulder"},
        pushes=({"pinion": 300.0}, {"pinion": -80.0}),
        packs={"shim": shim},
        floats=("pinion", 100.0),
    )  # fmt: skip


def two_row(play: float) -> Unit:
    """One two-row bearing, both rings clamped."""
    size, wide = (30, 62, 23.8), 23.8
    row = Row((30, 62, 11.9), 30).law
    ring_in, ring_out = half_rings(size)
    return Unit(
        TWO_ROW.replace("PLAY", f"{play:.3f}"),
        (
            touch("shaft", "both in", 0, ring_in),
            touch("both in", "nut", wide, ring_in),
            Spring("nut", "shaft", 0, pull(tightened(25, 30, 1.5))),
            touch("case", "both out", 0, ring_out),
            touch("both out", "ring", wide, ring_out),
            Spring("ring", "case", 0, pull(tightened(40, 64, 2))),
            tail_stop("both", -play / 2, row),
            nose_stop("both", -play / 2, row),
        ),
        {"case": 0, "shaft": 0, "both in": 0, "nut": wide, "both out": 0, "ring": wide},
        {"case": "step", "shaft": "shoulder"},
        pushes=({"shaft": 220.0}, {"shaft": -15.0}),
        floats=("shaft", 75.0),
    )


def _branch() -> Unit:
    """Tapers under a cover, and on the same shaft a spring that holds a cone against a keeper."""
    size = (35, 72, 17)
    row = taper(size, 14)
    ring_in, ring_out = half_rings(size)
    return Unit(
        BRANCH,
        (
            touch("wall race in", "shaft", 17, ring_in),
            touch("shaft", "cover race in", 83.992, ring_in),
            touch("case", "wall race out", 0, ring_out),
            touch("cover race out", "cover", 17, ring_out),
            touch("case", "shim", 120),
            touch("shim", "cover", 0.48),
            touch("cover", "case", -120.48),
            nose_stop("wall race", 18.25 - 17, row),
            tail_stop("cover race", 18.25 - 17, row),
            touch("shaft", "clutch spring", 20),
            Spring("clutch spring", "cone", 6, spring_washer(200 / 1.5e-3, 4e-3)),
            touch("cone", "keeper", 20),
            touch("keeper", "shaft", 1.5 - 46),
        ),
        {
            "case": 0, "wall race out": 0, "wall race in": 1.25, "shaft": 18.25,
            "cover race in": 102.242, "cover race out": 103.48, "shim": 120, "cover": 120.48,
            "clutch spring": 38.25, "cone": 42.75, "keeper": 62.75,
        },
        {"case": "step", "shaft": "wall shoulder", "cover": "flange"},
        pushes=({"shaft": 300.0}, {"cone": -350.0}, {"cone": 90.0, "shaft": -40.0}),
        packs={"shim": 0.48},
        floats=("shaft", 130.0),
    )  # fmt: skip


RIGID = Unit(
    RIGID_TEXT,
    (
        touch("case", "floor washer", 0),
        touch("floor washer", "cluster", 2.5),
        touch("cluster", "sleeve", 55),
        touch("sleeve", "cover", 18.3 + 4),
        touch("shaft", "cluster", 0),
        touch("sleeve", "keeper", 18.3),
        touch("keeper", "shaft", 1.6 - 75.1),
        touch("case", "gasket", 80),
        touch("gasket", "cover", 0.2),
        touch("cover", "case", -80.2),
    ),
    {
        "case": 0, "floor washer": 0, "cluster": 2.5, "shaft": 2.5, "sleeve": 57.5,
        "keeper": 75.8, "gasket": 80, "cover": 80.2,
    },
    {"case": "floor", "shaft": "collar", "cover": "flange"},
)  # fmt: skip
"""A line without a row: two ways from the cluster to the sleeve, past the shaft and straight."""


UNITS: dict[str, Callable[[], Unit]] = {
    "back to back, 20 mm": lambda: pair(20, 20, back_to_back=True),
    "back to back, 60 mm": lambda: pair(60, 60, back_to_back=True),
    "back to back, 120 mm": lambda: pair(120, 120, back_to_back=True),
    "back to back with play": lambda: pair(20, 19.96, back_to_back=True),
    "face to face": lambda: pair(20, 19.99, back_to_back=False),
    "tandem": tandem,
    "set of three": _set_of_three,
    "adjusting nut, nipped": lambda: headstock(-0.012),
    "adjusting nut, float": lambda: headstock(0.025),
    "threaded ring, nipped": lambda: set_by_ring(-0.009),
    "threaded ring, float": lambda: set_by_ring(0.030),
    "cover and shim, nipped": lambda: covered(0.27),
    "cover and shim, float": lambda: covered(0.33),
    "deep grooves, cover gap": lambda: cover_gap(0.08),
    "spring washer": lambda: sprung(2.4),
    "spring washer, solid": lambda: sprung(1.10),
    "fixed and floating": fixed_and_floating,
    "thrust ball, float": lambda: thrust(40.02),
    "thrust ball, nipped": lambda: thrust(39.994),
    "overhung pinion": lambda: overhung(0.25),
    "two-row, play": lambda: two_row(0.015),
    "two-row, nipped": lambda: two_row(-0.006),
    "branch": _branch,
}
"""Units whose lines give, each by what it shows."""
