"""What commands share: files read and written, findings printed, and how a command gives up."""

import json
import sys
from collections.abc import Collection
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, Any, NoReturn

import click

from dryfit.app.cli.page import WIDTH, indented

if TYPE_CHECKING:
    from dryfit.app.usecases.opening import FindingAnswer

SCHEMA = 1
"""Version of what `--json` prints; see docs/json.md."""

WRONG, UNREADABLE = 1, 2
"""Exit codes: something in the document is wrong; a file or a command cannot be read."""


def read(file: Path) -> bytes:
    """Read a file, or say why it cannot be."""
    try:
        return file.read_bytes()
    except OSError as error:
        give_up(f"{file} cannot be read: {_unread(file) or error.strerror or error}")


def _unread(file: Path) -> str:
    """Say why there is nothing to read, and the way out."""
    if file.is_dir():
        return "it is a folder; name the text in it"
    if file.exists():
        return ""
    if not file.parent.is_dir():
        return f"there is no folder {file.parent}; look how it is spelt"
    return "there is no such file; look how it is spelt, or begin one with dryfit new"


def is_demo(file: Path) -> bool:
    """Tell a demo's name from a file."""
    from dryfit.app.usecases import demos

    return not file.exists() and str(file) in demos.names()


def text_of(file: Path) -> bytes:
    """Read a file, or the demo of that name where there is no such file."""
    from dryfit.app.usecases import demos

    if not file.exists() and not is_demo(file) and file.name == str(file) and not file.suffix:
        known = ", ".join(demos.names())
        give_up(f"{file} cannot be read: there is no such file, and no such demo; demos: {known}")
    return demos.text(str(file)) if is_demo(file) else read(file)


def beside(file: Path, ending: str) -> Path:
    """Name a file after the document, beside it; after a demo, here."""
    return file.with_name(f"{file.stem}{ending}")


def write(file: Path, data: bytes, *, replace: bool) -> None:
    """Write a file; one that is there is left as it is, unless told to replace it."""
    try:
        with file.open("wb" if replace else "xb") as target:
            target.write(data)
    except FileExistsError:
        give_up(f"{file} is there already and is left as it is; choose another name, or --replace")
    except FileNotFoundError:
        give_up(f"{file} cannot be written: {no_folder(file)}")
    except OSError as error:
        give_up(f"{file} cannot be written: {error.strerror or error}")


def check_target(where: Path, endings: Collection[str]) -> None:
    """Refuse a place that cannot be written to before anything is worked out."""
    if where.is_dir():
        give_up(f"{where} cannot be written: it is a folder; choose another name")
    if where.suffix.lower() not in endings:
        ending = f"ends in {where.suffix}" if where.suffix else "has no ending"
        those = f"one of {', '.join(endings)}" if len(endings) > 1 else "".join(endings)
        raise click.UsageError(f"{where.name} {ending}; it must be {those}")
    if not where.parent.is_dir():
        give_up(f"{where} cannot be written: {no_folder(where)}")


def no_folder(file: Path) -> str:
    """Say that a file has no folder to lie in."""
    return f"there is no folder {file.parent}; make it first"


def give_up(message: str) -> NoReturn:
    """Say why a command cannot be done, and leave."""
    click.echo(f"dryfit: {message}", err=True)
    sys.exit(UNREADABLE)


def print_findings(findings: "tuple[FindingAnswer, ...]") -> None:
    """Print findings, each with its line and the way out."""
    for found in findings:
        told = f"line {found.line}, column {found.column}, {found.level}: {found.message}"
        click.echo("\n".join(wrap(told, WIDTH, subsequent_indent="  ")))
        for line in found.excerpt.splitlines():
            click.echo(f"    {line}")
        if found.way_out:
            click.echo("\n".join(indented(found.way_out, by=4)))
        click.echo()


def print_json(question: str, answer: Any) -> None:
    """Print an answer as data."""
    from dataclasses import asdict

    click.echo(json.dumps({"dryfit": SCHEMA, "question": question, **asdict(answer)}, indent=1))
