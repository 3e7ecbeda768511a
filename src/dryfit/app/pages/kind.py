"""A kind of unit that was pointed at: still together, or in pieces with at most ten boxes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.frame import Frame
from dryfit.app.pages.listed import told_apart
from dryfit.app.pages.typed import as_written, echoed
from dryfit.app.usecases.begin import begun, start
from dryfit.app.words.first_sizes import FirstSize, Kind
from dryfit.app.words.kinds import kind_of
from dryfit.document.read import read_document
from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.model.long_rules import LONGEST
from dryfit.model.rules import check
from dryfit.quantities import NotKnown, System
from dryfit.quantities.finding import Finding, Place
from dryfit.quantities.size import read_size
from dryfit.quantities.unreadable import Unreadable
from dryfit.store.readings import SAYS_HOW_SURE
from dryfit.store.revisions import begin
from dryfit.store.trouble import Trouble

DRAWN = Path(__file__).parent / "kinds"
"""Half-sections to point at, as `app.usecases.drawing_kind` makes them."""

NO_KIND = "kind.none"


def bare(kind: Kind) -> str:
    """Give the half-section of a kind."""
    return (DRAWN / f"{kind.start}.svg").read_text(encoding="utf-8")


def lettered(kind: Kind) -> str:
    """Give the same with the letters of its first sizes."""
    return (DRAWN / f"{kind.start}-lettered.svg").read_text(encoding="utf-8")


@dataclass(frozen=True, slots=True)
class Box:
    """One lettered box: what to measure with what, what was typed, and what is wrong with it.

    Attributes
    ----------
    number
        Counted from 0; the box is called `size-0`, its instrument `by-0`, its way `way-0`.
    ways
        How the two ways it may lie are said; none where it lies one way.
    echo
        What was typed, in both systems.
    """

    number: int
    letter: str
    what: str
    how: str
    by: str
    ways: tuple[str, ...]
    way: str
    typed: str
    echo: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class KindPage(Page):
    """A kind, its drawing, and its boxes; `rest` is what is wrong and of no box."""

    template: ClassVar[str] = "kind.html"
    frame: Frame
    start: str
    name: str
    told: str
    drawing: str
    system: System
    boxes: tuple[Box, ...]
    instruments: tuple[str, ...]
    slip: Slip | None
    rest: tuple[Finding, ...]


async def page(asked: Asked) -> KindPage:
    """Show a kind."""
    kind = _kind(asked.at)
    typed = asked.slip.typed if asked.slip else {}
    found = asked.slip.findings if asked.slip else ()
    places = {one.place for one in kind.sizes}
    return KindPage(
        Frame(f"kind/{kind.start}"),
        kind.start,
        kind.name,
        kind.told,
        lettered(kind),
        _system(typed),
        tuple(_box(n, one, typed, found) for n, one in enumerate(kind.sizes)),
        tuple(INSTRUMENTS),
        asked.slip,
        tuple(one for one in found if one.place not in places),
    )


async def together(asked: Asked) -> Done:
    """Begin a unit that is still together, with nothing known of it."""
    kind = _kind(asked.form.get("kind", ""))
    kept = begin(asked.store, told_apart(asked.store, start(kind.start)))
    return Done(path(kept.rebuild, "strip"))


async def in_pieces(asked: Asked) -> Done:
    """Begin a unit with the sizes that were typed; all that is wrong is said at once."""
    form = asked.form
    kind = _kind(form.get("at", ""))
    read = [_read(n, one, form) for n, one in enumerate(kind.sizes)]
    wrong = [one for one in read if isinstance(one, Finding)]
    values = [one for one in read if isinstance(one, tuple)]
    done = begun(kind.start, _system(form), values)
    wrong += [*done.findings, *_stops(done.text, {place for place, _ in values})]
    if wrong:
        raise Refused(Slip((), form, tuple(wrong)))
    kept = begin(asked.store, told_apart(asked.store, done.text.encode()))
    return Done(path(kept.rebuild, "first-answer"))


def _kind(name: str) -> Kind:
    found = kind_of(name)
    if found is None:
        raise Trouble(NO_KIND, f"there is no kind of unit called '{name[:40]}'", "choose one")
    return found


def _system(form: Mapping[str, str]) -> System:
    return "inch" if form.get("sizes-in") == "inch" else "mm"


def _box(n: int, one: FirstSize, typed: Mapping[str, str], found: tuple[Finding, ...]) -> Box:
    told = typed.get(f"size-{n}", "")
    return Box(
        n,
        one.letter,
        one.what,
        one.how,
        _instrument(n, one, typed),
        one.ways,
        _way(n, one, typed),
        told,
        echoed(told, _system(typed)),
        tuple(finding for finding in found if finding.place == one.place),
    )


def _instrument(n: int, one: FirstSize, form: Mapping[str, str]) -> str:
    chosen = form.get(f"by-{n}", one.by)
    return chosen if chosen in INSTRUMENTS else one.by


def _way(n: int, one: FirstSize, form: Mapping[str, str]) -> str:
    """Say which way a size lies, as chosen; as it does as a rule where nothing was."""
    chosen = form.get(f"way-{n}", one.lies)
    return chosen if one.ways and chosen in ("plus", "minus") else one.lies


def _read(n: int, one: FirstSize, form: Mapping[str, str]) -> tuple[Place, str] | Finding | None:
    """Read a box: a value for the text, what is wrong with it, or nothing where not known."""
    typed = form.get(f"size-{n}", "").strip()
    try:
        size = read_size(typed, _system(form), box=True)
    except Unreadable as why:
        return Finding(why.code, one.place, why.message, why.way_out)
    if isinstance(size, NotKnown):
        return None
    way_out = (
        "type it without, and say beside it which way it lies" if one.ways else "type it without"
    )
    if size.value < 0:
        return Finding("first.minus", one.place, f"'{typed}' has a minus", way_out)
    if size.value == 0 and not one.may_be_nothing:
        message = "nothing has this length"
        return Finding("first.nothing", one.place, message, "measure it, or type ? for not known")
    if size.value > LONGEST:
        message = f"'{typed}' is longer than {LONGEST / 1000:g} m, and would not lie on a bench"
        return Finding("first.long", one.place, message, "look at the point and at the unit")
    written = as_written(typed)
    if not SAYS_HOW_SURE.search(written):
        written += f" by {_instrument(n, one, form)}"
    return one.place, f"-{written}" if _way(n, one, form) == "minus" else written


def _stops(text: str, places: set[Place]) -> Iterator[Finding]:
    """Find what keeps a text from being answered, told for the box that it is about."""
    document = read_document(text)
    for found in (*document.findings, *check(document.rebuild)):
        if found.level == "stop":
            near = next((p for p in places if found.place[: len(p)] == p), found.place)
            yield Finding(found.code, near, found.message, found.way_out)
