"""Edits, undo and redo of a rebuild, and edits typed while looking at an older text.

The model knows nothing of documents: a rebuild is a dict and a list, its past a list of such, and
its text is written out line by line.
"""

import tempfile
from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test
from tests.store.samples import TEXT

from dryfit.document.edit import Edit
from dryfit.document.tree import read_tree
from dryfit.quantities.finding import Place
from dryfit.store.edits import Conflict, NotMade, Written, write
from dryfit.store.opening import Store, open_store
from dryfit.store.revisions import (
    Behind,
    Revision,
    begin,
    bring_in,
    history,
    newest,
    redo,
    revision,
    undo,
)
from dryfit.store.trouble import Trouble


@dataclass
class Plain:
    """A rebuild as plain data."""

    sizes: dict[str, str] = field(default_factory=lambda: {"keep": "1", "a": "2.50"})
    stack: list[str] = field(default_factory=lambda: ["p", "q"])

    def text(self) -> str:
        lines = [f"  {name}: {size}\n" for name, size in self.sizes.items()]
        return f"dryfit: 1\nsizes:\n{''.join(lines)}stack: [{', '.join(self.stack)}]\n"


NAMES = st.sampled_from(["a", "b", "c", "keep"])
SIZES = st.sampled_from(["1", "2.50", "3 by caliper"])
SPOTS = st.sampled_from(["p", "q", "r"])

MODEL_ACTS: dict[str, Callable[[Any, Edit], None]] = {
    "set": lambda held, e: held.__setitem__(e.place[1], e.typed),
    "remove": lambda held, e: held.__delitem__(e.place[1]),
}


def hangs_on(plain: Plain, edit: Edit) -> Any:
    """Say what an edit depends on, by the rules of the page about the store."""
    if edit.place[0] == "stack":
        return list(plain.stack)
    if edit.act == "move":
        return list(plain.sizes)
    there = plain.sizes.get(str(edit.place[1]))
    return there is not None if edit.act == "rename" else there


def changed(plain: Plain, edit: Edit) -> Plain | None:
    """Make an edit on plain data; None where it cannot be made."""
    after = deepcopy(plain)
    held: Any = after.stack if edit.place[0] == "stack" else after.sizes
    key: Any = edit.place[1]
    there = key < len(held) if edit.place[0] == "stack" else key in held
    if edit.act == "add":
        if isinstance(held, list):
            if key > len(held):
                return None
            held.insert(key, edit.typed)
            return after
        if there:
            return None
        held[key] = edit.typed
        return after
    if not there:
        return None
    if edit.act in MODEL_ACTS:
        MODEL_ACTS[edit.act](held, edit)
        return after
    pairs = list(held.items())
    at = list(held).index(key)
    if edit.act == "rename":
        if edit.typed in held and edit.typed != key:
            return None
        pairs[at] = (str(edit.typed), held[key])
    elif (edit.to or 0) >= len(pairs):
        return None
    else:
        pairs.insert(edit.to or 0, pairs.pop(at))
    after.sizes = dict(pairs)
    return after


class Bench(RuleBasedStateMachine):
    """Several people who look at texts of different age and change one rebuild."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.store = open_store(self.folder.name)
        self.done = [Plain()]
        self.at = 0
        first = begin(self.store, self.done[0].text().encode())
        self.rebuild = first.rebuild
        self.numbers = [first.number]
        self.seen = {first.number: self.done[0]}

    def teardown(self) -> None:
        self.store.close()
        self.folder.cleanup()

    @property
    def now(self) -> Plain:
        return self.done[self.at]

    @rule(name=NAMES, size=SIZES, age=st.integers(0, 3))
    def set_size(self, name: str, size: str, age: int) -> None:
        self.edit(Edit("set", ("sizes", name), typed=size), age)

    @rule(name=NAMES, size=SIZES, age=st.integers(0, 3))
    def add_size(self, name: str, size: str, age: int) -> None:
        self.edit(Edit("add", ("sizes", name), typed=size), age)

    @rule(name=NAMES.filter(lambda name: name != "keep"), age=st.integers(0, 3))
    def remove_size(self, name: str, age: int) -> None:
        self.edit(Edit("remove", ("sizes", name)), age)

    @rule(name=NAMES.filter(lambda name: name != "keep"), new=NAMES, age=st.integers(0, 3))
    def rename_size(self, name: str, new: str, age: int) -> None:
        self.edit(Edit("rename", ("sizes", name), typed=new), age)

    @rule(name=NAMES, to=st.integers(0, 3), age=st.integers(0, 3))
    def move_size(self, name: str, to: int, age: int) -> None:
        self.edit(Edit("move", ("sizes", name), to=to), age)

    @rule(spot=SPOTS, at=st.integers(0, 3), age=st.integers(0, 3))
    def set_spot(self, spot: str, at: int, age: int) -> None:
        self.edit(Edit("set", ("stack", at), typed=spot), age)

    @rule(spot=SPOTS, at=st.integers(0, 3), age=st.integers(0, 3))
    def add_spot(self, spot: str, at: int, age: int) -> None:
        self.edit(Edit("add", ("stack", at), typed=spot), age)

    @rule(at=st.integers(0, 3), age=st.integers(0, 3))
    def remove_spot(self, at: int, age: int) -> None:
        self.edit(Edit("remove", ("stack", at)), age)

    @rule(age=st.integers(0, 1))
    def undo(self, age: int) -> None:
        saw = self.looked_at(age)
        answer = undo(self.store, self.rebuild, saw=saw)
        if saw != self.numbers[self.at]:
            assert isinstance(answer, Behind)
        else:
            self.at = max(self.at - 1, 0)

    @rule(age=st.integers(0, 1))
    def redo(self, age: int) -> None:
        saw = self.looked_at(age)
        answer = redo(self.store, self.rebuild, saw=saw)
        if saw != self.numbers[self.at]:
            assert isinstance(answer, Behind)
        else:
            self.at = min(self.at + 1, len(self.done) - 1)

    @rule()
    def start_again(self) -> None:
        self.store.close()
        self.store = open_store(self.folder.name)

    @invariant()
    def texts_are_equal(self) -> None:
        here = newest(self.store, self.rebuild)
        assert here.text == self.now.text()
        assert here.number == self.numbers[self.at]
        assert here.can_undo == (self.at > 0)
        assert here.can_redo == (self.at < len(self.done) - 1)
        assert len(history(self.store, self.rebuild)) == len(self.seen)

    def looked_at(self, age: int) -> int:
        """Pick the revision on somebody's page, of the newest or one made some time before."""
        numbers = sorted(self.seen)
        return self.numbers[self.at] if age == 0 else numbers[max(len(numbers) - age, 0)]

    def edit(self, edit: Edit, age: int) -> None:
        """Make an edit in the store and in the model."""
        saw = self.looked_at(age)
        outcome = write(self.store, self.rebuild, edit, saw=saw)
        before, here = hangs_on(self.seen[saw], edit), hangs_on(self.now, edit)
        wanted = edit.act == "set" and edit.place[0] == "sizes" and here == edit.typed
        if before != here and not wanted:
            assert isinstance(outcome, Conflict)
            if edit.act in ("set", "remove") and edit.place[0] == "sizes":
                assert (outcome.saw, outcome.now, outcome.typed) == (before, here, edit.typed)
            return
        after = changed(self.now, edit)
        if after is None:
            assert isinstance(outcome, NotMade)
            assert outcome.findings
            return
        assert isinstance(outcome, Written)
        assert outcome.rebased == (saw != self.numbers[self.at])
        if after.text() != self.now.text():
            del self.done[self.at + 1 :], self.numbers[self.at + 1 :]
            self.done.append(after)
            self.numbers.append(outcome.revision.number)
            self.seen[outcome.revision.number] = after
            self.at += 1


def test_any_edits_undone_and_redone() -> None:
    """Whatever several people change, undo and redo, the text is what each of them was told."""
    run_state_machine_as_test(Bench, settings=settings(max_examples=25, stateful_step_count=25))


@pytest.mark.prove
def test_any_edits_undone_and_redone_for_long() -> None:
    """The same, many more times and for longer."""
    run_state_machine_as_test(Bench, settings=settings(max_examples=400, stateful_step_count=60))


SLEEVE = ("sizes", "sleeve")


def test_every_text_is_kept_with_its_change(store: Store, text: bytes) -> None:
    """Each text comes back byte for byte with the change that made it, its time and its parent."""
    crlf = b"\xef\xbb\xbf" + text.replace(b"\n", b"\r\n") + b"# caf\xe9\r\n"
    for data in (text, crlf):
        first = begin(store, data)
        assert first.text.encode("utf-8", "surrogateescape") == data
        edit = Edit("set", ("sizes", "shaft"), seen="148.70", typed="148.72")
        outcome = write(store, first.rebuild, edit, saw=first.number)
        if data == crlf:  # its last line is not UTF-8, which has to be put right first
            assert isinstance(outcome, NotMade)
            continue
        assert isinstance(outcome, Written)
        (made, before) = history(store, first.rebuild)
        assert (made.edit, made.parent, before.edit) == (edit, first.number, None)
        assert before.at <= made.at
        assert revision(store, first.rebuild, first.number).text.encode() == data
        assert outcome.revision.text.encode() == data.replace(b"148.70", b"148.72")


def test_two_values_for_one_place_both_come_back(store: Store, text: bytes) -> None:
    """Two who measured the same sleeve see both figures; the second one overwrites nothing."""
    first = begin(store, text)
    write(store, 1, Edit("set", SLEEVE, typed="22.06 by micrometer"), saw=first.number)
    outcome = write(store, 1, Edit("set", SLEEVE, typed="22.04"), saw=first.number)
    assert isinstance(outcome, Conflict)
    assert (outcome.saw, outcome.now, outcome.typed) == (
        "22.05 by micrometer",
        "22.06 by micrometer",
        "22.04",
    )
    assert newest(store, 1) == outcome.newest


def test_an_edit_that_saw_something_else_is_a_conflict(store: Store, text: bytes) -> None:
    """A page that shows another value than its revision has does not write over it."""
    first = begin(store, text)
    edit = Edit("set", SLEEVE, seen="21.00", typed="22.04")
    outcome = write(store, 1, edit, saw=first.number)
    assert isinstance(outcome, Conflict)
    assert (outcome.saw, outcome.now) == ("21.00", "22.05 by micrometer")


def test_a_removed_part_is_told_to_who_measures_it(store: Store, text: bytes) -> None:
    """A size typed for something that was taken out meanwhile comes back with nothing beside it."""
    first = begin(store, text)
    write(store, 1, Edit("remove", SLEEVE), saw=first.number)
    outcome = write(store, 1, Edit("set", SLEEVE, typed="22.04"), saw=first.number)
    assert isinstance(outcome, Conflict)
    assert (outcome.saw, outcome.now) == ("22.05 by micrometer", None)


def test_a_rename_reaches_what_was_typed_meanwhile(store: Store, text: bytes) -> None:
    """A new name of a part is put also where it was mentioned after the page was opened."""
    first = begin(store, text + b"parts:\n  shaft: {kind: shaft}\n")
    write(store, 1, Edit("set", ("sizes", "shaft"), typed="148.71"), saw=first.number)
    write(store, 1, Edit("add", ("parts", "shaft", "material"), typed="steel"), saw=first.number)
    outcome = write(store, 1, Edit("rename", ("parts", "shaft"), typed="spindle"), saw=first.number)
    assert isinstance(outcome, Written)
    assert "  spindle: 148.71\n" in outcome.revision.text
    assert "  spindle: {kind: shaft, material: steel}\n" in outcome.revision.text
    assert "of: spindle" in outcome.revision.text


def test_a_text_from_an_editor_is_brought_in(store: Store, text: bytes) -> None:
    """A text changed in an editor becomes the newest, and undo gives back the one before."""
    first = begin(store, text)
    other = text.replace(b"Harrow", b"Mill")
    brought = bring_in(store, 1, other, saw=first.number)
    assert isinstance(brought, Revision)
    assert bring_in(store, 1, other, saw=brought.number) == brought
    late = bring_in(store, 1, text, saw=first.number)
    assert isinstance(late, Behind)
    assert late.newest == brought
    back = undo(store, 1, saw=brought.number)
    assert isinstance(back, Revision)
    assert back.text.encode() == text


def test_redo_goes_to_what_was_done_last(store: Store, text: bytes) -> None:
    """After undo and another change, redo gives that back; the first stays in history."""
    numbers = [begin(store, text).number]
    for size in ("22.06", "22.07"):
        outcome = write(store, 1, Edit("set", SLEEVE, typed=size), saw=numbers[0])
        assert isinstance(outcome, Written)
        numbers.append(outcome.revision.number)
        undo(store, 1, saw=numbers[-1])
    again = redo(store, 1, saw=numbers[0])
    assert isinstance(again, Revision)
    assert (again.number, again.parent) == (numbers[2], numbers[0])
    assert "22.06" in revision(store, 1, numbers[1]).text
    assert redo(store, 1, saw=again.number) == again


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"x" * 1_000_001, "text.too large"),
        (b"a\0b", "text.binary"),
        (b"\xff\xfea\0", "text.utf16"),
    ],
)
def test_what_is_no_text_is_not_begun(store: Store, data: bytes, code: str) -> None:
    """A picture or a word processor's file is refused as such, with the way out."""
    with pytest.raises(Trouble) as caught:
        begin(store, data)
    assert caught.value.finding.code == code
    assert caught.value.finding.way_out


def test_a_rebuild_that_is_not_there_is_told(store: Store, text: bytes) -> None:
    """An old bookmark gives a sentence, not a failure."""
    first = begin(store, text)
    for act in (
        lambda: newest(store, 7),
        lambda: undo(store, 7, saw=1),
        lambda: revision(store, first.rebuild, 99),
        lambda: write(store, 1, Edit("set", SLEEVE, typed="1"), saw=99),
        lambda: newest(store, 10**30),
        lambda: write(store, 1, Edit("set", SLEEVE, typed="1"), saw=-(10**30)),
    ):
        with pytest.raises(Trouble, match=r"there is no unit 7|has no revision 99|that number"):
            act()
    other = begin(store, text)
    with pytest.raises(Trouble, match="has no revision 1"):
        revision(store, other.rebuild, first.number)


PLACES = st.lists(
    st.one_of(
        st.sampled_from(["sizes", "sleeve", "checks", "gap", "at", "new", "", "a.b", "\ud800"]),
        st.integers(-2, 3),
        st.text(max_size=3),
    ),
    max_size=5,
).map(tuple)
TYPED = st.one_of(
    st.none(),
    st.text(max_size=10),
    st.sampled_from(["12 furlongs", "12,34", "", "<script>alert(1)</script>", "{a: 1", "[1]"]),
    st.sampled_from(["x" * 100_000, "{a: " + "x" * 100_000 + "}", "\ud800", "a\nb", "\0"]),
)


@pytest.fixture(scope="module")
def lasting(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """Give a store to many examples, one after the other."""
    opened = open_store(tmp_path_factory.mktemp("lasting"))
    yield opened
    opened.close()


@settings(max_examples=max(150, settings().max_examples))
@given(
    act=st.sampled_from(["set", "add", "remove", "move", "rename"]),
    place=PLACES, seen=st.none() | st.text(max_size=5), typed=TYPED, to=st.none() | st.integers(),
    stale=st.booleans(),
)  # fmt: skip
def test_any_edit_from_a_page_is_answered(
    lasting: Store, act: Any, place: Place, seen: str | None, typed: str | None,
    to: int | None, stale: bool,
) -> None:  # fmt: skip
    """Whatever a page sends, wrong units, script tags, 100 000 characters: an answer comes back."""
    first = begin(lasting, TEXT)
    if stale:
        edit = Edit("set", ("title",), typed="Mill Weir")
        write(lasting, first.rebuild, edit, saw=first.number)
    before = newest(lasting, first.rebuild)
    outcome = write(lasting, first.rebuild, Edit(act, place, seen, typed, to), saw=first.number)
    assert isinstance(outcome, Written | Conflict | NotMade)
    after = newest(lasting, first.rebuild)
    if isinstance(outcome, Written):
        assert after == outcome.revision
        assert read_tree(after.text).root is not None
    else:
        assert after == before
