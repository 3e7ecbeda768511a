"""Names that the rest of a rebuild may use, those that could not be read too."""

from collections.abc import Iterable, Iterator

from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, Place
from dryfit.quantities.finding import near


def names_in(rebuild: Rebuild, section: str, names: Iterable[str]) -> set[str]:
    """All names of a section, those that could not be read too."""
    unread = {str(p[1]) for p in rebuild.unread if len(p) >= 2 and p[0] == section}
    return {*names, *unread}


def parts_known(rebuild: Rebuild, names: Iterable[str], place: Place) -> Iterator[Finding]:
    """Each name is that of a part."""
    known = names_in(rebuild, "parts", rebuild.parts)
    for name in dict.fromkeys(names):
        if name not in known:
            yield Finding(
                "part.unknown", place, f"there is no part '{name}'", near(name, rebuild.parts)
            )
