"""A store in a folder of its own, and pictures to put into it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.store.samples import TEXT, telephone_jpeg

from dryfit.store.opening import Store, open_store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Open a new store."""
    opened = open_store(tmp_path / "data")
    yield opened
    opened.close()


@pytest.fixture
def text() -> bytes:
    """Give a small text to begin with."""
    return TEXT


@pytest.fixture
def jpeg() -> bytes:
    """Give a photograph as a telephone makes it: lying on its side, with place and maker."""
    return telephone_jpeg()
