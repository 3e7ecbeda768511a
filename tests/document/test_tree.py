"""A text is read exactly as it stands, and whatever is wrong with it is said in plain words."""

import json
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from dryfit.document.build import Reader
from dryfit.document.tree import (
    Located,
    Mapping,
    Node,
    Scalar,
    Sequence,
    Span,
    Tree,
    as_data,
    read_tree,
)
from dryfit.quantities.finding import Finding, Place

READERS: list[Reader] = (
    [yaml.CSafeLoader, yaml.SafeLoader] if yaml.__with_libyaml__ else [yaml.SafeLoader]
)

LEGAL = [
    "dryfit: 1\n",
    "a: 0.350\nb: NO\nc: 22:30\nd: 010\ne: ~\nf: null\ng: 1_000\nh: 0x1F\ni: 2001-01-01\n",
    "a:\nb: # x\nc:   # y\n\nd: ''\n",
    "parts:\n  case: {kind: housing, of: [a, b]}  # x\n  # y\n\n  shaft:\n    kind: shaft\n# z\n",
    "a: one\n  two   # x\nb: 'it''s\n  so'\nc: \"x\\n \\t\n  \\u00e9 y\"\n",
    "a:\n- b\n-\n-   c: 1\n    d: 2\n- - e\n  - f\ng:\n  - h\n",
    "a: {b: , 'c': 'd', e: [f, [g], {h: i}],\n  # x\n  j: k,  # y\n}  # z\n",
    "notes: |\n  one\n\n  two # no comment\n\n\nb: 1\n",
    "notes: >-\n  one\n  two\n# x\nb: 1\n",
    "---\na: 1\n...\n",
    '5/8" bar: 5/8" x 1\na?: b? c\n? : 1\n',
    "a: - \n".replace("- ", "-5"),
    "{a: 1, b: [c]}",
    "ключ: 值 😀 x\n😀: {a: 😀😀, b: [😀, c]}\n",
    "a:\tb\t# x\nc: {d:\te}\t\n\t\n\t# y\nf: 'g\th'\n",
]


def variants(text: str) -> list[str]:
    """Write a text with each sort of line end, and with a byte order mark."""
    ends = [text, text.replace("\n", "\r\n"), text.replace("\n", "\r")]
    return [*ends, "\ufeff" + ends[0], "\ufeff" + ends[1]]


def scalars(node: Node) -> list[Scalar]:
    """List names and values in the order of the text."""
    if isinstance(node, Scalar):
        return [node]
    if isinstance(node, Sequence):
        return [s for item in node.items for s in scalars(item)]
    return [s for entry in node.entries for s in (entry.key, *scalars(entry.value))]


def groups(node: Node) -> list[Mapping | Sequence]:
    """List mappings and lists."""
    if isinstance(node, Scalar):
        return []
    inner = node.items if isinstance(node, Sequence) else [e.value for e in node.entries]
    return [node, *(g for each in inner for g in groups(each))]


def composed(text: str) -> Any:
    """Make plain data by PyYAML's own composer, every value as text; it takes no ? or tab."""
    return untouched(yaml.compose(text.replace("?", "q").replace("\t", " "), yaml.SafeLoader))


def untouched(node: Any) -> Any:
    """Take the values of PyYAML's nodes as they are."""
    if isinstance(node, yaml.MappingNode):
        return {untouched(k): untouched(v) for k, v in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [untouched(item) for item in node.value]
    return node.value


@pytest.mark.parametrize("text", [v for text in LEGAL for v in variants(text)])
def test_says_what_the_text_says(text: str) -> None:
    """Every value keeps the text typed: a size of 0.350 keeps its last digit, NO stays NO.

    Source of the expected data: PyYAML's own composer, which resolves no value.
    """
    tree = read_tree(text.encode())
    expected = composed(text.removeprefix("\ufeff"))
    assert tree.findings == ()
    assert tree.root is not None
    found = json.loads(json.dumps(as_data(tree.root)).replace("?", "q"))
    if "notes" in expected:
        expected["notes"] = expected["notes"].rstrip("\n")
    assert found == expected
    assert tree.encode() == text.encode()


@pytest.mark.parametrize("text", [v for text in LEGAL for v in variants(text)])
def test_every_span_is_where_it_should_be(text: str) -> None:
    """Each value's span holds just what was typed for it, so that only that is ever replaced."""
    tree = read_tree(text)
    assert tree.root is not None
    end = 0
    for scalar in scalars(tree.root):
        assert scalar.start >= end
        end = scalar.end
        alone = composed("k: " + tree.text[scalar.start : scalar.end])["k"]
        assert alone.rstrip("\n") == scalar.text.replace("?", "q")
        assert (scalar.start == scalar.end) == (scalar.text == "" and scalar.style == "")
        if scalar.start == scalar.end:
            assert tree.text[scalar.start - 1] in ":-"


@pytest.mark.parametrize("text", [v for text in LEGAL for v in variants(text)])
def test_a_group_ends_with_its_last_child(text: str) -> None:
    """A comment below a section is not part of the section."""
    tree = read_tree(text)
    assert tree.root is not None
    for group in groups(tree.root):
        held = tree.text[group.start : group.end]
        if group.flow:
            assert held[0] + held[-1] in ("{}", "[]")
        else:
            inner = [s.end for s in scalars(group)] + [g.end for g in groups(group)[1:]]
            assert group.end == max(inner)
            assert held[0] == "-" or isinstance(group, Mapping)


BROKEN: list[tuple[str, str | bytes, int, int, str, Place, str]] = [
    ("tab", "a:\n\tb: 1\n", 2, 1, "text.tab", (), "a tab is used to indent; use spaces"),
    ("tab deeper", "a:\n  \tb: 1\n", 2, 3, "text.tab", (), "use spaces"),
    ("second colon", "a: 1\nb: 2: 3\n", 2, 5, "syntax.colon", (), "in one line: 'b: 2: 3'"),
    ("deeper", "a: 1\n  b: 2\n", 2, 3, "syntax.indent", (), "'b: 2' does not line up"),
    ("between", "a:\n    b: 1\n  c: 2\n", 3, 3, "syntax.indent", (), "'c: 2' does not line up"),
    ("no colon", "a: 1\nb\nc: 2\n", 2, 1, "syntax.no colon", (), "'b' has no colon"),
    ("no space", "a: 1\nb:2\nc: 3\n", 2, 1, "syntax.space", (), "no space after the colon: 'b:2'"),
    ("no space, braces", "a: {b:, c: 1}\n", 1, 6, "syntax.space", ("a",), "no space after"),
    ("no space below", "s:\n  a:1\n  b:2\nc: 3\n", 2, 3, "value.colon", ("s",), "put a space"),
    ("open brace", "a: {b: 1\nc: 2\n", 1, 4, "syntax.bracket", ("a",), "comma before 'c: 2'"),
    ("open bracket", "a: [b, c\n", 1, 4, "syntax.bracket", ("a", 2), "[ opened here is never"),
    ("wrong bracket", "a: [b, c}\n", 1, 9, "syntax.bracket", ("a", 2), "[ is closed by }"),
    ("stray bracket", "a: b\n}\n", 2, 1, "syntax.bracket", (), "closing } without its opening"),
    ("stray in value", "a: ]\n", 1, 4, "syntax.bracket", ("a",), "closing ] without its opening"),
    ("no comma", "a: {b: 1 c: 2}\n", 1, 11, "syntax.comma", ("a",), "missing in 'b: 1 c: 2}'"),
    ("two commas", "a: [b, , c]\n", 1, 8, "syntax.comma", ("a", 1), "a comma with nothing before"),
    ("open quote", "a: 'b\nc: d\n", 1, 4, "syntax.quote", ("a",), "the quote ' opened here"),
    ("open double", 'a: "b\nc: d\n', 1, 4, "syntax.quote", ("a",), 'the quote " opened here'),
    ("after a quote", 'a: "5/8" x 1\n', 1, 10, "syntax.after", (), "'x 1' follows a value"),
    ("backslash", 'a: "b\\d"\n', 1, 6, "syntax.backslash", ("a",), "use single quotes"),
    ("no such character", 'a: "\\UFFFFFFFF"\n', 1, 5, "syntax.backslash", ("a",), "type it twice"),
    ("escaped control", 'a: "\\x07"\n', 1, 4, "value.unseen", ("a",), "use single quotes"),
    ("at", "a: @b\n", 1, 4, "syntax.begins", ("a",), "put it in single quotes: '@b'"),
    ("per cent", "a: %b\n", 1, 4, "syntax.begins", ("a",), "may not begin with %"),
    ("more than", "want: > 0.05\n", 1, 7, "syntax.begins", ("want",), "single quotes: '> 0.05'"),
    ("block", "a: |\n  b\n", 1, 4, "value.block", ("a",), "may not begin with |"),
    ("minus and space", "a: - 3.42\n", 1, 4, "syntax.dash", ("a",), "leave the space out"),
    ("item among names", "a: 1\n- b\n", 2, 1, "syntax.list", (), "a list item stands where"),
    ("name among items", "a:\n  - b\n  c: d\n", 3, 3, "syntax.list", ("a", 1), "without a dash"),
    ("anchor", "a: &x 1\n", 1, 4, "value.mark", ("a",), "may not begin with &"),
    ("alias", "a: *x\n", 1, 4, "value.mark", ("a",), "single quotes: '*x'"),
    ("words after an alias", "a: *x y\n", 1, 4, "value.mark", ("a",), "may not begin with *"),
    ("star", "a: * b\n", 1, 4, "syntax.begins", ("a",), "may not begin with *"),
    ("tag", "a: !!python/object:os.system x\n", 1, 4, "value.mark", ("a",), "begin with !"),
    ("tag on a group", "a: !x {b: 1}\n", 1, 4, "value.mark", ("a",), "begin with !"),
    ("merge", "a:\n  <<: 1\n", 2, 3, "name.merge", ("a",), "<< is not a name"),
    ("no name", "a: 1\n: b\n", 2, 1, "syntax.name", (), "no name before the colon"),
    ("empty name", "a: {'': 1}\n", 1, 5, "name.empty", ("a",), "no name before"),
    ("list as name", "a: {[b]: 1}\n", 1, 5, "name.list", ("a",), "may not be a list"),
    ("question", "? a: 1\n", 1, 1, "name.question", ("? a",), "write 'name: value'"),
    ("name alone", "a: {b}\n", 1, 5, "name.no colon", ("a", "b"), "'b' has no value"),
    ("pair in a list", "a: [b: c]\n", 1, 5, "list.pair", ("a", 0), "holds a colon"),
    ("twice", "b: 2\na x: 1\n'a  x': 3\n", 3, 1, "name.twice", ("a x",), "first on line 2"),
    ("long", "a: " + "x" * 201 + "\n", 1, 4, "value.long", ("a",), "201 characters; at most 200"),
    ("long name", "x" * 201 + ": 1\n", 1, 1, "value.long", ("x" * 201,), "at most 200"),
    ("long notes", "notes: " + "x" * 2001, 1, 8, "value.long", ("notes",), "at most 2000"),
    ("deep", "a: " + "[" * 20, 1, 23, "limit.depth", ("a", *[0] * 19), "more than 20 levels"),
    ("many", "a: [" + "1," * 20_000 + "]", 1, 39_999, "limit.nodes", ("a", 19_997), "20000 names"),
    ("directive", "# x\n\n%YAML 1.1\n---\na: 1\n", 3, 1, "text.directive", (), "begins with %"),
    ("two documents", "a: 1\n---\nb: 2\n", 2, 1, "text.documents", (), "a second document"),
    ("after the end", "a: 1\n...\nb: 2\n", 3, 1, "text.documents", (), "'b: 2' stands after"),
    ("empty", "", 1, 1, "text.empty", (), "nothing in the text"),
    ("comments only", "# x\n\n", 1, 1, "text.empty", (), "nothing in the text"),
    ("dashes only", "---\n", 1, 1, "text.empty", (), "nothing in the text"),
    ("list", "# x\n- a\n", 2, 1, "text.top", (), "not made of lines 'name: value'"),
    ("words", "a:1\n", 1, 1, "text.top", (), "with a space after the colon"),
    ("nul", b"a: 1\nb\0: 2", 2, 2, "text.binary", (), "for a program to read"),
    ("photograph", b"\xff\xd8\xff\xe0\0", 1, 1, "text.picture", (), "is a photograph"),
    ("utf-16", "a: b\n".encode("utf-16"), 1, 1, "text.utf16", (), "save it as UTF-8"),
    ("utf-16 without mark", "a: b\n".encode("utf-16-be"), 1, 1, "text.utf16", (), "save it as"),
    ("utf-32", "a: b\n".encode("utf-32"), 1, 1, "text.utf16", (), "save it as UTF-8"),
    ("old code page", "é: 5 °\n".encode("latin-1"), 1, 6, "text.utf8", (), "in older files '°'"),
    ("bell", "a: 1\x07\n", 1, 5, "text.control", (), "(U+0007)"),
    ("hidden line end", "a: x\u2028b: 1\n", 1, 5, "text.control", (), "(U+2028)"),
    ("turned round", "notes: fit \u202e2\n", 1, 12, "text.control", (), "(U+202E)"),
    ("set apart", "notes: fit \u20672\n", 1, 12, "text.control", (), "(U+2067)"),
    ("inner mark", "a: 1\n\ufeffb: 2\n", 2, 1, "text.control", (), "(U+FEFF)"),
    ("half a character", "a: \ud83d\n", 1, 4, "text.control", (), "cannot be seen"),
    ("large", b"a" * 1_000_001, 1, 1, "text.too large", (), "at most 1 MB"),
    ("large, two bytes each", "é" * 500_001, 1, 1, "text.too large", (), "at most 1 MB"),
]  # fmt: skip


@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["", "marked"])
@pytest.mark.parametrize("reader", READERS, ids=[r.__name__ for r in READERS])
@pytest.mark.parametrize(
    ("data", "line", "column", "code", "place", "words"),
    [b[1:] for b in BROKEN],
    ids=[b[0] for b in BROKEN],
)
def test_what_is_wrong_is_said_where_it_is(
    data: str | bytes, line: int, column: int, code: str, place: Place, words: str, reader: Reader,
    mark: str,
) -> None:  # fmt: skip
    """A wrong text gets a sentence with line, column and a way out, by either reader alike."""
    tree = read_tree(mark + data if isinstance(data, str) else data, reader=reader)
    last = (
        tree.located(tree.findings)[-1] if code == "text.utf8" else tree.located(tree.findings)[0]
    )
    assert (last.finding.code, last.line, last.column) == (code, line, column)
    assert last.finding.place == place
    assert words in f"{last.finding.message}; {last.finding.way_out}"
    assert last.finding.way_out


def test_all_problems_at_once() -> None:
    """One reading tells everything, so that nobody mends a file one message at a time."""
    text = "a: &x 1\nb: *x\nb: {c}\n\td: \x07\n"
    codes = [f.code for f in read_tree(text).findings]
    assert codes == [
        "value.mark",
        "value.mark",
        "name.twice",
        "name.no colon",
        "text.tab",
        "text.control",
    ]


def test_what_is_refused_still_stands_in_the_tree() -> None:
    """The meaning of the rest can be judged too, though an alias has none."""
    tree = read_tree("a: *x\nb: 1\nb: 2\n<<: 3\n")
    assert tree.root is not None
    assert as_data(tree.root) == {"a": "*x", "b": "1"}


def test_many_problems_are_cut_short() -> None:
    """A file with ten thousand faults gets a list that can be read."""
    findings = read_tree("a: 1\n" * 9_000).findings
    assert len(findings) == 101
    assert findings[-1].code == "limit.findings"
    assert len(read_tree(b"a: \xff1\n" * 9_000).findings) < 150


@pytest.mark.parametrize(
    "text", ["[" * 10**6, "{a: " * 10**5, "- " * 10**5, "? " * 10**5, "[\n" * 10**5]
)
@pytest.mark.parametrize("reader", READERS, ids=[r.__name__ for r in READERS])
def test_a_hundred_thousand_brackets_are_answered(text: str, reader: Reader) -> None:
    """A text made to bring a reader down gets a message like any other."""
    tree = read_tree(text, reader=reader)
    assert tree.root is None
    assert tree.findings[0].code in ("limit.depth", "value.long")


SIZES = """\
dryfit: 1
sizes:
  sleeve face: 22.05 by eye
  cover: '-6.20 by eye'
  plate: 'it''s 3'
  shim:   # none yet
  long: one
    two
stack: [nut, sleeve]
"""


@pytest.mark.parametrize("text", variants(SIZES))
@pytest.mark.parametrize(
    ("place", "column", "line", "starts"),
    [
        (("sizes", "sleeve face"), None, 3, "22.05 by eye"),
        (("sizes", "sleeve  face"), 9, 3, "eye"),
        (("sizes", "sleeve face"), 99, 3, ""),
        (("sizes", "cover"), 1, 4, "6.20 by eye'"),
        (("sizes", "plate"), 5, 5, "'it''s 3'"),
        (("sizes", "long"), 4, 7, "one"),
        (("stack", 1), 2, 9, "eeve]"),
        (("sizes", "shim"), None, 6, "shim:   # none yet"),
        (("sizes", "sleeve"), 3, 2, "sizes:"),
        (("sizes",), None, 2, "sizes:"),
        (("stack", 7), None, 9, "stack:"),
        (("stack", "nut"), None, 9, "stack:"),
        (("title",), None, 1, "dryfit: 1"),
        ((), None, 1, "dryfit: 1"),
    ],
)
def test_a_place_becomes_a_line_and_a_column(
    text: str, place: Place, column: int | None, line: int, starts: str
) -> None:
    """A message about a size points at the very figure; about a missing one, at its section."""
    tree = read_tree(text)
    (found,) = tree.located([Finding("x", place, "", column=column)])
    shown, caret = found.excerpt.split("\n")
    assert found.line == line
    assert shown == SIZES.split("\n")[line - 1]
    assert caret.index("^") + 1 == found.column
    assert shown[found.column - 1 :].startswith(starts)
    if not starts:
        assert shown[found.column - 1 :] == ""


def test_spans_of_names_and_values() -> None:
    """A page can mark the value or the name, and what is missing by the last thing there is."""
    tree = read_tree("a: {b: 'cd'}\n")
    assert tree.locate(("a", "b")) == Span(7, 11)
    assert tree.locate(("a", "b"), column=1) == Span(9, 10)
    assert tree.locate(("a", "b"), part="key") == Span(4, 5)
    assert tree.locate(("a",), part="key") == Span(0, 1)
    assert tree.locate(("a", "x"), part="key", column=1) == tree.locate(("a",)) == Span(3, 12)
    assert read_tree("").locate(("a",)) == Span(0, 0)


def test_findings_come_in_the_order_of_the_text() -> None:
    """The list of problems is worked through from the top of the file to its end."""
    tree = read_tree("a: 1\nb: 2\nc: 3\n")
    found = tree.located(
        [Finding("z", ("c",), ""), Finding("x", ("a",), ""), Finding("y", ("b",), "")]
    )
    assert [(f.finding.code, f.line) for f in found] == [("x", 1), ("y", 2), ("z", 3)]
    assert found[0] == Located(Finding("x", ("a",), ""), 1, 4, "a: 1\n   ^")


@pytest.mark.parametrize("at", [0, 30, 38, 39, 100, 161, 162, 199])
def test_a_long_line_is_cut_around_the_caret(at: int) -> None:
    """A line of 200 characters fits the window, with the caret still under its spot."""
    line = "".join(chr(ord("a") + i % 26) for i in range(200))
    shown, caret = Tree(line, None).excerpt(at).split("\n")
    assert len(shown) == 76
    assert shown[caret.index("^")] == line[at]
    assert shown.startswith("...") == (at > 38)
    assert shown.endswith("...") == (at < 162)


def test_an_excerpt_can_always_be_printed() -> None:
    """Bytes that are no text do not spoil the message about them."""
    tree = read_tree(b"a: \xff\tb\x1b[31m\n")
    assert tree.excerpt(3) == "a: ? b?[31m\n   ^"
    assert tree.encode() == b"a: \xff\tb\x1b[31m\n"


def told(tree: Tree) -> list[tuple[str, int]]:
    """Give what was found and where."""
    return [(f.code, f.offset) for f in tree.findings]


@given(st.binary(max_size=200))
def test_any_bytes_are_answered(data: bytes) -> None:
    """No file, however odd, ends the program; its bytes come back unchanged."""
    tree = read_tree(data)
    assert tree.encode() == data
    assert tree.findings or tree.root is not None
    assert len(tree.located(tree.findings)) == len(tree.findings)


PIECES = [
    "a", "b c", "12.5", ":", ": ", " ", "  ", "\n", "\n  ", "\r\n", "- ", "-", ",", ", ", "{", "}",
    "[", "]", "'", '"', "#", " # ", "?", "|", ">", "*x", "&", "%", "@", "~", "\\", "é", "😀", "\t",
    "notes: ", "\x85", "...", "---", "<<",
]  # fmt: skip


@pytest.mark.skipif(len(READERS) == 1, reason="PyYAML is here without its reader in C")
@given(st.lists(st.sampled_from(PIECES), max_size=25).map("".join))
def test_both_readers_agree(text: str) -> None:
    """A file says the same on every machine, whichever YAML reader is there."""
    quick, slow = (read_tree(text, reader=reader) for reader in READERS)
    if not quick.findings or not slow.findings:
        assert quick == slow
    else:
        assert quick.text == slow.text


@pytest.mark.skipif(len(READERS) == 1, reason="PyYAML is here without its reader in C")
@pytest.mark.parametrize(
    "text",
    [v for text in LEGAL for v in variants(text)] + [b[1] for b in BROKEN if b[0] != "large"],
)
def test_both_readers_say_the_same(text: str | bytes) -> None:
    """The same spans and the same messages come from either reader, word for word."""
    assert read_tree(text, reader=READERS[0]) == read_tree(text, reader=READERS[1])
