"""`dryfit book` and `dryfit sheet` as typed: files, messages, exit codes."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.book.pages import reader, texts

from dryfit.app.cli.main import cli
from dryfit.app.usecases import demos
from dryfit.app.usecases.sheets import names

TEXT = demos.text("feed-box")


def _run(*words: str | Path) -> Result:
    return CliRunner().invoke(cli, [str(word) for word in words])


def _document(folder: Path, data: bytes = TEXT) -> Path:
    path = folder / "box.yaml"
    path.write_bytes(data)
    return path


def test_book_is_written_beside_the_document(tmp_path: Path) -> None:
    """Without -o the book lies beside its document, and may be made again and again."""
    document = _document(tmp_path)
    for _ in range(2):
        done = _run("book", document)
        assert done.exit_code == 0, done.output
        assert "Fit: thrust shim" in done.output
    text = texts((tmp_path / "box-book.pdf").read_bytes())[0]
    assert "box.yaml" in text
    assert str(tmp_path) not in text


def test_paper_is_chosen(tmp_path: Path) -> None:
    """Letter is there for those who have it; other paper is refused with what there is."""
    target = tmp_path / "x.pdf"
    assert _run("sheet", "walk", "-o", target, "--paper", "letter").exit_code == 0
    assert float(reader(target.read_bytes()).pages[0].mediabox.height) == 792  # 11 in
    assert _run("sheet", "Walk", "-o", target, "--paper", "A4").exit_code == 0
    assert float(reader(target.read_bytes()).pages[0].mediabox.height) == pytest.approx(841.9, 1e-4)
    refused = _run("sheet", "walk", "-o", target, "--paper", "a5")
    assert refused.exit_code == 2
    assert "'a4', 'letter'" in refused.output


def test_what_was_not_made_here_is_left_as_it_is(tmp_path: Path) -> None:
    """A file of another's is not written over, a PDF neither, unless told so."""
    document, target = _document(tmp_path), tmp_path / "mine.pdf"
    for data in (b"my notes", b"%PDF-1.7 another's"):
        target.write_bytes(data)
        done = _run("book", document, "-o", target)
        assert done.exit_code == 2
        assert "left as it is" in done.output
        assert "--replace" in done.output
        assert target.read_bytes() == data
    assert _run("book", document, "-o", target, "--replace").exit_code == 0
    assert target.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("sheet", "poster"), f"no sheet 'poster'; there are: {', '.join(names())}"),
        (("sheet",), f"say which sheet; there are: {', '.join(names())}"),
        (("sheet", "readings"), "name its FILE, or a demo"),
        (("sheet", "strip-down", "--for", "boat"), "no start for 'boat'; there are: bevel-drive"),
        (("sheet", "help", "--for", "blank"), "leave one of them out"),
        (("book", "nowhere.yaml"), "nowhere.yaml cannot be read"),
        (("book", "feed-box", "-o", "no/such/x.pdf"), "there is no folder no/such; make it first"),
        (("book", "feed-box", "-o", "x.docx"), "x.docx ends in .docx; it must be .pdf"),
        (("book", "feed-box", "-o", "x"), "x has no ending; it must be .pdf"),
        (("book", "feed-box", "-o", "."), ". cannot be written: it is a folder; choose another"),
        (("sheet", "help", "."), ". cannot be read: it is a folder; name the text in it"),
        (("plot", "."), ". cannot be read: it is a folder; name the text in it"),
        (("new", "blank", "no/x.yaml"), "there is no folder no; make it first"),
    ],
)
def test_slips_are_told_with_the_way_out(
    words: tuple[str, ...], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What cannot be done is said at once, with what can, and nothing is written."""
    monkeypatch.chdir(tmp_path)
    done = _run(*words)
    assert done.exit_code == 2
    assert told in " ".join(done.output.replace("\\", "/").split())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "data", [TEXT.replace(b"148.70", b"148,70"), b"", b"\x00\x01", b"\xff\xfe", b"- a\n- b\n"]
)
def test_book_of_a_text_that_stops_is_made_as_far_as_it_can(tmp_path: Path, data: bytes) -> None:
    """A document with mistakes still gives a book, which lists them; the exit code says so."""
    done = _run("book", _document(tmp_path, data))
    assert done.exit_code == 1, done.output
    pages = texts((tmp_path / "box-book.pdf").read_bytes())
    assert "No chance is told, and no pack" in pages[0]
    assert "To put right or to keep in mind" in pages[1]
    assert "stop: " in pages[1]


def test_findings_stand_on_a_sheet_of_their_own_sheet(tmp_path: Path) -> None:
    """A sheet made for a document with mistakes has them behind it, and is made all the same."""
    document = _document(tmp_path, TEXT.replace(b"148.70", b"148,70"))
    done = _run("sheet", "strip-down", document)
    assert done.exit_code == 1, done.output
    *_, last = texts((tmp_path / "box-strip-down.pdf").read_bytes())
    assert "148,70" in last


def test_unknown_sizes_are_listed(tmp_path: Path) -> None:
    """The book of a start, of which nothing is measured, says what to measure first."""
    document = tmp_path / "new.yaml"
    assert _run("new", "shimmed-shaft", document).exit_code == 0
    done = _run("book", document)
    assert done.exit_code == 0, done.output
    text = " ".join(texts((tmp_path / "new-book.pdf").read_bytes()))
    assert "Not known yet: measure this first" in text
    assert "cannot be said until this is measured" in text
