"""What must hold of lands before any number is worked out."""

from collections.abc import Iterator
from difflib import get_close_matches
from typing import NamedTuple

from dryfit.model.lands import BORE, OPENING, OUTSIDE, Diameters, Land, lands
from dryfit.model.parts import Housing, Turned
from dryfit.model.rebuild import FIRST_END, LAST_END, Rebuild
from dryfit.quantities import Finding, Place, Size

ENDS = (FIRST_END, LAST_END)


def land_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about lands."""
    for name, part in rebuild.parts.items():
        if isinstance(part, Turned):
            place: Place = ("parts", name)
            for side, typed in _sides(part):
                yield from _sizes(name, side, typed)
                yield from _twice(typed, (*place, side))
            yield from _walls(part, place)
            yield from _reached(rebuild, part)


def _sides(part: Turned) -> list[tuple[str, Diameters]]:
    """List the sides of a part that have lands, the openings of a case among them."""
    openings = [(OPENING, part.opening)] if isinstance(part, Housing) else []
    return [(OUTSIDE, part.outside), (BORE, part.bore), *openings]


def _sizes(name: str, side: str, typed: Diameters) -> Iterator[Finding]:
    """The size of each land is larger than nothing."""
    for land in lands(typed):
        if isinstance(land.size, Size) and land.size.value <= 0:
            yield Finding(
                "size.not positive",
                ("parts", name, side, land.key),
                f"the {side} of '{name}' from {land.key} cannot be {land.size.text}",
                "type it, larger than 0, or not known",
            )


def _twice(typed: Diameters, place: Place) -> Iterator[Finding]:
    """No land is told a second time from its other end."""
    seen: dict[frozenset[str], str] = {}
    for land in lands(typed):
        if land.spots in seen:
            yield Finding(
                "land.twice",
                (*place, land.key),
                f"'{land.key}' is the same land as '{seen[land.spots]}'",
                "take one of them out",
            )
        seen.setdefault(land.spots, land.key)


class _Told(NamedTuple):
    """A diameter with what it is called; no land where it holds all along."""

    size: Size
    land: Land | None

    @property
    def where(self) -> str:
        return f" from {self.land.key}" if self.land else ""


def _told(typed: Diameters) -> list[_Told]:
    """List the diameters of one side that are known."""
    if isinstance(typed, Size):
        return [_Told(typed, None)]
    return [_Told(land.size, land) for land in lands(typed) if isinstance(land.size, Size)]


def _walls(part: Turned, place: Place) -> Iterator[Finding]:
    """The bore of a land is less than its outside; two sizes all along are told elsewhere."""
    for hole in _told(part.bore):
        for round_it in _told(part.outside):
            one, other = hole.land, round_it.land
            same = one is None or other is None or one.spots == other.spots
            alone = one is None and other is None
            if same and not alone and hole.size.value >= round_it.size.value > 0:
                key = (one.key,) if one else ()
                yield Finding(
                    "land.wall",
                    (*place, BORE, *key),
                    f"the bore of '{part.name}'{hole.where} ({hole.size.text}) is not less than "
                    f"its outside{round_it.where} ({round_it.size.text})",
                    "exchange the two, or measure them again",
                )


def _reached(rebuild: Rebuild, part: Turned) -> Iterator[Finding]:
    """Each spot of a land is reached by a size of its part, or is one of its two ends."""
    if any(place[0] == "sizes" for place in rebuild.unread):
        return
    sized = {
        spot.name
        for between in rebuild.sizes.values()
        for spot in (between.start, between.end)
        if spot.part == part.name
    }
    named = {spot for _, side in _sides(part) for land in lands(side) for spot in land.spots}
    if not sized and len(named - set(ENDS)) == 1:
        return  # from this one spot to its two ends each land has its place
    told: set[str] = set(ENDS) | sized
    for side, typed in _sides(part):
        for land in lands(typed):
            for spot in (land.start, land.end):
                if spot not in told:
                    yield _unreached(part.name, spot, sized, ("parts", part.name, side, land.key))
                told.add(spot)


def _unreached(name: str, spot: str, sized: set[str], place: Place) -> Finding:
    close = get_close_matches(spot, sorted({*sized, *ENDS}), n=1, cutoff=0.6)
    other = next(iter(sorted(sized)), FIRST_END)
    way_out = f"did you mean '{close[0]}'? Else add" if close else "add"
    return Finding(
        "land.spot",
        place,
        f"no size of '{name}' reaches '{spot}', so it is not known where this land lies",
        f"{way_out} {name}.{other} to {name}.{spot}: SIZE under sizes:",
        "note",
    )
