"""Where the parts of a rebuild lie, as the shapes want it: the glue between model and drawing."""

from collections.abc import Mapping
from dataclasses import dataclass

from dryfit.ask.asking import Asking
from dryfit.ask.settings import moved_by, nearest_packs
from dryfit.ask.slopes import lacking
from dryfit.ask.targets import targets
from dryfit.ask.together import ideals
from dryfit.mechanics.threads import thread_size
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Line, Rebuild
from dryfit.shape.resting import Resting, owner
from dryfit.shape.stand_ins import filled, likely_length
from dryfit.solve.at_rest import AtRest, at_rest, closing
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import NoLuck
from dryfit.solve.sample import sample
from dryfit.solve.sizes import metres

FIRST_PACK = 0.3
"""Thickness at which a pack is drawn that nothing tells [mm]: estimate."""


@dataclass(frozen=True)
class Lying:
    """A rebuild with its parts laid along its lines.

    Attributes
    ----------
    rebuild
        As it is drawn: what is not known is filled in.
    lines
        Each line at rest [mm].
    packs
        Thickness of each setting as drawn [mm].
    unknown_packs
        Settings whose thickness nothing tells.
    """

    rebuild: Rebuild
    lines: tuple[Resting, ...]
    packs: Mapping[str, float]
    unknown_packs: frozenset[str]


def lying(rebuild: Rebuild, asking: Asking | None = None) -> Lying:
    """Lay the parts of all lines; `asking` of one draw may know already what is typed."""
    packs, unknown = _packs(rebuild, asking or Asking(rebuild, 1))
    whole, stood_in = filled(rebuild)
    guessed = stood_in | unknown
    lines = tuple(_line(whole, line, packs, guessed) for line in rebuild.lines.values())
    thick = {name: pack * 1e3 for name, pack in packs.items()}
    return Lying(whole, lines, thick, unknown)


def _line(
    rebuild: Rebuild, line: Line, packs: Mapping[str, float], guessed: frozenset[str]
) -> Resting:
    """Lay one line; lengths that are not known are such that its faces meet."""
    drawn = sample(rebuild, NoLuck())
    likely = likely_length(rebuild)
    assumed = closing(rebuild, line, drawn, packs=packs, likely=lambda *ends: likely(*ends) / 1e3)
    rest = at_rest(rebuild, line, drawn, packs=packs, assumed=assumed)
    here = frozenset(
        key for key in guessed if any(owner(body) == key.split(".")[0] for body in rest.places)
    )
    return _in_mm(rebuild, line, rest, here | rest.lacking)


def _in_mm(rebuild: Rebuild, line: Line, rest: AtRest, guessed: frozenset[str]) -> Resting:
    places = {
        body: {name: at * 1e3 for name, at in spots.items()} for body, spots in rest.places.items()
    }
    threads = {name: at for name in rebuild.parts if (at := _thread(rebuild, name)) is not None}
    return Resting(
        line.name,
        line.first,
        line.last,
        places,
        rest.stacks,
        hosts=rest.hosts,
        joints=rest.joints,
        threads=threads,
        guessed=guessed,
    )


def _thread(rebuild: Rebuild, name: str) -> float | None:
    """Give the diameter of the thread of a nut, if it is one that is known [mm]."""
    part = rebuild.parts[name]
    if not isinstance(part, Nut) or part.thread is None:
        return None
    try:
        return thread_size(part.thread).diameter * 1e3
    except ValueError:
        return None


def _packs(rebuild: Rebuild, asking: Asking) -> tuple[dict[str, float], frozenset[str]]:
    """Give each setting what is fitted, else the pack that the sizes as typed ask for [m]."""
    settings = rebuild.settings
    found = {part: metres(s.fitted) for part, s in settings.items() if s.fitted}
    free = [part for part in settings if part not in found]
    asked = _asked_for(asking, free, found) if free else {}
    nuts = {part for part in free if isinstance(rebuild.parts.get(part), Nut)}
    unknown = frozenset(free) - {*asked} - nuts
    rest = dict.fromkeys(unknown, FIRST_PACK / 1000.0) | dict.fromkeys(nuts - {*asked}, 0.0)
    return {**found, **asked, **rest}, unknown


def _asked_for(asking: Asking, free: list[str], packs: Mapping[str, float]) -> dict[str, float]:
    """Choose packs by the sum of sizes, with one draw and no error."""
    try:
        wanted = [t for t in targets(asking.rebuild) if not lacking(asking, t.need, packs)]
        movers = [part for part in free if moved_by(asking, wanted, part, packs)]
        wished = ideals(asking, wanted, movers, packs) if movers else {}
    except NoAnswer:
        return {}
    made = {part: nearest_packs(asking, part, thick) for part, thick in wished.items()}
    return {
        part: min((p.thickness for p in made[part]), key=lambda t: abs(t - wished[part]))
        for part in movers
        if made[part]
    }
