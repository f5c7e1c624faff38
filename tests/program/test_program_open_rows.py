"""Rows that go on until the piece is long enough: worked over and over, led through, and ended by the maker."""

import pytest
from on_the_hook import NOW_MS

from tracker.fabric.model import Fabric
from tracker.load import load
from tracker.program.open_rows import going_on, open_ranges, opened
from tracker.program.places import Program, Stride
from tracker.session import deeds
from tracker.session.apply import Keep, Say, apply
from tracker.session.replay import Kept, replayed
from tracker.session.seen.view import view
from tracker.session.state import Session, begun

SCARF = """RILL SCARF
Ch 20.
Row 1: Dc in 4th ch from hook (skipped chs count as dc) and in each ch across. (18 dc)
Row 2: Ch 3 (counts as dc), turn, dc in each st across. (18 dc)
Row 3: Ch 1, turn, sc in each st across. (18 sc)
Rep Rows 2 and 3 until piece measures 30 cm, ending with a Row 3. Fasten off.
"""
"""Made up for this test: every second row has eighteen of the other stitch, whatever was worked before it."""


def program_led(text: str) -> Program:
    loaded = load("made-up.txt", text)
    fabric, problems = opened(loaded.source, loaded.pattern, loaded.fabric, loaded.problems)
    return Program(loaded.source, loaded.pattern, fabric, problems)


def made(fabric: Fabric, *rows: int) -> list[dict[str, int]]:
    return [fabric.row(at).worked.makes for at in rows]


def test_rows_that_go_on_are_worked_over_and_over_and_numbered() -> None:
    """Row 2 and Row 3 in turn, from Row 4 on; the pattern's own listing is not touched."""
    program = program_led(SCARF)
    assert load("made-up.txt", SCARF).fabric.length == 3
    assert [program.fabric.row(at).label for at in (4, 5, 90, 91)] == ["Row 4", "Row 5", "Row 90", "Row 91"]
    assert made(program.fabric, 4, 5, 90, 91) == [{"dc": 18}, {"sc": 18}] * 2
    assert [going.may_end for at in (4, 5, 90, 91) if (going := going_on(program, at))] == [False, True] * 2
    assert going_on(program, 3) is None


@pytest.mark.parametrize(
    "words, makes",
    [
        ("Rep Row 2 until piece measures 10 cm.", [{"dc": 18}, {"dc": 18}]),
        ("Row 4 onwards: Repeat Row 3 until the piece measures 9 inches.", [{"sc": 18}, {"sc": 18}]),
        ("Row 4: Ch 3 (counts as dc), turn, dc in same st, dc in each st across. (19 dc)\nRep Row 4 until it is 40 cm wide.",
         [{"dc": 20}, {"dc": 21}]),
    ],
    ids=["one row", "with a label", "growing"],
)  # fmt: skip
def test_what_goes_on_may_be_one_row_and_may_grow(words: str, makes: list[dict[str, int]]) -> None:
    """Each row that grows is worked onto the one before it."""
    program = program_led(SCARF.partition("Rep")[0] + words + "\n")
    rows = program.fabric.length - load("made-up.txt", SCARF.partition("Rep")[0] + words).fabric.length
    assert rows > 100
    first = 5
    assert made(program.fabric, first, first + 1) == makes


def test_what_is_not_understood_or_names_only_a_beginning_stays_in_its_own_words() -> None:
    """A count is not claimed of rows that nobody knows."""
    for words in (
        "Rep Rows 2 and 9 until piece measures 30 cm.",
        "Repeat from Row 2 until it measures 30 cm.",
    ):
        assert open_ranges(program_led(SCARF.partition("Rep")[0] + words + "\n")) == ()


class Work:
    """A piece led, with what was said and kept."""

    def __init__(self, text: str) -> None:
        self.session: Session = begun(program_led(text))
        self.kept: list[Kept] = []

    def says(self, deed: deeds.Deed) -> str:
        self.session, effects = apply(self.session, deed, NOW_MS)
        self.kept += [Kept(e.deed, e.arguments, self.session.place) for e in effects if isinstance(e, Keep)]
        return " ".join(effect.text for effect in effects if isinstance(effect, Say))


def test_they_are_led_row_by_row_until_the_maker_says_that_it_is_long_enough() -> None:
    """Told as they begin, asked about where they may end; no ends them, and what comes behind is told."""
    work = Work(SCARF)
    work.says(deeds.SetStride(Stride.ROW))
    heard = [work.says(deeds.Onward()) for _ in range(7)]
    assert heard[3].startswith(
        "Repeat rows two and three until piece measures thirty centimetres, ending with a row three. "
        "Row four is row two. Two and three, second time."
    )
    asked = ["", " Once it is long enough, say no. More rows?", "", " More rows?"]
    assert [words.rpartition("Count.")[2] for words in heard[3:]] == asked
    assert work.says(deeds.No()) == "Fasten off. The piece is finished."
    assert work.session.ended == (((0, 1), 7),)
    assert work.says(deeds.Back()).startswith("Row seven is row three.")
    assert work.says(deeds.Yes()).startswith("Row eight is row two.")
    again = replayed(work.session.program, work.kept)
    assert (again.place, again.ended, again.laid) == (
        work.session.place, work.session.ended, work.session.laid,
    )  # fmt: skip


def test_in_the_middle_of_a_row_and_elsewhere_nothing_is_ended() -> None:
    """The row is finished first; a count asked for there is no answer to it."""
    work = Work(SCARF)
    assert work.says(deeds.LongEnough()) == "No row here goes on until it is long enough."
    while work.session.place[2] < 5:
        work.says(deeds.Onward())
    work.says(deeds.Onward())
    assert work.says(deeds.LongEnough()) == "Finish row five first."
    work.says(deeds.Onward())
    assert work.says(deeds.Count(18)) == "Eighteen. That is right. More rows?"
    assert view(work.session).asked == "More rows?"
    assert work.says(deeds.No()) == "Fasten off. The piece is finished."


def test_rows_behind_are_not_counted_on_from_what_nobody_knows() -> None:
    """ "Next row" stays "Next row"; the row under it is called by its words, and turned from as its own say."""
    text = (
        SCARF.replace("Fasten off.", "")
        + "Next row: Turn, ch 1, sc in each st across. (18 sc)\nFasten off.\n"
    )
    work = Work(text)
    while work.session.place[2] < 5:
        work.says(deeds.Onward())
    work.says(deeds.Onward())
    work.says(deeds.Onward())
    assert work.says(deeds.No()).startswith("Turn. Next row.")
    assert "Row three, from where you begin: eighteen single crochet" in work.says(deeds.Ask("below"))


def test_rows_without_a_number_are_told_by_their_time_and_turned_once() -> None:
    """A row that is turned at its own end was told so before the question."""
    text = (
        "SLIPOVER\nUK terminology\nMake 20 ch.\n"
        "Foundation row: 1 htr in 3rd ch from hook, 1 htr in each ch to end, turn. 19 htr.\n"
        "Patt row: 2 ch (counts as 1 htr), miss first htr, 1 htr in each htr to end, turn. 19 htr.\n"
        "Rep patt row until work measures 28 cm.\nNext row: 1 ch, 1 dc in each htr to end, turn. 19 dc.\n"
    )
    work = Work(text)
    work.says(deeds.SetStride(Stride.ROW))
    heard = [work.says(deeds.Onward()) for _ in range(4)]
    assert "Pattern row, second time." in heard[2]
    assert heard[3].startswith("Pattern row, third time.")
    assert heard[3].endswith("Count, then turn. More rows?")
    assert work.says(deeds.No()).startswith("Next row.")


def test_even_the_last_row_that_is_led_can_be_ended() -> None:
    """Nobody works so many; whoever goes there is told what comes behind."""
    work = Work(SCARF)
    work.says(deeds.SetStride(Stride.ROW))
    work.says(deeds.Jump(0, work.session.program.fabric.length))
    assert work.says(deeds.LongEnough()) == "Fasten off. The piece is finished."
