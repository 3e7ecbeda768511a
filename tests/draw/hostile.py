"""Drawings for the tests of the writers: one of everything, and hostile ones by hypothesis."""

from hypothesis import strategies as st

from dryfit.draw.paper import (
    Anchor,
    Area,
    Drawing,
    Group,
    Ink,
    Item,
    Layer,
    Lettering,
    Pen,
    Ring,
    Stroke,
)

PART = "cover <b>\"&' 軸"
"""A name that markup, file names and names of blocks would choke on."""

TEXTS = (
    "<script>alert(1)</script>",
    "&amp; &#0; ]]> -->",
    "'\" ` {{ 7*7 }} {% raw %} #evil() *b* $x$",
    "%%c %%%d \\U+2300 \\M+1ABCD ^J ^ \\P {\\H3x;}",
    "w" * 80,
    "two  spaces, ⌀40 ± 0.01 ≤ 1/2″",
    "",
    " ",
)
"""What a user may type; all of it is written as it stands."""

UNSEEN = {"a\0b": "a‹0000›b", "a\x1b[0m": "a‹001B›[0m", "a\nb": "a‹000A›b", "a‮b": "a‹202E›b"}
"""What nobody would see, and what is written instead."""


def one_of_everything(scale: float | None = None) -> Drawing:
    """Give a drawing with every item, pen, ink and anchor."""
    strokes = tuple(
        Stroke(((10.0, 10.0 + n), (60.1234, 10.0 + n), (61.0, 12.0 + n)), pen, n % 2 == 0, ink)
        for n, (pen, ink) in enumerate((pen, ink) for pen in Pen for ink in Ink)
    )
    part: tuple[Item, ...] = (
        *strokes,
        Ring((30.0, 40.0), 12.3456),
        Area(((20.0, 30.0), (30.0, 30.0), (25.0, 35.0)), blank=True),
        Area(((5.0, 5.0), (6.0, 5.0), (5.5, 7.0)), ink=Ink.MARKED),
    )
    letters = tuple(
        Lettering((50.0, 60.0 + n), f"text {n}", 3.5, anchor, n % 2 == 0, turned=n == 2)
        for n, anchor in enumerate(Anchor)
    )
    groups = (
        Group(Layer.PARTS, part, PART),
        Group(Layer.AXES, (Stroke(((0.0, 30.0), (100.0, 30.0)), Pen.CENTRE),)),
        Group(Layer.PARTS, (Stroke(((1.0, 2.0), (3.0, 4.0))),), PART),
        Group(Layer.TEXT, letters),
    )
    return Drawing("Cover, half-section", 120.5, 80.25, groups, scale)


def lettered(*texts: str) -> Drawing:
    """Give a drawing with these texts, each also as the name of a part and the first as title."""
    groups = [Group(Layer.TEXT, (Lettering((10.0, 10.0), text, 3.5),), text) for text in texts]
    return Drawing(texts[0], 100.0, 50.0, tuple(groups))


any_text = st.text(max_size=80) | st.sampled_from([*TEXTS, *UNSEEN])
"""Any text at all, halves of characters and control characters too."""
