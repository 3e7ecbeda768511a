"""What the sheet says around the figures: how to read a check, cautions, the small print."""

HOW = {
    "end float": (
        "Seals out, light oil. Turn the shaft 10 to 20 times each way. Push it hard one way while "
        "turning, set the dial to nought, pull and turn, read. Three times; stand on the same "
        "casting."
    ),
    "gap": (
        "Under a cover: nipped lightly and evenly, shaft turned, feelers at three places, take the "
        "mean; if the three differ by more than 0.03 mm (0.0012 in) the cover is cocked: slacken, "
        "turn, read again. At a seat: push the parts apart and gauge the room."
    ),
    "depth": "Hold the loose parts to the end named, turn, read at three places, take the mean.",
    "backlash": (
        "Hold the other member fast. Stylus square to the tooth, at the radius told, and along the "
        "arc it swings. Rock it by hand without moving it endways; eight places round, keep the "
        "least and the greatest."
    ),
    "cord pull": (
        "Seals out. Wind a cord on the diameter told, turn by the balance, read the steady pull, "
        "not the first tug; both ways, and take the mean."
    ),
    "lift": (
        "Dial over the shaft close by the cap; lift with a bar over a block, by feel, and let it "
        "down."
    ),
    "flushness": "Straightedge over both back faces, clean; feelers under it at the lower one.",
    "shake": "Stylus across the shaft close by the bearing; lift and press down by hand, no lever.",
    "thickness": "Micrometer at three places, clean and dry; a pack whole and nipped flat.",
}
"""How each kind of check is read: common practice, no source."""

CARE = {
    "end float": "Lock off the drive before hands go in. Fingers clear of teeth while it turns.",
    "gap": "Feelers and shims cut: no fingers under a cover while screws are turned.",
    "depth": "Support a standing shaft so that it cannot fall on the gauge or a hand.",
    "backlash": "Lock off the drive. Fingers clear of the teeth: gears pinch as they turn.",
    "cord pull": "Lock off the drive; keep hair, sleeves and the cord's free end clear of teeth.",
    "lift": "Mind what a lever may drop or crush; no fingers under the shaft.",
    "flushness": "Lock off the drive. Fingers clear of the teeth.",
    "shake": "Support what may drop; no fingers between shaft and case.",
    "thickness": "Edges of shims and washers cut: deburr them, wear gloves when cutting stock.",
}

BESIDE = {
    "end float": "stand on the same casting; a bar or lever to push and pull with",
    "gap": "spanner for the screws of the cover",
    "depth": "flat plate or parallels to reach across",
    "backlash": "stand; a stop that holds the other gear",
    "cord pull": "a metre of thin cord",
    "lift": "stand; bar and block",
    "flushness": "straightedge",
    "shake": "stand",
    "thickness": "clean rag; a flat to nip a pack on",
}
"""What each kind of check takes beside its instrument: common practice, no source."""

PRACTICE = "Figures marked common practice come from no standard."

NOT_KNOWN_OF = (
    "Chances by the sizes know of no part put in wrong; what usually goes wrong is a table of "
    "estimates. Tilt and shocks are not worked out."
)

LIMITS = (
    "Local rules and a competent person come first. Not for lifting gear, vehicle brakes or "
    "steering, or aircraft."
)

SMALL_PRINT = f"{PRACTICE} {NOT_KNOWN_OF} {LIMITS}"
