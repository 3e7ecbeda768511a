"""A text and a photograph to keep, and the surroundings of a program that does so."""

import os
from io import BytesIO
from pathlib import Path

from PIL import Image

ROOT = Path(__file__).resolve().parents[2]
PATH = [str(ROOT / "src"), str(ROOT)]
ENVIRONMENT = {**os.environ, "PYTHONPATH": os.pathsep.join(PATH)}
"""Where another program finds dryfit."""

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
