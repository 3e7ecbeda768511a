"""What the sheet of a walk says around the figures: common practice, no source."""

REASONS: dict[str, tuple[str, ...]] = {
    "flat": (
        "already at nothing there: what is read is what yields under the push",
        "or the ring did not follow the nut: tap or press it, turn, read again",
    ),
    "stays": (
        "the reading stays as it was while the nut moved: the ring did not follow, it grips its "
        "seat; tap or press it home, turn, read again",
        "the mark was read or typed wrong",
    ),
    "more": (
        "the ring did not follow the nut there: tap or press it, turn, read again",
        "pushed harder than at the other marks, or the stand moved",
        "the mark was read or typed wrong",
    ),
    "less": (
        "not turned and rocked enough before that reading, rollers not home: turn 10 to 20 times "
        "each way while pushing, read again",
        "the dial stuck, or was not set to nought at the push",
        "the mark was read or typed wrong",
    ),
    "shift up": (
        "from there on the ring lagged behind the nut: tap or press it, turn, read again",
        "the dial or its stand was knocked, or the nut slipped under the spanner",
    ),
    "shift down": (
        "a ring that had gripped let go and came home: read again where you are",
        "before that the shaft was not turned and rocked enough, rollers not home",
        "the dial or its stand was knocked",
    ),
    "slope less": (
        "the ring follows only in part, or the play of the thread is taken up first",
        "the pitch is another one",
        "the dial does not stand square to the end, or it sits on a part that gives",
    ),
    "slope more": (
        "the pitch is another one, metric for inch or a coarser thread",
        "the nut was turned further than its marks say",
        "a ring that gripped came home bit by bit",
    ),
    "whole": (
        "one reading not turned and rocked enough, or a ring that did not follow",
        "pushes of different strength, a dial that sticks, a stand that moves",
        "a mark or a reading typed wrong",
    ),
}
"""Why readings lie off the line, by what it looks like; for a nut."""

PACK_REASONS: dict[str, tuple[str, ...]] = {
    "flat": (
        "already at nothing there: what is read is what yields under the push",
        "or the cover stood off, or a ring was not home with that pack",
    ),
    "stays": (
        "the reading stays as it was while the pack changed: a ring did not follow, it grips its "
        "seat; tap or press it home, turn, read again",
        "the pack was read or typed wrong",
    ),
    "more": (
        "a ring was not home, or the pack lay on a burr or a crumb",
        "pushed harder than with the other packs, or the stand moved",
        "the pack was measured or typed wrong",
    ),
    "less": (
        "not turned and rocked enough before that reading, rollers not home: turn 10 to 20 times "
        "each way while pushing, read again",
        "the pack lay on a burr or had a turned-up edge, or was measured or typed wrong",
    ),
    "slope less": (
        "a ring follows only in part, it grips its seat: tap or press it home, turn, read again",
        "packs that are not nipped flat, or cover screws not equally tight",
        "the dial does not stand square to the end, or it sits on a part that gives",
    ),
    "slope more": (
        "the dial does not stand square to the end, or a lever enlarges what it reads",
        "a ring that gripped came home bit by bit",
    ),
    "whole": (
        "one reading not turned and rocked enough, or a pack on a burr or not nipped flat",
        "pushes of different strength, a dial that sticks, a stand that moves",
        "a pack or a reading typed wrong",
    ),
}
"""The same for packs; a shift is told as for a nut."""

_READ = (
    "turn the shaft 10 to 20 times each way. Push it hard one way while turning, set the dial to "
    "nought, pull as hard and turn, read. The same push each time; stand on the same casting."
)
HOW = {
    "nut": f"At each mark {_READ} Always come to a mark from the slack side.",
    "pack": f"With each pack {_READ} Screws as tight each time.",
}

TOO_FAR_ON = {
    "nut": (
        "If you go too far: do not just turn back. Back off well past, press the ring back (it "
        "does not follow a nut that is slackened; no mallet on a spindle, it dents the tracks), "
        "turn, and come again from the slack side."
    ),
    "pack": (
        "If it comes out too tight: take the cover off, press the ring back (it does not come back "
        "by itself where it grips), change the pack, tighten evenly, turn, and read again."
    ),
}

AFTER = {
    "nut": (
        "Hold the nut while you lock it, and read again after locking: a lock nut pushes the nut "
        "on by the play of its thread."
    ),
    "pack": "Measure the whole pack nipped flat before it goes in, and read again when it is in.",
}

BLIND = (
    "Past nothing the dial is blind: it reads what yields, from a light nip to a ruinous one. From "
    "there on go by the marks alone, and feel the drag."
)

CARE = (
    "Lock off the drive before hands go in. Support what may drop. Local rules and a competent "
    "person come first."
)

DO = (
    "1. Mark nut and shaft with a fine line, begin with float to spare. Seals out, light oil.",
    "2. Turn 10 to 20 times each way. Push hard while turning, dial to nought; pull as hard and "
    "turn, read. The same push at every mark.",
    "3. Tighten to the next mark, never back. Four marks or more, all with float left.",
    "4. Put the points on the grid, lay a straight edge through them. It must fall by pitch x "
    "degrees / 360 (a pack: by what it is thicker). A point off it: ring did not follow, or not "
    "turned enough; read it again.",
    "5. Where the edge meets the bottom line is nothing. Rows touch a shade before that: a few "
    "um (a tenth or two) are what yields under the push.",
    "6. From the last mark go on by (last float - wanted float) / pitch x 360 degrees. For a nip "
    "add it instead. Too far: back off well past, press the ring back, come again.",
)
"""What the pencil sheet of a walk says, step by step."""

DO_PACKS = (
    "1. Fit the first pack, measured whole and nipped flat: float to spare. Screws evenly tight, "
    "seals out, light oil.",
    "2. Turn 10 to 20 times each way. Push hard while turning, dial to nought; pull as hard and "
    "turn, read. The same push with every pack.",
    "3. The next pack, its faces wiped, screws as tight as before; read again. Three packs or "
    "more, all with float left.",
    "4. Put the points on the grid, pack along, float up; lay a straight edge through them. Float "
    "must change by as much as the pack. A point off it: pack on a burr, ring not home, or not "
    "turned enough; read it again.",
    "5. Where the edge meets the bottom line is the pack that leaves nothing. Rows touch a shade "
    "before that: a few um (a tenth or two) are what yields under the push.",
    "6. From there go on by the float wanted, towards the packs that gave more; for a nip by so "
    "much the other way. Make that pack, measure it whole, read again.",
)
"""The same for packs."""
