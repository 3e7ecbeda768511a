"""How each sort of value that a record may hold is read: `VALUES`, by the names in `reads`."""

import re
from collections.abc import Callable
from functools import partial
from typing import Any

from dryfit.document.nodes import Mapping, Node
from dryfit.document.reader import Reader
from dryfit.model.lands import Diameters, Land
from dryfit.model.rebuild import Stock
from dryfit.model.spots import Spot
from dryfit.quantities import (
    Kind,
    NotKnown,
    Place,
    PreloadRange,
    Quantity,
    Size,
    SizeRange,
    Unreadable,
    read_preload,
    read_quantity,
    read_range,
    read_size,
)

COUNTED = re.compile(r"(\d{1,3}) of (.*)")
MINUTES = re.compile(r"(\d{1,5}(?:\.\d{1,2})?)(?: ?(?:min|minutes))?", re.ASCII)
MOST_PIECES = 99
MOST_COUNTED = 999
MOST_MINUTES = 6000
"""A hundred hours: longer than any step is done in one go."""


def size(
    reader: Reader, node: Node, place: Place, *, known: bool = False
) -> Size | NotKnown | None:
    """Read a size, or that it is not known; `known` where that is no answer."""
    text = reader.text(node, place)
    return None if text is None else size_text(reader, text, place, known=known)


def size_text(
    reader: Reader, text: str, place: Place, *, known: bool = False
) -> Size | NotKnown | None:
    """Read a size from its text."""
    return reader.typed(place, lambda: read_size(text, reader.system), known=known)


def known_size(reader: Reader, node: Node, place: Place) -> Size | None:
    """Read a size that must be known."""
    found = size(reader, node, place, known=True)
    if isinstance(found, NotKnown):
        reader.tell("size.wanted", place, "a size is wanted here", "type it, or take the key out")
        return None
    return found


def diameters(reader: Reader, node: Node, place: Place) -> Diameters:
    """Read one diameter all along a part, or one for each of its lands."""
    if not isinstance(node, Mapping):
        return size(reader, node, place)
    found = [_land(reader, k, v, (*place, k)) for k, v in reader.entries(node, place)]
    return tuple(land for land in found if land is not None) or None


def _land(reader: Reader, key: str, node: Node, place: Place) -> Land | None:
    """Read one land: `nose to shoulder: 70`, with the part's own names for its spots."""
    spots = [word.strip() for word in key.split(" to ")]
    example = "nose to shoulder: 70"
    if len(spots) != 2 or not all(spots):
        message = f"'{key}' does not say from which spot to which this diameter goes"
        reader.tell("land.between", place, message, f"write SPOT to SPOT: SIZE, as {example}")
    elif "." in key:
        message = f"'{key}' names a part, but lands are between spots of '{place[1]}' itself"
        way_out = " to ".join(spot.rpartition(".")[2] for spot in spots)
        reader.tell("land.part", place, message, f"write {way_out}")
    elif spots[0] == spots[1]:
        message = f"this land goes from '{spots[0]}' to itself"
        reader.tell("land.nowhere", place, message, f"name its two ends, as {example}")
    else:
        found = size(reader, node, place)
        return None if found is None else Land(spots[0], spots[1], found)
    return None


def tolerance(reader: Reader, node: Node, place: Place) -> Size | None:
    """Read how well a part is cut to size: `+/- 0.01`."""
    text = reader.text(node, place)
    if text is None:
        return None
    bare = re.sub(r"^(\+/-|±)\s*", "", text)
    found = size_text(reader, bare, place, known=True)
    if isinstance(found, Size) and found.value > 0:
        return found
    if isinstance(found, Size | NotKnown):
        reader.tell("size.tolerance", place, f"'{text}' is no tolerance", "write +/- 0.01")
    return None


def size_range(reader: Reader, node: Node, place: Place) -> SizeRange | None:
    """Read a range of sizes; a preload there is told as one."""
    text = reader.text(node, place)
    if text is None:
        return None
    if _is_preload(text):
        message = f"'{text}' is a preload, and here limits of a length are wanted"
        reader.tell("range.preload", place, message, "write 0.05 to 0.15, or kind: preload")
        return None
    return reader.typed(place, lambda: read_range(text, reader.system), known=True)


def _is_preload(text: str) -> bool:
    try:
        read_preload(text)
    except Unreadable:
        return False
    return True


def preload(reader: Reader, node: Node, place: Place) -> PreloadRange | None:
    """Read what preload is wanted."""
    text = reader.text(node, place)
    return None if text is None else reader.typed(place, lambda: read_preload(text))


def quantity(kind: Kind, reader: Reader, node: Node, place: Place) -> Quantity | None:
    """Read another quantity with its unit."""
    text = reader.text(node, place)
    return None if text is None else reader.typed(place, lambda: read_quantity(text, kind))


def stock(reader: Reader, node: Node, place: Place) -> tuple[Stock, ...]:
    """Read what is in the drawer: `0.10` as many as wanted, `2 of 0.25` two."""
    pieces = []
    for number, item in enumerate(_in_the_drawer(reader, node, place)):
        text = reader.text(item, (*place, number))
        if text is None:
            continue
        counted = COUNTED.fullmatch(text)
        count, rest = (int(counted[1]), counted[2]) if counted else (None, text)
        found = size_text(reader, rest, (*place, number), known=True)
        piece = _thick(reader, found, (*place, number))
        if piece and count == 0:
            reader.tell("stock.count", (*place, number), "0 pieces", "take it off the list")
        elif piece:
            pieces.append(Stock(piece, count))
    return tuple(pieces)


def _in_the_drawer(reader: Reader, node: Node, place: Place) -> list[Node]:
    """List what is in the drawer; an empty one is told."""
    items = list(reader.items(node, place))
    if not items:
        message = "the drawer is empty: nothing can be made of it"
        reader.tell("stock.empty", place, message, "list what is in it: [0.05, 0.10, 0.25]")
        reader.unread.add(place)
    return items


def sizes(reader: Reader, node: Node, place: Place) -> tuple[Size, ...]:
    """Read a list of thicknesses."""
    found = []
    for number, item in enumerate(_in_the_drawer(reader, node, place)):
        piece = _thick(reader, size(reader, item, (*place, number), known=True), (*place, number))
        if piece:
            found.append(piece)
    return tuple(found)


def _thick(reader: Reader, found: Size | NotKnown | None, place: Place) -> Size | None:
    """Take only a thickness that a piece can have."""
    if isinstance(found, Size) and found.value > 0:
        return found
    if found is not None:
        reader.tell("stock.size", place, "a piece has a thickness", "type it, larger than 0")
    return None


def thicknesses(reader: Reader, node: Node, place: Place) -> dict[str, Size]:
    """Read packs by part."""
    found = {n: known_size(reader, v, (*place, n)) for n, v in reader.entries(node, place)}
    return {name: value for name, value in found.items() if value is not None}


def warmths(reader: Reader, node: Node, place: Place) -> dict[str, Quantity]:
    """Read how much warmer each part is."""
    read = partial(quantity, "temperature difference")
    found = {n: read(reader, v, (*place, n)) for n, v in reader.entries(node, place)}
    return {name: value for name, value in found.items() if value is not None}


def count(reader: Reader, node: Node, place: Place) -> int | None:
    """Read how many there are."""
    text = reader.text(node, place)
    if text is None:
        return None
    if text.isascii() and text.isdigit() and 0 < int(text) <= MOST_COUNTED:
        return int(text)
    way_out = f"write a whole number from 1 to {MOST_COUNTED}: 9"
    reader.tell("count", place, f"'{text}' is no count", way_out)
    return None


def minutes(reader: Reader, node: Node, place: Place) -> float | None:
    """Read how long something takes: `10`, or `10 min` [min]."""
    text = reader.text(node, place)
    if text is None:
        return None
    found = MINUTES.fullmatch(text)
    if found and 0 < float(found[1]) <= MOST_MINUTES:
        return float(found[1])
    way_out = f"write minutes, more than 0 and at most {MOST_MINUTES}: 10, or 10 min"
    reader.tell("minutes", place, f"'{text}' is no time", way_out)
    return None


def names(reader: Reader, node: Node, place: Place) -> tuple[str, ...]:
    """Read a list of names."""
    found = [reader.text(item, (*place, n)) for n, item in enumerate(reader.items(node, place))]
    return tuple(name for name in found if name)


def spot(reader: Reader, node: Node, place: Place) -> Spot | None:
    """Read a named place on a part: `case.joint`."""
    text = reader.text(node, place)
    return None if text is None else spot_text(reader, text, place)


def part_or_spot(reader: Reader, node: Node, place: Place) -> Spot | None:
    """Read a part, with an empty name for the spot, or a named place on one."""
    text = reader.text(node, place)
    if not text:
        return None
    return spot_text(reader, text, place) if "." in text else Spot(text, "")


def spot_text(reader: Reader, text: str, place: Place) -> Spot | None:
    """Read a named place from its text."""
    part, dot, name = (word.strip() for word in text.partition("."))
    if part and dot and name and "." not in name:
        return Spot(part, name)
    reader.tell("spot", place, f"'{text}' names no place on a part", "write part.place: case.joint")
    return None


VALUES: dict[str, Callable[[Reader, Node, Place], Any]] = {
    "text": Reader.text,
    "material": Reader.text,
    "part": Reader.text,
    "mesh": Reader.text,
    "line": Reader.text,
    "state": Reader.text,
    "end": Reader.text,
    "part list": names,
    "step list": names,
    "spot": spot,
    "part or spot": part_or_spot,
    "minutes": minutes,
    "size": size,
    "known size": known_size,
    "diameters": diameters,
    "size list": sizes,
    "tolerance": tolerance,
    "range": size_range,
    "preload": preload,
    "stock": stock,
    "thicknesses": thicknesses,
    "warmths": warmths,
    "count": count,
    "angle": partial(quantity, "angle"),
    "force": partial(quantity, "force"),
    "torque": partial(quantity, "torque"),
    "speed": partial(quantity, "speed"),
    "temperature difference": partial(quantity, "temperature difference"),
}
