"""Wishes for the order of work, read from their sentences.

wishes: ['rear, cup before front, cup', never cover before oil, never spindle to tail]
"""

import re

from dryfit.document.nodes import Node, Sequence, fold
from dryfit.document.reader import Reader
from dryfit.model.own_steps import Before, NotBy, Wish
from dryfit.quantities import Place

SENTENCE = re.compile(r"(?P<never>never )?(?P<one>\S.*?) (?P<word>before|after) (?P<other>.*\S)")
"""One step before or after another, or never that."""

NOT_BY = re.compile(r"never (?P<one>\S.*?) to (?P<end>\S.*)")
"""A step that is not to be done by the way to an end of its line."""

WAY_OUT = 'write a step, the word before, and a step: "cover before nut"'
QUOTED = "in brackets a name with a comma goes in quotes"


def read_wishes(reader: Reader, node: Node, place: Place) -> tuple[Wish, ...]:
    """Read all wishes, and tell which are none."""
    found = []
    for number, item in enumerate(reader.items(node, place)):
        where = (*place, number) if isinstance(node, Sequence) else place
        text = reader.text(item, where)
        wish = None if text is None else wish_of(text, where)
        if wish is not None:
            found.append(wish)
        elif text is not None:
            quotes = f"; {QUOTED}" if isinstance(node, Sequence) and node.flow else ""
            reader.tell("plan.pin", where, f"'{text}' is no wish", WAY_OUT + quotes)
    return tuple(found)


def wish_of(text: str, place: Place = ()) -> Wish | None:
    """Read one wish; nothing of what is none.

    Examples
    --------
    >>> wish_of("cover before oil")
    Before(first='cover', then='oil', place=())
    >>> wish_of("never cover before oil")
    Before(first='oil', then='cover', place=())
    >>> wish_of("never spindle to tail")
    NotBy(step='spindle', end='tail', place=())
    >>> wish_of("cover befor oil")
    """
    sentence = SENTENCE.fullmatch(text.strip())
    if sentence is None:
        found = NOT_BY.fullmatch(text.strip())
        return NotBy(fold(found["one"]), fold(found["end"]), place) if found else None
    one, other = fold(sentence["one"]), fold(sentence["other"])
    as_said = (sentence["word"] == "before") is not bool(sentence["never"])
    return Before(one, other, place) if as_said else Before(other, one, place)


def steps_in(text: str) -> list[tuple[int, str]]:
    """List the steps that a wish names, each with where its name begins.

    Examples
    --------
    >>> steps_in("never cover before oil"), steps_in("cover")
    ([(6, 'cover'), (19, 'oil')], [])
    """
    found = SENTENCE.fullmatch(text) or NOT_BY.fullmatch(text)
    names = [name for name in ("one", "other") if found and name in found.groupdict()]
    return [(found.start(name), found[name]) for name in names if found]
