"""What would make a reading of a nipped pair more or less is asked of the model, sign and all."""

from pathlib import Path

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.words import reasons

QUILL = Path(__file__).resolve().parent.parent / "giving" / "quill.yaml"


def test_burr_on_the_outer_spacer_of_a_back_to_back_pair_adds_preload() -> None:
    """A longer outer spacer pushes the outer rings apart: more pull on the cord, less float."""
    asking = Asking(open_text(QUILL.read_text(encoding="utf-8")).rebuild, 100)
    checks = asking.rebuild.checks
    more, less = reasons(asking, checks["cord"], {})
    assert "dirt or a burr on outer spacer" in [reason.words for reason in more]
    assert "dirt or a burr on inner spacer" in [reason.words for reason in less]
    more, less = reasons(asking, checks["end float"], {})
    assert "dirt or a burr on inner spacer" in [reason.words for reason in more]
    assert "dirt or a burr on outer spacer" in [reason.words for reason in less]
    assert all(reason.change is None for reason in (*more, *less))
