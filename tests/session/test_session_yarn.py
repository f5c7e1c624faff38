"""Yarn while the work goes on: balls and finished pieces weighed, "is there enough for this row?", blocked sizes noted."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from on_the_hook import NOW_MS, kept, program_of

from tracker.cli import main
from tracker.planning.balls import Took, rate_of, reach, tenths_of
from tracker.planning.yarn import of_element
from tracker.run import open_desk
from tracker.session.apply import Say, apply
from tracker.session.record.blocked import tick_lines
from tracker.session.record.yarn import Amounts, amounts_of
from tracker.session.replay import Kept, replayed
from tracker.session.state import Session, begun
from tracker.session.understand import understood

MAT = begun(
    program_of(
        """FERRY MAT
Make 3 squares. US terms.

Ch 21.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2-10: Ch 1, turn, sc in each sc across. (20 sc)
Fasten off.

FINISHING
Block each square.
"""
    )
)
STRIPES = begun(
    program_of(
        """PIER STRIPES
Materials: worsted wool in rust (A) and cream (B), 50 g = 100 m; 5 mm hook. US terms.

With A, ch 21.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2 (B): Ch 1, turn, sc in each sc across. (20 sc)
Row 3 (A): Ch 1, turn, sc in each sc across. (20 sc)
Row 4 (B): Ch 1, turn, sc in each sc across. (20 sc)
Row 5 (A): Ch 1, turn, sc in each sc across. (20 sc)
Fasten off.
"""
    )
)


def after(session: Session, *lines: str) -> tuple[Session, list[str], list[Kept]]:
    """The session after lines as they are typed, what was said, and what the journal has."""
    said: list[str] = []
    journal: list[Kept] = []
    for line in lines:
        deed = understood(line, session)
        assert deed is not None, line
        session, effects = apply(session, deed, NOW_MS)
        said += [effect.text for effect in effects if isinstance(effect, Say)]
        journal += [Kept(keep.deed, keep.arguments, session.place) for keep in kept(effects)]
    return session, said, journal


def test_a_ball_weighed_twice_tells_whether_the_row_is_in_it() -> None:
    """Five rows of twenty took ten grams: two grams a row, so that eight grams do for this one and two more."""
    lines = ("row 2", "yes", "the ball weighs 18 grams", "row 7", "yes", "ball 8 g")
    session, _, _ = after(MAT, *lines)
    _, said, _ = after(session, "is there enough for this row?")
    assert said == [
        "Enough for row seven: it takes about two grams, and about eight are left; that does for about two rows more."
    ]
    _, said, _ = after(session, "row 10", "yes", "enough")
    assert said[-1].startswith("It may just do for row ten"), said
    _, said, _ = after(session, "row 10", "yes", "ball 1 g", "enough")
    assert said[-1].startswith("Not enough for row ten"), said


def test_what_is_left_is_counted_on_from_the_last_weighing() -> None:
    """Nobody weighs at every row: what was worked since is taken off."""
    session, _, _ = after(MAT, "row 2", "yes", "ball 40 g", "row 7", "yes", "ball 30 g", "row 9", "yes")
    _, said, _ = after(session, "yarn so far")
    assert said[-1].endswith("About twenty-six grams should be left of the ball."), said


def test_without_a_second_weighing_it_says_what_is_lacking() -> None:
    """No figure is made up."""
    _, said, _ = after(MAT, "is there enough", "ball 40 g", "is there enough")
    assert "Weigh the ball and tell me" in said[0]
    assert "Weigh the ball again after a row or two" in said[-1]


def test_a_finished_piece_weighed_makes_it_better() -> None:
    """Ten rows of twenty weigh twenty grams: the whole three take sixty, with a narrower range."""
    _, said, _ = after(MAT, "row by row", *["next"] * 12, "this one weighs 20 grams", "yarn so far")
    assert said[-2] == "A finished one weighs twenty grams. The whole takes about sixty grams."
    assert said[-1].endswith("That is by the finished ones you weighed.")
    _, refused, _ = after(MAT, "this one weighs 20 grams")
    assert refused == ["Nothing is finished yet that could be weighed; weigh the ball instead."]


def test_of_two_colours_only_the_one_in_hand_counts() -> None:
    """The cream ball says nothing of the rust one; the label's metres and grams make a rough answer, said to be one."""
    session, said, _ = after(STRIPES, "row 2", "yes", "ball 10 g", "row 3", "yes", "enough")
    assert said[-1].startswith(
        "Row three takes as much yarn as twenty single crochet of A. Weigh the ball"
    ), said
    _, said, _ = after(session, "row 4", "yes", "enough")
    assert said[-1].startswith("Enough for row four of B")
    assert said[-1].endswith("That is rough, by the label: weigh the ball again after a row or two.")


def test_a_ball_that_grew_is_a_new_one_and_undo_takes_a_weighing_back() -> None:
    """Between two balls nothing can be told."""
    session, said, _ = after(MAT, "row 2", "yes", "ball 20", "row 5", "yes", "ball 50 g")
    assert said[-1] == "The ball weighs fifty grams: more than before, so it is taken for a new one."
    back, said, _ = after(session, "undo")
    assert said[-1].startswith("Taken back: what you weighed.")
    assert back.weighed == session.weighed[:1]


def test_weighings_and_sizes_come_back_out_of_the_journal() -> None:
    """Replaying is having been there."""
    lines = ["ball 40 g", "row by row", *["next"] * 12, "this one weighs 21.5 g", "blocked 12 cm"]
    session, _, journal = after(MAT, *lines)
    assert session.weighed
    assert session.blocked == (((0, 1), "12 cm"),)
    again = replayed(MAT.program, journal)
    assert (again.weighed, again.blocked, again.place) == (session.weighed, session.blocked, session.place)


def test_the_blocked_size_of_each_is_noted_and_one_that_is_off_is_named() -> None:
    """One after the other, or by its number; a list to tick off."""
    finished = ["row by row", *["next"] * 34]
    session, said, _ = after(MAT, *finished, "blocked 12 cm", "blocked 12 x 12 cm", "blocked square 3: 11 cm")
    assert said[-3] == "Square one of three: 12 cm. Two more to measure."
    assert (
        said[-1]
        == "Square three of three: 11 cm. Smaller than most of them; block it again before you join it."
    )
    assert [line[:3] for line in tick_lines(session)] == ["[x]", "[x]", "[x]"]
    _, said, _ = after(session, "what is finished")
    assert "Blocked: Square one of three 12 cm" in said[-1]
    _, said, _ = after(MAT, "blocked 12 cm")
    assert said == ["None is finished yet, so there is no blocked size to note."]


@given(st.integers(1, 3), st.integers(1, 10), st.integers(1, 10))
def test_what_comes_before_a_place_is_all_its_rows_one_by_one(copy: int, row: int, further: int) -> None:
    """Against adding up every stitch of every row, one after another."""
    fabric = MAT.program.fabric
    amounts = amounts_of(MAT)

    def added(copy: int, row: int) -> float:
        one = [sum(map(of_element, placed.worked.elements)) for _, placed in fabric.rows()]
        return sum(one) * (copy - 1) + sum(one[: row - 1])

    assert amounts.at((0, copy, row, 0, 0, 0, 0)) == pytest.approx(added(copy, row))
    assert isinstance(amounts, Amounts)
    assert amounts.until(further) == pytest.approx(added(1, further))


@given(st.floats(0.1, 500), st.floats(0, 500), st.lists(st.floats(0.1, 200), max_size=20))
def test_a_row_said_to_be_enough_is_enough_even_if_it_takes_more(
    left: float, rest: float, rows: list[float]
) -> None:
    """With the range against the maker, and every further row that is promised."""
    rate = rate_of((Took(100, 20),))
    assert rate is not None
    found = reach(left, rest, tuple(rows), rate)
    if found.verdict == "enough":
        assert (rest + sum(rows[: found.further])) * rate.grams * (1 + rate.spread) <= left
    if found.verdict == "short":
        assert rest * rate.grams > left


def test_weights_are_taken_in_grams_and_ounces() -> None:
    """An ounce is 28.3495 g by definition (international avoirdupois ounce)."""
    assert tenths_of("2 oz") == round(20 * 28.349523125)
    assert tenths_of("much") == 0


def test_noted_sizes_are_on_the_sheet_of_a_piece_and_in_its_list(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Worked and noted in one sitting, printed and listed later; the others have a line to write on."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    file, text = tmp_path / "pieces" / "mat.journal", MAT.program.source.text
    desk = open_desk(file, "mat.txt", "mat.txt", text, None, NOW_MS).desk
    try:
        for line in ("row by row", *["next"] * 12, "blocked 12 x 12 cm", "ball weighs 40 g"):
            deed = understood(line, desk.session)
            assert deed is not None
            desk.do(deed, NOW_MS)
    finally:
        desk.close()
    for ending in ("txt", "html", "pdf"):
        assert main(["sheet", "--piece", "1", "-o", str(tmp_path / f"mat.{ending}")]) == 0
    lines = (tmp_path / "mat.txt").read_text(encoding="utf-8")
    assert "Square 1: 12 x 12 cm\nSquare 2: ____ x ____" in lines
    assert '<td colspan="2">12 x 12 cm</td>' in (tmp_path / "mat.html").read_text(encoding="utf-8")
    capsys.readouterr()
    assert main(["pieces", "1"]) == 0
    told = capsys.readouterr().out
    assert "[x] Square one of three: blocked 12 x 12 cm" in told
    assert "[ ] Square two of three: not finished" in told
    assert main(["sheet"]) == 2
    assert "Name a pattern to print, or a piece in hand" in capsys.readouterr().err
    assert main(["sheet", "--piece", "shed"]) == 2
    assert "No piece is called" in capsys.readouterr().err
