"""The state in which a check is read, and what is held and pushed, in words."""

from collections.abc import Iterator

from dryfit.model.rebuild import BUILT, HOT, Check, Rebuild, State

USUAL = {BUILT: "as built", HOT: "as built, as warm as it runs"}


def state_words(rebuild: Rebuild, name: str) -> str:
    """Say what is left out, fitted, tight and warm in a state."""
    state = rebuild.states.get(name)
    if state is None:
        return USUAL.get(name, name)
    told = "; ".join(_told(state))
    return f"{name}: {told}" if told else f"{name}: as built"


def _told(state: State) -> Iterator[str]:
    if state.left_out:
        yield f"leave out {' and '.join(state.left_out)}"
    for part, size in (state.fitted or {}).items():
        yield f"{part} {size.text} fitted"
    for key in ("cover screws", "nuts", "gears in"):
        value = getattr(state, key.replace(" ", "_"))
        if value:
            yield f"{key}: {value}"
    for part, warmth in (state.warmer_than_room or {}).items():
        yield f"{part} {warmth.text} warmer than the room"
    if state.from_:
        yield "as warm as it runs"


def how_held(check: Check | None) -> str:
    """Say push, radius, torque and what is held, where the text says so."""
    told = []
    for key in ("push", "at_radius", "torque", "on", "held", "pinion", "wheel"):
        value = getattr(check, key, None)
        if value:
            told.append(f"{key.replace('_', ' ')} {getattr(value, 'text', value)}")
    return ", ".join(told)
