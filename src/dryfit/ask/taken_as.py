"""What was taken for granted where the rebuild does not say."""

from dryfit.model.parts import Gasket
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.solve.bodies import BODIES
from dryfit.solve.sample import NIP_LEAST, NIP_MOST
from dryfit.solve.states import states_of


def taken_as(rebuild: Rebuild) -> tuple[str, ...]:
    """List guesses: a gasket nipped, and metals where something is warm."""
    guesses = [
        f"{name} nipped to {NIP_LEAST:.2f} to {NIP_MOST:.2f} of its free thickness "
        "(common practice, no source)"
        for name, part in rebuild.parts.items()
        if isinstance(part, Gasket)
        and isinstance(part.free, Size)
        and not isinstance(part.nipped, Size)
    ]
    if len(states_of(rebuild)) > 1:
        silent: dict[str, list[str]] = {}
        for name, part in rebuild.parts.items():
            metal = BODIES[part.kind].material
            if part.material is None and metal:
                silent.setdefault(metal, []).append(name)
        guesses += [f"{', '.join(names)}: {metal}" for metal, names in silent.items()]
    return tuple(guesses)
