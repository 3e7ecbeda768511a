"""Lines with their stacks, and sizes between spots, from their own short notations.

`from nose to tail:` names the two ends of a line; a stack is a list of spots and parts, a bare
part inside it standing for its two ends; `case.face to case.joint: 12.3` is a size between two
spots, `sleeve: 22.05` that between the ends of a part.
"""

from dryfit.document.nodes import Node, Scalar
from dryfit.document.reader import Reader
from dryfit.document.values import size, spot_text
from dryfit.model.rebuild import FIRST_END, LAST_END, Between, Line, Stack
from dryfit.model.spots import Spot
from dryfit.quantities import Place


def read_line(reader: Reader, name: str, node: Node, place: Place) -> Line | None:
    """Read one line: its direction and the stacks under it."""
    typed = reader.entries(node, place)
    if not typed:
        reader.tell("line.empty", place, "this line has no stacks", "add from ... to ...:")
    lines = [_directed(reader, name, key, value, (*place, key)) for key, value in typed]
    if len(typed) > 1:
        reader.tell(
            "line.direction",
            (*place, typed[1][0]),
            "a line has one direction; this is a second",
            "put all its stacks under the first",
        )
    return lines[0] if lines else None


def _directed(reader: Reader, name: str, key: str, node: Node, place: Place) -> Line | None:
    """Read the stacks of a line under its two ends."""
    ends = direction(key)
    if ends is None:
        reader.tell(
            "line.direction",
            place,
            f"'{key}' does not say from which end to which",
            "write from FIRST END to LAST END, for instance: from nose to tail:",
        )
        return None
    stacks = [_stack(reader, n, v, (*place, n)) for n, v in reader.entries(node, place)]
    return Line(name, *ends, tuple(s for s in stacks if s is not None))


def direction(key: str) -> tuple[str, str] | None:
    """Take the two ends out of `from nose to tail`."""
    if not key.startswith("from ") or key.count(" to ") != 1:
        return None
    first, last = (word.strip() for word in key[len("from ") :].split(" to "))
    return (first, last) if first and last and first != last else None


def _stack(reader: Reader, name: str, node: Node, place: Place) -> Stack | None:
    """Read a list of spots and parts; a part at the end of a stack shows the face inside it."""
    items = reader.items(node, place)
    if len(items) < 2:
        reader.tell("stack.short", place, "a stack needs two places or more", "list what follows")
        return None
    spots: list[Spot] = []
    for number, item in enumerate(items):
        last = number == len(items) - 1
        spots.extend(_spots(reader, item, (*place, number), first=number == 0, last=last))
    return Stack(name, tuple(spots))


def _spots(reader: Reader, node: Node, place: Place, *, first: bool, last: bool) -> list[Spot]:
    """Read one item of a stack."""
    text = reader.text(node, place)
    if not text:
        if isinstance(node, Scalar):
            reader.tell("spot", place, "nothing stands here", "name a part or a place on one")
        return []
    if "." in text:
        found = spot_text(reader, text, place)
        return [found] if found else []
    ends = [Spot(text, FIRST_END), Spot(text, LAST_END)]
    return ends[1:] if first else ends[:1] if last else ends


def read_between(reader: Reader, key: str, node: Node, place: Place) -> Between | None:
    """Read a size with the two spots it lies between."""
    spots = between_spots(reader, key, place)
    found = size(reader, node, place)
    return Between(key, *spots, found) if spots and found is not None else None


def between_spots(reader: Reader, key: str, place: Place) -> tuple[Spot, Spot] | None:
    """Take the two spots out of `case.face to case.joint`, or the two ends of `sleeve`."""
    words = [word.strip() for word in key.split(" to ")]
    if len(words) == 1 and "." not in key:
        return Spot(key, FIRST_END), Spot(key, LAST_END)
    if len(words) != 2:
        reader.tell(
            "size.between", place, f"'{key}' is no pair of places", "write part.place to part.place"
        )
        return None
    a, b = (spot_text(reader, word, place) for word in words)
    return (a, b) if a and b else None
