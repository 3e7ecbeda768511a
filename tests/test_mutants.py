"""No sign or operator of a formula can be flipped without a published value noticing."""

import re
from pathlib import Path

import pytest
from tests.mutants import survivors

PAGE = Path(__file__).resolve().parent.parent / "docs" / "mutants.md"


@pytest.mark.prove
def test_survivors_are_those_with_a_reason() -> None:
    """A wrong sign in a formula cannot slip in; docs/mutants.md says what little is left."""
    total, left = survivors()
    told = re.findall(
        r"^- (.+?\n(?:  .+\n)*)", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE
    )
    named = [entry.split(" Because ")[0].strip() for entry in told]
    assert total > 900
    assert sorted(left) == sorted(named)
