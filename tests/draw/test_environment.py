"""Templates: one way to make them, and it escapes."""

import ast
from collections.abc import Iterator
from pathlib import Path

import jinja2
import pytest
from jinja2 import UndefinedError

from dryfit.draw.environment import environment

SOURCE = Path(__file__).resolve().parents[2] / "src" / "dryfit"
FACTORY = SOURCE / "draw" / "environment.py"


def makers(source: str) -> Iterator[str]:
    """Find what of Jinja a module brings in, and every mark that a text needs no escaping."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (a.name for a in node.names if a.name.split(".")[0] in JINJA)
        elif isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] in JINJA:
            yield from (f"{node.module}.{a.name}" for a in node.names)


JINJA = {"jinja2", "markupsafe"}


def test_no_other_module_makes_templates() -> None:
    """Whatever a user types goes through the one environment that escapes it."""
    found = {
        path.relative_to(SOURCE).as_posix(): [*makers(path.read_text(encoding="utf-8"))]
        for path in SOURCE.rglob("*.py")
        if path != FACTORY
    }
    assert {place: names for place, names in found.items() if names} == {}


def test_no_template_turns_escaping_off() -> None:
    """`safe` and `autoescape` are in no template."""
    templates = [p for p in SOURCE.rglob("templates/*") if p.is_file()]
    assert templates
    assert [p.name for p in templates if "safe" in p.read_text(encoding="utf-8")] == []
    assert [p.name for p in templates if "autoescape" in p.read_text(encoding="utf-8")] == []


@pytest.mark.parametrize(
    "planted",
    [
        "import jinja2",
        "from jinja2 import Environment",
        "def f():\n    from jinja2 import Template",
        "from jinja2.sandbox import SandboxedEnvironment",
        "from markupsafe import Markup",
    ],
)
def test_another_environment_would_be_found(planted: str) -> None:
    """The search itself finds what it should."""
    assert [*makers(planted)]


def test_it_escapes_and_tells_what_xml_cannot_hold(tmp_path: Path) -> None:
    """Markup is letters, a control character its number; a line break stays."""
    (tmp_path / "a.txt").write_text("<a b='{{ x }}'>{{ x }}</a>", encoding="utf-8")
    told = environment(tmp_path).get_template("a.txt").render(x="<i>'\"&\0\n")
    escaped = "&lt;i&gt;&#39;&#34;&amp;‹0000›\n"
    assert told == f"<a b='{escaped}'>{escaped}</a>"


def test_a_name_not_filled_in_is_an_error(tmp_path: Path) -> None:
    """A hole in a sheet is found by the one who made it, not by the reader."""
    (tmp_path / "a.txt").write_text("{{ nothing }}", encoding="utf-8")
    with pytest.raises(UndefinedError):
        environment(tmp_path).get_template("a.txt").render()
    assert jinja2.__version__
