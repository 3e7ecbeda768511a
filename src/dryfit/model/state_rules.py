"""What must hold of states, and of the checks that are read in them."""

from collections.abc import Iterator
from typing import Any

from dryfit.model.known import parts_known
from dryfit.model.parts import Housing
from dryfit.model.rebuild import (
    BUILT,
    FINGERS,
    LOCKED,
    SET,
    TIGHT,
    Backlash,
    Depth,
    Flushness,
    Gap,
    LashNeed,
    Rebuild,
    State,
    Thickness,
)
from dryfit.quantities import Finding, Place


def state_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about states."""
    for name, state in rebuild.states.items():
        place: Place = ("states", name)
        if name == BUILT:
            yield Finding(
                "state.built", place, "'built' is the finished unit", "give this state another name"
            )
        yield from parts_known(rebuild, state.left_out, (*place, "left out"))
        yield from _case(rebuild, state, (*place, "left out"))
        for key, group in (("fitted", state.fitted), ("warmer than room", state.warmer_than_room)):
            for part in group or {}:
                yield from parts_known(rebuild, [part], (*place, key, part))
        yield from _fitted(state, (*place, "fitted"))
        yield from _from_use(rebuild, state, place)
        yield from _done_up(state, place)


def _case(rebuild: Rebuild, state: State, place: Place) -> Iterator[Finding]:
    """The case is there in every state."""
    for name in state.left_out:
        if isinstance(rebuild.parts.get(name), Housing):
            yield Finding(
                "state.no case",
                place,
                f"'{name}' stands still and carries all others: it cannot be left out",
                "take it off the list; leave out the covers and parts that are off",
            )


def runs_warm(rebuild: Rebuild) -> bool:
    """Tell whether the use says how warm the unit runs."""
    return rebuild.used_for is not None and rebuild.used_for.warmer_than_casing is not None


def _fitted(state: State, place: Place) -> Iterator[Finding]:
    """What is fitted in a state is not less than nothing."""
    for name, size in (state.fitted or {}).items():
        if size.value < 0:
            yield Finding(
                "size.not positive",
                (*place, name),
                f"what is fitted cannot be {size.text} thick",
                "type its thickness without a sign, 0 if nothing is in",
            )


def _from_use(rebuild: Rebuild, state: State, place: Place) -> Iterator[Finding]:
    """`from: used for` needs to know how warm the unit runs."""
    if state.from_ is not None and state.from_ != "used for":
        yield Finding("state.from", (*place, "from"), f"'{state.from_}'?", "write from: used for")
    elif state.from_ and not runs_warm(rebuild):
        yield Finding(
            "state.cold",
            (*place, "from"),
            "used for does not say how warm it runs",
            "add warmer than casing: 5 +/- 3 K under used for",
        )


def _done_up(state: State, place: Place) -> Iterator[Finding]:
    """A state does screws and nuts up in a way that is known."""
    for key, word, words in (
        ("cover screws", state.cover_screws, (TIGHT, FINGERS)),
        ("nuts", state.nuts, (SET, LOCKED)),
    ):
        if word and word not in words:
            yield Finding(
                "state.word",
                (*place, key),
                f"'{word}' says nothing of {key}",
                f"write {' or '.join(words)}",
            )


def parts_read(rebuild: Rebuild, asked: Any) -> tuple[str, ...]:
    """List the parts that have to be there for a check or need; a gap or thickness needs none."""
    if isinstance(asked, Gap | Thickness):
        return ()
    if isinstance(asked, Depth):
        return tuple(spot.part for spot in (asked.from_, asked.to) if spot)
    if isinstance(asked, Backlash | Flushness | LashNeed):
        mesh = rebuild.meshes.get(asked.mesh)
        return (mesh.pinion, mesh.wheel) if mesh else ()
    return (asked.of,)
