"""What the pages show is what the program does."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from dryfit.app.cli.main import cli
from dryfit.app.usecases import demos
from dryfit.app.usecases.drawing import DrawRequest, draw
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.review import ReviewRequest, review
from dryfit.draw.svg import svg
from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.mechanics.materials import MATERIALS
from dryfit.model.axes import AXES_KINDS
from dryfit.model.meshes import MESH_KINDS
from dryfit.model.own_steps import STEP_KINDS
from dryfit.model.parts import PART_KINDS
from dryfit.model.rebuild import CHECK_KINDS

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
FORMAT = (ROOT / "docs" / "format.md").read_text(encoding="utf-8")


def test_readme_shows_the_beginning_of_the_demo() -> None:
    """The sheet in the README is the one a new user will see."""
    shown = README.split("<!-- demo -->")[1].split("<!-- end of demo -->")[0]
    lines = [line[4:] for line in shown.strip("\n").splitlines()]
    printed = CliRunner().invoke(cli, ["demo"]).output.splitlines()
    assert len(lines) > 20
    assert [line.rstrip() for line in lines] == printed[: len(lines)]


NUMBER = re.compile(r"-?\d+\.?\d*")


def test_readme_shows_the_drawing_of_the_demo(request: pytest.FixtureRequest) -> None:
    """The half-section in the README is the one that is drawn, to 0.02 mm of paper."""
    drawing = draw(DrawRequest(demos.text("bevel-box"), tables=False)).drawing
    assert drawing is not None
    made, page = svg(drawing), ROOT / "docs" / "pictures" / "bevel-box.svg"
    if request.config.getoption("--remake-schemas"):
        page.write_text(made, encoding="utf-8", newline="\n")
    there = page.read_text(encoding="utf-8")
    assert NUMBER.sub("", there) == NUMBER.sub("", made)
    one, other = ([float(x) for x in NUMBER.findall(text)] for text in (there, made))
    assert one == pytest.approx(other, abs=0.02)
    assert "docs/pictures/bevel-box.svg" in README


def test_example_of_the_format_page_is_answered() -> None:
    """The document that explains the format is itself a sound one."""
    example = re.search(r"```yaml\n(.*?)```", FORMAT, re.DOTALL)
    assert example
    opened = open_text(example[1])
    assert opened.findings == ()


def test_every_document_of_the_format_page_is_sound() -> None:
    """What may be copied from the page opens without a word, and has one of every kind."""
    seen: set[str] = set()
    for text in re.findall(r"```yaml\n(.*?)```", FORMAT, re.DOTALL):
        opened = open_text(text)
        assert [(f.line, f.message) for f in opened.findings] == []
        rebuild = opened.rebuild
        for group in (rebuild.parts, rebuild.axes, rebuild.meshes, rebuild.checks, rebuild.steps):
            seen |= {record.kind for record in group.values()}
    assert {*PART_KINDS, *AXES_KINDS, *MESH_KINDS, *CHECK_KINDS, *STEP_KINDS} - seen == set()


def test_every_check_of_the_format_page_is_answered() -> None:
    """Each check of the documents that may be copied reads a figure: nothing is left to measure."""
    for text in re.findall(r"```yaml\n(.*?)```", FORMAT, re.DOTALL):
        answer = review(ReviewRequest(text.encode()))
        assert answer.ready
        assert answer.lacking == ()


def test_a_length_that_a_lash_needs_may_be_not_known() -> None:
    """With the length of the cluster not known, review says so instead of failing."""
    (*_, text) = re.findall(r"```yaml\n(.*?)```", FORMAT, re.DOTALL)
    answer = review(
        ReviewRequest(text.replace("  cluster: 50.00", "  cluster: not known").encode())
    )
    assert "cluster" in [size.key for size in answer.lacking]


def test_format_page_names_every_kind() -> None:
    """Kinds, instruments and materials are all on the page."""
    named = [*PART_KINDS, *AXES_KINDS, *CHECK_KINDS, *STEP_KINDS, *INSTRUMENTS, *MATERIALS]
    assert [word for word in named if word not in FORMAT] == []


def test_every_source_that_is_cited_is_on_the_page() -> None:
    """A key in a docstring leads to the full reference."""
    page = (ROOT / "docs" / "sources.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (.+?) \|", page, re.MULTILINE)
    keys = {key for row in rows for key in row.split(", ")}
    code = (ROOT / "src" / "dryfit").rglob("*.py")
    cited = {
        key
        for path in code
        if path.parent.name in {"mechanics", "solve"}
        for key in re.findall(r"\[([A-Z][A-Z0-9]+[-A-Z0-9]*)\]", path.read_text(encoding="utf-8"))
    }
    assert len(cited) > 20
    assert cited - keys == set()
