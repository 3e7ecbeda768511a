"""A row sealed by a hash, so that a figure changed by a failing disk is not taken for one typed."""

import json
from hashlib import sha256
from pathlib import Path

from dryfit.store.trouble import damaged


def seal(*fields: str | int | None) -> str:
    """Hash the fields of a row."""
    return sha256(json.dumps(fields).encode()).hexdigest()


def check_seal(path: Path, what: str, told: object, *fields: str | int | None) -> None:
    """Refuse a row that is not as it was written."""
    if seal(*fields) != told:
        raise damaged(path, f"{what} has changed by itself")
