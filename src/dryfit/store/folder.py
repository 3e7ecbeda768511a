"""Where dryfit keeps its data: one folder, made at the first use.

`data_folder` says which: the one told, else that of the variable DRYFIT_HOME, else `dryfit` in the
user's own folder. `Folder` names what lies in it.
"""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from dryfit.store.trouble import Trouble, told

VARIABLE = "DRYFIT_HOME"
NAME = "dryfit"


@dataclass(frozen=True, slots=True)
class Folder:
    """The data folder and the names in it."""

    path: Path

    @property
    def database(self) -> Path:
        """Texts and journal."""
        return self.path / "dryfit.sqlite"

    @property
    def photographs(self) -> Path:
        """Photographs, each by the hash of its bytes."""
        return self.path / "photographs"

    @property
    def thumbnails(self) -> Path:
        """The same, small."""
        return self.path / "thumbnails"

    @property
    def copies(self) -> Path:
        """Copies of the database."""
        return self.path / "copies"

    @property
    def aside(self) -> Path:
        """Damaged databases that were set aside."""
        return self.path / "set aside"

    @property
    def running(self) -> Path:
        """Who runs, and where."""
        return self.path / "running.json"


def data_folder(
    folder: str | Path | None = None, environment: Mapping[str, str] = os.environ
) -> Folder:
    """Name the data folder and make it where it is missing."""
    path = _chosen(folder, environment)
    if path.exists() and not path.is_dir():
        message = f"{path} is a file, not a folder"
        raise Trouble("store.folder", message, f"move it, or name a folder by {VARIABLE}")
    wanted = Folder(path)
    with told(path):
        for each in (path, wanted.photographs, wanted.thumbnails, wanted.copies):
            each.mkdir(parents=True, exist_ok=True)
    return wanted


def _chosen(folder: str | Path | None, environment: Mapping[str, str]) -> Path:
    try:
        path = Path(folder or environment.get(VARIABLE) or Path.home() / NAME).expanduser()
    except RuntimeError as error:
        message = "this system does not say where your own folder is"
        raise Trouble("store.folder", message, f"name a folder by {VARIABLE}") from error
    return path.absolute()
