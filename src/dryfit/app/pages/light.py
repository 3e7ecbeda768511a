"""How bright the pages are: as the machine is set, paper, or workshop; a cookie remembers it."""

from collections.abc import Mapping
from typing import get_args

from starlette.responses import Response

from dryfit.app.pages.asked import Light

COOKIE = "dryfit-light"
A_YEAR = 365 * 24 * 3600


def light_of(cookies: Mapping[str, str]) -> Light:
    """Read what was chosen."""
    held = cookies.get(COOKIE, "")
    return next((light for light in get_args(Light) if light == held), "")


def remember(answer: Response, chosen: str | None) -> None:
    """Remember a choice; one that is none is none."""
    if chosen is not None and chosen in get_args(Light):
        answer.set_cookie(COOKIE, chosen, max_age=A_YEAR, httponly=True, samesite="strict")
