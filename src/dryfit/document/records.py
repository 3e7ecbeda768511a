"""Any record of the model read from a group of keys, as its fields say.

The key of a field is its name with spaces, or the `key` it declares. What is not a key of the
record is a finding with what may have been meant.
"""

from collections.abc import Iterable, Mapping
from dataclasses import Field, fields
from typing import Any, TypeVar

from dryfit.document.nodes import Node
from dryfit.document.reader import Reader
from dryfit.document.values import VALUES
from dryfit.quantities import Place
from dryfit.quantities.finding import near

R = TypeVar("R")


def keys_of(record: type[Any]) -> dict[str, Field[Any]]:
    """List the keys a record may have in the text, with their fields."""
    readable = [f for f in fields(record) if "reads" in f.metadata]
    return {f.metadata["key"] or f.name.replace("_", " "): f for f in readable}


def read_record(
    reader: Reader,
    record: type[R],
    node: Node,
    place: Place,
    *,
    also: Iterable[str] = (),
    **given: Any,
) -> R | None:
    """Read a record; `also` are keys that somebody else reads, `given` fields that are known."""
    keys = keys_of(record)
    values: dict[str, Any] = dict(given)
    typed = reader.entries(node, place)
    for key, value in typed:
        if key in keys:
            field = keys[key]
            found = VALUES[field.metadata["reads"]](reader, value, (*place, key))
            if found is not None and found != "":
                values[field.name] = found
        elif key not in also:
            tell_unknown(reader, key, [*also, *keys], place)
    seen = {key for key, _ in typed}
    lacking = [key for key, f in keys.items() if f.metadata["required"] and f.name not in values]
    for key in lacking:
        if key not in seen or (*place, key) not in reader.unread:
            reader.tell("key.missing", (*place, key), f"'{key}' is missing", f"add {key}: ...")
    return None if lacking else record(**values)


def read_kind(reader: Reader, kinds: Mapping[str, type[R]], node: Node, place: Place) -> R | None:
    """Read a record whose key `kind` says which it is."""
    typed = dict(reader.entries(node, place))
    if "kind" not in typed:
        if place not in reader.unread:
            reader.tell("kind.missing", place, "it has no kind", f"add kind: {near('', kinds)}")
        return None
    kind = reader.text(typed["kind"], (*place, "kind")) or ""
    if kind not in kinds:
        if kind or (*place, "kind") not in reader.unread:
            reader.tell(
                "kind", (*place, "kind"), f"'{kind}' is no kind known here", near(kind, kinds)
            )
        reader.unread.add(place)
        return None
    found = read_record(
        reader, kinds[kind], node, place, also=["kind"], name=str(place[-1]), kind=kind
    )
    if found is None:
        reader.unread.add(place)
    return found


def tell_unknown(reader: Reader, key: str, choices: Iterable[str], place: Place) -> None:
    """Note a key that does not belong here."""
    reader.tell("key.unknown", (*place, key), f"'{key}' does not belong here", near(key, choices))
