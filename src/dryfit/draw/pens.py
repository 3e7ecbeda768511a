"""What each pen draws on paper: its width and its dashes, in one table for all writers."""

from dataclasses import dataclass

from dryfit.draw.paper import Pen


@dataclass(frozen=True, slots=True)
class Nib:
    """A line on paper.

    Attributes
    ----------
    width
        Of the line [mm].
    dashes
        Lengths drawn and left out in turn [mm]; empty for a line without gaps.
    """

    width: float
    dashes: tuple[float, ...] = ()


THICK, THIN, HAIR = 0.7, 0.25, 0.18

NIBS = {
    Pen.OUTLINE: Nib(THICK),
    Pen.EDGE: Nib(THIN),
    Pen.HATCH: Nib(HAIR),
    Pen.CENTRE: Nib(THIN, (6.0, 0.75, 0.5, 0.75)),
    Pen.ASSUMED: Nib(THICK, (4.2, 2.1)),
}
"""Widths from the row of ISO 128-2. Its long dash is 24 widths, the gap 3; a dash would be 12
widths, here 6: outlines of small parts are shorter than that (from memory)."""
