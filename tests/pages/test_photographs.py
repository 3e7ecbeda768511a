"""Photographs on the pages: taken in, shown, and what is none."""

from io import BytesIO

import pytest
from PIL import Image
from playwright.sync_api import FilePayload, Page, expect
from tests.pages.visiting import HOME, Visitor
from tests.store.samples import telephone_jpeg
from tests.store.test_photographs import png_of_size

from dryfit.store.photographs import add_photograph, pictures


def sent(data: bytes, name: str = "p.jpg") -> dict[str, tuple[str, bytes]]:
    """Send a file as the form does."""
    return {"photograph": (name, data)}


def upload(visitor: Visitor, unit: int, data: bytes, status: int = 200, **typed: str) -> str:
    """Post the form of photographs."""
    fields = {"place": '["photographs"]', "back": "strip", **typed}
    return visitor.post(f"/unit/{unit}/photograph", status, files=sent(data), **fields)


def form_in(shown: str) -> str:
    """Give the form of photographs out of a page."""
    return shown.partition('id="photographs"')[2].partition("</form>")[0]


def test_a_photograph_is_kept_with_what_it_shows(visitor: Visitor) -> None:
    """A photograph from a telephone stands on the page, small, with its part and its words."""
    unit = visitor.demo()
    shown = upload(visitor, unit, telephone_jpeg(), shows="cover", caption="arrow <up>")
    (kept,) = pictures(visitor.store, unit)
    assert (kept.shows, kept.caption) == ("cover", "arrow <up>")
    assert f"/unit/{unit}/photograph/small/{kept.sha256}" in shown
    assert "arrow &lt;up&gt;" in shown


def test_it_is_shown_upright_and_without_where_it_was_taken(visitor: Visitor) -> None:
    """What is shown is an upright JPEG without place or camera, in full and small."""
    unit = visitor.demo()
    upload(visitor, unit, telephone_jpeg())
    (kept,) = pictures(visitor.store, unit)
    for path, most in (
        (f"photograph/{kept.sha256}", 10**6),
        (f"photograph/small/{kept.sha256}", 480),
    ):
        answer = visitor.client.get(f"/unit/{unit}/{path}")
        assert answer.headers["content-type"] == "image/jpeg"
        assert answer.headers["x-content-type-options"] == "nosniff"
        image = Image.open(BytesIO(answer.content))
        assert max(image.size) <= most
        assert (image.width > image.height) == (kept.width > kept.height)
        assert not image.getexif()


REFUSED = {
    "nothing": (b"", "he file is empty"),
    "a text": (b"dryfit: 1\n", "no photograph that can be read"),
    "a script that says it is one": (b"<svg onload='alert(1)'/>", "no photograph that can be read"),
    "100 megapixels": (png_of_size(10_000, 10_000), "megapixels"),
    "half a photograph": (telephone_jpeg()[:500], "photograph"),
    "20.5 MB": (telephone_jpeg() + b"\0" * 20_500_000, "at most 20 MB"),
}


def test_no_photograph_chosen_is_no_empty_one(visitor: Visitor) -> None:
    """Who presses the button without a file is told to choose one."""
    unit = visitor.demo()
    shown = visitor.post(f"/unit/{unit}/photograph", 422, back="strip", place='["photographs"]')
    assert "o photograph was chosen" in shown


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_photograph_is_told_beside_the_form(visitor: Visitor, name: str) -> None:
    """A file that is none, or too large, is refused with the limit; words and part stay typed."""
    unit = visitor.demo()
    data, words = REFUSED[name]
    shown = upload(visitor, unit, data, 422, shows="cover", caption="arrow on the flange")
    assert words in form_in(shown)
    assert "Way out:" in form_in(shown)
    assert 'value="arrow on the flange"' in form_in(shown)
    assert "<option selected>cover" in form_in(shown)
    assert pictures(visitor.store, unit) == []


def test_more_than_21_mb_is_not_even_taken_in(visitor: Visitor) -> None:
    """Far too much is told with the limit, and the way back to what was typed."""
    unit = visitor.demo()
    shown = upload(visitor, unit, b"\0" * 22_000_000, 413)
    assert "21 MB" in shown
    assert "go back" in shown


def test_words_that_are_too_long_are_told(visitor: Visitor) -> None:
    """A caption of a book is refused, and the photograph with it; the caption is still there."""
    unit = visitor.demo()
    shown = upload(visitor, unit, telephone_jpeg(), 422, caption="x" * 2_001)
    assert "x" * 2_001 in form_in(shown)
    assert "Way out:" in form_in(shown)


@pytest.mark.parametrize(
    "name", ["0" * 64, "../../../etc/passwd", "..%2f..%2fdryfit.sqlite", "%2e%2e/key", "a" * 5_000]
)
@pytest.mark.parametrize("page", ["photograph", "photograph/small"])
def test_only_a_hash_of_this_unit_opens_anything(visitor: Visitor, page: str, name: str) -> None:
    """No address reaches a file of this machine but a photograph of the unit it names."""
    unit = visitor.demo()
    upload(visitor, unit, telephone_jpeg())
    assert visitor.client.get(f"/unit/{unit}/{page}/{name}").status_code == 404


def test_a_photograph_of_another_unit_is_not_shown_here(visitor: Visitor) -> None:
    """The address of a unit shows the photographs of that unit alone."""
    first, second = visitor.demo(), visitor.demo()
    kept = add_photograph(visitor.store, first, telephone_jpeg())
    assert visitor.client.get(f"/unit/{first}/photograph/{kept.sha256}").status_code == 200
    assert visitor.client.get(f"/unit/{second}/photograph/{kept.sha256}").status_code == 404


def test_a_photograph_from_another_site_is_not_taken(visitor: Visitor) -> None:
    """A form of another page cannot put photographs into a unit."""
    unit = visitor.demo()
    answer = visitor.client.post(
        f"/unit/{unit}/photograph", files=sent(telephone_jpeg()), headers={"origin": "http://x"}
    )
    assert answer.status_code == 403
    assert HOME not in answer.text
    assert pictures(visitor.store, unit) == []


def test_a_photograph_is_taken_in_the_browser(page: Page) -> None:
    """From the form to the picture on the page, with what it shows beside it."""
    page.get_by_role("button", name="bevel box", exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    page.goto(page.url.replace("measure", "strip"))
    photo: FilePayload = {
        "name": "p.jpg",
        "mimeType": "image/jpeg",
        "buffer": telephone_jpeg(),
    }
    page.get_by_label("Take one, or choose one").set_input_files(photo)
    page.get_by_label("It shows").select_option("cover")
    page.get_by_label("What is to be seen").fill("one dot")
    page.get_by_role("button", name="Keep the photograph").click()
    shot = page.locator(".shots img")
    expect(shot).to_have_attribute("alt", "one dot")
    assert shot.evaluate("one => one.decode().then(() => one.naturalWidth)") > 0
    assert page.get_by_label("Take one, or choose one").get_attribute("accept") == "image/*"
    expect(page.locator("#apart")).not_to_contain_text("being worked out", timeout=60_000)
