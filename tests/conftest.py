"""How hypothesis searches: the same examples each time, or new and more ones on demand.

Tests of the model itself bring lines to rest by arrays; those of the layers above, where many more
are asked for, by compiled steps where there is numba. test_compiled.py holds both to be the same.

`pytest` draws the same examples at every run, so that a change is judged by what it changes.
`pytest --hypothesis-profile=search` looks for new trouble.
"""

import pytest
from hypothesis import settings

from dryfit.solve import equilibrium

BY_ARRAYS = ("oracle", "scenarios", "solve")

settings.register_profile("steady", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None, max_examples=2000)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Let the schemas in docs/json be made anew."""
    parser.addoption("--remake-schemas", action="store_true", help="write docs/json anew")


@pytest.fixture(autouse=True)
def _engine(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Choose how lines are brought to rest, by the folder of the test."""
    folder = request.path.parent.name
    monkeypatch.setattr(equilibrium, "COMPILED", folder not in BY_ARRAYS)
