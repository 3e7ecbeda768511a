"""`draw` as typed: what is written, and what is told instead of a traceback."""

import sys
from dataclasses import dataclass, field
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from click.testing import CliRunner, Result
from tests.draw.hostile import one_of_everything

from dryfit.app.cli.main import cli
from dryfit.app.usecases import demos
from dryfit.draw.paper import Drawing

DOOR = "dryfit.app.usecases.drawing"


@dataclass(frozen=True)
class _Request:
    text: bytes
    line: str | None = None
    gaps: float = 1.0


@dataclass(frozen=True)
class _Answer:
    drawing: Drawing | None
    findings: tuple[Any, ...] = ()


@dataclass
class _Door:
    """Stands in for the use case: what is drawn is not tested here, how it is written is."""

    drawing: Drawing | None = field(default_factory=one_of_everything)
    asked: list[_Request] = field(default_factory=list)

    def draw(self, request: _Request) -> _Answer:
        self.asked.append(request)
        return _Answer(self.drawing)


@pytest.fixture
def door(monkeypatch: pytest.MonkeyPatch) -> _Door:
    """Put a drawing of our own in place of that of a document."""
    made, module = _Door(), ModuleType(DOOR)
    vars(module).update(DrawRequest=_Request, draw=made.draw)
    monkeypatch.setitem(sys.modules, DOOR, module)
    return made


def _run(*words: str) -> Result:
    return CliRunner().invoke(cli, ["draw", *words])


@pytest.mark.parametrize(
    ("name", "begins"), [("x.svg", b"<svg"), ("X.PDF", b"%PDF"), ("x.dxf", b"  0\nSECTION")]
)
def test_drawing_is_written_by_its_ending(
    door: _Door, tmp_path: Path, name: str, begins: bytes
) -> None:
    """The ending of -o says what is written, in capitals too."""
    done = _run("bevel-box", "-o", str(tmp_path / name))
    assert done.exit_code == 0, done.output
    assert (tmp_path / name).read_bytes().replace(b"\r\n", b"\n").startswith(begins)
    assert "is written: Cover, half-section" in done.output
    assert door.asked == [_Request(demos.text("bevel-box"))]


def test_line_and_gaps_are_asked_for(door: _Door, tmp_path: Path) -> None:
    """One line alone, its gaps ten times as wide."""
    words = ("--line", "pinion shaft", "--gaps", "10")
    assert _run("bevel-box", "-o", str(tmp_path / "x.svg"), *words).exit_code == 0
    assert door.asked == [_Request(demos.text("bevel-box"), "pinion shaft", 10.0)]


def test_drawing_goes_beside_the_document(door: _Door, tmp_path: Path) -> None:
    """Without -o it has the name of the file and .svg, and is never written over."""
    file = tmp_path / "my box.yaml"
    file.write_bytes(demos.text("feed-box"))
    assert _run(str(file)).exit_code == 0
    assert (tmp_path / "my box.svg").exists()
    again = _run(str(file))
    assert again.exit_code == 2
    assert "is there already and is left as it is" in again.output
    assert _run(str(file), "--replace").exit_code == 0
    assert len(door.asked) == 3


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["bevel-box", "--line", "wheel"], "no line 'wheel': did you mean 'wheel shaft'?"),
        (["bevel-box", "--line", "zzz"], "there are: wheel shaft, pinion shaft"),
        (["bevel-box", "--gaps", "0.5"], "--gaps 0.5: type 1 for true gaps, up to 1000"),
        (["bevel-box", "--gaps", "nan"], "--gaps nan"),
        (["bevel-box", "-o", "x.jpg"], "x.jpg ends in .jpg; it must be one of .svg, .pdf, .dxf"),
        (["bevel-box", "-o", "none/x.svg"], "there is no folder none; make it first"),
        (["bevel-box", "--gaps", "ten"], "--gaps ten: type 1 for true gaps, up to 1000"),
        (["bevel-box", "-o", "."], ". cannot be written: it is a folder; choose another name"),
        (["nothing.yaml"], "nothing.yaml cannot be read: there is no such file; look how"),
        (["none/my.yaml"], "there is no folder none; look how it is spelt"),
        (["bevel-boks"], "no such file, and no such demo; demos: bevel-box"),
        (["."], ". cannot be read: it is a folder; name the text in it"),
    ],
)
def test_what_cannot_be_drawn_is_told(
    door: _Door, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: list[str], told: str
) -> None:
    """What was typed, the limit and what there is instead; nothing is written."""
    monkeypatch.chdir(tmp_path)
    done = _run(*words)
    assert done.exit_code == 2
    assert told in " ".join(done.output.split())
    assert list(tmp_path.iterdir()) == []
    assert door.asked == []


def test_a_document_that_stops_is_not_drawn(door: _Door, tmp_path: Path) -> None:
    """Where there is no drawing the command fails and writes nothing."""
    door.drawing = None
    done = _run("bevel-box", "-o", str(tmp_path / "x.svg"))
    assert done.exit_code == 1
    assert list(tmp_path.iterdir()) == []
