"""Whether a JPEG holds a picture and nothing else: no place, no camera, no hidden file.

The markers are those of ITU-T T.81 (JPEG), Annex B, table B.1, and of JFIF, ITU-T T.871, 10.1.
"""

START, END, SCAN, FILE_HEAD = 0xD8, 0xD9, 0xDA, 0xE0
JFIF_BYTES = 16
"""The JFIF head without a thumbnail in it."""

_TABLES = {0xDB, 0xC4, 0xDD}
"""DQT, DHT, DRI: how the picture is coded."""

_FRAMES = {0xC0, 0xC1, 0xC2}
"""SOF0 to SOF2: baseline, extended and progressive."""

_IN_SCAN = {0x00, *range(0xD0, 0xD8)}
"""What may follow FF inside a scan: a stuffed byte, RST0 to RST7."""


def is_bare(data: bytes) -> bool:
    """Tell whether every piece of a JPEG is needed to show it."""
    if data[:2] != bytes((0xFF, START)):
        return False
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        if not _needed(marker, length, first=at == 2):
            return False
        at += 2 + length
        if marker == SCAN:
            at = _scan_end(data, at)
        if data[at:] == bytes((0xFF, END)):
            return True
    return False


def _needed(marker: int, length: int, *, first: bool) -> bool:
    if marker == FILE_HEAD:
        return first and length == JFIF_BYTES
    return marker in _TABLES or marker in _FRAMES or marker == SCAN


def _scan_end(data: bytes, at: int) -> int:
    """Find the marker that ends a scan."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0 or at + 1 >= len(data):
            return len(data)
        if data[at + 1] not in _IN_SCAN:
            return at
        at += 2
