"""The published tables of this layer, in files beside the code with their source."""

import tomllib
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "data"


def read_table(name: str) -> dict[str, Any]:
    """Published table of this layer.

    Parameters
    ----------
    name
        File in `data`, such as `iso286.toml` [text]

    Returns
    -------
    table
        What the file holds [text]

    Valid
    -----
    Files that come with dryfit.

    Source
    ------
    Each file names its own.

    Examples
    --------
    >>> read_table("ratings.toml")["source"][:10]
    'ISO 281:20'
    """
    return tomllib.loads((FOLDER / name).read_text(encoding="utf-8"))
