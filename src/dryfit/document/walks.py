"""A walk read from its group: what was changed, and the float read with each pack or at each mark.

wheel float: {with: cover shim, 0.50: 0.112, 0.55: 0.161, 0.60: 0.212}
"""

import re

from dryfit.document.nodes import Node
from dryfit.document.reader import Reader
from dryfit.document.values import known_size, size_text
from dryfit.model.rebuild import Step, Walked
from dryfit.quantities import Mark, NotKnown, Place, Size, is_mark, read_mark

WITH = "with"
FIGURE = re.compile(r"[-+.]?\s*[\d½¼¾]")
"""How a pack or a mark begins; any other key is a word."""


def read_walk(reader: Reader, name: str, node: Node, place: Place) -> Walked | None:
    """Read one walk; degrees in half of its keys make all of them marks of a nut."""
    typed = reader.entries(node, place)
    changed = next((reader.text(v, (*place, k)) for k, v in typed if k == WITH), None)
    if not changed and not {place, (*place, WITH)} & reader.unread:
        message = "nothing says which pack or nut was changed between these readings"
        reader.tell("walk.with", place, message, "add with: NAME of the setting or nut")
    figures = [key for key, _ in typed if FIGURE.match(key) and key != "0"]
    count = sum(is_mark(key) for key in figures)
    marks = count > 0 and 2 * count >= len(figures)
    steps = [_step(reader, k, v, (*place, k), marks=marks) for k, v in typed if k != WITH]
    if not changed:
        return None
    return Walked(name, changed, tuple(step for step in steps if step is not None))


def _step(reader: Reader, key: str, node: Node, place: Place, *, marks: bool) -> Step | None:
    """Read one float with its pack or mark."""
    if not FIGURE.match(key):
        way_out = "write with: NAME, and for each reading PACK: FLOAT, as 0.50: 0.112"
        reader.tell("key.unknown", place, f"'{key}' does not belong here", way_out)
        return None
    at = reader.typed(place, lambda: read_mark(key)) if marks else _pack(reader, key, place)
    read = known_size(reader, node, place)
    return None if at is None or read is None else Step(key, at, read)


def _pack(reader: Reader, key: str, place: Place) -> Size | Mark | None:
    found = size_text(reader, key, place)
    return None if isinstance(found, NotKnown) else found
