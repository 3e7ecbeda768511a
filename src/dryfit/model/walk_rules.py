"""What must hold of a walk written in the document before any number is worked out."""

from collections.abc import Iterator
from itertools import pairwise

from dryfit.model.known import names_in
from dryfit.model.parts import Nut
from dryfit.model.rebuild import EndFloat, Rebuild, Step, Walked
from dryfit.quantities import Finding, Mark, Place, Size
from dryfit.quantities.finding import near

SAME = 1e-6
"""Packs [mm] or marks [deg] no further apart are the same."""

MOST_FLOAT = 5
"""More than this [mm] is rather a slip in point or unit than a float: estimate."""


def walk_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """A walk reads one float, with packs of one setting or at marks of one nut, each once."""
    for name, walk in rebuild.walks.items():
        place: Place = ("walks", name)
        yield from _check(rebuild, name, place)
        yield from _changed(rebuild, walk, place)
        yield from _floats(walk, place)
        yield from _each_once(walk, place)
        yield from _enough(rebuild, walk, place)


def _check(rebuild: Rebuild, name: str, place: Place) -> Iterator[Finding]:
    """It is a float that is read."""
    floats = [n for n, check in rebuild.checks.items() if isinstance(check, EndFloat)]
    check = rebuild.checks.get(name)
    if name not in names_in(rebuild, "checks", rebuild.checks):
        yield Finding("check.unknown", place, f"there is no check '{name}'", near(name, floats))
    elif check is not None and not isinstance(check, EndFloat):
        yield Finding(
            "walk.kind",
            place,
            f"'{name}' is a {check.kind}, and only an end float can be walked to nothing",
            near(name, floats) or "add a check of kind end float, and name it here",
        )


def _changed(rebuild: Rebuild, walk: Walked, place: Place) -> Iterator[Finding]:
    """A setting is written by its packs, a nut by its marks."""
    nuts = {name: part for name, part in rebuild.parts.items() if isinstance(part, Nut)}
    adjusting = [name for name, nut in nuts.items() if nut.torque is None]
    named = names_in(rebuild, "settings", rebuild.settings) | names_in(rebuild, "parts", nuts)
    part = rebuild.parts.get(walk.with_)
    where = (*place, "with")
    if walk.with_ not in named:
        yield Finding(
            "walk.with",
            where,
            f"'{walk.with_}' is no setting and no nut",
            near(walk.with_, [*rebuild.settings, *adjusting]),
        )
        return
    if isinstance(part, Nut):
        wrong = [step for step in walk.steps if isinstance(step.at, Size)]
        told = f"'{walk.with_}' is a nut, and {{}} is no mark of one"
        way = "write how far it was tightened: 0 deg, 10 deg, 1/8 turn, 2 flats of 6"
    else:
        wrong = [step for step in walk.steps if isinstance(step.at, Mark)]
        told = f"'{walk.with_}' is a {part.kind if part else 'pack'}, and {{}} is no thickness"
        way = "write how thick the whole pack was: 0.50"
    for step in wrong[:1]:
        yield Finding("walk.mark", (*place, step.key), told.format(step.key), way)


def _floats(walk: Walked, place: Place) -> Iterator[Finding]:
    """Neither a float nor a pack is less than nothing."""
    for step in walk.steps:
        if step.read.value < 0:
            yield Finding(
                "reading.negative",
                (*place, step.key),
                f"a float of {step.read.text} is less than nothing",
                "set the dial to nought at the push one way, pull, and write how far it moves",
            )
        if step.read.value > MOST_FLOAT:
            yield Finding(
                "walk.far",
                (*place, step.key),
                f"{step.read.text} is more than {MOST_FLOAT} mm: no float to be walked",
                "look at its point and its unit",
            )
        if isinstance(step.at, Size) and step.at.value < 0:
            yield Finding(
                "walk.minus",
                (*place, step.key),
                f"a pack of {step.key} is thinner than nothing",
                "write its thickness without a sign, 0 for none",
            )


def _each_once(walk: Walked, place: Place) -> Iterator[Finding]:
    """Each pack or mark stands there once; marks count on as a nut is tightened."""
    for n, step in enumerate(walk.steps):
        same = [s for s in walk.steps[:n] if abs(_figure(s) - _figure(step)) <= SAME]
        if same:
            what = "mark" if isinstance(step.at, Mark) else "pack"
            yield Finding(
                "walk.same mark",
                (*place, step.key),
                f"{step.key} is the same {what} as {same[0].key}",
                f"of two floats at one {what} write the mean; or is a {what} mistyped?",
            )
    for before, after in pairwise(walk.steps):
        if isinstance(after.at, Mark) and _figure(after) < _figure(before) - SAME:
            yield Finding(
                "walk.order",
                (*place, after.key),
                f"{after.key} stands behind {before.key}: the nut was turned back between them",
                "marks count on as the nut is tightened; leave it out, or back off well past and "
                "walk anew",
            )


def _figure(step: Step) -> float:
    return step.at.degrees if isinstance(step.at, Mark) else step.at.mm


def _enough(rebuild: Rebuild, walk: Walked, place: Place) -> Iterator[Finding]:
    """A line needs two readings, and a third to check them: told, but no hindrance."""
    count = len(walk.steps)
    if count > 2 or any(p[:2] == place for p in rebuild.unread):
        return
    more = "mark" if isinstance(rebuild.parts.get(walk.with_), Nut) else "pack"
    told = ("no reading yet", "one reading so far", "two readings so far: nothing checks them")
    yield Finding(
        "walk.few",
        place,
        f"{told[count]}; a walk has three",
        f"read the float at {'one more' if count == 2 else 'another'} {more} and write it here",
        "note",
    )
