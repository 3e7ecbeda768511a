"""What the tests of the book share."""

import pytest

from dryfit.ask import asking


@pytest.fixture(autouse=True)
def _few_draws(monkeypatch: pytest.MonkeyPatch) -> None:
    """Answer with few draws: how it is printed is tested here, not how sure it is."""
    monkeypatch.setattr(asking, "DEAR", 200)
