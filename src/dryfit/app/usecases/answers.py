"""The parts that answers share, as plain data: all lengths in millimetres, all chances 0 to 1."""

from dataclasses import astuple, dataclass

from dryfit.ask.acts import Act
from dryfit.ask.expect import Expected, Read
from dryfit.ask.needed import Needed
from dryfit.ask.packs import Pack
from dryfit.ask.planned import Spared
from dryfit.ask.slopes import Slope
from dryfit.ask.targets import Target, in_words, named
from dryfit.ask.usual import Usual
from dryfit.ask.words import Reason
from dryfit.ask.worth import Worth
from dryfit.model.rebuild import PreloadNeed


@dataclass(frozen=True)
class WantedAnswer:
    """What is wanted, where from, and what lies beyond.

    A preload is wanted in newtons or in words, all else in millimetres.
    """

    need: str
    of: str
    state: str
    low_mm: float | None
    high_mm: float | None
    source: str
    less: str
    more: str
    kind: str = "float"
    low_n: float | None = None
    high_n: float | None = None
    words: str = ""


@dataclass(frozen=True)
class ReasonAnswer:
    """One thing that would make a reading differ, and by how much where that is known."""

    words: str
    change_mm: float | None


@dataclass(frozen=True)
class LackingAnswer:
    """A size that is not known, and how the float follows it (mm of float a mm of size)."""

    key: str
    follows: float


@dataclass(frozen=True)
class ReadAnswer:
    """A reading that was taken, a length or a force, and what is to be said of it."""

    value_mm: float | None
    verdict: str
    off_mm: float | None
    wanted: str
    value_n: float | None = None
    off_n: float | None = None


@dataclass(frozen=True)
class ForceAnswer:
    """What a balance should show; nine readings in ten lie between low and high.

    A reading outside least and most is not explained by the sizes.
    """

    expected_n: float
    low_n: float
    high_n: float
    least_n: float | None = None
    most_n: float | None = None


@dataclass(frozen=True)
class CheckAnswer:
    """What a check should read; nine readings in ten lie between low and high.

    A reading outside least and most is not explained by the sizes. A check that shows a force has
    it in `force`, and nothing in millimetres. One that cannot be read has in `cannot` why, in
    `way_out` what to do, and no figures.
    """

    name: str
    kind: str
    what: str
    by: str
    state: str
    expected_mm: float | None
    low_mm: float | None
    high_mm: float | None
    too_long_by_mm: float
    wanted: WantedAnswer | None
    within: float | None
    more: tuple[ReasonAnswer, ...]
    less: tuple[ReasonAnswer, ...]
    lacking: tuple[LackingAnswer, ...]
    read: ReadAnswer | None
    force: ForceAnswer | None = None
    nipped_by_mm: float = 0.0
    cannot: str = ""
    way_out: str = ""
    least_mm: float | None = None
    most_mm: float | None = None


@dataclass(frozen=True)
class NeedAnswer:
    """How the finished unit stands to one need; nine of ten lie between low and high.

    Attributes
    ----------
    wanted
        What is wanted.
    expected_mm, low_mm, high_mm
        Of a length.
    words
        Of a preload or a hard nip, least and heaviest, where the rows are rated.
    force
        With which rows are pressed together.
    chance
        That it is met, by the sizes.
    strain
        The force over what the rows bear without harm; beyond 1 it is refused.
    lacking
        Sizes not known.
    """

    wanted: WantedAnswer
    expected_mm: float | None
    low_mm: float | None
    high_mm: float | None
    words: tuple[str, str] | None
    force: ForceAnswer | None
    chance: float | None
    strain: float
    lacking: tuple[LackingAnswer, ...]


@dataclass(frozen=True)
class PackAnswer:
    """A pack: its thickness and the pieces as written in the drawer."""

    thickness_mm: float
    pieces: tuple[str, ...]


@dataclass(frozen=True)
class ActAnswer:
    """An act that raises the chance: an instrument, a route to a setting, turning, or a tool.

    `now` is the instrument used so far, or the route on which a shaft is turned to settle. Chances
    are by the sizes; those of a tool with what usually goes wrong.
    """

    name: str
    what: str
    now: str
    minutes: float
    chance: float
    chance_without: float


@dataclass(frozen=True)
class SparedAnswer:
    """An act that spares undoing: what it takes more, and what is to be expected less.

    A check read early takes no more; `before` is the step it comes before.
    """

    name: str
    what: str
    before: str
    minutes: float
    spared_minutes: float


@dataclass(frozen=True)
class SlipAnswer:
    """One thing that may be wrong: how likely unseen, caught by a check, and what it costs."""

    words: str
    chance: float
    caught: float
    costs: float


@dataclass(frozen=True)
class UsualAnswer:
    """The chance with what usually goes wrong, also at half and double the table, and unchecked."""

    chance: float
    half: float
    double: float
    unchecked: float
    slips: tuple[SlipAnswer, ...]


@dataclass(frozen=True)
class WorthAnswer:
    """What it is worth to measure one size again with a better instrument."""

    key: str
    now: str
    better: str
    share: float
    chance: float


def mm(metres: float) -> float:
    """Millimetres without the dust of binary fractions."""
    return round(metres * 1e3, 9)


def mm_or_none(metres: float | None) -> float | None:
    """The same for what may be missing."""
    return None if metres is None else mm(metres)


def wanted_answer(target: Target) -> WantedAnswer:
    """Tell what is wanted."""
    need = target.need
    told = (target.source, target.less, target.more, need.kind)
    if not isinstance(need, PreloadNeed):
        low, high = mm_or_none(target.low), mm_or_none(target.high)
        return WantedAnswer(need.name, named(need), need.state, low, high, *told)
    words = in_words(target)
    low, high = (None, None) if words else (target.low, target.high)
    return WantedAnswer(need.name, named(need), need.state, None, None, *told, low, high, words)


def need_answer(needed: Needed) -> NeedAnswer:
    """Tell how a need stands."""
    of_length = not isinstance(needed.target.need, PreloadNeed)
    typed, low, high = (
        mm_or_none(value) if of_length else None
        for value in (needed.typed, needed.low, needed.high)
    )
    force = needed.force
    return NeedAnswer(
        wanted_answer(needed.target),
        typed,
        low,
        high,
        needed.words,
        ForceAnswer(*(round(f, 6) for f in astuple(force))) if force else None,
        needed.chance,
        round(needed.strain, 6),
        tuple(lacking_answer(s) for s in needed.lacking),
    )


def check_answer(expected: Expected) -> CheckAnswer:
    """Tell what a check should read."""
    check = expected.check
    shown = (expected.typed, expected.low, expected.high, expected.least, expected.most)
    lengths = (None,) * 5 if expected.in_newton else shown
    return CheckAnswer(
        check.name,
        check.kind,
        what_is_read(check),
        expected.by,
        check.state,
        mm_or_none(lengths[0]),
        mm_or_none(lengths[1]),
        mm_or_none(lengths[2]),
        mm(expected.short),
        wanted_answer(expected.target) if expected.target else None,
        expected.within,
        tuple(_reason(r) for r in expected.more),
        tuple(_reason(r) for r in expected.less),
        tuple(lacking_answer(s) for s in expected.lacking),
        _read(expected.read, in_newton=expected.in_newton) if expected.read else None,
        _force(expected) if expected.in_newton else None,
        mm(expected.nip),
        expected.cannot,
        expected.way_out,
        mm_or_none(lengths[3]),
        mm_or_none(lengths[4]),
    )


def _force(expected: Expected) -> ForceAnswer | None:
    shown = (expected.typed, expected.low, expected.high, expected.least, expected.most)
    figures = [round(force, 6) for force in shown if force is not None]
    return ForceAnswer(*figures) if len(figures) == len(shown) else None


def what_is_read(check: object) -> str:
    """Name what a check is read on."""
    named = [getattr(check, key, None) for key in ("of", "at", "mesh")]
    spots = [getattr(check, key, None) for key in ("from_", "to")]
    return next((n for n in named if n), "") or " to ".join(str(s) for s in spots)


def _reason(reason: Reason) -> ReasonAnswer:
    return ReasonAnswer(reason.words, mm_or_none(reason.change))


def _read(read: Read, *, in_newton: bool) -> ReadAnswer:
    if in_newton:
        value, off = round(read.value, 6), round(read.off, 6)
        return ReadAnswer(None, read.verdict, None, read.wanted, value, off)
    return ReadAnswer(mm(read.value), read.verdict, mm(read.off), read.wanted)


def lacking_answer(slope: Slope) -> LackingAnswer:
    """Tell what a size that is not known would change."""
    return LackingAnswer(slope.key, slope.slope)


def pack_answer(pack: Pack) -> PackAnswer:
    """Tell what a pack is made of."""
    return PackAnswer(float(pack.exact), tuple(piece.text for piece in pack.pieces))


def usual_answer(usual: Usual) -> UsualAnswer:
    """Tell the second figure."""
    slips = tuple(SlipAnswer(s.words, s.chance, s.caught, s.costs) for s in usual.slips)
    return UsualAnswer(usual.chance, usual.half, usual.double, usual.unchecked, slips)


def act_answer(act: Act) -> ActAnswer:
    """Tell an act."""
    return ActAnswer(act.name, act.what, act.now, act.minutes, act.chance, act.without)


def spared_answer(spared: Spared) -> SparedAnswer:
    """Tell what an act spares."""
    return SparedAnswer(spared.name, spared.what, spared.before, spared.minutes, spared.spared)


def worth_answer(worth: Worth) -> WorthAnswer:
    """Tell what a better reading is worth."""
    return WorthAnswer(worth.key, worth.now, worth.better, worth.share, worth.chance)
