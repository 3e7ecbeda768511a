"""What must hold of the words that say how parts come apart: split cases, loose gears, keys."""

from collections.abc import Iterator

from dryfit.model.known import names_in, parts_known
from dryfit.model.parts import Housing, Key, Part, Shaft
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, Place
from dryfit.quantities.finding import near


def apart_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about what comes apart."""
    for name, part in rebuild.parts.items():
        place: Place = ("parts", name)
        if isinstance(part, Housing):
            yield from _split(rebuild, part, place)
        if isinstance(part, Shaft):
            yield from _gears(rebuild, part, place)
        if isinstance(part, Key):
            yield from _key(rebuild, part, place)


def _split(rebuild: Rebuild, part: Housing, place: Place) -> Iterator[Finding]:
    """A case is split along lines that there are."""
    known = names_in(rebuild, "lines", rebuild.lines)
    for number, line in enumerate(part.split_along):
        if line not in known:
            yield Finding(
                "split.line",
                (*place, "split along", number),
                f"there is no line '{line}' for '{part.name}' to be split along",
                near(line, rebuild.lines),
            )


def _gears(rebuild: Rebuild, part: Shaft, place: Place) -> Iterator[Finding]:
    """A gear that is put on is that of a mesh of this shaft."""
    own = [n for n, mesh in rebuild.meshes.items() if part.name in (mesh.pinion, mesh.wheel)]
    unread = names_in(rebuild, "meshes", ())
    for number, mesh in enumerate(part.gears_put_on):
        if mesh not in own and mesh not in unread:
            yield Finding(
                "gear.no mesh",
                (*place, "gears put on", number),
                f"'{part.name}' has no gear of a mesh '{mesh}'",
                near(mesh, own) or "name a mesh under meshes: whose pinion or wheel it is",
            )


def _key(rebuild: Rebuild, part: Key, place: Place) -> Iterator[Finding]:
    """A key lies between two spots of one shaft, or nobody says where."""
    spots = {"from": part.from_, "to": part.to}
    told = {key: spot for key, spot in spots.items() if spot is not None}
    for key, spot in told.items():
        yield from parts_known(rebuild, [spot.part], (*place, key))
        host: Part | None = rebuild.parts.get(spot.part)
        if host is not None and not isinstance(host, Shaft):
            yield Finding(
                "key.on",
                (*place, key),
                f"'{spot.part}' is a {host.kind}: a key lies in a shaft",
                "name a spot of a shaft, or take the key out",
            )
    if len(told) == 1 or len({spot.part for spot in told.values()}) > 1:
        (*_, key) = told
        yield Finding(
            "key.ends",
            (*place, key),
            f"'{part.name}' is not told from one spot of a shaft to another of the same",
            "write both ends of its keyway, from: shaft.keyway start, to: shaft.keyway end",
        )
