"""From the bytes of a file to text, and what in them is no text at all.

`decode` gives the text exactly as it stands, byte order mark and line ends kept; `check` finds
characters that cannot be seen or that make the layout doubtful; `mend` gives a text of the same
length without them, so that reading can go on and the other problems are found too.
"""

import re
from collections.abc import Iterator
from itertools import islice

from dryfit.document.nodes import Spotted

MOST_BYTES = 1_000_000
MOST_OF_A_SORT = 20
"""Findings of one sort that are listed; more would bury the rest."""

MARK = "\ufeff"
"""The byte order mark some editors put first."""

STAND_IN = "\ufdd0"
"""Stands in for ? before a YAML reader: the readers differ about it and a rebuild needs no such
sign. Unicode keeps this character free for inner use."""

_BAD_BYTE = re.compile("[\udc80-\udcff]+")
_ODD = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufdd0\ufeff\ufffe\uffff"
UNSEEN = re.compile(f"[{_ODD}\ud800-\udfff]")
"""Control characters, hidden line breaks, what turns the direction of writing round, halves of
characters: never part of a value."""

_UNSEEN_RUN = re.compile(f"{UNSEEN.pattern}+")
_CONTROL = re.compile(f"[{_ODD}]")
_HALF = re.compile("[\ud800-\udb7f\udb80-\udc7f\udd00-\udfff]")
_TAB_INDENT = re.compile(r"(?:\A\ufeff?|(?<=[\r\n])) *+(\t)[ \t]*+[^\s#]")
_PICTURE = re.compile(
    rb"\xff\xd8\xff|\x89PNG|GIF8|BM.{4}\0\0|II\*\0|MM\0\*|%PDF-|RIFF.{4}WEBP|\0\0\0.ftyp", re.DOTALL
)
"""How photographs, drawings and printed pages begin."""

_WIDE = re.compile(
    rb"\xff\xfe|\xfe\xff|[^\0]\0[^\0]\0|\0[^\0]\0[^\0]|\0\0\0[^\0]|[^\0]\0\0\0|\0\0\xfe\xff"
)


def decode(data: bytes | str) -> tuple[str, Spotted | None]:
    """Give the text of a file, and why it is no text to be read, if so.

    Bytes that are not UTF-8 come back as lone surrogates, so nothing is lost; a file that is too
    large is not decoded. Half a character in a text becomes U+FFFF, which `check` finds.
    """
    if isinstance(data, str):
        return _whole_characters(data)
    picture = _picture() if _PICTURE.match(data) else None
    if len(data) > MOST_BYTES:
        return "", picture or _too_large(len(data))
    return data.decode("utf-8", "surrogateescape"), picture or _no_text(data)


def encode(text: str) -> bytes:
    """Give back the bytes `decode` read."""
    return text.encode("utf-8", "surrogateescape")


def check(text: str) -> list[Spotted]:
    """Find bytes that are not UTF-8, control characters, and tabs that indent."""
    sorts = (_bad_bytes(text), _controls(text), tab_indents(text))
    return [finding for sort in sorts for finding in islice(sort, MOST_OF_A_SORT)]


def mend(text: str) -> str:
    """Give a text of the same length with nothing in it that YAML readers differ about."""
    return _UNSEEN_RUN.sub(lambda run: "\ufffd" * len(run.group()), text).replace("\t", " ")


def tab_indents(text: str) -> Iterator[Spotted]:
    """Find the lines that are indented by a tab."""
    for match in _TAB_INDENT.finditer(text):
        yield Spotted(
            "text.tab",
            (),
            "a tab is used to indent",
            "use spaces: two for each level",
            offset=match.start(1),
        )


def _whole_characters(text: str) -> tuple[str, Spotted | None]:
    if len(text) > MOST_BYTES:
        return "", _too_large(len(text))
    text = _HALF.sub("\uffff", text)
    data = encode(text)
    if len(data) > MOST_BYTES:
        return "", _too_large(len(data))
    return text, _no_text(data)


def _picture() -> Spotted:
    return Spotted(
        "text.picture",
        (),
        "the file is a photograph, a drawing or a printed page, and no text",
        "choose the text that dryfit wrote; a photograph of a unit goes on its page Strip",
    )


def _too_large(size: int) -> Spotted:
    return Spotted(
        "text.too large",
        (),
        f"the text is {size / 1e6:.2f} MB; at most {MOST_BYTES / 1e6:g} MB is read",
        "check that this is the right file",
    )


def _no_text(data: bytes) -> Spotted | None:
    if _WIDE.match(data):
        return Spotted(
            "text.utf16",
            (),
            "the file is saved as UTF-16 or UTF-32",
            "save it as UTF-8 (in the editor's 'save as' box)",
        )
    if b"\0" in data:
        at = len(data[: data.index(b"\0")].decode("utf-8", "surrogateescape"))
        return Spotted(
            "text.binary",
            (),
            "the file is no text: what stands in it is for a program to read, not for an eye",
            "choose the text that dryfit wrote, or one written by hand",
            offset=at,
        )
    return None


def _bad_bytes(text: str) -> Iterator[Spotted]:
    for match in _BAD_BYTE.finditer(text):
        raw = encode(match.group())[:8]
        older = raw.decode("cp1252", "ignore")
        meant = f", in older files '{older}'" if older else ""
        yield Spotted(
            "text.utf8",
            (),
            f"not UTF-8 here: byte {raw.hex(' ').upper()}{meant}",
            "save the file as UTF-8, or type the character again",
            offset=match.start(),
        )


def _controls(text: str) -> Iterator[Spotted]:
    for match in _CONTROL.finditer(text, 1 if text.startswith(MARK) else 0):
        yield Spotted(
            "text.control",
            (),
            f"a character that cannot be seen (U+{ord(match.group()):04X})",
            "delete it and type what you meant",
            offset=match.start(),
        )
