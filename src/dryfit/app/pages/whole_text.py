"""The whole text in one box, for what no other box reaches, with the lines of all findings."""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.edits import saw
from dryfit.app.pages.found import Found, found, further, picture_of
from dryfit.app.pages.frame import Frame, frame
from dryfit.document.characters import MARK, decode, encode
from dryfit.quantities.finding import Finding
from dryfit.store.revisions import Behind, bring_in


@dataclass(frozen=True)
class TextPage(Page):
    """The text as it stands, or as it was typed and not kept."""

    template: ClassVar[str] = "text.html"
    frame: Frame
    text: str
    found: Found
    slip: Slip | None


async def page(asked: Asked) -> TextPage:
    """Show the text."""
    typed = asked.slip.typed.get("text") if asked.slip else None
    told = found(asked, further(asked, await picture_of(asked)))
    text = asked.revision.text if typed is None else typed
    return TextPage(frame(asked, "text"), text, told, asked.slip)


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
