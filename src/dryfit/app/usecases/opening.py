"""A rebuild opened for a question: its text read, its rules kept, its sizes not contradicting."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from dryfit.document.locate import Located
from dryfit.document.read import Document, read_document
from dryfit.model.rebuild import Rebuild, System
from dryfit.model.rules import check
from dryfit.quantities import Finding, Place, stops

if TYPE_CHECKING:
    from dryfit.ask.asking import Asking


@dataclass(frozen=True)
class FindingAnswer:
    """One finding with its place in the text.

    Attributes
    ----------
    code
        Short name of this sort of finding, fixed for good.
    level
        `stop` or `note`.
    line, column
        Where it is, counted from 1.
    message, way_out
        What is wrong, and what to do.
    excerpt
        The line with a mark under the spot.
    place
        The keys that lead there from the top of the text; a number counts along a list from 0.
    """

    code: str
    level: str
    line: int
    column: int
    message: str
    way_out: str
    excerpt: str
    place: Place = ()


@dataclass(frozen=True)
class Opened:
    """A text that was opened; `typed` knows what was asked already of all as it is typed."""

    document: Document
    findings: tuple[FindingAnswer, ...]
    stopped: bool
    typed: "Asking | None" = field(default=None, compare=False, repr=False)

    @property
    def rebuild(self) -> Rebuild:
        """The records."""
        return self.document.rebuild

    @property
    def system(self) -> System:
        """What a bare number means."""
        return self.document.rebuild.system


def open_text(data: bytes | str) -> Opened:
    """Read a text and collect all that is wrong with it; arithmetic only where the rules hold."""
    document = read_document(data)
    found: tuple[Finding, ...] = check(document.rebuild) if document.tree.root else ()
    stopped = stops([*document.findings, *found])
    if not stopped:
        from dryfit.solve.doubts import doubts  # numpy is loaded only where it is needed

        found = (*found, *doubts(document.rebuild))
        stopped = stops(found)
    if not stopped:
        from dryfit.ask.unanswered import unanswered

        found = (*found, *unanswered(document.rebuild))
        stopped = stops(found)
    if not stopped:
        from dryfit.ask.asking import Asking
        from dryfit.ask.one_pack import no_one_pack

        typed = Asking(document.rebuild, 1)
        found = (*found, *no_one_pack(typed))
        return Opened(document, _answers(document.located(found)), stopped, typed)
    return Opened(document, _answers(document.located(found)), stopped)


def located(opened: Opened, found: Iterable[Finding]) -> tuple[FindingAnswer, ...]:
    """Give further findings their lines."""
    return _answers(opened.document.tree.located([*found]))


def _answers(found: Iterable[Located]) -> tuple[FindingAnswer, ...]:
    """Tell findings that have their lines."""
    return tuple(
        FindingAnswer(
            spotted.finding.code,
            spotted.finding.level,
            spotted.line,
            spotted.column,
            spotted.finding.message,
            spotted.finding.way_out,
            spotted.excerpt,
            spotted.finding.place,
        )
        for spotted in found
    )
