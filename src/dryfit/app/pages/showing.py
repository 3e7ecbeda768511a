"""A page as HTML by its template, or as JSON: the same data either way."""

import json
from dataclasses import asdict
from pathlib import Path

from starlette.responses import HTMLResponse, Response

from dryfit import __version__
from dryfit.app.pages.asked import Light, Page, path
from dryfit.draw.environment import drawn, environment

TEMPLATES = Path(__file__).parent / "templates"


STATIC = Path(__file__).parent / "static"


def shown(page: Page, *, light: Light, as_json: bool, status: int = 200) -> Response:
    """Show a page, as HTML or as JSON."""
    if as_json:
        told = json.dumps(asdict(page), ensure_ascii=False, default=str)
        return Response(told, status, media_type="application/json")
    return HTMLResponse(html(page, light), status)


def html(page: Page, light: Light) -> str:
    """Fill in the template of a page."""
    template = environment(TEMPLATES).get_template(page.template)
    return template.render(page=page, light=light, path=path, version=__version__, svg=drawn)
