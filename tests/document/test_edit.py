"""One change of one entry: all else in the text stays as its owner typed it."""

import json
import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryfit.document.build import Reader
from dryfit.document.edit import Edit, Mention, Spliced, splice
from dryfit.document.tree import Tree, as_data, read_tree
from dryfit.quantities.finding import Place

BENCH = """\
dryfit: 1                       # the format
sizes in: mm

parts:                          # on the bench
  case:        {kind: housing, material: cast iron}
  # turned by the last owner
  shaft:       {kind: shaft}    # bent?
  shim:
sizes:
  case.joint to case.face: '152.36'   # twice
  shaft: "148.70"
  sleeve: 22.05
settings: {}
stack: [case.face, shim, shaft]
steps:
- clean
-  # how tight is not known
- nut: tight
  by: hand
# the end"""

CHANGES: list[tuple[str, Edit, str, str]] = [
    ("plain", Edit("set", ("sizes", "sleeve"), typed="22.07"), "sleeve: 22.05", "sleeve: 22.07"),
    ("quotes kept", Edit("set", ("sizes", "shaft"), typed="1"), '"148.70"', '"1"'),
    ("quotes kept, comment too", Edit("set", ("sizes", "case.joint to case.face"), typed="it's"),
     "'152.36'   # twice", "'it''s'   # twice"),
    ("now empty", Edit("set", ("sizes", "sleeve"), typed=" "), "sleeve: 22.05", "sleeve:"),
    ("was empty", Edit("set", ("parts", "shim"), typed="thin"), "shim:\n", "shim: thin\n"),
    ("empty item, comment kept", Edit("set", ("steps", 1), typed="press: cold"),
     "-  # how", "- 'press: cold'  # how"),
    ("in braces", Edit("set", ("parts", "case", "material"), typed="iron, grey"),
     "cast iron}", "'iron, grey'}"),
    ("comma without braces", Edit("set", ("sizes", "sleeve"), typed="2, 3"), "22.05", "2, 3"),
    ("hash", Edit("set", ("sizes", "sleeve"), typed="2 # 3"), "22.05", "'2 # 3'"),
    ("minus", Edit("set", ("sizes", "sleeve"), typed="-3.42"), "22.05", "-3.42"),
    ("dash", Edit("set", ("sizes", "sleeve"), typed="- 3.42"), "22.05", "'- 3.42'"),
    ("not known", Edit("set", ("sizes", "sleeve"), typed="?"), "22.05", "'?'"),
    ("brackets are words", Edit("set", ("sizes", "sleeve"), typed="[1]"), "22.05", "'[1]'"),
    ("tab", Edit("set", ("sizes", "sleeve"), typed="1\t2"), "22.05", "1 2"),
    ("white space in the name", Edit("set", ("sizes", " sleeve "), typed="1"), "22.05", "1"),
    ("as seen", Edit("set", ("sizes", "shaft"), seen="148.70", typed="2"), "148.70", "2"),
    ("done already", Edit("set", ("sizes", "sleeve"), seen="9", typed="22.05"), "", ""),
    ("new line in a block", Edit("add", ("sizes", "cover.a to cover.b"), typed="-6.20"),
     "22.05\n", "22.05\n  cover.a to cover.b: -6.20\n"),
    ("a part", Edit("add", ("parts", "nut"), typed="{kind: nut, thread: M40x1.5}"),
     "shim:\n", "shim:\n  nut: {kind: nut, thread: M40x1.5}\n"),
    ("a list", Edit("add", ("settings", "shim"), typed="[0.05, 2 of 0.25]"),
     "settings: {}", "settings: {shim: [0.05, 2 of 0.25]}"),
    ("only looks like a list", Edit("add", ("sizes", "x"), typed="[0.05, 2"),
     "22.05\n", "22.05\n  x: '[0.05, 2'\n"),
    ("below an empty value", Edit("add", ("parts", "shim", "kind"), typed="shim pack"),
     "shim:\n", "shim:\n    kind: shim pack\n"),
    ("below an empty item", Edit("add", ("steps", 1, "nut"), typed="loose"),
     "-  # how", "- {nut: loose}  # how"),
    ("into braces", Edit("add", ("parts", "shaft", "made of"), typed="EN8"),
     "{kind: shaft}", "{kind: shaft, made of: EN8}"),
    ("a name that needs quotes in braces", Edit("add", ("settings", "a, b"), typed="1"),
     "{}", "{'a, b': 1}"),
    ("first in brackets", Edit("add", ("stack", 0), typed="nut"), "[case", "[nut, case"),
    ("last in brackets", Edit("add", ("stack", 3), typed="nut"), "shaft]", "shaft, nut]"),
    ("first item", Edit("add", ("steps", 0), typed="strip"), "- clean", "- strip\n- clean"),
    ("middle item", Edit("add", ("steps", 1), typed="oil"), "- clean\n", "- clean\n- oil\n"),
    ("last item", Edit("add", ("steps", 3), typed="run"), "by: hand\n", "by: hand\n- run\n"),
    ("into an item", Edit("add", ("steps", 2, "at"), typed="9"), "by: hand\n",
     "by: hand\n  at: 9\n"),
    ("a new section", Edit("add", ("readings", "end float"), typed="0.11 by dial indicator"),
     "by: hand\n", "by: hand\nreadings:\n  end float: 0.11 by dial indicator\n"),
    ("a new section with a list", Edit("add", ("lines", "a", "from x to y", 0), typed="b"),
     "by: hand\n", "by: hand\nlines:\n  a:\n    from x to y:\n      - b\n"),
    ("line and its comment", Edit("remove", ("parts", "shaft")),
     "  shaft:       {kind: shaft}    # bent?\n", ""),
    ("a whole section", Edit("remove", ("sizes",)), BENCH[BENCH.index("sizes:\n") :
     BENCH.index("settings")], ""),
    ("from braces", Edit("remove", ("parts", "case", "kind")), "kind: housing, ", ""),
    ("last in braces", Edit("remove", ("parts", "case", "material")), ", material: cast iron", ""),
    ("only one in braces", Edit("remove", ("parts", "shaft", "kind")), "{kind: shaft}", "{}"),
    ("an item", Edit("remove", ("steps", 1)), "-  # how tight is not known\n", ""),
    ("first of an item", Edit("remove", ("steps", 2, "nut")), "nut: tight\n  by", "by"),
    ("from a list", Edit("remove", ("stack", 1)), "shim, ", ""),
    ("up", Edit("move", ("stack", 2), to=0), "case.face, shim, shaft", "shaft, case.face, shim"),
    ("items", Edit("move", ("steps", 2), to=0),
     "- clean\n-  # how tight is not known\n- nut: tight\n  by: hand",
     "- nut: tight\n  by: hand\n- clean\n-  # how tight is not known"),
    ("nowhere", Edit("move", ("stack", 1), to=1), "", ""),
    ("a name", Edit("rename", ("sizes", "sleeve"), typed="bush"), "sleeve: 22", "bush: 22"),
    ("the same name", Edit("rename", ("sizes", "sleeve"), typed="sleeve"), "", ""),
]  # fmt: skip


@pytest.mark.parametrize("ends", ["\n", "\r\n"], ids=["unix", "windows"])
@pytest.mark.parametrize(
    ("edit", "old", "new"), [c[1:] for c in CHANGES], ids=[c[0] for c in CHANGES]
)
def test_only_the_touched_entry_differs(edit: Edit, old: str, new: str, ends: str) -> None:
    """The text after a change is what a careful person would have typed by hand."""
    assert BENCH.count(old) == 1 or old == ""
    before, after = (t.replace("\n", ends) for t in (BENCH, BENCH.replace(old, new, 1)))
    assert splice("\ufeff" + before, edit) == Spliced("\ufeff" + after)


ALONE: list[tuple[str, str, Edit, str]] = [
    ("last of a section", "a:  # x\n  # y\n  b: 1  # z\n  # w\nc: 2", Edit("remove", ("a", "b")),
     "a: {}  # x\n  # y\n  # w\nc: 2"),
    ("last of a list", "a:\n- 1 # x\n", Edit("remove", ("a", 0)), "a: []\n"),
    ("last of an item", "- 1\n".replace("- 1", "a:\n  - b: 1"), Edit("remove", ("a", 0, "b")),
     "a:\n  - {}\n"),
    ("last below a dash", "a:\n  -\n    b: 1\n  - c\n", Edit("remove", ("a", 0, "b")),
     "a:\n  - {}\n  - c\n"),
    ("last of all", "a: 1\n", Edit("remove", ("a",)), "{}\n"),
    ("line without end", "a: 1\nb: 2", Edit("remove", ("b",)), "a: 1\n"),
    ("line without end moves", "a: 1 # x\nb: 2", Edit("move", ("b",), to=0), "b: 2\na: 1 # x"),
    ("add after a line without end", "a: 1", Edit("add", ("b", "c"), typed="2"),
     "a: 1\nb:\n  c: 2"),
    ("add after notes", "notes: |\n  x\n\n  y\n\n# z\n", Edit("add", ("b",), typed="2"),
     "notes: |\n  x\n\n  y\nb: 2\n\n# z\n"),
    ("notes in one line", "notes: |\n  x\n  y\nb: 1\n", Edit("set", ("notes",), typed="z"),
     "notes: z\nb: 1\n"),
    ("value on several lines", "a: one\n  two # x\nb: 1\n", Edit("set", ("a",), typed="z"),
     "a: z # x\nb: 1\n"),
    ("value on its own line", "a:\n  one\nb: 1\n", Edit("set", ("a",), typed=""),
     "a:\n\nb: 1\n"),
    ("below empty quotes", "a: ''  # x\nb: 1\n", Edit("add", ("a", "c"), typed="2"),
     "a:   # x\n  c: 2\nb: 1\n"),
    ("empty in braces", "a: {b: }\n", Edit("add", ("a", "c"), typed=""), "a: {b: , c:  }\n"),
    ("item empty in brackets", "a: [b]\n", Edit("set", ("a", 0), typed=""), "a: ['']\n"),
    ("comma at the end", "a: [b, c,]\n", Edit("remove", ("a", 1)), "a: [b,]\n"),
    ("only one and a comma", "a: [b,]\n", Edit("remove", ("a", 0)), "a: []\n"),
    ("lines in braces", "a: {\n  b: 1, # x\n  c: 2, # y\n  d: 3  # z\n}\n",
     Edit("remove", ("a", "c")), "a: {\n  b: 1, # x\n  d: 3  # z\n}\n"),
    ("last line in braces", "a: {\n  b: 1, # x\n  d: 3  # z\n}\n", Edit("remove", ("a", "d")),
     "a: {\n  b: 1, # x\n}\n"),
    ("last in braces after a comment", "a: {b: 1, # x\n  d: 3}\n", Edit("remove", ("a", "d")),
     "a: {b: 1, # x\n  }\n"),
    ("lists in lists", "a:\n  - - b\n    - c\n", Edit("remove", ("a", 0, 0)), "a:\n  - - c\n"),
    ("first in lists in lists", "a:\n  - - b\n", Edit("add", ("a", 0, 0), typed="c"),
     "a:\n  - - c\n    - b\n"),
    ("list not indented", "a:\n- b\nc: 1\n", Edit("add", ("a", 1), typed="d"),
     "a:\n- b\n- d\nc: 1\n"),
    ("quotes and a hash that touch", "a: 'x'#y\n", Edit("set", ("a",), typed="z"), "a: 'z'#y\n"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("before", "edit", "after"), [a[1:] for a in ALONE], ids=[a[0] for a in ALONE]
)
def test_odd_corners_of_a_text(before: str, edit: Edit, after: str) -> None:
    """Empty sections, missing line ends and lists in lists come out as typed by hand."""
    assert splice(before, edit) == Spliced(after)


REFUSED: list[tuple[str, Edit, str, str]] = [
    ("other now", Edit("set", ("sizes", "sleeve"), seen="22.00", typed="1"), "edit.changed",
     "'sizes > sleeve' read '22.00', but now reads '22.05'"),
    ("group other now", Edit("remove", ("parts", "shaft"), seen="{kind: x}"), "edit.changed",
     "'parts > shaft' read '{kind: x}', but now reads '{kind: shaft}'"),
    ("gone", Edit("set", ("sizes", "bush"), seen="1", typed="1"), "edit.place", "not in the text"),
    ("gone item", Edit("remove", ("steps", 3)), "edit.place", "'steps > item 4'"),
    ("a name in a list", Edit("add", ("steps", "x"), typed="1"), "edit.place", "does not fit"),
    ("a number among names", Edit("add", ("sizes", 0), typed="1"), "edit.place", "does not fit"),
    ("past the end", Edit("add", ("steps", 4), typed="1"), "edit.place", "does not fit"),
    ("below a value", Edit("add", ("sizes", "sleeve", "x"), typed="1"), "edit.place", "22.05"),
    ("nameless", Edit("add", ("sizes", " "), typed="1"), "edit.place", "does not fit"),
    ("all", Edit("remove", ()), "edit.place", "not in the text"),
    ("add all", Edit("add", (), typed="1"), "edit.place", "nothing can be added"),
    ("too deep", Edit("add", ("a",) * 2000, typed="1"), "edit.place", "nothing can be added"),
    ("a section", Edit("set", ("sizes",), typed="1"), "edit.place", "not a single value"),
    ("nowhere to move", Edit("move", ("stack", 0), to=3), "edit.place", "no 3 to move to"),
    ("item without a name", Edit("rename", ("stack", 0), typed="x"), "edit.place", "no name"),
    ("there already", Edit("add", ("sizes", "sleeve"), typed="1"), "edit.exists", "'sleeve'"),
    ("taken", Edit("rename", ("sizes", "sleeve"), typed=" shaft"), "edit.exists", "'shaft'"),
    ("two lines", Edit("set", ("sizes", "sleeve"), typed="1\n2"), "edit.value", "line break"),
    ("unseen", Edit("set", ("sizes", "sleeve"), typed="1\x07"), "edit.value", "cannot be seen"),
    ("unseen name", Edit("add", ("sizes", "a\x07"), typed="1"), "edit.value", "cannot be seen"),
    ("half a character", Edit("set", ("sizes", "sleeve"), typed="\ud83d"), "edit.value", "seen"),
    ("long", Edit("set", ("sizes", "sleeve"), typed="1" * 201), "edit.value", "at most 200"),
    ("long name", Edit("add", ("sizes", "n" * 201), typed="1"), "edit.read back", "at most 200"),
    ("nothing typed", Edit("set", ("sizes", "sleeve")), "edit.value", "nothing was typed"),
    ("no name", Edit("rename", ("sizes", "sleeve"), typed=" "), "edit.name", "no name"),
    ("dot", Edit("rename", ("sizes", "sleeve"), typed="a.b"), "edit.name", "'a.b'"),
    ("to", Edit("rename", ("sizes", "sleeve"), typed="a to b"), "edit.name", "'a to b'"),
    ("colon", Edit("rename", ("sizes", "sleeve"), typed="a: b"), "edit.name", "sign"),
    ("hash", Edit("rename", ("sizes", "sleeve"), typed="a #b"), "edit.name", "sign"),
    ("comma in braces", Edit("rename", ("parts", "case", "kind"), typed="a, b"), "edit.name",
     "sign"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("edit", "code", "words"), [r[1:] for r in REFUSED], ids=[r[0] for r in REFUSED]
)
def test_refused_with_a_reason(edit: Edit, code: str, words: str) -> None:
    """A change that cannot be made leaves the text as it was and says why."""
    spliced = splice(BENCH, edit)
    (finding,) = spliced.findings
    assert (spliced.text, finding.code) == (BENCH, code)
    assert words in finding.message
    assert finding.way_out


def test_other_problems_come_first() -> None:
    """A text with a name that stands twice is not changed until that is put right."""
    spliced = splice("a: 1\na: 2\nb: 3\n", Edit("set", ("b",), typed="4"))
    assert spliced.text == "a: 1\na: 2\nb: 3\n"
    assert [f.code for f in spliced.findings] == ["edit.text", "name.twice"]


def test_edits_of_two_people_both_stay() -> None:
    """Two people who change different sizes of the same text both find their size in it."""
    first = splice(BENCH, Edit("set", ("sizes", "shaft"), seen="148.70", typed="148.72"))
    both = splice(first.text, Edit("set", ("sizes", "sleeve"), seen="22.05", typed="22.06"))
    assert both.text == BENCH.replace("148.70", "148.72").replace("22.05", "22.06")


UNIT = """\
parts:
  sleeve: {kind: spacer}       # sleeve here is a comment
  long sleeve: {kind: spacer}
sizes:
  sleeve.face to sleeve.end: 22.05
stack: [sleeve.face, 'sleeve', long sleeve]
"""


def mentions_of(old: str, new: str) -> Callable[[Tree, Place], list[Mention]]:
    """Find a part's name where it stands alone, before a dot or as one side of ' to '."""

    def find(tree: Tree, _place: Place) -> list[Mention]:
        found = re.finditer(rf"(?<![a-z] ){old}(?=[.,'\]])", tree.text)
        return [Mention(m.start(), m.end(), new) for m in found] + [
            Mention(m.start(), m.end(), new) for m in re.finditer(rf"(?<=to ){old}", tree.text)
        ]

    return find


def test_a_new_name_is_put_everywhere() -> None:
    """A part that gets a new name keeps its sizes and its place in the stack."""
    edit = Edit("rename", ("parts", "sleeve"), typed="bush")
    spliced = splice(UNIT, edit, mentions_of("sleeve", "bush"))
    expected = UNIT.replace("  sleeve:", "  bush:").replace("sleeve.", "bush.")
    assert spliced == Spliced(expected.replace("'sleeve'", "'bush'"))


def test_a_name_that_a_list_cannot_hold_is_refused() -> None:
    """A comma in a part's name would split it in a stack, so it is refused there only."""
    edit = Edit("rename", ("parts", "sleeve"), typed="bush, new")
    assert splice(UNIT, edit).text == UNIT.replace("  sleeve:", "  bush, new:")
    refused = splice(UNIT, edit, mentions_of("sleeve", "bush, new"))
    assert refused.text == UNIT
    assert [f.code for f in refused.findings] == ["edit.name"]


@pytest.mark.parametrize(("start", "end"), [(0, 8), (28, 42), (9, 8), (10**6, 10**6 + 1), (-3, -1)])
def test_mentions_outside_a_text_are_refused(start: int, end: int) -> None:
    """Nothing but names and values is ever touched by a new name, comments least of all."""
    edit = Edit("rename", ("parts", "long sleeve"), typed="tube")
    spliced = splice(UNIT, edit, lambda _tree, _place: [Mention(start, end, "tube")])
    assert spliced.text == UNIT
    assert [f.code for f in spliced.findings] == ["edit.mention"]


def test_a_mention_written_with_signs_is_refused() -> None:
    """A name inside a text with doubled quotes is left for its owner to change."""
    text = "parts: {a: x}\nb: 'it''s a'\n"
    mention = Mention(text.index("a'\n"), text.index("a'\n") + 1, "c")
    edit = Edit("rename", ("parts", "a"), typed="c")
    assert splice(text, edit, lambda _t, _p: [mention]).findings[0].code == "edit.mention"


# --- any change of any text: judged on plain data, by code that knows nothing of `document` ---

NAMES = [
    "a", "b c", "inner bearing", "case.joint to case.face", "lash, cover loose", "it's", "x: y",
    "# no", "-5", "{z}", "é😀", "nul", "22:30", '"q"', "- d", "? e", "*f",
]  # fmt: skip
WORDS = [*NAMES, "", "0.350", "NO", "12.34 +/- 0.02", "inf", "\\n", "a #b", "[1, 2", "a:", "'", "~"]
texts = st.one_of(
    st.sampled_from(WORDS),
    st.text(st.characters(categories=("L", "N", "P", "S", "Zs")), max_size=12).map(str.strip),
)
names = st.sampled_from(NAMES)
tree_data = st.dictionaries(
    names,
    st.recursive(
        texts,
        lambda inner: st.one_of(
            st.lists(inner, max_size=3), st.dictionaries(names, inner, max_size=3)
        ),
        max_leaves=8,
    ),
    min_size=1,
    max_size=4,
)


@dataclass
class Typist:
    """Writes data down in one of many ways, with comments, and keeps note of whose they are."""

    draw: Callable[[Any], Any]
    comments: dict[str, Place] = field(default_factory=dict)

    def maybe(self) -> bool:
        return bool(self.draw(st.booleans()))

    def comment(self, owner: Place, lead: str) -> str:
        if not self.maybe():
            return ""
        words = f"# c{len(self.comments)}."
        self.comments[words] = owner
        return lead + words

    def word(self, text: str) -> str:
        if re.fullmatch(r"[a-z0-9]+([ .][a-z0-9]+)*", text) and self.maybe():
            return text
        if self.maybe():
            return "'" + text.replace("'", "''") + "'"
        return json.dumps(text, ensure_ascii=False)

    def value(self, data: Any, place: Place, indent: int) -> str:
        """Write what follows a colon or a dash, to the end of the line or further."""
        if data == "" and self.maybe():
            return self.comment(place, "  ")
        if isinstance(data, str):
            return " " + self.word(data) + self.comment(place, "  ")
        if not data or self.maybe():
            return " " + self.brackets(data, place, indent) + self.comment(place, "  ")
        deeper = indent + 2 - (2 if isinstance(data, list) and self.maybe() else 0)
        if isinstance(place[-1], int):
            deeper = indent + 2
        return self.comment(place, "  ") + "\n" + self.block(data, place, deeper)

    def block(self, data: Any, place: Place, indent: int) -> str:
        lines, lead = [], " " * indent
        for key, inner in data.items() if isinstance(data, dict) else enumerate(data):
            if self.maybe():
                lines.append(self.comment(place, lead))
            head = f"{self.word(key)}:" if isinstance(key, str) else "-"
            rest = self.value(inner, (*place, key), indent)
            joined = re.match(r"\n +(?! |#|$)", rest) if head == "-" else None
            if joined and self.maybe():
                rest = rest[1 + indent + 1 :]
            lines.append(lead + head + rest)
        return "\n".join(lines)

    def brackets(self, data: Any, place: Place, indent: int) -> str:
        if isinstance(data, str):
            return self.word(data)
        opening, closing = ("{", "}") if isinstance(data, dict) else ("[", "]")
        one_line, lines = self.maybe(), []
        for key, inner in data.items() if isinstance(data, dict) else enumerate(data):
            head = f"{self.word(key)}: " if isinstance(key, str) else ""
            part = head + self.brackets(inner, (*place, key), indent)
            lines.append(part if one_line else f"{part},{self.comment((*place, key), ' ')}")
        if one_line:
            return opening + ", ".join(lines) + closing
        lead = "\n" + " " * (indent + 4)
        return opening + lead + lead.join(lines) + lead + closing


@st.composite
def written(draw: Any) -> tuple[str, Any, dict[str, Place]]:
    """Draw data, a text that says it, and whose each comment is."""
    data, typist = draw(tree_data), Typist(draw)
    text = typist.block(data, (), 0)
    text += "\n" if typist.maybe() else ""
    text = text.replace("\n", "\r\n") if typist.maybe() else text
    return ("\ufeff" if typist.maybe() else "") + text, data, typist.comments


def places(data: Any, place: Place = ()) -> list[Place]:
    """List every place in plain data."""
    if isinstance(data, str):
        return [place]
    pairs = data.items() if isinstance(data, dict) else enumerate(data)
    return [place, *(p for key, inner in pairs for p in places(inner, (*place, key)))]


def at(data: Any, place: Place) -> Any:
    """Walk down plain data."""
    for key in place:
        data = data[key]
    return data


def reordered(data: Any, pairs: list[tuple[str, Any]]) -> None:
    """Fill a dict anew, in another order."""
    data.clear()
    data.update(pairs)


def changed(data: Any, edit: Edit) -> Any:
    """Make the edit on plain data; None if it cannot be made."""
    data = deepcopy(data)
    holder, key, typed = at(data, edit.place[:-1]), edit.place[-1], edit.typed or ""
    if edit.act == "set":
        if not isinstance(holder[key], str):
            return None
        holder[key] = typed
    elif edit.act == "remove":
        del holder[key]
    elif edit.act == "add" and isinstance(holder, list):
        holder.insert(int(key), typed)
    elif edit.act == "add":
        if key in holder:
            return None
        holder[key] = typed
    elif edit.act == "move" and isinstance(holder, list):
        holder.insert(edit.to or 0, holder.pop(int(key)))
    elif edit.act == "move":
        pairs = list(holder.items())
        pairs.insert(edit.to or 0, pairs.pop(list(holder).index(key)))
        reordered(holder, pairs)
    else:
        if typed in holder and typed != key:
            return None
        reordered(holder, [(typed if k == key else k, v) for k, v in holder.items()])
    return data


@st.composite
def edits(draw: Any, data: Any) -> Edit:
    """Draw an edit of something that is there, or of the place for something new."""
    act = draw(st.sampled_from(["set", "add", "remove", "move", "rename"]))
    if act == "add":
        holder = draw(
            st.sampled_from([p for p in places(data) if not isinstance(at(data, p), str)])
        )
        size = len(at(data, holder))
        new = draw(st.integers(0, size) if isinstance(at(data, holder), list) else names)
        return Edit("add", (*holder, new), typed=draw(texts.filter(lambda t: t[:1] not in "[{")))
    place = draw(st.sampled_from(places(data)[1:]))
    if act == "rename" and isinstance(place[-1], str):
        return Edit(
            "rename", place, typed=draw(st.sampled_from(["new", "p q", "shim-2", "a", "é"]))
        )
    if act == "move":
        return Edit("move", place, to=draw(st.integers(0, len(at(data, place[:-1])) - 1)))
    if act == "remove":
        return Edit("remove", place)
    return Edit("set", place, typed=draw(texts))


def as_read(text: str, reader: Reader) -> Any:
    """Read plain data."""
    tree = read_tree(text, reader=reader)
    assert tree.root is not None
    return as_data(tree.root)


MANY = max(300, settings().max_examples)
READERS: list[Reader] = (
    [yaml.CSafeLoader, yaml.SafeLoader] if yaml.__with_libyaml__ else [yaml.SafeLoader]
)


@settings(max_examples=MANY, suppress_health_check=[HealthCheck.too_slow])
@given(written(), st.data())
def test_any_edit_of_any_text(sample: tuple[str, Any, dict[str, Place]], more: Any) -> None:
    """Whatever is changed, the text says just that afterwards, and no comment is lost."""
    text, data, comments = sample
    assert as_read(text, READERS[0]) == data
    edit = more.draw(edits(data))
    expected, spliced = changed(data, edit), splice(text, edit)
    if expected is None:
        assert spliced.text == text
        assert spliced.findings
        return
    assert spliced.findings == ()
    for reader in READERS:
        assert repr(as_read(spliced.text, reader)) == repr(expected)
    touched = len(edit.place) if edit.act == "remove" else 99
    kept = [c for c, owner in comments.items() if owner[:touched] != edit.place]
    assert [c for c in kept if c not in spliced.text] == []
