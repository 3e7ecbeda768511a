"""`open`: the pages in a browser of this machine."""

from pathlib import Path

import click

from dryfit.app.cli.files import give_up


@click.command("open")
@click.option(
    "--in", "folder", type=click.Path(path_type=Path), help="Folder to keep all in; usual: ~/dryfit"
)
@click.option("--no-browser", is_flag=True, help="Print the address, start no browser.")
def open_(folder: Path | None, no_browser: bool) -> None:
    """Open the pages: the whole job in a browser, on this machine alone."""
    from dryfit.app.pages.serving import open_pages
    from dryfit.store.trouble import Trouble

    try:
        open_pages(folder, click.echo, browser=not no_browser)
    except Trouble as trouble:
        give_up(f"{trouble.finding.message}; {trouble.finding.way_out}")
