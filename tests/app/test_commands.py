"""The commands as typed: answers, messages, exit codes, and no traceback whatever is typed."""

import json
import re
from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryfit.app.cli.main import cli
from dryfit.app.cli.sheet import sheet
from dryfit.app.usecases.choose import ChooseRequest, choose
from dryfit.app.usecases.demos import names
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.review import ReviewRequest, review

TEXT = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")


def _run(*words: str) -> Result:
    return CliRunner().invoke(cli, words)


def _file(folder: Path, data: str | bytes) -> str:
    path = folder / "box.yaml"
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return str(path)


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize("more", [[], ["--units", "mm"], ["--units", "inch"], ["--json"]])
def test_every_demo_is_answered(name: str, more: list[str]) -> None:
    """Each demo prints its sheet, which every console can show (code page 437)."""
    done = _run("demo", name, *more)
    assert done.exit_code == 0, done.output
    done.output.encode("cp437")
    if not more:
        assert max(len(line) for line in done.output.splitlines()) <= 80


def test_first_demo_says_what_to_fit() -> None:
    """The sheet of the feed box names the pack, its pieces, the float and its band."""
    out = _run("demo", "feed-box").output
    assert "0.35 mm (0.0138 in)  =  0.25 + 0.10" in out
    assert "0.06 to 0.14 mm" in out
    assert "closes up right first time, by the sizes: 99 in 100" in out
    assert "thicker thrust shim takes room from shaft: float down" in out


def test_sealant_demo_says_that_it_binds() -> None:
    """0.11 too long, and the pack for a joint without gasket is 0.14."""
    out = _run("demo", "feed-box-sealant").output
    assert "0.11 mm" in out
    assert "too long for their room" in out
    assert re.search(r"Fit: thrust shim\n-+\n  0\.14 mm", out)


def test_units_shows_one_system_alone() -> None:
    """With --units inch no mm is left on the sheet."""
    out = _run("demo", "lay-shaft", "--units", "inch").output
    assert "0.1210 in" in out
    assert not re.search(r"\d mm\b", out.split("Float figures")[0].replace("0.03 mm", ""))


def test_start_is_reviewed_as_not_known(tmp_path: Path) -> None:
    """A start document is sound, and says what is still to measure."""
    file = str(tmp_path / "my box.yaml")
    assert _run("new", "shimmed-shaft", file).exit_code == 0
    done = _run("review", file)
    assert done.exit_code == 0
    assert "still to measure: shaft" in done.output
    assert _run("set", file).exit_code == 0


@pytest.mark.parametrize(
    ("kind", "asked"),
    [
        ("bevel-drive", "pinion inner.set width"),
        ("taper-headstock", "front.set width"),
        ("spindle-pair", "inner spacer"),
        ("worm-table", "case.wheel seat to case.keep"),
    ],
)
def test_every_start_says_what_is_to_measure(kind: str, asked: str, tmp_path: Path) -> None:
    """Begun from a kind of unit, review stops at nothing and lists the sizes to type."""
    file = str(tmp_path / "unit.yaml")
    assert _run("new", kind, file).exit_code == 0
    done = _run("review", file)
    assert done.exit_code == 0, done.output
    assert ", stop:" not in done.output
    assert f"still to measure: {asked}" in done.output


@pytest.mark.parametrize(
    "kind",
    [
        "bevel-drive",
        "taper-headstock",
        "spindle-pair",
        "worm-table",
    ],
)
def test_every_start_is_answered_as_far_as_it_goes(kind: str, tmp_path: Path) -> None:
    """With nothing typed yet expect says of each check what it lacks."""
    file = str(tmp_path / "unit.yaml")
    _run("new", kind, file)
    done = _run("expect", file)
    assert done.exit_code == 0, done.exception
    assert "cannot be said until this is measured" in done.output


def test_new_never_overwrites(tmp_path: Path) -> None:
    """A file that is there stays as it is."""
    file = _file(tmp_path, "mine")
    done = _run("new", "blank", file)
    assert done.exit_code == 2
    assert "is there already" in done.output
    assert Path(file).read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("words", [["demo", "nonesuch"], ["new", "nonesuch", "x.yaml"]])
def test_unknown_name_lists_what_there_is(words: list[str]) -> None:
    """A wrong name is answered with the right ones."""
    done = _run(*words)
    assert done.exit_code == 2
    assert "there are:" in done.output


@pytest.mark.parametrize("command", ["review", "expect", "set"])
def test_missing_file_is_told(command: str, tmp_path: Path) -> None:
    """A file that is not there, or is a folder, is told in one line."""
    for path in (tmp_path / "none.yaml", tmp_path):
        done = _run(command, str(path))
        assert done.exit_code == 2
        assert "cannot be read" in done.output


MISTAKES: list[tuple[str, str | bytes, str]] = [
    ("empty", "", "line 1"),
    ("only spaces", "   \n\n", "line 1"),
    ("binary", bytes(range(256)) * 4, "stop"),
    ("UTF-16", TEXT.encode("utf-16"), "UTF-8"),
    ("too long", "a" * 1_000_001, "stop"),
    ("aliases", "a: &a [1]\nb: [*a, *a]\n", "stop"),
    ("tab", TEXT.replace("  shaft: 148.70", "\tshaft: 148.70"), "tab"),
    ("key twice", TEXT.replace("  shaft: 148.70", "  shaft: 1\n  shaft: 2"), "line 22"),
    ("question mark", TEXT.replace("148.70", "?"), "not known"),
    ("comma", TEXT.replace("148.70", "148,70"), "148.70"),
    ("comma list", TEXT.replace("148.70", "148, 70"), "line 21"),
    ("path as a name", TEXT.replace("  shaft:       {", "  ../shaft:    {"), "line 15"),
    ("no unit system", TEXT.replace("sizes in: mm\n", ""), "sizes in"),
    ("fraction in mm", TEXT.replace("148.70", "5 7/8"), "5 7/8 in"),
    ("tenths in mm", TEXT.replace("148.70", "3 tenths"), "0.0003 in"),
    ("kilograms", TEXT.replace("148.70", "148.70 kg"), "line 21"),
    ("size of zero", TEXT.replace("148.70", "0"), "larger than 0"),
    ("missing part", TEXT.replace("  shaft:       {kind: shaft, outside: 30}\n", ""), "no part 'shaft'"),
    ("a list at the top", "- a\n- b\n", "stop"),
    ("a number for lines", TEXT.replace("lines:", "lines: 5\nlimes:"), "limes"),
]


@pytest.mark.parametrize(("_", "data", "hint"), MISTAKES, ids=[m[0] for m in MISTAKES])
@pytest.mark.parametrize("command", ["review", "set"])
def test_every_mistake_gets_its_place_and_a_hint(
    command: str, _: str, data: str | bytes, hint: str, tmp_path: Path
) -> None:
    """A slip is told with its line and the way out; the file is left alone."""
    file = _file(tmp_path, data)
    before = Path(file).read_bytes()
    done = _run(command, file)
    assert done.exit_code == 1, done.output
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert hint in done.output
    assert re.search(r"line \d+, column \d+", done.output)
    assert Path(file).read_bytes() == before


def test_marks_and_line_ends_of_other_systems_are_read(tmp_path: Path) -> None:
    """A byte order mark and CRLF line ends change nothing in the answer."""
    plain = _run("set", _file(tmp_path, TEXT), "--json")
    other = _run("set", _file(tmp_path, "\ufeff" + TEXT.replace("\n", "\r\n")), "--json")
    assert json.loads(plain.output)["settings"] == json.loads(other.output)["settings"]


BITS = st.sampled_from([*"\t\n :,{}[]#&*!|>'\"%@`?-0\x00é½", "not known", "kind: ", "case", "1e9"])


CUTS = st.lists(st.tuples(st.integers(0, len(TEXT)), st.integers(0, 12), BITS), max_size=4)


def _damage(cuts: list[tuple[int, int, str]]) -> None:
    """Review a text out of which things were cut and into which others were typed."""
    text = TEXT
    for at, length, bit in cuts:
        text = text[:at] + bit + text[at + length :]
    answer = review(ReviewRequest(text.encode("utf-8", "surrogatepass")))
    assert answer.ready or any(f.level == "stop" for f in answer.findings)
    for found in answer.findings:
        assert found.line >= 1
        assert found.message


@given(CUTS)
@settings(max_examples=1000, suppress_health_check=list(HealthCheck))
def test_damaged_documents_never_end_in_a_traceback(cuts: list[tuple[int, int, str]]) -> None:
    """Whatever is cut out or typed in, review answers with findings or with none."""
    _damage(cuts)


@pytest.mark.prove
@given(CUTS)
@settings(max_examples=30_000, derandomize=False, suppress_health_check=list(HealthCheck))
def test_damaged_documents_by_the_ten_thousand(cuts: list[tuple[int, int, str]]) -> None:
    """The same thirty times as long, with other damage at each run."""
    _damage(cuts)


@pytest.mark.prove
@given(CUTS)
@settings(max_examples=1000, derandomize=False, suppress_health_check=list(HealthCheck))
def test_damaged_documents_that_are_still_sound_are_answered(
    cuts: list[tuple[int, int, str]],
) -> None:
    """What review finds sound, set answers too."""
    text = TEXT
    for at, length, bit in cuts:
        text = text[:at] + bit + text[at + length :]
    answer = choose(ChooseRequest(text.encode("utf-8", "surrogatepass"), draws=200))
    assert answer.answered or any(f.level == "stop" for f in answer.findings)
    if answer.answered:
        sheet(answer)


@given(st.binary(max_size=400))
def test_any_bytes_are_answered(data: bytes) -> None:
    """Any file at all gets an answer."""
    assert open_text(data).stopped


def test_reading_that_does_not_fit_takes_the_trust_from_the_chances() -> None:
    """With a reading 5 thou short the sheet does not promise that all is well."""
    out = _run("demo", "lay-shaft-tang").output
    assert "A reading below does not fit your sizes" in out
    assert "With the pack above" not in out
    assert "A reading below" not in _run("demo", "lay-shaft").output


def test_thousands_of_slips_are_told_by_the_hundred() -> None:
    """A text with 8 000 bad sizes gets the first hundred, and how many more there are."""
    sizes = "".join(f"  p{i}: {i},00\n" for i in range(8000))
    answer = review(ReviewRequest(f"dryfit: 1\nsizes in: mm\nsizes:\n{sizes}".encode()))
    assert len(answer.findings) == 101
    assert "more findings" in answer.findings[-1].message


def test_more_parts_than_a_unit_has_are_refused() -> None:
    """501 parts are a finding, 500 are not."""
    for count, told in ((500, False), (501, True)):
        parts = "".join(f"  p{i}: {{kind: spacer}}\n" for i in range(count))
        answer = review(ReviewRequest(f"dryfit: 1\nsizes in: mm\nparts:\n{parts}".encode()))
        assert ("limit.parts" in [f.code for f in answer.findings]) is told


DRILL = (Path(__file__).resolve().parent.parent / "giving" / "bench-drill.yaml").read_text("utf-8")


def test_what_cannot_be_read_is_said_beside_what_can(tmp_path: Path) -> None:
    """Nothing stops the spindle going to the nose: its float is not read, the ring's size is."""
    text = DRILL.replace("      pocket: [lower, case.nose register]\n", "")
    text += "  ring size: {kind: thickness, of: ring}\n"
    out = _run("expect", _file(tmp_path, text), "--units", "mm").output
    assert re.search(r"cannot be read: nothing stops \w+ one way; add the stack that stops", out)
    assert re.search(r"thickness of ring, by micrometer: _+\n  should read 1\.20 mm", out)
    reviewed = _run("review", _file(tmp_path, text))
    assert "sound but for what cannot be read." in reviewed.output
    assert reviewed.exit_code == 0


def test_a_great_force_is_written_without_a_power_of_ten(tmp_path: Path) -> None:
    """A spigot 2 mm too long: the rows are pressed by tons, and the cord would show that."""
    text = DRILL.replace("cover.spigot: 2.85", "cover.spigot: 4.85")
    text += "  pull: {kind: cord pull, of: spindle, at radius: 30}\n"
    out = _run("expect", _file(tmp_path, text)).output
    assert re.search(r"should show \d{4,}0 N; nine times in ten \d{4,}0 to \d{4,}0 N", out)
