"""Photographs of a unit: shown in full and small, and taken in."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass

from dryfit.app.pages.asked import Asked, Done, File, Refused, Slip, path
from dryfit.app.pages.frame import when
from dryfit.quantities.finding import Finding, Place
from dryfit.store.opening import Store
from dryfit.store.photographs import Picture, add_photograph, photograph, pictures, thumbnail
from dryfit.store.trouble import Trouble

PHOTOGRAPHS: Place = ("photographs",)
"""Where what is wrong with a photograph is told."""


@dataclass(frozen=True, slots=True)
class Shot:
    """A photograph: its hash, what it shows, its caption, when it came."""

    sha256: str
    shows: str
    caption: str
    at: str
    width: int
    height: int


def shots(asked: Asked) -> tuple[Shot, ...]:
    """List the photographs, the newest first."""
    return tuple(map(_shot, reversed(pictures(asked.store, asked.revision.rebuild))))


def _shot(one: Picture) -> Shot:
    return Shot(one.sha256, one.shows, one.caption, when(one.at), one.width, one.height)


async def picture(asked: Asked) -> File:
    """Give a photograph of this unit."""
    return await _photograph(asked, photograph)


async def small(asked: Asked) -> File:
    """Give a photograph of this unit, small."""
    return await _photograph(asked, thumbnail)


async def _photograph(asked: Asked, of: Callable[[Store, str], bytes]) -> File:
    if asked.at not in {one.sha256 for one in pictures(asked.store, asked.revision.rebuild)}:
        raise Trouble("photograph.gone", "there is no such photograph", "look at the list")
    return File(await asyncio.to_thread(of, asked.store, asked.at), "image/jpeg")


async def photographed(asked: Asked) -> Done:
    """Keep a photograph, with what it shows."""
    form = asked.form
    data = asked.files.get("photograph")
    if data is None:
        found = Finding("strip.photograph", PHOTOGRAPHS, "no photograph was chosen", "choose one")
        raise Refused(Slip(PHOTOGRAPHS, form, (found,)))
    words = {"shows": form.get("shows", ""), "caption": form.get("caption", "")}
    unit = asked.revision.rebuild
    await asyncio.to_thread(add_photograph, asked.store, unit, data, **words)
    return Done(path(unit, "strip", hash_="photographs"))
