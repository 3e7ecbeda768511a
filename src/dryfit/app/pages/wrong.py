"""The page that says what went wrong, where no other page can."""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Page
from dryfit.app.pages.frame import Frame
from dryfit.quantities.finding import Finding


@dataclass(frozen=True)
class WrongPage(Page):
    """What is wrong, and the way out."""

    template: ClassVar[str] = "wrong.html"
    frame: Frame
    message: str
    way_out: str

    @classmethod
    def of(cls, finding: Finding) -> "WrongPage":
        """Tell a finding."""
        return cls(Frame(""), finding.message, finding.way_out)
