"""The page docs/validation.md, made from the published examples in tests/checks.

Made anew by: python run.py test tests/test_checks.py --remake-schemas
"""

from tests.checks.cases import CASES, Case, Expect, as_published

HEAD = """\
# Checked against others

Made from `tests/checks`; each row is a test. "From memory": the printed value was recalled.
`allowed` is half of the last printed digit, and five standard errors of 200 000 draws where
the value is drawn.

| example | source | what | theirs | ours | allowed |
|---|---|---|---|---|---|
"""


def page() -> str:
    """Write the whole page."""
    rows = [
        _row(case, expect, value)
        for case in CASES.values()
        for expect, value in zip(case.expected, as_published(case.name), strict=True)
    ]
    values = sum(len(case.expected) for case in CASES.values())
    return HEAD + "".join(rows) + f"\n{values} values of {len(CASES)} examples.\n"


def _row(case: Case, expect: Expect, value: float) -> str:
    """Write one printed value; ours with one digit more."""
    what = f"{expect.what} {expect.at:g}" if expect.what.startswith("share") else expect.what
    unit = f" {expect.unit}" if expect.unit else ""
    ours = f"{value:.{expect.decimals + 1}f}"
    cells = [case.name, case.source, what, expect.printed + unit, ours, f"{expect.allowed:.2g}"]
    return f"| {' | '.join(cells)} |\n"
