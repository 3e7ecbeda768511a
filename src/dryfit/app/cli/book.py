"""`book` and `sheet`: PDF to print and take to the bench."""

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dryfit.app.cli.drawings import PAPER
from dryfit.app.cli.files import (
    WRONG,
    beside,
    check_target,
    give_up,
    is_demo,
    print_findings,
    text_of,
    write,
)

if TYPE_CHECKING:
    from dryfit.app.usecases.binding import BookAnswer

out = click.option(
    "-o", "out", type=click.Path(path_type=Path), help="Where to; a PDF made here is made anew."
)
paper = click.option("--paper", type=PAPER, default="a4", help="Size of the sheets: a4.")
replaces = click.option("--replace", is_flag=True, help="Write over any file that is there.")


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@out
@paper
@replaces
def book(file: Path, out: Path | None, paper: Any, replace: bool) -> None:
    """Make the book of FILE, or of a demo: a PDF to print for the bench.

    Cover with chances and drawing, settings, expected readings with boxes for a pencil, sizes,
    parts, sources. Without -o it is written beside FILE, with its name and -book.pdf.
    """
    data = text_of(file)
    where = out or beside(file, "-book.pdf")
    replace = may_replace(where, replace)
    from dryfit.app.usecases.book import BookRequest
    from dryfit.app.usecases.book import book as ask

    tell_of(ask(BookRequest(data, name_of(file), date.today(), paper)), where, replace=replace)


@click.command()
@click.argument("kind", required=False)
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--for", "start", metavar="START", help="Strip-down of such a unit, with no FILE.")
@out
@paper
@replaces
def sheet(
    kind: str | None,
    file: Path | None,
    start: str | None,
    out: Path | None,
    paper: Any,
    replace: bool,
) -> None:
    """Make one sheet, filled in from FILE or a demo as far as is known.

    KIND is strip-down, help, walk, record, order, readings or settings; the first four also without
    FILE, empty. A strip-down --for bevel-drive, or any other start of `dryfit new`, is made for
    such a unit. Without -o it is written beside FILE.
    """
    from dryfit.app.usecases import begin, sheets

    kind = (kind or "").lower()
    if kind not in sheets.names():
        told = f"no sheet '{kind}'" if kind else "say which sheet"
        raise click.UsageError(f"{told}; there are: {', '.join(sheets.names())}")
    if file is None and sheets.needs_text(kind):
        raise click.UsageError(f"'{kind}' is made for a unit: name its FILE, or a demo")
    if start is not None and (kind != sheets.STRIP_DOWN or file is not None):
        raise click.UsageError("--for is for a strip-down without FILE: leave one of them out")
    if start is not None and start not in begin.kinds():
        raise click.UsageError(f"no start for '{start}'; there are: {', '.join(begin.kinds())}")
    data = text_of(file) if file else None
    where = out or (beside(file, f"-{kind}.pdf") if file else Path(f"{kind}.pdf"))
    replace = may_replace(where, replace)
    name = name_of(file) if file else (start or "")
    request = sheets.SheetRequest(kind, data, name, date.today(), paper, start)
    tell_of(sheets.sheet(request), where, replace=replace)


def name_of(file: Path) -> str:
    """Give the name that stands at the foot of every sheet."""
    return f"demo {file}" if is_demo(file) else file.name


def may_replace(where: Path, replace: bool) -> bool:
    """Refuse what cannot be written before anything is worked out; a PDF made here may go."""
    check_target(where, [".pdf"])
    if where.exists() and not replace and not _made_here(where):
        give_up(
            f"{where} is there already, was not made by dryfit, and is left as it is; choose "
            "another name, or --replace"
        )
    return where.exists()


def _made_here(where: Path) -> bool:
    """Tell a PDF that was made by these commands."""
    from dryfit.app.paper.press import MARK

    try:
        data = where.read_bytes()
    except OSError as error:
        give_up(f"{where} cannot be read: {error.strerror or error}")
    return data.startswith(b"%PDF-") and MARK.encode() in data


def tell_of(answer: "BookAnswer", where: Path, *, replace: bool) -> None:
    """Write the PDF, say what is in it, and leave with the exit code that the text deserves."""
    print_findings(answer.findings)
    write(where, answer.pdf, replace=replace)
    click.echo(f"{where} is written:")
    for title in answer.titles:
        click.echo(f"  {title}")
    if not answer.answered:
        sys.exit(WRONG)
