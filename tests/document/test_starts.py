"""Every text to start from opens without a stop and says what is still to measure."""

import re

import pytest

from dryfit.app.usecases.begin import kinds, start
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.review import ReviewRequest, review

EMPTY = {"blank"}


@pytest.mark.parametrize("kind", kinds())
def test_start_opens_without_a_stop(kind: str) -> None:
    """Who begins from it is not met by a stop."""
    opened = open_text(start(kind))
    assert [f.message for f in opened.findings if f.level == "stop" and kind not in EMPTY] == []


@pytest.mark.parametrize("kind", [kind for kind in kinds() if kind not in EMPTY])
def test_start_asks_for_its_sizes(kind: str) -> None:
    """What is not known yet is listed, one line each."""
    assert len(review(ReviewRequest(start(kind))).lacking) >= 3


@pytest.mark.parametrize("kind", [kind for kind in kinds() if kind not in EMPTY])
def test_start_filled_in_is_answered(kind: str) -> None:
    """With some size typed for each that is not known every check is answered or told why not."""
    filled = re.sub(rb"bore: not known", b"bore: 40", start(kind))
    filled = re.sub(rb"outside: not known", b"outside: 80", filled)
    filled = re.sub(rb"set width: not known", b"set width: 20.75", filled)
    filled = re.sub(rb"width: not known", b"width: 18", filled)
    left = review(ReviewRequest(filled)).lacking
    assert not [size.key for size in left if size.key.endswith("width")]
