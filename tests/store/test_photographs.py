"""Photographs: nothing kept but the picture, upright; what is no picture is refused."""

import struct
import tracemalloc
import zlib
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image
from tests.store.samples import telephone_jpeg

from dryfit.store.jpeg import is_bare
from dryfit.store.opening import Store
from dryfit.store.photographs import add_photograph, photograph, pictures, thumbnail
from dryfit.store.picture import MOST_BYTES, SMALL, make_plain
from dryfit.store.revisions import begin
from dryfit.store.trouble import Trouble


def code(data: bytes) -> str:
    """Give the code of what is said of a file."""
    with pytest.raises(Trouble) as caught:
        make_plain(data)
    assert caught.value.finding.way_out
    return caught.value.finding.code


def as_file(image: Image.Image, sort: str, **more: object) -> bytes:
    """Write an image."""
    file = BytesIO()
    image.save(file, sort, **more)
    return file.getvalue()


def png_of_size(wide: int, high: int, rows: int = 0) -> bytes:
    """Write a PNG by hand that says it is of some size; its rows are black.

    Layout: W3C, Portable Network Graphics (third edition), 5.3 chunks, 11.2.1 IHDR.
    """

    def chunk(name: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        )

    head = struct.pack(">IIBBBBB", wide, high, 1, 0, 0, 0, 0)
    packed = zlib.compress(bytes((1 + (wide + 7) // 8) * rows), 9)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")
    )


def test_a_photograph_keeps_nothing_but_the_picture(store: Store, text: bytes, jpeg: bytes) -> None:
    """Place, maker and comment of a telephone's photograph are gone, and it stands upright."""
    assert b"Makersmark" in jpeg
    assert b"a secret comment" in jpeg
    begin(store, text)
    kept = add_photograph(store, 1, jpeg, shows="case", caption="witness mark")
    for data in (photograph(store, kept.sha256), thumbnail(store, kept.sha256)):
        assert is_bare(data)
        assert b"Makersmark" not in data
        assert b"secret" not in data
        with Image.open(BytesIO(data)) as image:
            assert image.format == "JPEG"
            assert not image.getexif()
            assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
            assert image.size == (48, 64)  # 64 wide lying on its side is 64 high
            corner, other = (image.crop(box).tobytes() for box in ((6, 8, 7, 9), (40, 8, 41, 9)))
            assert corner[0] > 150
            assert max(corner[1:]) < 60
            assert min(other) > 220
    assert (kept.width, kept.height) == (48, 64)
    assert pictures(store, 1) == [kept]
    assert sha256(photograph(store, kept.sha256)).hexdigest() == kept.sha256


def test_one_photograph_sent_twice_is_one_file(store: Store, text: bytes, jpeg: bytes) -> None:
    """The same photograph of two parts lies on the disk once; and once kept, it keeps its hash."""
    begin(store, text)
    first = add_photograph(store, 1, jpeg, shows="case")
    second = add_photograph(store, 1, jpeg, shows="cover")
    third = add_photograph(store, 1, photograph(store, first.sha256), shows="nut")
    assert first.sha256 == second.sha256 == third.sha256
    assert len(list(store.folder.photographs.iterdir())) == 1
    assert [each.shows for each in pictures(store, 1)] == ["case", "cover", "nut"]


COLOURS = {
    "JPEG": ["RGB", "L", "CMYK", "1"],
    "MPO": ["RGB", "L", "CMYK"],
    "PNG": ["RGB", "L", "RGBA", "P", "1", "LA", "I;16"],
    "WEBP": ["RGB", "L", "RGBA", "P", "LA"],
}


@pytest.mark.parametrize(("sort", "mode"), [(s, mode) for s in COLOURS for mode in COLOURS[s]])
def test_all_usual_sorts_are_read(sort: str, mode: str) -> None:
    """What telephones and screens make is read, in colour, grey or with a see-through ground."""
    image = Image.new("RGB", (40, 30), (10, 120, 200))
    image = image.convert("L").convert(mode) if mode == "I;16" else image.convert(mode)
    plain = make_plain(as_file(image, sort))
    assert (plain.width, plain.height) == (40, 30)
    assert is_bare(plain.data)


def test_what_can_be_seen_through_gets_a_white_ground() -> None:
    """A cut-out on nothing is shown on white, as on paper."""
    image = Image.new("RGBA", (20, 20), (0, 0, 0, 0))
    plain = make_plain(as_file(image, "PNG"))
    with Image.open(BytesIO(plain.data)) as shown:
        assert shown.getpixel((10, 10)) == (255, 255, 255)


def test_a_thumbnail_is_small(store: Store, text: bytes) -> None:
    """A list of photographs is light; a small picture is not blown up; a lost one is made anew."""
    plain = make_plain(as_file(Image.effect_noise((2000, 1000), 80), "PNG"))
    with Image.open(BytesIO(plain.small)) as image:
        assert image.size == (SMALL, SMALL // 2)
    assert len(plain.small) < 100_000
    begin(store, text)
    kept = add_photograph(store, 1, telephone_jpeg())
    before = thumbnail(store, kept.sha256)
    for path in store.folder.thumbnails.iterdir():
        path.unlink()
    with Image.open(BytesIO(thumbnail(store, kept.sha256))) as image:
        assert image.size == (48, 64)
    assert len(before) > 0


def test_a_file_above_20_mb_is_refused() -> None:
    """The limit is told in the user's words: size read, size allowed."""
    assert code(b"\xff\xd8" + bytes(MOST_BYTES)) == "photograph.large"
    with pytest.raises(Trouble, match=r"the photograph is 20\.0 MB; at most 20 MB"):
        make_plain(bytes(MOST_BYTES + 1))


@pytest.mark.parametrize(("wide", "high"), [(10_000, 10_000), (7_100, 7_100), (60_000, 60_000)])
def test_above_50_megapixels_is_refused_undecoded(wide: int, high: int) -> None:
    """100 megapixels in a small file, and a bomb of 3600, are refused before they take memory."""
    data = png_of_size(wide, high)
    assert len(data) < 1000
    make_plain(telephone_jpeg())  # so that the library is loaded before memory is counted
    tracemalloc.start()
    try:
        assert code(data) == "photograph.pixels"
        assert tracemalloc.get_traced_memory()[1] < 5_000_000
    finally:
        tracemalloc.stop()


def test_the_limit_of_pixels_is_where_it_is_said_to_be() -> None:
    """A photograph of 50 megapixels is kept, one with a row more is not."""
    assert make_plain(png_of_size(10_000, 5_000, 5_000)).width == 10_000
    with pytest.raises(Trouble, match="at most 50 megapixels"):
        make_plain(png_of_size(10_000, 5_001, 5_001))


def text_bomb() -> bytes:
    """Write a PNG whose comment swells from kilobytes to 100 MB (chunk zTXt, 11.3.3.3)."""
    packed = b"c\0\0" + zlib.compress(bytes(100_000_000), 9)
    bomb = struct.pack(">I", len(packed)) + b"zTXt" + packed
    bomb += struct.pack(">I", zlib.crc32(b"zTXt" + packed))
    data = png_of_size(8, 8, 8)
    return data[:33] + bomb + data[33:]


BROKEN = {
    "nothing": b"",
    "a text": b"dryfit: 1\n",
    "a web page": b"<html><script>alert(1)</script></html>",
    "a drawing": b'<svg xmlns="http://www.w3.org/2000/svg"><rect/></svg>',
    "a film": b"\0\0\0\x18ftypheic\0\0\0\0mif1heic",
    "half a photograph": telephone_jpeg(400, 300)[:2500],
    "only its head": telephone_jpeg()[:20],
    "another sort": as_file(Image.new("RGB", (8, 8)), "TIFF"),
    "a document that draws": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n",
    "a comment that swells": text_bomb(),
}


@pytest.mark.parametrize("name", BROKEN)
def test_what_is_no_photograph_is_refused(store: Store, text: bytes, name: str) -> None:
    """A file that is no photograph gives a reason and a way out, and leaves nothing behind."""
    begin(store, text)
    with pytest.raises(Trouble, match="no photograph that can be read") as caught:
        add_photograph(store, 1, BROKEN[name])
    assert "JPEG" in caught.value.finding.way_out
    assert "0x" not in caught.value.finding.message
    assert pictures(store, 1) == []
    assert list(store.folder.photographs.iterdir()) == []


SAMPLES = [
    telephone_jpeg(),
    as_file(Image.effect_noise((40, 30), 90), "PNG"),
    as_file(Image.effect_noise((40, 30), 90).convert("RGB"), "WEBP"),
    as_file(Image.effect_noise((40, 30), 90), "JPEG", progressive=True),
]


@settings(
    max_examples=max(300, settings().max_examples), suppress_health_check=[HealthCheck.too_slow]
)
@given(st.sampled_from(SAMPLES), st.data())
def test_a_broken_photograph_never_ends_in_a_failure(sample: bytes, more: st.DataObject) -> None:
    """Whatever has happened to a file on its way: a plain picture comes of it, or a message."""
    data = bytearray(sample)
    for _ in range(more.draw(st.integers(1, 6))):
        at = more.draw(st.integers(0, len(data) - 1))
        data[at : at + more.draw(st.integers(0, 3))] = more.draw(st.binary(max_size=4))
    try:
        plain = make_plain(bytes(data))
    except Trouble:
        return
    assert is_bare(plain.data)
    assert is_bare(plain.small)


def test_what_is_bare_is_told_from_what_is_not() -> None:
    """Any piece of a JPEG that is not needed to show it is found: a name, a comment, a file."""
    bare = as_file(Image.effect_noise((50, 40), 90), "JPEG")
    assert is_bare(bare)
    assert is_bare(as_file(Image.effect_noise((50, 40), 90), "JPEG", progressive=True))
    assert is_bare(as_file(Image.effect_noise((50, 40), 90), "JPEG", restart_marker_rows=1))
    comment = b"\xff\xfe\x00\x04hi"
    assert not is_bare(bare[:20] + comment + bare[20:])
    assert not is_bare(bare + b"PK\x03\x04")
    head, behind = bare[:20], bare[20:]  # start of image and JFIF head: T.871, 10.1
    assert not is_bare(head[:5] + b"\x13" + head[6:18] + b"\x01\x01" + b"rgb" + behind)
    assert not is_bare(head + b"\xff\xe0\x00\x0aJFXX\x00\x13\x01\x01" + behind)
    assert not is_bare(head + b"\xff\xe0\x00\x10" + head[6:] + behind)
    assert not is_bare(bare[:-2])
    assert not is_bare(bare[:-2] + comment + bare[-2:])
    assert not is_bare(as_file(Image.new("RGB", (9, 9)), "JPEG", icc_profile=b"profile"))
    assert not is_bare(as_file(Image.new("CMYK", (9, 9)), "JPEG"))
    assert not is_bare(telephone_jpeg())
    assert not is_bare(b"")


@settings(max_examples=200)
@given(st.binary(max_size=40))
def test_any_bytes_are_told_to_be_bare_or_not(tail: bytes) -> None:
    """Looking at a file never fails and never goes on for ever."""
    assert not is_bare(b"\xff\xd8" + tail) or tail.endswith(b"\xff\xd9")


def test_a_damaged_photograph_is_told_and_mended(store: Store, text: bytes, jpeg: bytes) -> None:
    """A photograph that the disk has spoilt is not shown as sound; sent again it is whole."""
    begin(store, text)
    kept = add_photograph(store, 1, jpeg)
    whole = photograph(store, kept.sha256)
    (path,) = store.folder.photographs.iterdir()
    path.write_bytes(whole[:-7] + b"spoiled")
    with pytest.raises(Trouble, match="is damaged"):
        photograph(store, kept.sha256)
    add_photograph(store, 1, jpeg)
    assert photograph(store, kept.sha256) == whole
    path.unlink()
    with pytest.raises(Trouble, match="there is no photograph"):
        photograph(store, kept.sha256)


@pytest.mark.parametrize(
    "name", ["", "../dryfit.sqlite", "/etc/passwd", "A" * 64, "0" * 63, "0" * 64 + "/x", "０" * 64]
)
def test_a_photograph_is_fetched_by_its_hash_alone(store: Store, name: str) -> None:
    """No path typed into an address opens a file."""
    for fetch in (photograph, thumbnail):
        with pytest.raises(Trouble) as caught:
            fetch(store, name)
        assert caught.value.finding.code == "photograph.gone"


def test_a_hash_with_a_path_behind_it_opens_nothing(store: Store) -> None:
    """Even where every step of such a path is there, the file it leads to is not given away."""
    (store.folder.photographs / ("0" * 64)).mkdir()
    (store.folder.path / "secret.jpg").write_bytes(b"secret")
    for fetch in (photograph, thumbnail):
        with pytest.raises(Trouble, match="there is no such photograph"):
            fetch(store, "0" * 64 + "/../../secret")


def test_a_photograph_of_no_rebuild_is_refused(store: Store, jpeg: bytes) -> None:
    """A photograph sent to a rebuild that is not there is told, not lost without a word."""
    with pytest.raises(Trouble, match="there is no unit 1"):
        add_photograph(store, 1, jpeg)


def test_words_that_are_too_long_are_refused(store: Store, text: bytes, jpeg: bytes) -> None:
    """A caption of 100 000 characters is refused with the limit, as is one nobody can see."""
    begin(store, text)
    with pytest.raises(Trouble, match=r"100000 characters.*at most 2000"):
        add_photograph(store, 1, jpeg, caption="x" * 100_000)
    with pytest.raises(Trouble, match="cannot be seen"):
        add_photograph(store, 1, jpeg, shows="case\ud800")
    assert pictures(store, 1) == []
    assert not any(Path(store.folder.photographs).iterdir())
