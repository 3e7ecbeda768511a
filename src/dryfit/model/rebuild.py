"""The whole unit being rebuilt, as frozen records.

Reading order: spots and sizes, lines and stacks, settings, states, needs and checks, what was
read, and last the rebuild that holds them all. Nothing here calculates.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from dryfit.model.axes import Axes
from dryfit.model.meshes import Mesh
from dryfit.model.own_steps import OwnStep, Wish
from dryfit.model.parts import Part
from dryfit.model.reads import reads
from dryfit.model.spots import Spot
from dryfit.quantities import Mark, NotKnown, Place, PreloadRange, Quantity, Size, SizeRange

System = Literal["mm", "inch"]

FIRST_END, LAST_END = "first end", "last end"
BUILT, HOT = "built", "hot"
TIGHT, FINGERS = "tight", "fingers"
SET, LOCKED = "set", "locked"


@dataclass(frozen=True, slots=True)
class Between:
    """A size between two spots of one part: the end lies `size` further along the line."""

    key: str
    start: Spot
    end: Spot
    size: Size | NotKnown

    @property
    def place(self) -> Place:
        """Where it stands in the text."""
        return self.place_words

    @property
    def place_words(self) -> tuple[str, str]:
        """The same as plain words."""
        return ("sizes", self.key)


@dataclass(frozen=True, slots=True)
class Stack:
    """Spots in the order in which they follow along a line.

    Two neighbours on different parts may touch, never pull; two on one part are joined by it.
    """

    name: str
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One shaft axis with its two ends and its stacks, read from the first end to the last."""

    name: str
    first: str
    last: str
    stacks: tuple[Stack, ...]

    @property
    def direction(self) -> str:
        """The key under which its stacks stand in the text."""
        return f"from {self.first} to {self.last}"


@dataclass(frozen=True)
class Instrument:
    """An instrument of one's own: like a usual one, with another limit."""

    name: str
    like: str | None = reads("text", required=True)
    limit: Size | None = reads("known size")


@dataclass(frozen=True)
class UsedFor:
    """What the unit does: it decides which targets are offered and how warm it runs."""

    kind: str | None = reads("text")
    top_speed: Quantity | None = reads("speed")
    thrust: Quantity | None = reads("force")
    warmer_than_casing: Quantity | None = reads("temperature difference")
    casing_warmer_than_room: Quantity | None = reads("temperature difference")


@dataclass(frozen=True, slots=True)
class Stock:
    """One thickness in the drawer; `count` None means as many as are wanted."""

    size: Size
    count: int | None


@dataclass(frozen=True)
class Setting:
    """A part whose thickness the builder chooses, and what it may be made of.

    A nut that adjusts is `set by` an instrument instead; what is fitted is then the float it is
    set to.
    """

    part: str
    made_from: tuple[Stock, ...] = reads("stock", default=())
    one_of: tuple[Size, ...] = reads("size list", default=())
    cut_to_size: Size | None = reads("tolerance")
    set_by: str | None = reads("text")
    fitted: Size | None = reads("known size")


@dataclass(frozen=True)
class State:
    """What is fitted, and how warm, when a check is read."""

    name: str
    left_out: tuple[str, ...] = reads("part list", default=())
    fitted: Mapping[str, Size] = reads("thicknesses", default=None)
    warmer_than_room: Mapping[str, Quantity] = reads("warmths", default=None)
    cover_screws: str | None = reads("text")
    nuts: str | None = reads("text")
    gears_in: str | None = reads("text")
    from_: str | None = reads("text", key="from")


@dataclass(frozen=True)
class Need:
    """What must be true of the finished unit."""

    name: str
    kind: str
    state: str = reads("state", default=BUILT)


@dataclass(frozen=True)
class FloatNeed(Need):
    """How far a part may float along its line."""

    of: str = reads("part", required=True)
    want: SizeRange | None = reads("range")


@dataclass(frozen=True)
class NipNeed(FloatNeed):
    """How far the rows of a part's line are pressed together beyond just touching."""


@dataclass(frozen=True)
class PreloadNeed(Need):
    """How hard the rows of a part's line are pressed against each other."""

    of: str = reads("part", required=True)
    want: PreloadRange | None = reads("preload")


@dataclass(frozen=True)
class LashNeed(Need):
    """Lash of a mesh, as `Backlash` reads it."""

    mesh: str = reads("mesh", required=True)
    on: str | None = reads("text")
    at_radius: Size | None = reads("known size")
    torque: Quantity | None = reads("torque")
    pinion: str | None = reads("text")
    wheel: str | None = reads("text")
    want: SizeRange | None = reads("range")


@dataclass(frozen=True)
class Check:
    """One reading on the bench, done in a stated state."""

    name: str
    kind: str
    by: str | None = reads("text")
    state: str = reads("state", default=BUILT)


@dataclass(frozen=True)
class EndFloat(Check):
    """Travel of a part along its line, pushed one way and then the other, by dial."""

    of: str = reads("part", required=True)
    push: Quantity | None = reads("force")


@dataclass(frozen=True)
class Gap(Check):
    """Gap by feeler: under the flange of a cover that stands off, or where a part is left out."""

    at: str = reads("part", required=True)


@dataclass(frozen=True)
class Depth(Check):
    """Distance from one spot to another with all loose parts held to one end of the line."""

    from_: Spot | None = reads("spot", key="from", required=True)
    to: Spot | None = reads("spot", required=True)
    held: str | None = reads("end")


@dataclass(frozen=True)
class Thickness(Check):
    """Thickness of one part measured by itself; a shim pack whole and nipped."""

    of: str = reads("part", required=True)


@dataclass(frozen=True)
class Backlash(Check):
    """Arc that a dial reads on one member, the other held, rocked by hand between the flanks.

    Each member's shaft is held by a push `towards` the mesh or `away` from it, or left free.
    """

    mesh: str = reads("mesh", required=True)
    on: str | None = reads("text")
    at_radius: Size | None = reads("known size")
    torque: Quantity | None = reads("torque")
    pinion: str | None = reads("text")
    wheel: str | None = reads("text")


@dataclass(frozen=True)
class CordPull(Check):
    """Steady pull of a cord wound round a shaft, or round something on it, by spring balance."""

    of: str = reads("part", required=True)
    at_radius: Size | None = reads("known size", required=True)


@dataclass(frozen=True)
class Flushness(Check):
    """How far the back face of a bevel stands out beyond its mate's, by straightedge."""

    mesh: str = reads("mesh", required=True)


@dataclass(frozen=True)
class Lift(Check):
    """How far a shaft lifts in a split plain bearing, by dial over it."""

    of: str = reads("part", required=True)


@dataclass(frozen=True)
class Shake(Check):
    """Radial shake of a row, from side to side, by the play that it is left with."""

    of: str = reads("part", required=True)


NEED_KINDS: dict[str, type[Need]] = {
    "float": FloatNeed,
    "nip": NipNeed,
    "preload": PreloadNeed,
    "lash": LashNeed,
}
CHECK_KINDS: dict[str, type[Check]] = {
    "end float": EndFloat,
    "gap": Gap,
    "depth": Depth,
    "thickness": Thickness,
    "backlash": Backlash,
    "shake": Shake,
    "cord pull": CordPull,
    "flushness": Flushness,
    "lift": Lift,
}


@dataclass(frozen=True)
class AsFound:
    """The unit before the strip: what was read then, and the sizes that were other then."""

    readings: Mapping[str, Size] = field(default_factory=dict)
    sizes: Mapping[str, Size] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Step:
    """One float of a walk: its key as typed, the pack or the mark of a nut, and what was read."""

    key: str
    at: Size | Mark
    read: Size


@dataclass(frozen=True, slots=True)
class Walked:
    """Floats of one check, read with packs of a setting or at marks of a nut, as typed."""

    check: str
    with_: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Rebuild:
    """The whole unit being rebuilt: one document.

    Attributes
    ----------
    system
        What a bare number means, and what is shown first: `mm` or `inch`.
    axes
        How its lines lie to each other.
    readings, forces
        What was read, by check: lengths, and what a balance showed.
    walks
        Floats read one after the other, by check.
    steps, wishes
        What the user adds to the order of work.
    unread
        Places whose text could not be read: named in the text, missing from the records.
    """

    system: System
    title: str = ""
    notes: str = ""
    measured_with: str | None = None
    used_for: UsedFor | None = None
    instruments: Mapping[str, Instrument] = field(default_factory=dict)
    lines: Mapping[str, Line] = field(default_factory=dict)
    axes: Mapping[str, Axes] = field(default_factory=dict)
    parts: Mapping[str, Part] = field(default_factory=dict)
    meshes: Mapping[str, Mesh] = field(default_factory=dict)
    sizes: Mapping[str, Between] = field(default_factory=dict)
    settings: Mapping[str, Setting] = field(default_factory=dict)
    states: Mapping[str, State] = field(default_factory=dict)
    needs: Mapping[str, Need] = field(default_factory=dict)
    checks: Mapping[str, Check] = field(default_factory=dict)
    readings: Mapping[str, tuple[Size, ...]] = field(default_factory=dict)
    forces: Mapping[str, tuple[Quantity, ...]] = field(default_factory=dict)
    walks: Mapping[str, Walked] = field(default_factory=dict)
    steps: Mapping[str, OwnStep] = field(default_factory=dict)
    wishes: tuple[Wish, ...] = ()
    as_found: AsFound | None = None
    unread: frozenset[Place] = frozenset()
