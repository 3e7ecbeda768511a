"""A rebuild in one zip: it comes out as it went in, and a zip made to harm does none."""

import json
import stat
import struct
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.store.samples import TEXT, telephone_jpeg

from dryfit.document.edit import Edit
from dryfit.store import unzip
from dryfit.store.edits import write
from dryfit.store.journal import Reading, Step, journal, note, strike_out
from dryfit.store.opening import Store, open_store
from dryfit.store.parcel import pack, unpack
from dryfit.store.photographs import add_photograph, photograph, pictures
from dryfit.store.readings import export
from dryfit.store.revisions import begin, newest, rebuilds
from dryfit.store.trouble import Trouble
from dryfit.store.unzip import MOST_PHOTOGRAPHS

HASH = "0" * 64
LISTED = {"photograph": HASH, "shows": "case", "caption": "", "at": "2026-01-02T03:04:05+00:00"}


def packed(store: Store, rebuild: int) -> BytesIO:
    """Pack a rebuild."""
    file = BytesIO()
    pack(store, rebuild, file)
    return file


def zipped(files: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> BytesIO:
    """Zip files under any names."""
    file = BytesIO()
    with zipfile.ZipFile(file, "w", method) as archive:
        for name, data in files.items():
            archive.writestr(zipfile.ZipInfo(name), data, method)
    return file


def worked_on(store: Store, jpeg: bytes) -> None:
    """Do a bit of everything."""
    begin(store, TEXT)
    write(store, 1, Edit("set", ("sizes", "shaft"), typed="148.72"), saw=1)
    note(store, 1, Reading("end float", "0.11", "dial indicator", how={"turned": "20 times"}))
    wrong = note(store, 1, Reading("gap", "3"))
    strike_out(store, 1, wrong.number, "feeler bent")
    note(store, 1, Step("cover on", "fingers only"))
    note(store, 1, Reading("gap", "0.35", "feelers", "nipped"))
    add_photograph(store, 1, jpeg, shows="case", caption="Zeichen am Gehäuse")
    add_photograph(store, 1, jpeg, shows="cover")
    add_photograph(store, 1, telephone_jpeg(100, 80), shows="nut")


def test_a_rebuild_comes_out_of_a_zip_as_it_went_in(
    store: Store, tmp_path: Path, jpeg: bytes
) -> None:
    """On another machine text, readings, journal and photographs are the same, to the byte."""
    worked_on(store, jpeg)
    other = open_store(tmp_path / "other")
    try:
        done = unpack(other, packed(store, 1))
        assert done.findings == ()
        assert done.revision.text == export(store, 1).text
        assert "gap: 0.35 by feelers\n" in done.revision.text
        assert [(e.wrote, e.kind, e.struck, e.at) for e in journal(other, 1)] == [
            (e.wrote, e.kind, e.struck, e.at) for e in journal(store, 1)
        ]
        sent, came = pictures(store, 1), pictures(other, 1)
        assert [(p.sha256, p.shows, p.caption, p.at) for p in came] == [
            (p.sha256, p.shows, p.caption, p.at) for p in sent
        ]
        for picture in sent:
            assert photograph(other, picture.sha256) == photograph(store, picture.sha256)
        assert export(other, 1).text == done.revision.text
    finally:
        other.close()


def test_a_zip_holds_fixed_names_and_no_place(store: Store, jpeg: bytes) -> None:
    """What is mailed has the same names each time, and nothing of where it was made."""
    worked_on(store, jpeg)
    with zipfile.ZipFile(packed(store, 1)) as archive:
        names = archive.namelist()
        whole = b"".join(archive.read(name) for name in names)
    assert names[:3] == ["rebuild.yaml", "journal.json", "photographs.json"]
    assert all(name.startswith("photographs/") for name in names[3:])
    assert len(names) == 5
    assert b"Makersmark" not in whole
    assert str(store.folder.path).encode() not in whole


def test_a_zip_of_the_text_alone_is_read(store: Store) -> None:
    """A zip somebody made by hand of the text alone is a rebuild."""
    done = unpack(store, zipped({"rebuild.yaml": TEXT, "photographs/": b""}))
    assert done.revision.text.encode() == TEXT
    assert journal(store, 1) == []


def test_a_photograph_that_is_not_there_is_named(store: Store, jpeg: bytes) -> None:
    """A zip made lighter by hand still brings the rest, and says which photograph is missing."""
    rows = [
        LISTED,
        {**LISTED, "photograph": "1" * 64, "shows": "nut"},
        {**LISTED, "photograph": "2" * 64, "shows": "key"},
    ]
    files = {
        "rebuild.yaml": TEXT,
        "photographs.json": json.dumps(rows).encode(),
        f"photographs/{'1' * 64}.jpg": b"<script>",
        f"photographs/{'2' * 64}.jpg": jpeg,
    }
    done = unpack(store, zipped(files))
    assert [f.message.partition(":")[0] for f in done.findings] == [
        "the photograph 'case' was left out",
        "the photograph 'nut' was left out",
    ]
    (kept,) = pictures(store, 1)
    assert kept.shows == "key"
    assert b"Makersmark" not in photograph(store, kept.sha256)


def link() -> BytesIO:
    """Zip a link to the list of users."""
    file = BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        info = zipfile.ZipInfo("rebuild.yaml")
        info.create_system = 3
        info.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(info, b"/etc/passwd")
    return file


def twice() -> BytesIO:
    """Zip two texts under one name."""
    file = BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("rebuild.yaml", TEXT)
        with pytest.warns(UserWarning, match="Duplicate"):
            archive.writestr("rebuild.yaml", b"other")
    return file


def swells() -> BytesIO:
    """Zip a photograph of 300 MB of noughts in 300 kB."""
    listed = json.dumps([LISTED]).encode()
    files = {"rebuild.yaml": TEXT, "photographs.json": listed}
    return zipped(files | {f"photographs/{HASH}.jpg": bytes(300_000_000)})


def lies() -> BytesIO:
    """Zip the same, but let its heads say that it has 1000 bytes.

    The field is at 22 of the local head and 24 of the central one, 4 bytes each: APPNOTE 6.3.10
    of the ZIP format, 4.3.7 and 4.3.12.
    """
    data = bytearray(swells().getvalue())
    name = f"photographs/{HASH}.jpg".encode()
    for head, field, to_name in ((b"PK\x03\x04", 22, 30), (b"PK\x01\x02", 24, 46)):
        at = data.index(name, 0 if head.endswith(b"\x04") else data.index(b"PK\x01\x02")) - to_name
        assert data[at : at + 4] == head
        data[at + field : at + field + 4] = struct.pack("<I", 1000)
    return BytesIO(bytes(data))


def locked() -> BytesIO:
    """Zip a text whose heads say it is locked: bit 0 of the flags, APPNOTE 4.4.4."""
    data = bytearray(zipped({"rebuild.yaml": TEXT}).getvalue())
    for head, field in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        data[data.index(head) + field] |= 1
    return BytesIO(bytes(data))


def nul() -> BytesIO:
    """Zip a name that goes on behind a NUL, where some programs stop reading."""
    data = zipped({"rebuild.yamlXevil": TEXT}).getvalue()
    return BytesIO(data.replace(b"rebuild.yamlX", b"rebuild.yaml\0"))


HARMFUL: dict[str, tuple[Callable[[], BytesIO], str]] = {
    "..": (lambda: zipped({"rebuild.yaml": TEXT, "../../evil.yaml": b"x"}), "no part of a rebuild"),
    ".. inside": (lambda: zipped({"photographs/../../rebuild.yaml": TEXT}), "no part of a rebuild"),
    "behind a photograph": (
        lambda: zipped({"rebuild.yaml": TEXT, f"photographs/{HASH}.jpg/../../evil": b"x"}),
        "no part of a rebuild",
    ),
    "absolute": (lambda: zipped({"/etc/cron.d/evil": b"x"}), "no part of a rebuild"),
    "drive": (lambda: zipped({"C:\\evil.yaml": b"x"}), "no part of a rebuild"),
    "backslash": (lambda: zipped({"photographs\\" + HASH + ".jpg": b"x"}), "no part of a rebuild"),
    "nul": (nul, "no part of a rebuild"),
    "program": (lambda: zipped({"rebuild.yaml": TEXT, "run.exe": b"MZ"}), "no part of a rebuild"),
    "zip in zip": (
        lambda: zipped({"rebuild.yaml": zipped({"a": b"b"}).getvalue()}),
        "for a program",
    ),
    "link": (link, "is a link"),
    "twice": (twice, "stands in the zip twice"),
    "swells": (swells, "larger than 20 MB"),
    "lies": (lies, "the zip cannot be read"),
    "locked": (locked, "locked by a password"),
    "packed oddly": (lambda: zipped({"rebuild.yaml": TEXT}, zipfile.ZIP_LZMA), "not read"),
    "no text": (lambda: zipped({"journal.json": b"[]"}), "holds no 'rebuild.yaml'"),
    "large text": (lambda: zipped({"rebuild.yaml": b"x" * 1_000_001}), "larger than 1 MB"),
    "no zip": (lambda: BytesIO(b"dryfit: 1\n"), "the zip cannot be read"),
    "nothing": (lambda: BytesIO(b""), "the zip cannot be read"),
    "cut off": (lambda: BytesIO(zipped({"rebuild.yaml": TEXT}).getvalue()[:-30]), "cannot be read"),
    "many": (
        lambda: zipped(
            {"rebuild.yaml": TEXT}
            | {f"photographs/{n:064x}.jpg": b"" for n in range(MOST_PHOTOGRAPHS + 5)}
        ),
        "at most 1000 photographs",
    ),
}


@pytest.mark.parametrize("name", HARMFUL)
def test_a_zip_made_to_harm_is_refused(store: Store, tmp_path: Path, name: str) -> None:
    """A zip that is not what dryfit wrote is refused with its reason, and writes nothing at all."""
    make, told = HARMFUL[name]
    before = {path for path in tmp_path.rglob("*") if "dryfit.sqlite" not in path.name}
    with pytest.raises(Trouble, match=told) as caught:
        unpack(store, make())
    assert caught.value.finding.way_out
    assert rebuilds(store) == []
    assert {p for p in tmp_path.rglob("*") if "dryfit.sqlite" not in p.name} == before


def test_a_zip_that_swells_in_many_pieces_is_refused(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Photographs that are each small enough must not fill the disk together."""
    monkeypatch.setattr(unzip, "MOST_UNPACKED", 3_000_000)
    files = {f"photographs/{n:064x}.jpg": bytes(1_000_000) for n in range(4)}
    with pytest.raises(Trouble, match=r"swells to 0\.0 GB"):
        unpack(store, zipped({"rebuild.yaml": TEXT} | files))
    assert rebuilds(store) == []


def entry(**changed: object) -> dict[str, object]:
    """Write an entry of a journal, some of it changed."""
    sound = {"number": 1, "kind": "step", "at": "2026-01-02T03:04:05+00:00", "name": "a"}
    return {**sound, "note": "", "how": {}, "strikes": None, **changed}


LISTS = {
    "no list": b"{}",
    "no JSON": b"[",
    "too deep": b"[" * 100_000,
    "no groups": b"[1]",
    "another kind": json.dumps([entry(kind="magic")]).encode(),
    "no number": json.dumps([entry(number="1")]).encode(),
    "a truth for a number": json.dumps([entry(number=True)]).encode(),
    "no time": json.dumps([entry(at="soon")]).encode(),
    "no name": json.dumps([entry(name=7)]).encode(),
    "how is a list": json.dumps([entry(how=["a"])]).encode(),
    "how holds a number": json.dumps([entry(how={"a": 1})]).encode(),
    "one number twice": json.dumps([entry(), entry()]).encode(),
    "strikes what is not there": json.dumps([entry(kind="struck out", strikes=9)]).encode(),
    "strikes itself": json.dumps([entry(kind="struck out", strikes=1)]).encode(),
    "strikes twice": json.dumps(
        [entry(), *(entry(kind="struck out", strikes=1, number=n) for n in (2, 3))]
    ).encode(),
    "too long": json.dumps([entry(name="x" * 100_000)]).encode(),
    "cannot be seen": json.dumps([entry(name="\u0007")]).encode(),
    "an empty reading": json.dumps(
        [entry(kind="reading", check="a", typed=" ", instrument="", state="")]
    ).encode(),
}


@pytest.mark.parametrize("name", LISTS)
def test_a_journal_that_is_none_is_refused(store: Store, name: str) -> None:
    """A journal somebody has tampered with is refused whole: no half of it comes in."""
    with pytest.raises(Trouble) as caught:
        unpack(store, zipped({"rebuild.yaml": TEXT, "journal.json": LISTS[name]}))
    assert caught.value.finding.way_out
    assert rebuilds(store) == []


@pytest.mark.parametrize("name", ["../../x", "0" * 63, 7, "0" * 64 + "/.."])
def test_a_list_of_photographs_names_hashes_alone(store: Store, name: object) -> None:
    """A list that names a path in the place of a photograph is refused."""
    rows = json.dumps([{**LISTED, "photograph": name}]).encode()
    files = {"rebuild.yaml": TEXT, "photographs.json": rows}
    with pytest.raises(Trouble, match=r"photographs\.json"):
        unpack(store, zipped(files))
    assert rebuilds(store) == []


@settings(
    max_examples=max(200, settings().max_examples),
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(more=st.data())
def test_a_broken_zip_never_ends_in_a_failure(store: Store, more: st.DataObject) -> None:
    """Whatever has happened to a zip on its way: a rebuild comes of it, or a message."""
    data = bytearray(zipped({"rebuild.yaml": TEXT, "journal.json": b"[]"}).getvalue())
    for _ in range(more.draw(st.integers(1, 4))):
        at = more.draw(st.integers(0, len(data) - 1))
        data[at : at + more.draw(st.integers(0, 2))] = more.draw(st.binary(max_size=3))
    before = len(rebuilds(store))
    try:
        done = unpack(store, BytesIO(bytes(data)))
    except Trouble:
        assert len(rebuilds(store)) == before
    else:
        assert newest(store, done.revision.rebuild).text.encode() == TEXT
