"""The whole text in one box, for what no other box reaches, with the lines of all findings."""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.edits import saw
from dryfit.app.pages.frame import Frame, frame
from dryfit.document.characters import MARK, decode, encode
from dryfit.document.locate import Located
from dryfit.model.rules import check
from dryfit.quantities.finding import Finding
from dryfit.store.revisions import Behind, bring_in


@dataclass(frozen=True)
class Spot:
    """A finding with its line, and what stands there."""

    level: str
    line: int
    message: str
    way_out: str
    excerpt: str


@dataclass(frozen=True)
class TextPage(Page):
    """The text as it stands, or as it was typed and not kept."""

    template: ClassVar[str] = "text.html"
    frame: Frame
    text: str
    spots: tuple[Spot, ...]
    slip: Slip | None


async def page(asked: Asked) -> TextPage:
    """Show the text."""
    typed = asked.slip.typed.get("text") if asked.slip else None
    document = asked.document
    at_once = check(document.rebuild) if document.tree.root else ()
    spots = tuple(_spot(one) for one in document.located(at_once))
    text = asked.revision.text if typed is None else typed
    return TextPage(frame(asked, "text"), text, spots, asked.slip)


def _spot(one: Located) -> Spot:
    wrong = one.finding
    return Spot(wrong.level, one.line, wrong.message, wrong.way_out, one.excerpt)


async def bring(asked: Asked) -> Done:
    """Make what stands in the box the newest text."""
    form, unit = asked.form, asked.revision.rebuild
    data = encode(as_in_file(form.get("text", ""), asked.revision.text))
    _, no_text = decode(data)
    if no_text:
        wrong = Finding(no_text.code, (), no_text.message, no_text.way_out)
        raise Refused(Slip((), _shown(form.get("text", "")), (wrong,)))
    outcome = bring_in(asked.store, unit, data, saw=saw(asked))
    if isinstance(outcome, Behind):
        message = "the text was changed elsewhere meanwhile, so yours was not put in its place"
        way_out = "compare it with the text as it is now; sent again, yours takes its place"
        wrong = Finding("page.conflict", (), message, way_out)
        raise Refused(Slip((), _shown(form.get("text", "")), (wrong,), outcome.newest.text))
    return Done(path(unit, "text"))


def _shown(text: str) -> dict[str, str]:
    return {"text": text}


def as_in_file(typed: str, before: str) -> str:
    r"""Give a text from a page the line ends it had before, and its byte order mark.

    >>> as_in_file("a: 1\r\nb: 2\r\n", "a: 1\n"), as_in_file("a: 1\r\n", "a: 2\r\n")
    ('a: 1\nb: 2\n', 'a: 1\r\n')
    """
    plain = typed.replace("\r\n", "\n").replace("\r", "\n")
    ended = plain.replace("\n", "\r\n") if "\r\n" in before else plain
    marked = before.startswith(MARK) and not ended.startswith(MARK)
    return MARK + ended if marked else ended
