"""A store in a folder of its own, and pictures to put into it."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from dryfit.store.opening import Store, open_store

TEXT = b"""\
dryfit: 1
sizes in: mm
title: Harrow Weir sluice drive
sizes:
  sleeve: 22.05 by micrometer     # the long one
  shaft: 148.70
checks:
  end float: {kind: end float, of: shaft}
  gap: {kind: gap, at: cover}
"""


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Open a new store."""
    opened = open_store(tmp_path / "data")
    yield opened
    opened.close()


@pytest.fixture
def text() -> bytes:
    """Give a small text to begin with."""
    return TEXT


@pytest.fixture
def jpeg() -> bytes:
    """Give a photograph as a telephone makes it: lying on its side, with place and maker."""
    return telephone_jpeg()


def telephone_jpeg(wide: int = 64, high: int = 48) -> bytes:
    """Draw a picture whose top left quarter is red when it is held upright."""
    image = Image.new("RGB", (wide, high), "white")
    image.paste((200, 0, 0), (0, high // 2, wide // 2, high))
    exif = Image.Exif()
    exif[0x0112] = 6  # orientation: the camera was held on its side
    exif[0x010F] = "Makersmark"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (54.0, 27.0, 15.0)
    file = BytesIO()
    image.save(file, "JPEG", quality=95, exif=exif, comment=b"a secret comment")
    return file.getvalue()
