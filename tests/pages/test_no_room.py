"""A disk that is full, or may not be written to: told at once, and what was typed stays."""

import pytest
from tests.pages.visiting import Visitor


def limited(visitor: Visitor, pages: int) -> None:
    """Let the database have so many pages more than it has, as on a full disk."""
    database = visitor.store.database
    most = database.number("page_count") + pages
    database.number(f"max_page_count = {most}")


def read_only(visitor: Visitor) -> None:
    """Let nothing be written any more, as on a disk that was closed."""
    with visitor.store.database.reading() as connection:
        connection.execute("PRAGMA query_only = ON")


BOX: dict[str, str] = {
    "act": "set",
    "place": '["sizes", "sleeve"]',
    "back": "measure",
    "at": "sleeve",
}


def test_a_full_disk_is_told_and_the_size_stays_in_its_box(visitor: Visitor) -> None:
    """No room left: the page says so, with the way out, and the size is still in the box."""
    unit = visitor.demo("bevel-box")
    limited(visitor, 1)
    told = ""
    for number in range(200):
        answer = visitor.client.post(
            f"/unit/{unit}/edit",
            data={**BOX, "typed": f"22.{number:04}"},
            headers={"origin": str(visitor.client.base_url).rstrip("/")},
        )
        if answer.status_code != 200:
            told = answer.text
            break
    assert answer.status_code == 422
    assert "no room" in told.lower()
    assert "free some space" in told.lower()
    assert f"22.{number:04}" in told
    assert f"22.{number:04}" not in visitor.text(unit)
    limited(visitor, 100)
    visitor.post(f"/unit/{unit}/edit", 200, **BOX, typed="22.9")
    assert "sleeve: 22.9" in visitor.text(unit)


@pytest.mark.parametrize("page", ["measure", "strip", "book", "text", "history"])
def test_a_closed_disk_can_still_be_read(visitor: Visitor, page: str) -> None:
    """Where nothing may be written all can be read, and a change says why it was not kept."""
    unit = visitor.demo("lay-shaft")
    before = visitor.text(unit)
    read_only(visitor)
    assert visitor.read(f"/unit/{unit}/{page}")
    told = visitor.post(f"/unit/{unit}/edit", 422, act="set", place='["title"]', typed="Mine")
    assert "may not be written" in told.lower()
    assert "Mine" in told
    assert visitor.text(unit) == before
