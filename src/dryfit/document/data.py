"""What an edit does to plain data: the yardstick by which a changed text is judged.

Names are found with white space folded; nothing here knows how anything is written.
"""

from dryfit.document.nodes import Data, fold
from dryfit.quantities.finding import Place


def put(data: Data, place: Place, value: str) -> None:
    """Change a single value."""
    holder, index = _holder(data, place)
    if isinstance(holder, list):
        holder[index] = value
    else:
        holder[list(holder)[index]] = value


def added(data: Data, rest: Place, value: Data) -> Data:
    """Give `data` with a value put in at `rest`; an empty text becomes a mapping or a list."""
    if not rest:
        return value
    key, below = rest[0], rest[1:]
    if data == "":
        data = [] if isinstance(key, int) else {}
    if isinstance(data, list) and isinstance(key, int):
        if below and key < len(data):
            data[key] = added(data[key], below, value)
        else:
            data.insert(key, added("", below, value))
    elif isinstance(data, dict) and isinstance(key, str):
        name = next((each for each in data if fold(each) == fold(key)), key)
        data[name] = added(data.get(name, ""), below, value)
    return data


def remove(data: Data, place: Place) -> int:
    """Take out an entry or item; give the number it had among its siblings."""
    holder, index = _holder(data, place)
    if isinstance(holder, list):
        del holder[index]
    else:
        del holder[list(holder)[index]]
    return index


def move(data: Data, place: Place, to: int) -> int:
    """Put an entry or item elsewhere among its siblings; give the number it had."""
    holder, index = _holder(data, place)
    if isinstance(holder, list):
        holder.insert(to, holder.pop(index))
    else:
        items = list(holder.items())
        items.insert(to, items.pop(index))
        holder.clear()
        holder.update(items)
    return index


def same(one: Data, other: Data) -> bool:
    """Tell whether two data are equal, their order too (equal dicts may differ in it)."""
    return repr(one) == repr(other)


def _holder(data: Data, place: Place) -> tuple[list[Data] | dict[str, Data], int]:
    """Walk down to what holds a place, and tell the number of the place in it."""
    index = 0
    holder: list[Data] | dict[str, Data] = []
    for key in place:
        if isinstance(data, str):
            raise KeyError(place)
        holder = data
        if isinstance(key, int):
            index = key
        else:
            index = [fold(each) for each in holder if isinstance(each, str)].index(fold(key))
        data = list(holder.values())[index] if isinstance(holder, dict) else holder[index]
    return holder, index
