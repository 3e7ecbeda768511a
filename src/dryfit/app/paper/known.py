"""All that is known of a unit as its sheets are written: records, answer, drawing."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from dryfit.app.paper.blocks import Figure
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.app.usecases.opening import FindingAnswer
from dryfit.app.usecases.ordering.answers import OrderAnswer
from dryfit.app.words.figures import Figures
from dryfit.model.parts import Part
from dryfit.model.rebuild import Rebuild


@dataclass(frozen=True)
class Drawn:
    """The drawing of a unit, or why there is none.

    Attributes
    ----------
    svg, why
        The drawing as SVG; where there is none, why.
    lines
        By line, its own drawing as SVG, where there is more than one.
    letters
        By key of a size, its letter on the drawing.
    balloons
        By part, its number on the drawing.
    steps, offs
        A picture of each step of the order, and of each turn of the strip, as SVG.
    findings
        What was found as it was drawn.
    """

    svg: str = ""
    why: str = ""
    lines: Mapping[str, str] = field(default_factory=dict)
    letters: Mapping[str, str] = field(default_factory=dict)
    balloons: Mapping[str, str] = field(default_factory=dict)
    steps: tuple[str, ...] = ()
    offs: tuple[str, ...] = ()
    findings: tuple[FindingAnswer, ...] = ()


@dataclass(frozen=True)
class Known:
    """A unit, and its text; `order` has no steps where they cannot be told."""

    text: str
    rebuild: Rebuild
    answer: ChooseAnswer
    show: Figures
    drawn: Drawn
    order: OrderAnswer = OrderAnswer("", False, ())

    @property
    def unit(self) -> str:
        """Unit of length that stands in a box for a pencil."""
        return "mm" if self.show.first == "mm" else "in"


def figure(label: str, shown: str) -> Figure:
    """Take a length as shown apart: in the first system, and below it in the other.

    >>> figure("float", "0.10 mm (0.0039 in)").other
    '0.0039 in'
    """
    value, _, other = shown.partition(" (")
    return Figure(label, value, other.removesuffix(")"))


def name_and_kind(part: Part) -> str:
    """Name a part, its kind below where that says more."""
    return "\n".join(dict.fromkeys((part.name, part.kind)))
