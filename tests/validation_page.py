"""The page docs/validation.md, made from the published examples in tests/checks.

Made anew by: python run.py test tests/test_checks.py --remake-schemas
"""

from collections import Counter
from itertools import groupby

from tests.checks.cases import CASES, Case, Expect, as_published
from tests.checks.formula_cases import ALL_CASES, SOURCES, FormulaCase, Printed

HEAD = """\
# Checked against others

Made from `tests/checks`; each row is a test. "From memory": the printed value was recalled.
"""

DRAWN = """
## Draws and chains

`allowed` is half of the last printed digit, and five standard errors of 200 000 draws where
the value is drawn.

| example | source | what | theirs | ours | allowed |
|---|---|---|---|---|---|
"""

FORMULAS = """
## Formulas

Each formula of `dryfit.mechanics`. `allowed` is half of the last printed digit; where it is more,
the case says why. Every argument of a row is moved by a tenth (of a table: by a step), and the row
must then fail.
"""

COLUMNS = """\
| example | formula | source | theirs | ours | off by | allowed |
|---|---|---|---|---|---|---|
"""


def page() -> str:
    """Write the whole page."""
    return HEAD + _drawn() + FORMULAS + _counts() + _formulas() + _keys()


def _drawn() -> str:
    rows = [
        _row(case, expect, value)
        for case in CASES.values()
        for expect, value in zip(case.expected, as_published(case.name), strict=True)
    ]
    values = sum(len(case.expected) for case in CASES.values())
    return DRAWN + "".join(rows) + f"\n{values} values of {len(CASES)} examples.\n"


def _counts() -> str:
    """Count the printed values by where they come from."""
    counted = Counter((case.kind, case.memory) for case in ALL_CASES for _ in case.values)
    sources = {
        case.source for case in ALL_CASES if (case.kind, case.memory) == ("published", False)
    }
    lines = [
        f"- {count} values: {kind}{', from memory' if memory else ''}\n"
        for (kind, memory), count in sorted(counted.items())
    ]
    return "\n" + "".join(lines) + f"\nThose published and read come from {len(sources)} sources.\n"


def _formulas() -> str:
    """Write one table a module."""
    text = ""
    by_module = groupby(ALL_CASES, key=lambda case: case.function.partition(".")[0])
    for module, cases in by_module:
        text += f"\n### {module.replace('_', ' ').capitalize()}\n\n{COLUMNS}"
        text += "".join(_formula(case, value) for case in cases for value in case.values)
    return text


def _formula(case: FormulaCase, printed: Printed) -> str:
    """Write one printed value of a formula."""
    ours = printed.ours(case.formula(**case.arguments))
    source = f"{case.source}, {case.where}{' (from memory)' if case.memory else ''}"
    name = f"{case.name}: {printed.of}" if printed.of else case.name
    formula = f"`{case.function.partition('.')[2]}`"
    if printed.unit == "word":
        cells = [name, formula, source, printed.printed, ours, "", ""]
    else:
        unit = f" {printed.unit}" if printed.unit else ""
        off, allowed = f"{abs(ours - printed.value):.1g}", f"{printed.allowed:.2g}"
        allowed += f" ({printed.because})" if printed.because else ""
        cells = [name, formula, source, printed.printed + unit, f"{ours:.6g}", off, allowed]
    return f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |\n"


def _keys() -> str:
    lines = [f"- {key}: {text}\n" for key, text in sorted(SOURCES.items())]
    return "\n## Sources of the formulas' values\n\n" + "".join(lines)


def _row(case: Case, expect: Expect, value: float) -> str:
    """Write one printed value; ours with one digit more."""
    what = f"{expect.what} {expect.at:g}" if expect.what.startswith("share") else expect.what
    unit = f" {expect.unit}" if expect.unit else ""
    ours = f"{value:.{expect.decimals + 1}f}"
    cells = [case.name, case.source, what, expect.printed + unit, ours, f"{expect.allowed:.2g}"]
    return f"| {' | '.join(cells)} |\n"
