"""What the commands' tests share."""

import pytest

from dryfit.ask import asking


@pytest.fixture(autouse=True)
def _few_draws(monkeypatch: pytest.MonkeyPatch) -> None:
    """Answer units with bearings with few draws: how it is printed is tested here, not how sure."""
    monkeypatch.setattr(asking, "DEAR", 200)
