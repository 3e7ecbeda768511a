"""What a drawing says in words: its notes and tables, and findings about it."""

from collections.abc import Iterator, Mapping

from dryfit.app.usecases.drawing_marks import BalloonAnswer, LetterAnswer
from dryfit.app.usecases.lying import Lying
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding
from dryfit.shape.cells import Guess, Solid, What

Shapes = Mapping[str, tuple[Solid, ...]]
"""Parts by line."""


OPEN = "frame below the axis: the case is open at its side"


def notes(lies: Lying, shapes: Shapes, gaps: float, *, is_open: bool = False) -> Iterator[str]:
    """Say on the sheet what is not to scale and what is not known."""
    solids = [solid for own in shapes.values() for solid in own]
    if any(cell.what in (What.SHIM, What.GASKET) for solid in solids for cell in solid.cells):
        yield "packs drawn thick"
    if gaps > 1:
        yield f"gaps drawn {gaps:g} times too wide"
    if is_open:
        yield OPEN
    if any(solid.guessed for solid in solids):
        yield "dashed and ?: not known, by proportion"
    for part in sorted(lies.unknown_packs):
        yield f"{part}: thickness not known yet"


def part_rows(balloons: tuple[BalloonAnswer, ...], shapes: Shapes) -> tuple[tuple[str, ...], ...]:
    """Write the table of parts; "?" behind one that is drawn by proportion."""
    doubt = _guessed(shapes)
    return tuple((str(b.number), f"{b.part} ?" if b.part in doubt else b.part) for b in balloons)


def length_rows(letters: tuple[LetterAnswer, ...]) -> tuple[tuple[str, ...], ...]:
    """Write the table of lengths."""
    return tuple((x.letter, _short(x.key), x.shown, x.instrument) for x in letters)


def _short(key: str) -> str:
    """Write a size without the name of its part a second time."""
    start, to, end = key.partition(" to ")
    part = start.partition(".")[0]
    return f"{start}{to}{end.removeprefix(part + '.')}"


SIDES = {Guess.INNER: "inside", Guess.OUTER: "outside", Guess.ENDS: "ends"}
"""How the sides of a part are called."""


def _guessed(shapes: Shapes) -> dict[str, list[str]]:
    """List the parts that are drawn by proportion, with which of their sides."""
    found: dict[str, list[str]] = {}
    for solids in shapes.values():
        for solid in solids:
            every = Guess.NONE
            for cell in solid.cells:
                every |= cell.guess
            sides = [word for flag, word in SIDES.items() if every & flag]
            if sides:
                found.setdefault(solid.part, sides)
    return found


def guesses(shapes: Shapes) -> Iterator[Finding]:
    """Tell what is drawn by proportion because nobody typed it: one finding for all."""
    found = _guessed(shapes)
    if found:
        listed = "; ".join(f"{part}: {', '.join(sides)}" for part, sides in found.items())
        yield Finding(
            "draw.by proportion",
            ("parts",),
            f"drawn dashed, by proportion: {listed}",
            "measure what the drawing is wanted for: bore, outside, lands, first and last end",
            "note",
        )


def nowhere(rebuild: Rebuild, drawn: set[str]) -> Iterator[Finding]:
    """Tell parts that no stack gives a place, where the whole unit is drawn."""
    for part in rebuild.parts:
        if part not in drawn:
            yield Finding(
                "draw.no place",
                ("parts", part),
                f"nothing says where '{part}' lies, so it is not drawn",
                "put it into a stack",
                "note",
            )
