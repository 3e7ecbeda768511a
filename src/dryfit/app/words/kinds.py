"""The kinds of unit to point at on the first page, and the sizes that close a first chain of each.

Common practice, no source. `usual` is of an invented unit: the half-section to point at is drawn
with it, and nothing else is.
"""

from dryfit.app.words.first_sizes import FirstSize, Kind
from dryfit.quantities import Place

ACROSS = ("on the cover's side of the crossing", "on the far side of it")
"""Which side of the crossing axis a face may lie on."""

BACK = ("stands back from the flange", "reaches into the case")
"""Which way a boss or spigot may lie."""

TWICE = "Three places round, take the mean."
OVER_BOTH = "Over both faces, clean, in three places."
WIDTH = "Over one ring, face to face, or as it stands in a list."
SET = "Cone in its cup, turned and pressed home: over the two faces that are pushed."


def _size(letter: str, key: str, *told: str, ways: tuple[str, ...] = ()) -> FirstSize:
    what, how, by, usual = told
    return FirstSize(letter, ("sizes", key), what, how, by, usual, ways)


def _of_part(letter: str, part: str, field: str, *told: str) -> FirstSize:
    what, how, by, usual = told
    return FirstSize(letter, ("parts", part, field), what, how, by, usual)


def _taper(letters: str, part: str, width: str, set_width: str) -> tuple[FirstSize, FirstSize]:
    return (
        _of_part(
            letters[0],
            part,
            "width",
            f"{part} bearing: width of the cone",
            WIDTH,
            "micrometer",
            width,
        ),
        _of_part(
            letters[1],
            part,
            "set width",
            f"{part} bearing: cone and cup together",
            SET,
            "micrometer",
            set_width,
        ),
    )


def _bearing(part: str, bore: str, outside: str) -> tuple[tuple[Place, str], ...]:
    return (("parts", part, "bore"), bore), (("parts", part, "outside"), outside)


MATE = "kind: spur, pinion: cluster, wheel: main shaft, module: 2, lash: 0.1"
"""A gear that the cluster is drawn with."""


KINDS: tuple[Kind, ...] = (
    Kind(
        "shimmed-shaft",
        "Shaft between faces",
        "a plain shaft between thrust faces, under a cover; a shim sets its float",
        (
            _size(
                "A",
                "case.thrust face to case.joint",
                "case: thrust face to joint face",
                f"Down the bore from the joint face. {TWICE}",
                "depth micrometer",
                "152.40",
            ),
            _size(
                "B",
                "cover.flange to cover.boss",
                "cover: flange to end of boss",
                "Flange on a flat plate, scraped clean.",
                "depth micrometer",
                "-6.20",
                ways=BACK,
            ),
            _size(
                "C", "shaft", "shaft: over its two thrust faces", OVER_BOTH, "micrometer", "145.60"
            ),
            _of_part(
                "D",
                "gasket",
                "nipped",
                "gasket: thickness where it was nipped",
                "Of the old one, between the screws. 0 for a dry joint.",
                "micrometer",
                "0.21",
            ),
        ),
        (
            (("settings", "shim", "fitted"), "0.30"),
            (("sizes", "shaft.first end to shaft.near"), "24"),
            (("sizes", "shaft.far to shaft.last end"), "24"),
            (
                ("parts", "shaft", "outside"),
                "{first end to near: 30, near to far: 44, far to last end: 30}",
            ),
        ),
    ),
    Kind(
        "lay-shaft",
        "Lay-shaft, cluster of gears",
        "gears that run between two thrust washers; one washer is made to set the float",
        (
            _size(
                "A",
                "case.front face to case.rear face",
                "case: between the two faces",
                f"Square across, with the micrometer over the gauge. {TWICE}",
                "telescopic gauge",
                "122.10",
            ),
            _size(
                "B",
                "cluster",
                "cluster: over its two thrust faces",
                OVER_BOTH,
                "micrometer",
                "115.70",
            ),
            _size(
                "C",
                "front washer",
                "front washer: thickness",
                "Three places, burrs off.",
                "micrometer",
                "3.15",
            ),
        ),
        (
            (("settings", "rear washer", "fitted"), "3.05"),
            (("parts", "cluster", "outside"), "46"),
            (("parts", "cluster", "bore"), "24"),
            (("parts", "main shaft"), "{kind: shaft}"),
            (
                ("meshes", "first"),
                f"{{{MATE}, centre distance: 88, pinion teeth: 34, wheel teeth: 54}}",
            ),
            (
                ("meshes", "second"),
                f"{{{MATE}, centre distance: 88, pinion teeth: 44, wheel teeth: 44}}",
            ),
            (("parts", "front washer", "bore"), "25"),
            (("parts", "front washer", "outside"), "44"),
            (("parts", "rear washer", "bore"), "25"),
            (("parts", "rear washer", "outside"), "44"),
        ),
    ),
    Kind(
        "taper-headstock",
        "Headstock on tapers",
        "a spindle on two taper bearings, set by a nut at the tail",
        (
            _size(
                "A",
                "case.front register to case.rear register",
                "case: between the two cup faces",
                f"What each cup rests on, straight through the bore. {TWICE}",
                "telescopic gauge",
                "118.40",
            ),
            *_taper("BD", "front", "19.00", "20.75"),
            *_taper("CE", "rear", "18.00", "19.75"),
        ),
    ),
    Kind(
        "spindle-pair",
        "Spindle on a pair",
        "two angular contact bearings side by side, with spacers ground to suit",
        (
            _size(
                "A",
                "inner spacer",
                "inner spacer: length",
                "Four places round.",
                "micrometer",
                "22.000",
            ),
            _size(
                "B",
                "outer spacer",
                "outer spacer: length",
                "Four places round.",
                "micrometer",
                "22.010",
            ),
            _size(
                "C",
                "spindle.shoulder to spindle.thread",
                "spindle: shoulder to first thread",
                "Only says that the nut has room.",
                "caliper",
                "66.0",
            ),
            _size(
                "D",
                "case.register to case.joint",
                "case: register to joint face",
                f"From what the front outer ring rests on. {TWICE}",
                "depth micrometer",
                "62.30",
            ),
            _size(
                "E",
                "cover.flange to cover.spigot",
                "cover: flange to end of spigot",
                "Flange on a flat plate, scraped clean.",
                "depth micrometer",
                "-4.10",
                ways=BACK,
            ),
            _of_part("F", "front", "width", "front bearing: width", WIDTH, "micrometer", "18.00"),
            _of_part("G", "rear", "width", "rear bearing: width", WIDTH, "micrometer", "18.00"),
        ),
        (
            (("settings", "cover shim", "fitted"), "0.30"),
            *_bearing("front", "40", "68"),
            *_bearing("rear", "40", "68"),
        ),
    ),
    Kind(
        "bevel-drive",
        "Right-angle drive",
        "two shafts that cross, with bevels; the line of the wheel comes first",
        (
            _size(
                "A",
                "case.pinion axis to case.wheel register",
                "case: pinion axis to what the inner cup rests on",
                "From a bar in the pinion bore, less half of it.",
                "depth micrometer",
                "38.00",
                ways=ACROSS,
            ),
            _size(
                "B",
                "case.wheel register to case.wheel face",
                "case: that face to the joint face",
                f"Down the bore from the joint face. {TWICE}",
                "depth micrometer",
                "96.44",
            ),
            _size(
                "C",
                "wheel cover.flange to wheel cover.spigot",
                "cover: flange to end of spigot",
                "Flange on a flat plate, scraped clean.",
                "depth micrometer",
                "-4.10",
                ways=BACK,
            ),
            _size(
                "D",
                "wheel shaft.apex to wheel shaft.inner shoulder",
                "wheel shaft: crossing point to inner shoulder",
                "The mounting distance marked on the wheel, and its back face to the shoulder.",
                "depth micrometer",
                "56.00",
                ways=ACROSS,
            ),
            _size(
                "E",
                "wheel shaft.inner shoulder to wheel shaft.outer shoulder",
                "wheel shaft: shoulder to shoulder",
                "Between what the two cones rest on.",
                "micrometer",
                "58.10",
            ),
            *_taper("RT", "wheel inner", "16.00", "17.25"),
            *_taper("SU", "wheel outer", "16.00", "17.25"),
        ),
        (
            *_bearing("wheel inner", "32", "62"),
            *_bearing("wheel outer", "32", "62"),
            *_bearing("pinion inner", "26", "54"),
            *_bearing("pinion outer", "26", "54"),
        ),
    ),
    Kind(
        "worm-table",
        "Worm and wheel",
        "a worm between a thrust washer and its cover, driving the wheel of a table",
        (
            _size(
                "A",
                "case.thrust face to case.worm joint",
                "case: thrust face to joint face",
                f"Down the bore from the joint face. {TWICE}",
                "depth micrometer",
                "118.00",
            ),
            _size(
                "B",
                "cover.flange to cover.boss",
                "cover: flange to end of boss",
                "Flange on a flat plate, scraped clean.",
                "depth micrometer",
                "-5.20",
                ways=BACK,
            ),
            _size(
                "C",
                "worm washer",
                "thrust washer: thickness",
                "Three places, burrs off.",
                "micrometer",
                "3.00",
            ),
            _size(
                "D", "worm", "worm: over its two thrust faces", OVER_BOTH, "micrometer", "110.10"
            ),
        ),
        (
            (("settings", "cover shim", "fitted"), "0.30"),
            (("meshes", "drive", "worm diameter"), "36"),
            (("parts", "worm", "outside"), "26"),
        ),
    ),
)
"""In the order of the first page."""


def kind_of(start: str) -> Kind | None:
    """Find a kind by its start."""
    return next((one for one in KINDS if one.start == start), None)
