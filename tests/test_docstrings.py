"""Every public thing in dryfit says what it is; every formula its units, validity and source.

`bare` finds what has no docstring. `untold` reads the docstring of a formula (layers `mechanics`
and `solve`) against its signature. Both are tried on planted bad docstrings at the end.
"""

import ast
import inspect
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "dryfit"
MODULES = sorted(SOURCE.rglob("*.py"))
FORMULAS = [path for path in MODULES if path.relative_to(SOURCE).parts[0] in {"mechanics", "solve"}]

UNIT = re.compile(r"\[[^\[\]]+\]")
"""A unit or sort of thing: [mm], [-], [N], [rebuild], [text]."""

Function = ast.FunctionDef | ast.AsyncFunctionDef
Sections = dict[str, str]


def name_of(path: Path) -> str:
    """Name a module as the test report shows it."""
    return path.relative_to(SOURCE).as_posix()


def public(node: ast.Module | ast.ClassDef) -> Iterator[Function | ast.ClassDef]:
    """Walk the functions and classes with a name for others, and those inside such classes."""
    for child in node.body:
        if isinstance(child, Function | ast.ClassDef) and not child.name.startswith("_"):
            yield child
            if isinstance(child, ast.ClassDef):
                yield from public(child)


def bare(module: ast.Module) -> list[str]:
    """List what has no docstring: the module itself, its public functions and classes."""
    found = [] if ast.get_docstring(module) else ["the module"]
    return found + [node.name for node in public(module) if not ast.get_docstring(node)]


def sections(docstring: str) -> Sections:
    """Split a docstring at its underlined headings."""
    pieces = re.split(r"^(\w[\w ]*)\n-{3,}$", inspect.cleandoc(docstring), flags=re.MULTILINE)
    return {head: text.strip("\n") for head, text in zip(pieces[1::2], pieces[2::2], strict=True)}


def entries(section: str) -> Sections:
    """Read `a, b` with its indented description as one entry for each name."""
    found: Sections = {}
    for block in re.split(r"\n(?=\S)", section):
        head, _, description = block.partition("\n")
        names = head.partition(" : ")[0]
        found |= {name.strip().lstrip("*"): description for name in names.split(",")}
    return found


def parameters(function: Function) -> list[str]:
    """Name the parameters in the order of the signature."""
    given = function.args
    usual = [*given.posonlyargs, *given.args, *given.kwonlyargs, given.vararg, given.kwarg]
    return [one.arg for one in usual if one is not None and one.arg not in {"self", "cls"}]


def untold(function: Function) -> list[str]:
    """List what the docstring of a formula leaves out or has wrong."""
    told = sections(ast.get_docstring(function) or "")
    described = entries(told["Parameters"]) if "Parameters" in told else {}
    signature = parameters(function)
    found = [f"{name} is not under Parameters" for name in signature if name not in described]
    found += [f"{name} is no parameter" for name in described if name not in signature]
    found += [f"{name} has no [unit]" for name, text in described.items() if not UNIT.search(text)]
    if not isinstance(function.returns, ast.Constant) and not UNIT.search(told.get("Returns", "")):
        found.append("Returns has no [unit]")
    found += [f"{head} is missing" for head in ("Valid", "Source") if not told.get(head)]
    if ">>>" not in told.get("Examples", ""):
        found.append("Examples has no >>> line")
    return found


def formulas(module: ast.Module) -> list[Function]:
    """Find the public functions of a module, methods left out."""
    return [node for node in public(module) if isinstance(node, Function) and node in module.body]


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_public_names_say_what_they_are(path: Path) -> None:
    """Whoever reads a module learns from it what each public thing is for."""
    assert bare(ast.parse(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize("path", FORMULAS, ids=name_of)
def test_formula_gives_units_validity_and_source(path: Path) -> None:
    """A formula can be checked against its source by hand: units, limits and an example stand."""
    module = ast.parse(path.read_text(encoding="utf-8"))
    wrong = {function.name: untold(function) for function in formulas(module)}
    assert {name: found for name, found in wrong.items() if found} == {}


GOOD = '''\
def stretch(force: float, stiffness: float, *more: float, first: float = 1.0) -> float:
    """Stretch of springs in a row.

    Parameters
    ----------
    force, stiffness
        F, k of the first one [N], [N/mm]
    *more
        Stiffness of each further one [N/mm],
        any number of them
    first : float
        Share of the first [-]

    Returns
    -------
    stretch
        Sum over all [mm]

    Valid
    -----
    Linear springs.

    Source
    ------
    Hooke.

    Examples
    --------
    >>> stretch(10.0, 5.0)
    2.0
    """
'''


def planted(text: str) -> Function:
    """Parse a module of one function."""
    (function,) = formulas(ast.parse(text))
    return function


def test_full_docstring_passes() -> None:
    """A docstring with all its parts, grouped names and a star among them, is in order."""
    assert untold(planted(GOOD)) == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("first: float", "x: float", ["x is not under Parameters", "first is no parameter"]),
        ("force, stiffness\n", "force\n", ["stiffness is not under Parameters"]),
        ("Share of the first [-]", "Share of the first", ["first has no [unit]"]),
        ("[N], [N/mm]", "[]", ["force has no [unit]", "stiffness has no [unit]"]),
        ("Sum over all [mm]", "Sum over all", ["Returns has no [unit]"]),
        ("Returns\n    -------", "Gives\n    -----", ["Returns has no [unit]"]),
        ("Valid\n    -----", "Validity\n    --------", ["Valid is missing"]),
        ("Hooke.\n", "\n", ["Source is missing"]),
        (">>> stretch(10.0, 5.0)\n    2.0", "2.0 for 10.0 and 5.0", ["Examples has no >>> line"]),
    ],
)
def test_gap_in_a_formula_is_found(old: str, new: str, told: list[str]) -> None:
    """A missing unit, a forgotten parameter or a formula without source cannot slip in."""
    assert old in GOOD
    assert untold(planted(GOOD.replace(old, new))) == told


def test_empty_docstring_lacks_everything() -> None:
    """A formula with one line of text is told all that it lacks, at once."""
    assert untold(planted('def f(a: float) -> float:\n    """Double."""\n')) == [
        "a is not under Parameters",
        "Returns has no [unit]",
        "Valid is missing",
        "Source is missing",
        "Examples has no >>> line",
    ]


def test_bare_names_are_found() -> None:
    """A public class, method or function without docstring is named; a private one may lack it."""
    module = """
class Part:
    def turn(self): ...
    def _hidden(self): ...
def fit(): "Fit."
def _private(): ...
async def wait(): ...
"""
    assert bare(ast.parse(module)) == ["the module", "Part", "turn", "wait"]


def test_what_a_docstring_sends_to_is_there() -> None:
    """`See tests/...` names a file that exists."""
    named = {
        found
        for path in MODULES
        for found in re.findall(r"See (tests/[\w/]+\.py)", path.read_text(encoding="utf-8"))
    }
    assert named
    assert [name for name in sorted(named) if not (ROOT / name).exists()] == []
