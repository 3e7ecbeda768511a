"""The journal of readings and steps, its readings in the text that is mailed, and tables."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.app.usecases import demos
from dryfit.document.edit import Edit
from dryfit.document.read import read_document
from dryfit.store.edits import Written, write
from dryfit.store.journal import Entry, Reading, Step, journal, note, strike_out
from dryfit.store.opening import Store
from dryfit.store.readings import export
from dryfit.store.revisions import begin, newest, undo
from dryfit.store.spreadsheet import guarded, readings_table, sizes_table, table
from dryfit.store.trouble import Trouble


@pytest.fixture
def begun(store: Store, text: bytes) -> Store:
    """Give a store with one rebuild."""
    begin(store, text)
    return store


def changed(store: Store, edit: Edit) -> int:
    """Make a change; give the number of the text it made."""
    outcome = write(store, 1, edit, saw=newest(store, 1).number)
    assert isinstance(outcome, Written)
    return outcome.revision.number


def test_a_reading_is_kept_as_it_was_typed(begun: Store) -> None:
    """Each reading has its check, what was typed, instrument, state, circumstances and time."""
    read = Reading("end float", "4.5 thou", "dial indicator", "nipped", {"seals": "out"})
    made = note(begun, 1, read)
    step = note(begun, 1, Step("cover on", "fingers only", {"turned": "20 times"}))
    assert journal(begun, 1) == [made, step]
    assert made.wrote == read
    assert (made.kind, step.kind, made.revision) == ("reading", "step", 1)
    assert made.at <= step.at
    assert made.at.endswith("+00:00")


def test_a_wrong_entry_is_struck_out_and_stays(begun: Store) -> None:
    """A slip of the pen is struck out with its reason: it can still be read, and is not used."""
    slip = note(begun, 1, Reading("end float", "11", "dial indicator"))
    note(begun, 1, Reading("end float", "0.11"))
    out = strike_out(begun, 1, slip.number, "the point was forgotten")
    assert [(e.struck, e.kind) for e in journal(begun, 1)] == [
        (True, "reading"),
        (False, "reading"),
        (False, "struck out"),
    ]
    assert out.strikes == slip.number
    assert "end float: 0.11\n" in export(begun, 1).text
    for number in (slip.number, out.number, 99):
        with pytest.raises(Trouble, match=f"no entry {number} that could be struck out"):
            strike_out(begun, 1, number, "again")


@pytest.mark.parametrize(
    ("wrote", "told"),
    [
        (Reading("end float", " "), "no reading of 'end float' was typed"),
        (Reading("end float", "x" * 100_000), "100000 characters, beginning 'xxxxxx"),
        (Reading("end float", "0.11\ud800"), "cannot be seen"),
        (Reading("end float", "0.11", how={"turned": "x" * 201}), "at most 200"),
        (Reading("e" * 201, "0.11"), "at most 200"),
        (Step("cover on", "x" * 2001), "at most 2000"),
        (Step("cover\0on"), "cannot be seen"),
    ],
)
def test_what_no_journal_can_hold_is_refused(
    begun: Store, wrote: Reading | Step, told: str
) -> None:
    """An entry that is empty, endless or invisible is refused; script tags are just text."""
    with pytest.raises(Trouble, match=told):
        note(begun, 1, wrote)
    assert journal(begun, 1) == []
    tags = Reading("end float", "<script>alert(1)</script>")
    assert note(begun, 1, tags).wrote == tags


# --- written into the text


def test_readings_are_written_into_the_text(begun: Store) -> None:
    """The text that is mailed has the readings as one would type them, and all else as it was."""
    before = newest(begun, 1).text
    note(begun, 1, Reading("end float", "0.11", "dial indicator"))
    note(begun, 1, Reading("gap", "0.35 by feelers", "feelers"))
    note(begun, 1, Reading("gap", "0.36 +/- 0.02", "feelers"))
    told = export(begun, 1)
    assert told.findings == ()
    assert told.text == before + (
        "readings:\n  end float: 0.11 by dial indicator\n  gap: [0.35 by feelers, 0.36 +/- 0.02]\n"
    )
    assert newest(begun, 1).text == before
    rebuild = read_document(told.text).rebuild
    assert [size.text for size in rebuild.readings["gap"]] == ["0.35 by feelers", "0.36 +/- 0.02"]


def test_a_force_is_written_as_a_text_can_have_it(store: Store) -> None:
    """A pull read by a named balance goes into the text, which can be read again with it."""
    text = demos.text("bevel-box")
    number = begin(store, text).rebuild
    note(store, number, Reading("cord", "6.5 N", "spring balance"))
    told = export(store, number)
    document = read_document(told.text)
    assert not [*told.findings, *document.findings]
    assert [one.text for one in document.rebuild.forces["cord"]] == ["6.5 N"]


def test_only_the_last_run_of_a_check_is_written(begun: Store) -> None:
    """What was read before the pack was changed is not averaged with what was read after."""
    for typed in ("0.30", "0.31"):
        note(begun, 1, Reading("end float", typed))
    note(begun, 1, Step("shim changed", "0.50 to 0.30"))
    note(begun, 1, Reading("gap", "0.2"))
    for typed in ("0.10", "0.11"):
        note(begun, 1, Reading("end float", typed))
    note(begun, 1, Reading("gap", "0.3", state="nipped"))
    assert export(begun, 1).text.endswith("readings:\n  end float: [0.10, 0.11]\n  gap: 0.3\n")


def test_a_step_struck_out_parts_nothing(begun: Store) -> None:
    """Two readings with a step between that was not done after all belong together."""
    note(begun, 1, Reading("end float", "0.10"))
    step = note(begun, 1, Step("shim changed"))
    note(begun, 1, Reading("end float", "0.11"))
    strike_out(begun, 1, step.number, "it was the other unit")
    assert export(begun, 1).text.endswith("end float: [0.10, 0.11]\n")


@pytest.mark.parametrize(
    ("there", "typed", "after"),
    [
        (" 0.42", ["0.11"], "0.11"),
        (" [0.42, 0.43]", ["0.11"], "0.11"),
        (" 0.42", ["0.11", "0.12"], "[0.11, 0.12]"),
        (" [0.42]", ["0.11", "0.12"], "[0.11, 0.12]"),
        (" [0.11, 0.12]", ["0.11", "0.12"], "[0.11, 0.12]"),
        ("", ["0.11", "0.12"], "[0.11, 0.12]"),
        ("", ["0.11"], "0.11"),
    ],
)
def test_the_journal_takes_the_place_of_what_the_text_says(
    store: Store, text: bytes, there: str, typed: list[str], after: str
) -> None:
    """Readings that a text brought along give way to newer ones of the same check."""
    begin(store, text + f"readings:\n  end float:{there}\n".encode())
    for one in typed:
        note(store, 1, Reading("end float", one))
    assert export(store, 1).findings == ()
    assert export(store, 1).text == text.decode() + f"readings:\n  end float: {after}\n"


def test_a_check_renamed_keeps_its_readings(begun: Store) -> None:
    """Readings follow a check to its new name, and back when that is undone."""
    note(begun, 1, Reading("end float", "0.10"))
    changed(begun, Edit("rename", ("checks", "end float"), typed="float"))
    note(begun, 1, Reading("float", "0.11"))
    last = changed(begun, Edit("rename", ("checks", "float"), typed="wheel float"))
    note(begun, 1, Reading("wheel float", "0.12"))
    assert export(begun, 1).text.endswith("readings:\n  wheel float: [0.10, 0.11, 0.12]\n")
    undo(begun, 1, saw=last)
    assert export(begun, 1).text.endswith("readings:\n  float: [0.10, 0.11, 0.12]\n")
    undo(begun, 1, saw=newest(begun, 1).number)
    assert export(begun, 1).text.endswith("readings:\n  end float: [0.10, 0.11, 0.12]\n")
    changed(begun, Edit("rename", ("checks", "end float"), typed="travel"))
    assert export(begun, 1).text.endswith("readings:\n  travel: [0.10, 0.11, 0.12]\n")


def test_two_checks_that_swap_names_keep_their_readings(begun: Store) -> None:
    """A name taken over by another check does not take the readings with it."""
    note(begun, 1, Reading("end float", "0.10"))
    note(begun, 1, Reading("gap", "0.35"))
    for old, new in (("end float", "x"), ("gap", "end float"), ("x", "gap")):
        changed(begun, Edit("rename", ("checks", old), typed=new))
    assert export(begun, 1).text.endswith("readings:\n  gap: 0.10\n  end float: 0.35\n")


def test_readings_of_a_check_that_is_gone_are_told(begun: Store) -> None:
    """A check that was taken out leaves its readings in the journal, and that is said."""
    note(begun, 1, Reading("end float", "0.10"))
    note(begun, 1, Reading("gap", "0.35"))
    changed(begun, Edit("remove", ("checks", "gap")))
    told = export(begun, 1)
    assert told.text.endswith("readings:\n  end float: 0.10\n")
    (only,) = told.findings
    assert (only.level, only.code) == ("note", "export.check")
    assert "'gap'" in only.message


@given(st.lists(st.text(st.characters(codec="utf-8"), max_size=20), min_size=1, max_size=3))
def test_any_reading_is_written_or_told(typed: list[str]) -> None:
    """Whatever was typed as a reading, the text stays one that can be read, or it is told."""
    from dryfit.store.readings import with_readings

    text = "dryfit: 1\nsizes in: mm\nchecks:\n  a: {kind: end float, of: b}\n"
    told = with_readings(text, {"a": [Reading("a", one) for one in typed]})
    assert told.findings or "\nreadings:\n" in told.text
    if told.findings:
        assert told.text == text
    assert not [f for f in read_document(told.text).tree.findings if f.code.startswith("syntax")]


# --- tables


def rows(data: bytes) -> list[list[str]]:
    """Read a table as a spreadsheet would."""
    return list(csv.reader(StringIO(data.decode("utf-8-sig"), newline=""), strict=True))


def test_tables_of_sizes_and_readings(begun: Store) -> None:
    """A spreadsheet opens both: what was typed, those struck out marked, signs and µ whole."""
    slip = note(begun, 1, Reading("end float", "110 µm", "dial, old", "nipped", {"turned": "20"}))
    strike_out(begun, 1, slip.number, "no")
    note(begun, 1, Reading("gap", "-0.02", "feelers"))
    head, first, second = rows(readings_table(begun, 1))
    assert head[2:] == ["check", "as typed", "instrument", "state", "how", "struck out"]
    assert first[2:] == ["end float", "110 µm", "dial, old", "nipped", "turned: 20", "yes"]
    assert second[2:] == ["gap", "-0.02", "feelers", "", "", ""]
    assert rows(sizes_table(begun, 1)) == [
        ["what", "as typed"],
        ["sleeve", "22.05 by micrometer"],
        ["shaft", "148.70"],
    ]
    assert readings_table(begun, 1).startswith(b"\xef\xbb\xbf")
    assert readings_table(begun, 1).count(b"\r\n") == 3


def test_a_text_without_sizes_gives_an_empty_table(store: Store) -> None:
    """A text just begun, or one that cannot be read, gives the heads alone."""
    for number, data in enumerate((b"dryfit: 1\n", b"- a\n", b"sizes: 3\n"), start=1):
        begin(store, data)
        assert rows(sizes_table(store, number)) == [["what", "as typed"]]


@pytest.mark.parametrize(
    "cell",
    ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(1)", "\t=1", "\r=1", " =1", "-6.20 by caliper",
     "＝1+1", "-1e5", "=HYPERLINK(\"x\")"],
)  # fmt: skip
def test_no_cell_is_a_formula(cell: str) -> None:
    """What a spreadsheet would work out or run stands as text behind an apostrophe.

    The signs are those of the page on CSV injection of the Open Worldwide Application Security
    Project, from memory; their wide forms are taken for them by some programs.
    """
    assert guarded(cell) == f"'{cell}"
    assert rows(table([[cell]])) == [[f"'{cell}"]]


@pytest.mark.parametrize("cell", ["-6.20", "+0.02", "148.70", "12 thou", "1 5/8 in", "", "a=b"])
def test_plain_cells_stay_as_they_are(cell: str) -> None:
    """Numbers with their sign stay numbers, so that the table can be worked with."""
    assert guarded(cell) == cell


def test_entries_of_two_rebuilds_are_apart(begun: Store, text: bytes) -> None:
    """Two rebuilds at once on one bench: neither has the other's readings."""
    begin(begun, text)
    note(begun, 1, Reading("gap", "0.1"))
    other: Entry = note(begun, 2, Reading("gap", "0.2"))
    assert [e.wrote for e in journal(begun, 1)] == [Reading("gap", "0.1")]
    assert journal(begun, 2) == [other]
    with pytest.raises(Trouble, match="there is no unit 3"):
        note(begun, 3, Step("x"))
    with pytest.raises(Trouble, match="could be struck out"):
        strike_out(begun, 1, other.number, "of the other one")
