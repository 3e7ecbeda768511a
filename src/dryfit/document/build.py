"""From the events of a YAML reader to nodes, and what a rebuild does not allow.

The limits are counted on the events, before anything is built from what breaks them, so a
hostile text costs no more than a legal one.
"""

import re
from dataclasses import dataclass, field
from typing import Literal, Protocol, cast

import yaml

from dryfit.document.characters import MARK, STAND_IN, UNSEEN, mend
from dryfit.document.locate import BREAK
from dryfit.document.nodes import Entry, Mapping, Node, Scalar, Sequence, Spotted, Style, fold
from dryfit.document.syntax import MOST_DEPTH, QUOTES, TOO_DEEP, Halt, explain, quote, short
from dryfit.quantities.finding import Level, Place

MOST_NODES = 20_000
MOST_FINDINGS = 100
MOST_CHARACTERS = 200
MOST_CHARACTERS_NOTES = 2_000
SEARCHED = 400
"""Characters of one value that are looked through for names without a space."""
NOTES: Place = ("notes",)
"""The one place for more than a line or two."""

Reader = type[yaml.SafeLoader] | type[yaml.CSafeLoader]
READER: Reader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

_HEADER = re.compile(r"[|>][-+0-9]*(?:\s|\Z)")
_COLON = re.compile(r"\s*:")
_DIGIT_COMMA = re.compile(r"\d, ?\Z")
_DIRECTIVE = re.compile(r"(?:[ \t]*+(?:#[^\r\n]*+)?(?:\r\n|\r|\n))*+(%)")
_NO_CHARACTER = re.compile(r"\\U(?!000|0010)")
_JOINED_FLOW = re.compile(r":[,\[\]{}]")
"""Some readers stop here and some do not, so all are made to."""
_JOINED = re.compile(r"[^\W\d][^:\r\n]*:[^\s]")


def longest(place: Place) -> int:
    """Give the most characters a value at a place may have."""
    return MOST_CHARACTERS_NOTES if place == NOTES else MOST_CHARACTERS


def build(text: str, reader: Reader = READER) -> tuple[Node | None, list[Spotted]]:
    """Read the nodes of a text, and everything in it that is refused.

    Returns
    -------
    node, findings
        The node is None for a text without any, and where reading had to stop.
    """
    builder = _Builder(text)
    try:
        builder.read(reader)
    except yaml.MarkedYAMLError as trouble:
        builder.halt(trouble)
    except (ValueError, OverflowError):
        builder.halt_at_escape()
    return (None if builder.stopped else builder.root), builder.findings


class _Mark(Protocol):
    """A spot, as both readers give it."""

    @property
    def index(self) -> int:
        """Characters before the spot."""
        ...


def _index(mark: _Mark | None) -> int:
    return mark.index if mark else 0


@dataclass(slots=True)
class _Open:
    """A mapping or a list whose end has not come yet."""

    mapping: bool
    start: int
    flow: bool
    end: int
    awaits: Literal["key", "value", "nothing"] = "key"
    key: Scalar | None = None
    names: dict[str, int] = field(default_factory=dict)
    entries: list[Entry] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)

    @property
    def spot(self) -> Place:
        """The key or number of the child that comes next."""
        if not self.mapping:
            return (len(self.items),)
        return (fold(self.key.text),) if self.key else ()

    def close(self, end: int) -> Node:
        """Make the node, now that all its children are there."""
        last = end if self.flow else self.end
        if self.mapping:
            return Mapping(tuple(self.entries), self.start, last, self.flow)
        return Sequence(tuple(self.items), self.start, last, self.flow)


class _Builder:
    """Takes one event after the other; `stack` holds what is open."""

    def __init__(self, text: str) -> None:
        self.base = 1 if text.startswith(MARK) else 0
        self.text = MARK[: self.base] + mend(text[self.base :])
        self.root: Node | None = None
        self.stack: list[_Open] = []
        self.findings: list[Spotted] = []
        self.nodes = 0
        self.documents = 0
        self.stopped = False

    def read(self, reader: Reader) -> None:
        """Take events until the text ends or a limit is broken."""
        directive = _DIRECTIVE.match(self.text, self.base)
        if directive:
            self.stop("text.directive", directive.start(1), "a line begins with %", "delete it")
            return
        for event in yaml.parse(self.text[self.base :].replace("?", STAND_IN), Loader=reader):
            self.take(event)
            if self.stopped:
                return

    def take(self, event: yaml.Event) -> None:
        """Act on one event."""
        start, end = self.base + _index(event.start_mark), self.base + _index(event.end_mark)
        if isinstance(event, yaml.DocumentStartEvent):
            self.open_document(start)
        elif isinstance(event, yaml.ScalarEvent):
            self.mark(event, start)
            text = event.value.replace(STAND_IN, "?")
            self.scalar(text, start, end, cast(Style, event.style or ""))
        elif isinstance(event, yaml.AliasEvent):
            self.alias(start, end)
        elif isinstance(event, yaml.CollectionStartEvent):
            self.mark(event, start)
            self.open(event, start, end)
        elif isinstance(event, yaml.CollectionEndEvent):
            self.deliver(self.stack.pop().close(end))

    def halt(self, trouble: yaml.MarkedYAMLError) -> None:
        """Word the trouble that stopped the reader."""
        at = self.base + _index(trouble.problem_mark)
        begun = self.base + _index(trouble.context_mark) if trouble.context_mark else at
        self.say(Halt(self.text, trouble.problem or "", trouble.context or "", at, begun))

    def halt_at_escape(self) -> None:
        """Word a character number that does not exist, which one reader cannot word itself."""
        found = _NO_CHARACTER.search(self.text)
        at = found.start() if found else self.base
        self.say(Halt(self.text, "unknown escape", "", at, at))

    def say(self, halt: Halt) -> None:
        """Add what stopped the reader, unless something is said of that spot already."""
        self.stopped = True
        finding = explain(halt, self.place())
        if all(other.offset != finding.offset for other in self.findings):
            self.findings.append(finding)

    def place(self) -> Place:
        """Give the place of the node that comes next."""
        return tuple(key for level in self.stack for key in level.spot)

    def find(
        self, code: str, at: int, message: str, way_out: str, *, level: Level = "stop"
    ) -> None:
        """Note a finding; too many of them end the reading."""
        self.findings.append(Spotted(code, self.place(), message, way_out, level, offset=at))
        if len(self.findings) >= MOST_FINDINGS and not self.stopped:
            way_out = "mend these first"
            self.stop("limit.findings", at, f"more than {MOST_FINDINGS} things are wrong", way_out)

    def stop(self, code: str, at: int, message: str, way_out: str) -> None:
        """Note a finding that ends the reading."""
        self.stopped = True
        self.find(code, at, message, way_out)

    def count(self, at: int) -> None:
        """Count a node."""
        self.nodes += 1
        if self.nodes > MOST_NODES:
            message = f"more than {MOST_NODES} names and values"
            self.stop("limit.nodes", at, message, "check that this is the right file")

    def open_document(self, start: int) -> None:
        """Allow one document, with or without dashes before it."""
        self.documents += 1
        if self.documents > 1:
            way_out = "one file holds one rebuild: make a file of each"
            self.stop("text.documents", start, "a second document begins at this line", way_out)

    def mark(self, event: yaml.NodeEvent, start: int) -> None:
        """Refuse anchors and tags."""
        if event.anchor is not None or getattr(event, "tag", None) is not None:
            sign = self.text[start : start + 1]
            message = f"a value may not begin with {sign}"
            way_out = f"put it in single quotes: '{quote(self.text, start)}'"
            self.find("value.mark", start, message, way_out)

    def alias(self, start: int, end: int) -> None:
        """Refuse an alias; its text stands in for it."""
        shown = quote(self.text, start)
        way_out = f"write the value out, or put it in single quotes: '{shown}'"
        self.find("value.mark", start, "a value may not begin with *", way_out)
        self.scalar(self.text[start:end], start, end, "")

    def open(self, event: yaml.CollectionStartEvent, start: int, end: int) -> None:
        """Begin a mapping or a list."""
        self.count(start)
        flow, mapping = bool(event.flow_style), isinstance(event, yaml.MappingStartEvent)
        if flow and start == end:
            way_out = "put the item in quotes, or in braces"
            self.find("list.pair", start, "a list item holds a colon", way_out)
        if len(self.stack) == MOST_DEPTH:
            self.stop("limit.depth", start, TOO_DEEP, "check the brackets and the indents")
        self.stack.append(_Open(mapping, start, flow, end if flow else start))

    def scalar(self, text: str, start: int, end: int, style: Style) -> None:
        """Take a name or a single value."""
        self.count(start)
        if style in ("|", ">"):
            text = text.rstrip("\n")
            end = start + len(self.text[start:end].rstrip())
        level = self.stack[-1] if self.stack else None
        node = Scalar(text, start, end, style)
        if level and level.mapping and level.awaits == "key":
            self.name(level, node)
            return
        if start == end:
            node = self.empty(level, node)
        self.check_value(level, node)
        self.deliver(node)

    def empty(self, level: _Open | None, node: Scalar) -> Scalar:
        """Put an empty value right behind its colon, whichever way the reader counts."""
        colon = _COLON.match(self.text, level.key.end) if level and level.key else None
        return Scalar("", colon.end(), colon.end()) if colon else node

    def name(self, level: _Open, key: Scalar) -> None:
        """Take a name and refuse what cannot be one."""
        if level.flow and key.style == "" and _JOINED_FLOW.match(self.text, key.end):
            self.say(Halt(self.text, "unexpected ':'", "", key.end, key.end))
            return
        level.awaits, level.key = "value", key
        name, first = fold(key.text), level.names.get(fold(key.text))
        level.names.setdefault(name, key.start)
        if key.style == "" and name.startswith("? "):
            self.find("name.question", key.start, "a ? before a name", "write 'name: value'")
        if name == "":
            self.refuse(level, "name.empty", key.start, "a colon with no name before it")
        elif name == "<<" and key.style == "":
            self.refuse(level, "name.merge", key.start, "<< is not a name")
        elif first is not None:
            message = f"'{short(name)}' stands twice here, first on line {self.line(first)}"
            way_out = "delete one of them or give it another name"
            self.find("name.twice", key.start, message, way_out)
            level.awaits = "nothing"
        self.check_text(key)

    def refuse(self, level: _Open, code: str, at: int, message: str) -> None:
        """Leave an entry out because of its name."""
        level.awaits, level.key = "nothing", None
        self.find(code, at, message, "write 'name: value'")

    def check_value(self, level: _Open | None, node: Scalar) -> None:
        """Refuse values that a rebuild has no use for."""
        if node.style in ("|", ">") and not self.may_be_block(node):
            message = f"a value may not begin with {node.style}"
            self.find("value.block", node.start, message, f"{QUOTES}, in one line")
        elif level and level.key and node.style == "":
            self.check_colon(level.key.end, node)
        self.check_text(node)

    def check_colon(self, key_end: int, node: Scalar) -> None:
        """Tell of words below a name that look like names with values, but are none."""
        below = BREAK.search(self.text, key_end, node.start)
        if below and _JOINED.search(self.text, node.start, min(node.end, node.start + SEARCHED)):
            message = "a colon without a space after it does not end a name"
            way_out = "put a space after each colon"
            self.find("value.colon", node.start, message, way_out, level="note")

    def may_be_block(self, node: Scalar) -> bool:
        """Allow a block of lines in the notes."""
        return self.place() == NOTES and bool(_HEADER.match(self.text, node.start))

    def check_text(self, node: Scalar) -> None:
        """Refuse names and values that are too long or cannot be shown."""
        most = longest(self.place())
        if len(node.text) > most:
            message = f"{len(node.text)} characters; at most {most} are read here"
            self.find("value.long", node.start, message, "shorten it, or move it to notes")
        if UNSEEN.search(node.text):
            message = "a backslash sign stands for a character that cannot be seen"
            self.find("value.unseen", node.start, message, "use single quotes")

    def deliver(self, node: Node) -> None:
        """Hand a finished node to what it stands in."""
        if not self.stack:
            self.root = node
            return
        level = self.stack[-1]
        if not level.mapping:
            level.items.append(node)
        elif level.awaits == "key":
            level.end = node.end
            self.refuse(level, "name.list", node.start, "a name may not be a list or in brackets")
            return
        else:
            self.entry(level, node)
        level.end = node.end

    def entry(self, level: _Open, node: Node) -> None:
        """Add an entry to a mapping."""
        key = level.key
        if key and level.flow and not _COLON.match(self.text, key.end):
            way_out = "write 'name: value' with a space after the colon"
            if key.text[:1].isdigit() and _DIGIT_COMMA.search(self.text, key.start - 3, key.start):
                way_out += "; a decimal has a point, not a comma"
            self.find("name.no colon", key.start, f"'{short(key.text)}' has no value", way_out)
        if key and level.awaits == "value":
            level.entries.append(Entry(key, node))
        level.awaits, level.key = "key", None

    def line(self, offset: int) -> int:
        """Give the line of an offset."""
        return len(BREAK.findall(self.text, 0, offset)) + 1
