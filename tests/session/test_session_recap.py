"""Coming back: the recap, the question whether the group in hand was begun or done, the side the tail tells."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from on_the_hook import NOW_MS, PATTERNS, at_hand, program_of, walked, worked

from tracker.mouth.espeak import Espeak
from tracker.mouth.port import Manner
from tracker.program.facing import tail_corner
from tracker.run import Opened, open_desk
from tracker.session.piece.recap import begun_or_done, recap
from tracker.session.state import Session
from tracker.session.understand import understand

HERE = Path(__file__).resolve().parents[1]
MINUTE_MS, MONTH_MS = 60_000, 30 * 86_400_000
PANEL = at_hand()


def at(*lines: str, name: str = "harbour-windows") -> Session:
    """A session some lines on."""
    return worked(at_hand(name), *lines)[0]


ROW_NINE = at("row 9", "yes", "next", "next", "next")


def test_a_month_later_the_hook_the_side_and_what_stands_are_told() -> None:
    """Row and what it repeats, hook, side by the tail, squares, and the question."""
    back = recap(ROW_NINE, MONTH_MS)
    assert back.whole == (
        "Row nine, which is row three. Hook one point five. Tail lower left: right side. Two blocks, one window done. "
        "Is that block closed by its double crochet? Yes moves on; no says it again."
    )


def test_a_minute_later_it_is_short() -> None:
    """The hook is still in their hand."""
    back = recap(ROW_NINE, MINUTE_MS)
    assert (
        back.whole
        == back.aloud
        == (
            "Row nine, which is row three. Two blocks, one window done. Is that block closed by its double crochet?"
        )
    )


def test_yes_moves_on_and_no_says_it_again() -> None:
    """Done, or only begun."""
    asked = recap(ROW_NINE, MONTH_MS).asked
    session = replace(ROW_NINE, asked=asked)
    assert worked(session, "tell me more")[0].asked == asked
    assert worked(session, "yes")[0].place == ROW_NINE.program.next(ROW_NINE.place)
    stayed, said = worked(session, "no")
    assert stayed.place == ROW_NINE.place
    assert said[0].startswith("Block: double crochet in the space, double crochet.")


def test_between_groups_nothing_is_asked() -> None:
    """At a row's end the count is due; at the end the piece is finished."""
    session = at("row 3", "yes", "back")
    back = recap(session, MONTH_MS)
    assert back.asked is None
    assert back.said.endswith("Row two: sixteen squares, eight open. Count, then turn.")
    assert recap(replace(session, place=session.program.end), MONTH_MS).whole == "The piece is finished."


@pytest.mark.parametrize(
    "lines, name, question",
    [
        ((), "harbour-windows", "Are those thirty-five chains made?"),
        (("row 2", "yes"), "harbour-windows", "Is that chain three made?"),
        (("row 2", "yes", "next"), "harbour-windows", "Are those four double crochet done?"),
        (("row 2", "yes", "next", "next"), "harbour-windows", "Is that window closed by its double crochet?"),
        (("row 2", "yes", "row by row"), "harbour-windows", "Is row two done?"),
        (("row 2", "yes", "next", "stitch by stitch", "next"), "harbour-windows", "Is that stitch made?"),
        (("row 3", "yes", "next"), "spindrift-coasters", "Are those seventeen double crochet done?"),
    ],
)
def test_the_question_is_about_the_group_in_hand(lines: tuple[str, ...], name: str, question: str) -> None:
    """In the pattern's own terms."""
    session = at(*lines, name=name)
    assert begun_or_done(session.program, session.place, session.stride) == question


def test_the_tail_changes_sides_at_every_turn_and_for_a_left_handed_maker() -> None:
    """Lower left while row 1's side faces a right-handed maker (common practice, no source)."""
    program = PANEL.program
    right = [tail_corner(program, program.row_start(program.start, row), False) for row in (1, 2, 3, 13)]
    left = [tail_corner(program, program.row_start(program.start, row), True) for row in (1, 2, 3, 13)]
    assert right == ["lower left", "lower right", "lower left", "lower left"]
    assert left == ["lower right", "lower left", "lower right", "lower right"]
    mirrored = program_of((PATTERNS / "harbour-windows.txt").read_text(encoding="utf-8"), left_handed=True)
    session = replace(ROW_NINE, program=mirrored)
    assert "Tail lower right: right side." in recap(session, MONTH_MS).said


@pytest.mark.parametrize("name", ["harbour-windows", "spindrift-coasters", "pebble-cloth"])
@pytest.mark.parametrize("away_ms", [MINUTE_MS, MONTH_MS])
def test_a_recap_is_said_in_ten_seconds_with_its_question(name: str, away_ms: int) -> None:
    """As the voice that is always there says it, at the usual speed."""
    voice = Espeak(Manner())
    session = at_hand(name)
    for place in list(walked(session.program))[::17]:
        words = recap(replace(session, place=place), away_ms).aloud
        assert voice.make(words).seconds < 10, words


@pytest.mark.parametrize(
    "text, corner",
    [
        ("MAT\n\nCh 4, join with sl st to form ring.\nRnd 1: Ch 1, 6 sc in ring, join. (6 sc)\n", ""),
        ("SCARF\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
         "Row 2: Ch 1, turn, sc in each st. (8 sc)\nRows 3-1000000: Rep Row 2.\n", "lower right"),
    ],
)  # fmt: skip
def test_in_the_round_the_tail_tells_nothing_and_in_long_pieces_it_is_counted_at_once(
    text: str, corner: str
) -> None:
    """A million rows are not gone through one by one."""
    program = program_of(text)
    last = 1 if program.fabric.length == 1 else 999_998
    assert tail_corner(program, program.row_start(program.start, last), False) == corner


def test_more_tells_all_there_is() -> None:
    """Title, last row, stitches by kind, the group, notes of the row, the card."""
    session = replace(worked(ROW_NINE, "note the new ball begins")[0], card=(("yarn", "harbour grey"),))
    said = worked(session, "catch me up")[1][0]
    for words in (
        "The last is row fifteen.",
        "On the row: six double crochet, one chain-one space. Three of sixteen squares.",
        "Your note here: the new ball begins.",
        "Hook one point five. Yarn: harbour grey.",
    ):
        assert words in said


def opened_at(file: Path, text: str, at_ms: int) -> Opened:
    return open_desk(file, "harbour-windows.txt", "harbour-windows.txt", text, None, at_ms)


def test_a_journal_of_the_first_edition_still_opens_at_its_place(tmp_path: Path) -> None:
    """Steps, a jump, a count, strides, undo and redo, written before there were copies, marks and cards."""
    file = tmp_path / "first-edition.journal"
    shutil.copy(HERE / "journals" / "first-edition.journal", file)
    text = (PATTERNS / "harbour-windows.txt").read_text(encoding="utf-8")
    opened = opened_at(file, text, NOW_MS)
    try:
        assert opened.notices == ()
        session = opened.desk.session
        assert session.place == (0, 1, 9, 0, 3, 1, 0)
        for line in ("no", "undo", "undo", "redo", "mark this", "next"):
            deed = understand(line)
            assert deed is not None
            opened.desk.do(deed, NOW_MS)
        place = opened.desk.session.place
    finally:
        opened.desk.close()
    again = opened_at(file, text, NOW_MS + MINUTE_MS)
    again.desk.close()
    assert again.desk.session.place == place
    assert len(again.desk.session.marks) == 1
