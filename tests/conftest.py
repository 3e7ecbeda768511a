"""How hypothesis searches: the same examples each time, or new and more ones on demand.

What is brought to rest is so by arrays; test_compiled.py holds the compiled steps to the same.

`pytest` draws the same examples at every run, so that a change is judged by what it changes.
`pytest --hypothesis-profile=search` looks for new trouble.
"""

import pytest
from hypothesis import settings

from dryfit.solve import equilibrium

equilibrium.COMPILED = False

settings.register_profile("steady", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None, max_examples=2000)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Let the schemas in docs/json be made anew."""
    parser.addoption("--remake-schemas", action="store_true", help="write docs/json anew")
