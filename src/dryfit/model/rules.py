"""What must hold between the records of a rebuild before any number is worked out.

`check` asks every rule and gives all findings at once. A reference to something that is named in
the text but could not be read is not blamed a second time.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from difflib import get_close_matches
from fractions import Fraction
from itertools import pairwise

from dryfit.model.apart_rules import apart_rules
from dryfit.model.axes_rules import axes_rules
from dryfit.model.bearing_rules import bearing_rules
from dryfit.model.filled import filled_rules
from dryfit.model.holder_rules import holder_rules
from dryfit.model.known import names_in, parts_known
from dryfit.model.land_rules import land_rules
from dryfit.model.long_rules import long_rules
from dryfit.model.mesh_rules import mesh_rules
from dryfit.model.own_step_rules import own_step_rules
from dryfit.model.parts import (
    Bearing,
    Cover,
    Gasket,
    Housing,
    Key,
    Part,
    PlainBearing,
    Seal,
    Shaft,
    Turned,
)
from dryfit.model.rebuild import (
    BUILT,
    HOT,
    Check,
    CordPull,
    Depth,
    EndFloat,
    FloatNeed,
    Gap,
    LashNeed,
    Need,
    PreloadNeed,
    Rebuild,
    Thickness,
)
from dryfit.model.setting_rules import setting_rules
from dryfit.model.spots import Spot
from dryfit.model.state_rules import runs_warm, state_rules
from dryfit.model.walk_rules import walk_rules
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import a, near

MOST_PARTS = 500
BARRED = set("{}[]:#,&*!|>'\"%@`\\?/")


def check(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Ask every rule."""
    return tuple(finding for rule in RULES for finding in rule(rebuild))


def _part_names(rebuild: Rebuild) -> Iterator[Finding]:
    """A part's name can be written in a stack and before a dot; there are not too many."""
    if len(rebuild.parts) > MOST_PARTS:
        yield Finding(
            "limit.parts",
            ("parts",),
            f"{len(rebuild.parts)} parts are more than {MOST_PARTS}",
            "split the unit into rebuilds of its own, one a shaft",
        )
    for name in rebuild.parts:
        bad = sorted(c for c in set(name) if c in BARRED or c == "." or not c.isprintable())
        if bad or " to " in name or not name[:1].isalnum():
            what = f"holds '{bad[0]}'" if bad else "cannot be told from a size or a list"
            yield Finding(
                "part.name",
                ("parts", name),
                f"the name '{name}' {what}",
                "name it with letters, digits, spaces and hyphens: lower bearing 2",
            )


def _one_housing(rebuild: Rebuild) -> Iterator[Finding]:
    """One case stands still; all is placed from it."""
    cases = [p.name for p in rebuild.parts.values() if isinstance(p, Housing)]
    broken = any(place[0] == "parts" for place in rebuild.unread)
    if not cases and rebuild.parts and not broken:
        yield Finding(
            "part.no housing",
            ("parts",),
            "no part is a housing, so nothing stands still",
            "give the case kind: housing",
        )
    for extra in cases[1:]:
        yield Finding(
            "part.two housings",
            ("parts", extra, "kind"),
            f"'{cases[0]}' is a housing already; this dryfit places all from one",
            "give bolted halves as one part",
        )


def _gaskets(rebuild: Rebuild) -> Iterator[Finding]:
    """A gasket is not thicker nipped than free, and both are thicker than nothing."""
    for name, part in rebuild.parts.items():
        if not isinstance(part, Gasket):
            continue
        for key, size in (("free", part.free), ("nipped", part.nipped)):
            if isinstance(size, Size) and size.value <= 0:
                yield Finding(
                    "size.not positive",
                    ("parts", name, key),
                    f"'{name}' cannot be {size.text} thick",
                    "type its thickness, larger than 0, or not known",
                )
        free, nipped = part.free, part.nipped
        if isinstance(free, Size) and isinstance(nipped, Size) and nipped.value > free.value:
            yield Finding(
                "gasket.nipped",
                ("parts", name, "nipped"),
                f"'{name}' would be thicker nipped ({nipped.text}) than free",
                "exchange the two, or measure it nipped between flat plates",
            )


def _idle(rebuild: Rebuild) -> Iterator[Finding]:
    """A part that lies in no line does nothing."""
    lying = {s.part for line in rebuild.lines.values() for k in line.stacks for s in k.spots}
    broken = any(p[0] == "lines" for p in rebuild.unread)
    lying |= _beside_lines(rebuild)
    for name in rebuild.parts if rebuild.lines and not broken else ():
        if name not in lying:
            yield Finding(
                "part.idle",
                ("parts", name),
                f"'{name}' lies in no stack, so it moves nothing",
                "put it into the stack where it belongs, or take it out",
                "note",
            )


def _beside_lines(rebuild: Rebuild) -> set[str]:
    """List the parts that do their work without lying in a line, and what they are made up of."""
    named: list[str | None] = []
    for part in rebuild.parts.values():
        if isinstance(part, PlainBearing):
            named += [part.name, part.left_shims, part.right_shims]
        elif isinstance(part, Seal | Key):
            named.append(part.name)
    named += [getattr(mesh, "centre_shims", None) for mesh in rebuild.meshes.values()]
    return {name for name in named if name}


def _misspelt_spots(rebuild: Rebuild) -> Iterator[Finding]:
    """A spot without a size that reads much like one with a size nobody uses is a slip."""
    used = {s for line in rebuild.lines.values() for k in line.stacks for s in k.spots}
    sized = {s for b in rebuild.sizes.values() for s in (b.start, b.end)}
    for line in rebuild.lines.values():
        for stack in line.stacks:
            for spot in dict.fromkeys(stack.spots):
                idle = [s.name for s in sized - used if s.part == spot.part]
                close = get_close_matches(spot.name, idle, n=1, cutoff=0.7)
                if spot not in sized and close:
                    yield Finding(
                        "spot.unsized",
                        ("lines", line.name, line.direction, stack.name),
                        f"no size reaches '{spot}'",
                        f"did you mean '{spot.part}.{close[0]}'?",
                    )


def _lines(rebuild: Rebuild) -> Iterator[Finding]:
    """There is a line, its stacks name parts that exist, and each part of it once in a run."""
    if not rebuild.lines and not any(p[0] == "lines" for p in rebuild.unread):
        yield Finding(
            "line.none",
            ("lines",),
            "there is no line, so nothing follows anything",
            "add lines: with the parts in the order in which they lie along the shaft",
        )
    for line in rebuild.lines.values():
        for stack in line.stacks:
            place: Place = ("lines", line.name, line.direction, stack.name)
            yield from parts_known(rebuild, [spot.part for spot in stack.spots], place)
            yield from _twice(stack.spots, place)


def _twice(spots: tuple[Spot, ...], place: Place) -> Iterator[Finding]:
    """No part comes back later in a stack, none is entered and left at one spot."""
    runs = [spots[0].part] if spots else []
    for before, after in pairwise(spots):
        if before == after:
            yield Finding(
                "stack.spot twice", place, f"'{after}' follows itself", "take one of them out"
            )
        if before.part != after.part:
            runs.append(after.part)
    times = Counter(runs)
    for name in sorted({n for n in runs[1:-1] if times[n] > 1}):
        yield Finding(
            "stack.part twice",
            place,
            f"'{name}' comes twice in one stack",
            "a part lies in one place; give the second piece a name of its own",
        )


def _sizes(rebuild: Rebuild) -> Iterator[Finding]:
    """A size lies between two spots of one part, and nobody else gives it."""
    for between in rebuild.sizes.values():
        start, end = between.start, between.end
        yield from parts_known(rebuild, [start.part, end.part], between.place)
        if start.part != end.part:
            yield Finding(
                "size.two parts",
                between.place,
                f"'{start}' and '{end}' are on two parts",
                "a length over two parts is a reading: put it among the checks",
            )
        elif start == end:
            yield Finding(
                "size.nowhere", between.place, "from a place to itself", "name two places"
            )
        yield from _own_length(rebuild, between.key, rebuild.parts.get(start.part), between.size)


def _own_length(rebuild: Rebuild, key: str, part: Part | None, size: object) -> Iterator[Finding]:
    """A part's own length is larger than nothing, and not given elsewhere too."""
    if part is None or key != part.name:
        return
    if isinstance(size, Size) and size.value <= 0:
        yield Finding(
            "size.not positive",
            ("sizes", key),
            f"'{key}' cannot be {size.text} long",
            "type its length, larger than 0, or not known",
        )
    if isinstance(part, Gasket):
        yield Finding(
            "size.gasket",
            ("sizes", key),
            "a gasket is thinner nipped than free",
            f"write {key}: {{kind: gasket, free: ..., nipped: ...}} among the parts",
        )
    if key in rebuild.settings:
        yield Finding(
            "size.setting",
            ("sizes", key),
            f"'{key}' is a setting: its thickness is what is asked for",
            "take it out here; what is in now is written as fitted: in the setting",
        )


def _asked(rebuild: Rebuild) -> Iterator[Finding]:
    """Checks and needs name parts, spots and states that exist."""
    states = names_in(rebuild, "states", [BUILT, *rebuild.states])
    if runs_warm(rebuild):
        states.add(HOT)
    groups: dict[str, dict[str, Check | Need]] = {
        "needs": dict(rebuild.needs),
        "checks": dict(rebuild.checks),
    }
    for section, group in groups.items():
        for name, asked in group.items():
            place: Place = (section, name)
            yield from _state_known(asked, states, place)
            for key in ("of", "at"):
                part = getattr(asked, key, None)
                if part:
                    yield from parts_known(rebuild, [part], (*place, key))
                    if part not in _beside_lines(rebuild):
                        yield from _in_a_line(rebuild, part, (*place, key))
            if isinstance(asked, Gap):
                yield from _gap(rebuild, asked, place)
            if isinstance(asked, FloatNeed | LashNeed) and asked.want is not None:
                yield from _want(asked.kind, asked.want.low, (*place, "want"))
            if isinstance(asked, Depth):
                yield from _depth(rebuild, asked, place)
            yield from _no_bearing(rebuild, asked, place)
            if isinstance(asked, EndFloat | FloatNeed | PreloadNeed):
                yield from _floats(rebuild, asked.of, (*place, "of"))


def _no_bearing(rebuild: Rebuild, asked: Check | Need, place: Place) -> Iterator[Finding]:
    """A bearing has two rings: what is read of one part or face cannot name it."""
    named = {"of": getattr(asked, "of", None)} if isinstance(asked, ONE_PART) else {}
    if isinstance(asked, Depth):
        named = {key: s.part for key, s in (("from", asked.from_), ("to", asked.to)) if s}
    for key, part in named.items():
        if isinstance(rebuild.parts.get(part or ""), Bearing):
            yield Finding(
                "bearing.two rings",
                (*place, key),
                f"'{part}' is a bearing, with two rings: which of them is not said",
                "name the face or part that the ring lies against, such as shaft.shoulder",
            )


NEGATIVE = {"float": "want 0 to ... for none or little; for rows pressed together use kind: nip"}
"""What to write instead, by kind of need."""


def _floats(rebuild: Rebuild, name: str, place: Place) -> Iterator[Finding]:
    """What is screwed on, or stands still, has no float."""
    part = rebuild.parts.get(name)
    if isinstance(part, Turned) and not isinstance(part, Shaft):
        yield Finding(
            "float.stands",
            place,
            f"'{name}' is {a(part.kind)}: it stands still and has no float",
            "name a shaft or what is loose on it; under a cover read a gap: kind: gap, at: NAME",
        )


def _want(kind: str, low: Fraction | None, place: Place) -> Iterator[Finding]:
    """A float, nip or lash is not less than nought."""
    if low is not None and low < 0:
        yield Finding(
            "want.negative",
            place,
            f"a {kind} cannot be less than nought",
            NEGATIVE.get(kind, "want 0 to ... for none or little"),
        )


def _state_known(asked: Check | Need, states: set[str], place: Place) -> Iterator[Finding]:
    """A check is read in a state that exists."""
    if asked.state not in states:
        yield Finding(
            "state.unknown",
            (*place, "state"),
            f"there is no state '{asked.state}'",
            near(asked.state, sorted(states)),
        )


def _in_a_line(rebuild: Rebuild, part: str, place: Place) -> Iterator[Finding]:
    """What is asked for lies along some line."""
    lying = {s.part for line in rebuild.lines.values() for k in line.stacks for s in k.spots}
    broken = any(p[0] == "lines" for p in rebuild.unread)
    if part in rebuild.parts and part not in lying and not broken:
        yield Finding(
            "part.in no line", place, f"'{part}' lies in no line", "put it into a stack of its line"
        )


def _gap(rebuild: Rebuild, asked: Gap, place: Place) -> Iterator[Finding]:
    """A feeler goes under a cover, or where something is left out."""
    state = rebuild.states.get(asked.state)
    part = rebuild.parts.get(asked.at)
    out = state is not None and asked.at in state.left_out
    if part is not None and not isinstance(part, Cover) and not out:
        yield Finding(
            "gap.where",
            (*place, "at"),
            f"'{asked.at}' is fitted in state '{asked.state}', so there is no gap",
            "name a cover, or a state with it among left out",
        )


def _depth(rebuild: Rebuild, asked: Depth, place: Place) -> Iterator[Finding]:
    """A depth lies between two spots of known parts, with the loose parts held one way."""
    for key, spot in (("from", asked.from_), ("to", asked.to)):
        if spot is not None:
            yield from parts_known(rebuild, [spot.part], (*place, key))
    ends = [end for line in rebuild.lines.values() for end in (line.first, line.last)]
    if asked.held is not None and asked.held not in ends and ends:
        yield Finding(
            "end.unknown",
            (*place, "held"),
            f"no line has an end '{asked.held}'",
            near(asked.held, dict.fromkeys(ends)),
        )


def _reading_sorts(rebuild: Rebuild) -> Iterator[Finding]:
    """A balance shows a force, everything else a length."""
    for name, check in rebuild.checks.items():
        balance = isinstance(check, CordPull)
        if name in (rebuild.readings if balance else rebuild.forces):
            shows = "a force" if balance else "a length"
            yield Finding(
                "reading.sort",
                ("readings", name),
                f"{a(check.kind)} shows {shows}",
                "type 6.5 N, or 1.4 lbf" if balance else "type 0.05, or 2 thou",
            )


def _readings(rebuild: Rebuild) -> Iterator[Finding]:
    """Readings belong to checks, as-found sizes to sizes."""
    checks = names_in(rebuild, "checks", rebuild.checks)
    found = rebuild.as_found
    named = dict.fromkeys([*rebuild.readings, *rebuild.forces])
    places: list[tuple[Place, str]] = [(("readings", n), n) for n in named]
    yield from _reading_sorts(rebuild)
    places += [(("as found", "readings", n), n) for n in (found.readings if found else ())]
    for name, sizes_read in rebuild.readings.items():
        if any(size.value < 0 for size in sizes_read):
            yield Finding(
                "reading.negative",
                ("readings", name),
                "a reading is not less than nought",
                "type how far the pointer went; if it binds, type 0",
            )
    yield from _were_something(rebuild)
    for place, name in places:
        if name not in checks:
            yield Finding(
                "check.unknown", place, f"there is no check '{name}'", near(name, sorted(checks))
            )
    sizes = names_in(rebuild, "sizes", rebuild.sizes)
    gaskets = {n for n, p in rebuild.parts.items() if isinstance(p, Gasket)}
    for key in found.sizes if found else ():
        if key not in {*sizes, *rebuild.settings, *gaskets}:
            choices = [*rebuild.sizes, *rebuild.settings, *sorted(gaskets)]
            yield Finding(
                "size.unknown",
                ("as found", "sizes", key),
                f"no size or setting is called '{key}'",
                near(key, choices),
            )


def _were_something(rebuild: Rebuild) -> Iterator[Finding]:
    """What was read and measured before the strip is not less than nought either."""
    found = rebuild.as_found
    for name, size in found.readings.items() if found else ():
        if size.value < 0:
            yield Finding(
                "reading.negative",
                ("as found", "readings", name),
                f"a reading of {size.text} is less than nought",
                "type how far the pointer went; if it bound, type 0",
            )
    for key, size in found.sizes.items() if found else ():
        least = "0 or more" if key in rebuild.settings else "larger than 0"
        if key in rebuild.parts and (size.value < 0 or (size.value == 0 and least != "0 or more")):
            yield Finding(
                "size.not positive",
                ("as found", "sizes", key),
                f"'{key}' cannot have been {size.text} long",
                f"type its length, {least}, or take it out",
            )


ONE_PART = (EndFloat, FloatNeed, PreloadNeed, Thickness)
"""What is asked of one part that is not a bearing."""

RULES: tuple[Callable[[Rebuild], Iterator[Finding]], ...] = (
    _part_names,
    _one_housing,
    _gaskets,
    _lines,
    _misspelt_spots,
    _idle,
    _sizes,
    long_rules,
    setting_rules,
    state_rules,
    _asked,
    _readings,
    walk_rules,
    bearing_rules,
    filled_rules,
    holder_rules,
    land_rules,
    mesh_rules,
    apart_rules,
    axes_rules,
    own_step_rules,
)
