"""So many of a square are wanted, though its pattern says nothing of it: asked for at work, kept with the piece."""

from pathlib import Path

import pytest
from on_the_hook import NOW_MS

from tracker.run import Desk, open_desk
from tracker.session.apply import Say
from tracker.session.understand import understand

SQUARE = """WINDOW SQUARE

Ch 14.
Row 1 (RS): Dc in 4th ch from hook (counts as dc) and in each ch across. (12 dc)
Row 2: Turn, ch 1, sc in each st across. (12 sc)

Fasten off. Weave in ends.
"""
PARTS = SQUARE.replace("Ch 14.", "FRONT\nCh 14.") + "\nBACK\n" + SQUARE.partition("\n\n")[2]


def said(desk: Desk, *lines: str) -> str:
    """What the last of some lines makes it say."""
    words = ""
    for line in lines:
        deed = understand(line)
        assert deed is not None, line
        words = " ".join(effect.text for effect in desk.do(deed, NOW_MS) if isinstance(effect, Say))
    return words


def opened(folder: Path, text: str = SQUARE) -> Desk:
    """The piece, as a sitting opens it."""
    return open_desk(folder / "square.journal", "square", "square.txt", text, None, NOW_MS).desk


@pytest.mark.parametrize("words", ["make 30", "make thirty", "make 30 of these", "Make 30 squares"])
def test_so_many_are_asked_for_at_work(tmp_path: Path, words: str) -> None:
    """The place stays, and so does what can be taken back."""
    desk = opened(tmp_path)
    place = desk.session.place if said(desk, "next", "next") else None
    assert said(desk, words) == "Thirty of these. This is square one of thirty."
    assert desk.session.place == place
    assert "Square one of thirty." in said(desk, "where am i")
    assert said(desk, "undo").startswith("Taken back. Row one, right side.")
    desk.close()


def test_they_are_made_one_after_another_and_are_known_the_next_day(tmp_path: Path) -> None:
    """Also by whoever opens the piece again."""
    desk = opened(tmp_path)
    said(desk, "make 3")
    words = ""
    while not words.startswith("Now square two of three."):
        words = said(desk, "next")
    desk.close()
    again = opened(tmp_path)
    assert "quare two of three." in said(again, "where am i")
    assert said(again, "what is finished").startswith("One of three squares finished")
    again.close()


def test_what_cannot_be_is_said(tmp_path: Path) -> None:
    """Fewer than are begun, none, and of a piece in parts."""
    desk = opened(tmp_path)
    said(desk, "make 2")
    while desk.session.place[1] == 1:
        said(desk, "next")
    assert said(desk, "make 1") == "You are at number two already: make at least so many."
    assert said(desk, "make 0").startswith("Make at least one of it")
    assert "quare two of two." in said(desk, "where am i")
    desk.close()
    (tmp_path / "parts").mkdir()
    parts = opened(tmp_path / "parts", PARTS)
    assert said(parts, "make 30").startswith("This piece has several parts.")
    parts.close()


def test_a_finished_piece_has_nothing_left_to_do(tmp_path: Path) -> None:
    """No minute of work is promised for it."""
    desk = opened(tmp_path)
    while desk.session.place != desk.session.program.end:
        said(desk, "next")
    assert said(desk, "how long will it take") == "Nothing is left: the piece is finished."
    desk.close()
