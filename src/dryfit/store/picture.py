"""A photograph made safe to keep: decoded, turned upright, and written anew as a plain JPEG.

Nothing of the file that came in is kept but what can be seen: no place, time, camera or hidden
part. What is no picture, too large, or swells up is refused before it is decoded.
"""

import struct
import warnings
import zlib
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from dryfit.store.jpeg import is_bare
from dryfit.store.trouble import Trouble

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_BYTES = 20_000_000
MOST_PIXELS = 50_000_000
SORTS = ("JPEG", "PNG", "WEBP")
"""What is read."""

QUALITY, SMALL_QUALITY = 88, 80
"""The first keeps the scratches of a bearing's mark readable at a quarter of the size: estimate."""

SMALL = 480
"""Longest side of a thumbnail [pixels]."""

_BROKEN = (
    *(OSError, SyntaxError, ValueError, EOFError, OverflowError, MemoryError),
    *(struct.error, zlib.error, IndexError),
)
"""What the decoders raise on files that are broken or made to harm."""


@dataclass(frozen=True, slots=True)
class Plain:
    """A photograph as it is kept: a plain JPEG, the same small, and its size in pixels."""

    data: bytes
    small: bytes
    width: int
    height: int


def make_plain(data: bytes) -> Plain:
    """Read a photograph and write it anew; one that is plain already stays as it is."""
    if not data:
        message = "the file is empty: no photograph that can be read"
        raise Trouble("photograph.empty", message, "send the JPEG, PNG or WEBP again")
    if len(data) > MOST_BYTES:
        message = f"the photograph is {len(data) / 1e6:.1f} MB; at most {MOST_BYTES / 1e6:g} MB"
        raise Trouble("photograph.large", message, "send it smaller")
    with BytesIO(data) as file:
        image = _decoded(file)
    bare = data if is_bare(data) else _written(image, QUALITY)
    return Plain(bare, small(image), image.width, image.height)


def small(image: "Image") -> bytes:
    """Write a thumbnail."""
    share = min(1.0, SMALL / max(image.size))
    width, height = (max(1, round(side * share)) for side in image.size)
    return _written(image.resize((width, height), reducing_gap=3.0), SMALL_QUALITY)


def thumbnail_of(data: bytes) -> bytes:
    """Write the thumbnail of a photograph that is kept."""
    with BytesIO(data) as file:
        return small(_decoded(file))


def _decoded(file: BytesIO) -> "Image":
    """Decode a picture, upright and in plain colours."""
    from PIL import Image, ImageOps, WebPImagePlugin  # noqa: F401 - late: few commands need them

    warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\.")  # spoilt metadata
    warnings.filterwarnings("error", category=Image.DecompressionBombWarning)
    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    try:
        with Image.open(file, formats=SORTS) as image:
            if image.width * image.height > MOST_PIXELS:
                raise _too_many(f"{image.width * image.height / 1e6:.0f} megapixels")
            ImageOps.exif_transpose(image, in_place=True)
            return _on_white(image)
    except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
        raise _too_many("too many pixels") from error
    except _BROKEN as error:
        message = f"this is no photograph that can be read: {_reason(error)}"
        way_out = "send a JPEG, PNG or WEBP that opens elsewhere"
        raise Trouble("photograph.unread", message, way_out) from error


def _on_white(image: "Image") -> "Image":
    """Turn any sort of colours into plain ones; what can be seen through gets a white ground."""
    from PIL import Image

    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        above = image.convert("RGBA")
        ground = Image.new("RGBA", above.size, "white")
        image = Image.alpha_composite(ground, above)
    image.load()
    plain = image if image.mode == "RGB" else image.convert("RGB")
    plain.info.clear()
    return plain


def _written(image: "Image", quality: int) -> bytes:
    file = BytesIO()
    image.save(file, "JPEG", quality=quality, optimize=True)
    data = file.getvalue()
    if not is_bare(data):
        raise ValueError("the photograph was written with more than its picture")
    return data


def _too_many(read: str) -> Trouble:
    message = f"the photograph has {read}; at most {MOST_PIXELS / 1e6:.0f} megapixels are kept"
    return Trouble("photograph.pixels", message, "send it smaller")


def _reason(error: BaseException) -> str:
    """Say in short what a decoder found, without the name of an object in memory."""
    from PIL import UnidentifiedImageError

    if isinstance(error, UnidentifiedImageError):
        return "its kind is not known"
    return str(error) or "it is broken"
