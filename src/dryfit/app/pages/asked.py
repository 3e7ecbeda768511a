"""What a page is asked with, and what it may answer. Neither knows anything of the web.

A page is a function from `Asked` to a `Page`, a `File` or a `Moved`; an act, which changes
something, is one to `Done`. What keeps an act from being done is raised as `Refused`, and the page
it came from is shown again with what was typed.
"""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, ClassVar, Literal
from urllib.parse import quote, urlencode

from dryfit.document.characters import encode
from dryfit.document.read import Document, read_document
from dryfit.quantities.finding import Finding, Place
from dryfit.store.opening import Store
from dryfit.store.readings import export
from dryfit.store.revisions import Revision

if TYPE_CHECKING:
    from dryfit.app.pages.desk import Desk, Pace

Light = Literal["", "paper", "workshop"]
"""How bright the pages are: as the machine is set, or as was chosen."""


@dataclass(frozen=True, slots=True)
class Slip:
    """What was typed and is not kept: it stands in its box again, the reason beside it.

    Attributes
    ----------
    place
        What it was typed for; empty if for no single place of the text.
    typed
        All that was typed, by name of the box.
    findings
        Why it was not kept.
    now
        What stands there now, where somebody changed it meanwhile.
    """

    place: Place
    typed: Mapping[str, str]
    findings: tuple[Finding, ...]
    now: str | None = None


class Refused(Exception):
    """An act was not done."""

    def __init__(self, slip: Slip) -> None:
        super().__init__("; ".join(finding.message for finding in slip.findings))
        self.slip = slip


@dataclass(frozen=True)
class Asked:
    """What a page or an act is asked with.

    Attributes
    ----------
    store, desk
        Where all is kept, and who works things out.
    unit
        The newest text of the unit; None for what is of no unit.
    at
        What follows the name of the page in the address: a part, a step.
    query
        What follows the question mark.
    form, files
        What was typed and brought in with an act.
    light
        How bright it is to be.
    slip
        What was typed a moment ago and could not be kept.
    """

    store: Store
    desk: "Desk"
    unit: Revision | None = None
    at: str = ""
    query: Mapping[str, str] = field(default_factory=dict)
    form: Mapping[str, str] = field(default_factory=dict)
    files: Mapping[str, bytes] = field(default_factory=dict)
    light: Light = ""
    slip: Slip | None = None

    @property
    def revision(self) -> Revision:
        """The newest text, where it is certain that there is one."""
        if self.unit is None:
            raise LookupError("asked of no unit")
        return self.unit

    @cached_property
    def data(self) -> bytes:
        """That text as bytes."""
        return encode(self.revision.text)

    @cached_property
    def document(self) -> Document:
        """That text, read."""
        return read_document(self.data)

    @cached_property
    def with_readings(self) -> bytes:
        """That text with the readings of the journal in it, as answers are to know them."""
        return encode(export(self.store, self.revision.rebuild).text)

    async def work(self, name: str, *arguments: Any, pace: "Pace" = "quick") -> Any:
        """Have something worked out for that text and its readings, see `desk.Desk.ask`."""
        kept = self.revision
        of = kept.rebuild, kept.number
        return await self.desk.ask(name, self.with_readings, *arguments, of=of, pace=pace)

    def again(self, at: str, slip: Slip) -> "Asked":
        """Ask for the page that an act came from."""
        return replace(self, at=at, slip=slip)


@dataclass(frozen=True)
class Page:
    """A page or a piece of one: plain data, told as HTML by its template or as JSON."""

    template: ClassVar[str]


@dataclass(frozen=True)
class File:
    """A file to show or to keep; `keep_as` is the name it is to be kept under."""

    data: bytes
    media: str
    keep_as: str = ""


@dataclass(frozen=True)
class Moved:
    """What was asked for is elsewhere: a path of these pages."""

    to: str


@dataclass(frozen=True)
class Done:
    """An act is done; the page to go on with, a path of these pages."""

    to: str


PageOf = Callable[[Asked], Awaitable[Page | File | Moved]]
ActOf = Callable[[Asked], Awaitable[Done]]


def path(
    unit: int, page: str, at: str = "", hash_: str = "", query: Mapping[str, str] | None = None
) -> str:
    """Write the path of a page.

    Examples
    --------
    >>> path(3, "measure", "outer ring", "size-2")
    '/unit/3/measure/outer%20ring#size-2'
    >>> path(3, "measure", query={"line": "lay-shaft"})
    '/unit/3/measure?line=lay-shaft'
    """
    end = f"/{quote(at, safe='')}" if at else ""
    asks = f"?{urlencode(query)}" if query else ""
    return f"/unit/{unit}/{page}{end}{asks}" + (f"#{quote(hash_)}" if hash_ else "")
