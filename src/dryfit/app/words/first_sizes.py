"""A kind of unit to point at, and its first sizes: the records that `kinds` fills in."""

from dataclasses import dataclass

from dryfit.quantities import Place


@dataclass(frozen=True, slots=True)
class FirstSize:
    """One of the first sizes of a kind.

    Attributes
    ----------
    letter
        On the drawing, the same as in the drawing of the unit later.
    place
        In the start.
    what, how
        What to measure, and how to hold it.
    by
        The instrument that is usual for it.
    usual
        Of an invented unit [mm].
    ways
        Of a size that may lie either way: how it is said with plus, and with minus.
    """

    letter: str
    place: Place
    what: str
    how: str
    by: str
    usual: str
    ways: tuple[str, ...] = ()

    @property
    def lies(self) -> str:
        """Which way it lies as a rule: plus or minus."""
        return "minus" if self.usual.startswith("-") else "plus"

    @property
    def may_be_nothing(self) -> bool:
        """Whether it may be nought: faces that are flush, a joint that is dry."""
        return bool(self.ways) or self.place[-1] == "nipped"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of unit.

    Attributes
    ----------
    start
        Its text to start from.
    name, told
        Its trade name, and a line of what it is.
    sizes
        What closes the first chain.
    drawn
        What else is taken for the half-section: places and values of an invented unit.
    """

    start: str
    name: str
    told: str
    sizes: tuple[FirstSize, ...]
    drawn: tuple[tuple[Place, str], ...] = ()
