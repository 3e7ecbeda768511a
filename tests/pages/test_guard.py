"""Who gets in, how much may be brought, what a page may load."""

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.pages.visiting import HOME, KEY, PORT, HereDesk, Visitor

from dryfit.app.pages import guard, registry
from dryfit.app.pages.guard import Guard
from dryfit.app.pages.showing import STATIC
from dryfit.app.pages.site import site
from dryfit.store.opening import Store

COOKIE = f"dryfit-{PORT}"
TEMPLATES = Path(guard.__file__).parent / "templates"


def client(store: Store, base: str = HOME) -> TestClient:
    """Come as somebody without a key."""
    return TestClient(Guard(site(store, HereDesk()), key=KEY, port=PORT), base_url=base)


@pytest.mark.parametrize("path", ["/", "/copies", "/unit/1/measure", "/static/look.css"])
def test_nobody_gets_in_without_the_key(store: Store, path: str) -> None:
    """Another user of this machine sees nothing, and is told whose pages these are."""
    answer = client(store).get(path)
    assert answer.status_code == 403
    assert "has a key in it" in answer.text


@pytest.mark.parametrize("key", ["", "A-KEY", "a-key-", "é", "a" * 10_000])
def test_a_wrong_key_is_no_key(store: Store, key: str) -> None:
    """Guessing does not help, in the address or in the cookie."""
    assert client(store).get("/", params={"key": key}).status_code == 403
    guesser = client(store)
    sent = {"cookie": f"{COOKIE}={key.encode('ascii', 'ignore').decode()}"}
    assert guesser.get("/", headers=sent).status_code == 403


def test_the_key_leaves_the_address(store: Store) -> None:
    """The key stands in the address once; no history and no picture of the screen holds it."""
    answer = client(store).get("/?key=a-key", follow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["location"] == "/"
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie


@pytest.mark.parametrize("host", ["dryfit.example", "127.0.0.1:1", "localhost", "127.0.0.1.nip.io"])
def test_only_this_machine_by_name(visitor: Visitor, host: str) -> None:
    """A name in the net that is turned to this machine reaches nothing (DNS rebinding)."""
    assert visitor.client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", [None, "null", "http://elsewhere", f"https://127.0.0.1:{PORT}"])
def test_no_other_site_can_post(visitor: Visitor, origin: str | None) -> None:
    """A page open in another tab cannot change a rebuild."""
    headers = {"origin": origin} if origin else {}
    answer = visitor.client.post("/begin", data={"demo": "bevel-box"}, headers=headers)
    assert answer.status_code == 403
    assert "Nothing was changed" in answer.text
    assert "Go on with" not in visitor.read("/")


def test_every_answer_forbids_strange_scripts(visitor: Visitor) -> None:
    """Pages, files, and what went wrong alike load nothing but dryfit's own."""
    unit = visitor.demo()
    for path in ("/", f"/unit/{unit}/book/file/text", "/nowhere", "/static/look.css"):
        policy = visitor.client.get(path).headers["content-security-policy"]
        assert policy.startswith("default-src 'none'; script-src 'self'; style-src 'self'")
        assert "unsafe" not in policy


def test_templates_hold_no_script_or_style_of_their_own() -> None:
    """What the policy forbids is nowhere asked for: it would silently not work."""
    for path in TEMPLATES.glob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"<script(?![^>]*\bsrc=)|<style\b|\sstyle=|\son[a-z]+=", text), path
        assert not re.search(r"https?://|src=\"//", text), path


def test_scripts_are_few() -> None:
    """All scripts together stay within 15 KB, so that a slow laptop is not kept busy."""
    assert 0 < sum(path.stat().st_size for path in STATIC.glob("*.js")) <= 15_000


def test_nothing_outside_is_loaded() -> None:
    """Style sheets and scripts name no other place."""
    for path in STATIC.iterdir():
        text = path.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
        assert "//" not in re.sub(r"^//.*$|/\*.*?\*/|\s//.*$", "", text, flags=re.M | re.S), path


@pytest.mark.parametrize(
    ("path", "most"), [("/bring-in", 100), ("/unit/1/photograph", 21), ("/unit/1/edit", 2)]
)
def test_too_much_is_refused_with_the_limit(visitor: Visitor, path: str, most: int) -> None:
    """200 MB brought by mistake are told with the limit, and fill neither memory nor disk."""
    visitor.demo()
    pieces = (b"x" * 1_000_000 for _ in range(200))
    kind = "multipart/form-data; boundary=x"
    answer = visitor.client.post(
        path, content=pieces, headers={"origin": HOME, "content-type": kind}
    )
    assert answer.status_code in (413, 404) if path not in _acts() else answer.status_code == 413
    if answer.status_code == 413:
        assert f"more than the {most} MB" in answer.text


def _acts() -> set[str]:
    return {f"/{name}" for name in registry.SITE_ACTS} | {
        f"/unit/1/{name}" for name in registry.UNIT_ACTS
    }


@pytest.mark.parametrize(
    "path",
    [
        "/nowhere",
        "/unit/1/nowhere",
        "/unit/99/measure",
        "/unit/99999999999999999999999/measure",
        "/unit/-1/measure",
        "/static/../site.py",
        "/static/%2e%2e/site.py",
        "/unit/1/book/file/../../key",
        "/unit/1/book/sheet/nothing",
    ],
)
def test_what_is_not_there_is_told(visitor: Visitor, path: str) -> None:
    """A wrong address ends in a sentence and a way out; no file beside the pages is given."""
    visitor.demo()
    answer = visitor.client.get(path)
    assert answer.status_code in (404, 500)
    assert KEY not in answer.text
    assert "Traceback" not in answer.text


def test_a_form_that_says_nothing_is_refused(visitor: Visitor) -> None:
    """A post with no fields, or with others, changes nothing and is told so."""
    unit = visitor.demo()
    before = visitor.text(unit)
    for fields in ({}, {"act": "burn", "place": "[1]"}, {"place": "{}"}, {"place": '[["a"]]'}):
        said = visitor.post(f"/unit/{unit}/edit", 422, **fields)
        assert "does not say what is to be changed" in said
    assert visitor.text(unit) == before
