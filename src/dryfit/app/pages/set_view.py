"""What the page Set shows, as words and small pictures ready to be put into it."""

from dataclasses import dataclass, field

from dryfit.app.usecases.opening import FindingAnswer


@dataclass(frozen=True, slots=True)
class Hundred:
    """A chance: `over` or `under` where it is no figure of its own, and the figure of 100."""

    before: str
    figure: str


@dataclass(frozen=True, slots=True)
class Rise:
    """A chance as a bar of `strips.WIDE`: what it is without, where that ends, what is gained."""

    was: str
    at: str
    gain: str


@dataclass(frozen=True, slots=True)
class Tick:
    """One tick of an axis, and its figure."""

    at: str
    figure: str


@dataclass(frozen=True, slots=True)
class Strip:
    """What is wanted (hatched, from and how wide) and expected, over one axis; `told` in words."""

    ticks: tuple[Tick, ...]
    wanted: tuple[str, str] | None
    ends: tuple[str, ...]
    low: str
    typed: str
    high: str
    unit: str
    told: str


@dataclass(frozen=True, slots=True)
class Layer:
    """One piece of a pack, drawn to scale: from the top of the picture, how thick, how wide."""

    y: str
    high: str
    x: str
    wide: str


@dataclass(frozen=True, slots=True)
class Stack:
    """A pack as its pieces lie on each other, and the height of the picture."""

    layers: tuple[Layer, ...]
    high: str
    told: str


@dataclass(frozen=True, slots=True)
class Sure:
    """One chance: of what, how likely, and what is to be said below it."""

    words: str
    told: Hundred
    below: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Raise:
    """One act that raises the chance: what to do, how long it takes, what the chance is then."""

    what: str
    minutes: str
    then: Hundred
    told: str
    bar: Rise


@dataclass(frozen=True, slots=True)
class Missing:
    """A size that is not known yet: its words, and the part it is measured on."""

    words: str
    part: str


@dataclass(frozen=True, slots=True)
class Chances:
    """How sure it is, and what raises it.

    Attributes
    ----------
    chances
        The headline first.
    why
        How wide it will be and what is wanted, of what is least likely; and what makes it so wide.
    usual
        The chance with what usually goes wrong.
    without
        What the acts are counted from.
    nothing
        Why no act is told.
    """

    unexplained: str
    chances: tuple[Sure, ...]
    why: tuple[str, ...]
    usual: Sure | None
    without: str
    raises: tuple[Raise, ...]
    nothing: str
    missing: tuple[Missing, ...]
    taken_as: str


@dataclass(frozen=True, slots=True)
class Way:
    """One way to find a setting; `told` is None where it cannot be gone."""

    name: str
    told: Hundred | None
    best: bool
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """A figure and what it is of."""

    figure: str
    label: str


@dataclass(frozen=True, slots=True)
class Fit:
    """What to fit or how to set it, why, and the ways to it.

    Attributes
    ----------
    figure, unit, other
        Of the pack, in both systems; empty where there is none to name.
    advice
        What to fit, or what to do first, in words.
    lines
        What is in now, where it lies, why not what the sum asks for.
    thicker
        What a thicker pack does.
    terms
        The sum that gives it, with signs.
    """

    part: str
    figure: str
    unit: str
    other: str
    made_of: str
    stack: Stack | None
    advice: str
    lines: tuple[str, ...]
    thicker: str
    terms: tuple[Row, ...]
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading of the journal."""

    typed: str
    when: str


@dataclass(frozen=True, slots=True)
class Shown:
    """What one check should read, why it would read otherwise, and what was read so far."""

    name: str
    what: str
    wanted: str
    source: str
    typed: str
    band: str
    strip: Strip | None
    cannot: str
    aside: tuple[str, ...]
    more: tuple[str, ...]
    less: tuple[str, ...]
    verdict: tuple[str, ...]
    check: str
    taken: tuple[Taken, ...] = ()


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted: in words, who says so, what lies beyond, and its keys in the text."""

    name: str
    about: str
    limits: str
    source: str
    beyond: str
    keys: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class SetView:
    """The whole answer.

    Attributes
    ----------
    first_look
        Of how many draws, if it is a first look; else 0.
    stops
        What keeps the text from being answered.
    notes
        What is to be kept in mind.
    needs
        How the finished unit stands to what no check shows, a need in lines.
    with_what
        With which packs the checks are told.
    """

    answered: bool
    first_look: int
    stops: tuple[FindingAnswer, ...]
    notes: tuple[FindingAnswer, ...]
    chances: Chances | None = None
    fits: tuple[Fit, ...] = ()
    checks: tuple[Shown, ...] = ()
    needs: tuple[tuple[str, ...], ...] = ()
    with_what: tuple[str, ...] = ()


@dataclass(frozen=True)
class Tried:
    """What is to be said of packs tried on, or what is wrong with them by setting; "" for all."""

    view: SetView | None
    slips: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Plot:
    """A plot: its title, itself as SVG, and all its words for who cannot see it."""

    title: str
    svg: str
    told: str
