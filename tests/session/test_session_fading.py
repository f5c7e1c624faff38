"""Fading: told in full the first time; what the hands know shrinks to its ends and oddities; the words come back."""

from dataclasses import replace

import pytest
from on_the_hook import NOW_MS, at_hand, program_of

from tracker.load import load
from tracker.program.learned import times_before
from tracker.program.places import Program, Stride
from tracker.session import deeds
from tracker.session.apply import Say, Settle, apply
from tracker.session.deeds import Deed
from tracker.session.fading.edges import Edge, edge_at
from tracker.session.fading.length import Length, Pace
from tracker.session.state import Session, begun
from tracker.session.wording.spelled import spelled_out
from tracker.trade.said.speech import Speech, mirrored

PLAIN = "TEST\n\nCh 27.\nRow 1: Sc in 2nd ch from hook and in each ch across. (26 sc)\n" + "".join(
    f"Row {row}: Turn, ch 1, sc in each st across. (26 sc)\n" for row in range(2, 6)
)


class Hands:
    """A maker who says "next" every five seconds, and what they hear."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.at_ms = NOW_MS
        self.heard: list[str] = []

    def does(self, deed: Deed, after_ms: int = 5_000) -> str:
        self.at_ms += after_ms
        self.session, effects = apply(self.session, deed, self.at_ms)
        self.heard = [effect.spoken for effect in effects if isinstance(effect, Say)]
        return " ".join(self.heard)

    def row(self, label: str) -> list[str]:
        """What is heard in the next row of that label, to its count."""
        told: list[str] = []
        for _ in range(500):
            words = self.does(deeds.Onward())
            placed = self.session.program.placed(self.session.place)
            if placed is not None and placed.label == label:
                told.append(words)
                if self.session.program.is_count(self.session.place):
                    return told
        raise AssertionError(f"{label} was not met; told {told}")


def test_a_row_worked_before_is_told_shortly_and_then_by_its_ends() -> None:
    """Rows two to five have the same words: in full, by name, and only where they begin and end."""
    hands = Hands(begun(program_of(PLAIN)))
    assert hands.row("Row 2") == [
        "Row two. Chain one; it is no stitch.",
        "Single crochet in each: twenty-six.",
        "Row two: twenty-six single crochet. Count, then turn.",
    ]
    assert hands.row("Row 3")[1] == "Twenty-six single crochet to the end."
    assert hands.row("Row 4") == [
        "Row four. Chain one.",
        "",
        "Row four: twenty-six single crochet. Count, then turn.",
    ]


def test_a_filet_row_told_a_second_time_names_its_squares() -> None:
    """Row eight is row two: windows and blocks by number; the landing, the count and the turn stay."""
    hands = Hands(at_hand())
    told = hands.row("Row 8")
    assert told[0].startswith("Row eight is row two. Two to seven, second time.")
    assert told[2:6] == ["Four windows.", "Second.", "Third.", "Last one. Then eight double crochet."]
    assert told[-2] == "Four double crochet to finish; the fourth goes in the top of the chain three."
    assert told[-1] == "Row eight: sixteen squares, eight open. Count, then turn."


def test_what_breaks_the_run_is_told_however_well_it_is_known() -> None:
    """With only cues asked for, the row that starts open is still warned of, and the last pass is the last."""
    hands = Hands(replace(at_hand(), length=Length.CUES))
    told = hands.row("Row 6")
    assert "Careful: not like the last row. It starts open." in told[0]
    assert told[2:6] == ["", "", "", "Last one. Then four windows."]
    assert told[-2].endswith("in the top of the chain three.")


def test_asking_brings_the_words_back_to_the_rows_end() -> None:
    """ "Say again" in a row that has faded: that group in full, and the rest of the row."""
    hands = Hands(begun(program_of(PLAIN)))
    hands.row("Row 3")
    hands.does(deeds.Onward())
    assert hands.does(deeds.Onward()) == ""
    assert hands.does(deeds.Again()) == "Single crochet in each: twenty-six."
    assert hands.does(deeds.Onward()).endswith("Count, then turn.")
    hands.does(deeds.Onward())
    assert hands.does(deeds.Onward()) == ""


def test_hesitation_brings_the_words_back() -> None:
    """A minute where five seconds are usual; and the first step of a sitting."""
    hands = Hands(begun(program_of(PLAIN)))
    hands.row("Row 4")
    hands.does(deeds.Onward())
    assert hands.does(deeds.Onward(), after_ms=60_000) == "Single crochet in each: twenty-six."
    back = Hands(replace(begun(program_of(PLAIN)), place=hands.session.place))
    hands.does(deeds.Onward())
    assert back.does(deeds.Onward()) == hands.heard[0]


@pytest.mark.parametrize(
    "gap, late, hesitates",
    [(5_000, 25_000, True), (60_000, 90_000, False), (60_000, 300_000, True), (300_000, 600_000, False)],
)
def test_a_hesitation_is_measured_against_the_makers_own_pace(gap: int, late: int, hesitates: bool) -> None:
    """Slow hands do not hesitate at every step; no one does who waits less than twenty seconds."""
    pace, at = Pace(), NOW_MS
    for _ in range(8):
        at += gap
        pace = pace.stepped(at)
    assert pace.hesitated(at + late) == hesitates
    assert not pace.hesitated(at + 19_000)


def test_tell_me_more_goes_back_from_cues_to_short_to_full() -> None:
    """Three lengths by voice: "only cues", and "tell me more" once and twice; each is kept with the settings."""
    session = at_hand()
    for deed, length in (
        (deeds.SetLength(Length.CUES), "cues"),
        (deeds.TellMore(), "short"),
        (deeds.TellMore(), "full"),
    ):
        session, effects = apply(session, deed, NOW_MS)
        assert session.length.value == length
        assert [effect.to for effect in effects if isinstance(effect, Settle)] == [length]


def test_who_wants_no_fading_has_every_row_in_words() -> None:
    """A setting."""
    hands = Hands(replace(begun(program_of(PLAIN)), fades=False))
    assert hands.row("Row 5")[1] == "Single crochet in each: twenty-six."


def test_squares_alike_are_known_from_the_first() -> None:
    """The second of two sleeves has been worked once before, the third square twice."""
    program = program_of(
        "COASTERS\n\nSQUARE (make 3)\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5 sc)\n"
        "Row 2: Turn, ch 1, sc in each st across. (5 sc)\nFasten off.\n"
    )
    assert program.parts[0].copies == 3
    assert [times_before(program, (0, copy, 2, 0, 0, 0, 0)) for copy in (1, 2, 3)] == [0, 1, 2]


def test_a_row_in_one_step_tells_its_count_before_the_turn() -> None:
    """Faded too; common practice, no source."""
    hands = Hands(replace(at_hand(), stride=Stride.ROW))
    for _ in range(8):
        hands.does(deeds.Onward())
    assert hands.does(deeds.Onward()).endswith("Sixteen squares, four open. Count, then turn.")
    assert "Two double" not in hands.heard[0]
    assert "two blocks" in hands.heard[0].lower() or "four double crochet" in hands.heard[0].lower()


def test_edges_have_tones_of_their_own() -> None:
    """The last of four windows, another pass of a ripple, the row's end, every tenth single stitch."""
    program = at_hand().program
    assert edge_at(program, (0, 1, 2, 0, 2, 3, 0), Stride.GROUP) is Edge.REPEAT
    assert edge_at(program, (0, 1, 2, 0, 2, 1, 0), Stride.GROUP) is None
    assert edge_at(program, (0, 1, 2, 0, len(program.breaths(2)), 0, 0), Stride.GROUP) is Edge.ROW_END
    ripple = at_hand("low-tide-ripple").program
    passes = [
        at
        for at, breath in enumerate(ripple.breaths(2))
        if breath.path and edge_at(ripple, (0, 1, 2, 0, at, 0, 0), Stride.GROUP) is Edge.REPEAT
    ]
    assert len(passes) == 2  # three ripples: two edges between them


def spoken_to(text: str, speech: Speech) -> Program:
    loaded = load("the pattern", text)
    return Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems, speech)


def test_a_us_pattern_can_be_told_in_uk_words_and_the_other_way() -> None:
    """The ladder is shifted by one (Craft Yarn Council): what US calls double crochet is a UK treble."""
    us = Hands(begun(spoken_to(PLAIN, Speech(uk=True))))
    assert us.row("Row 2")[1] == "Double crochet in each: twenty-six."
    uk_text = (
        "SQUARE (UK terms)\n\n12 ch.\n"
        "Row 1: 1 tr into 4th ch from hook (3 missed ch count as 1 tr), 1 tr into each ch to end. (10 tr)\n"
        "Row 2: Turn, 3 ch (counts as 1 tr), miss first tr, 1 tr into each of next 8 tr, 1 tr into top of 3 ch. (10 tr)\n"
    )
    uk = Hands(begun(spoken_to(uk_text, Speech(uk=False))))
    assert uk.row("Row 2")[0].endswith(
        "Chain three: your first double crochet. Skip the stitch it stands on."
    )
    assert (
        spelled_out("3 double crochet and 1 tr", uk=True, told_uk=False)
        == "three single crochet and one double crochet"
    )
    assert uk.heard == ["Row two: ten double crochet. Count; it is the last row."]


@pytest.mark.parametrize(
    "words, turned",
    [
        ("Join B in upper right corner", "Join B in upper left corner"),
        ("work from right to left", "work from left to right"),
        ("with right side facing, 3 sts left", "with right side facing, 3 sts left"),
        ("Turn clockwise", "Turn counter-clockwise"),
        ("leave the tail at the left", "leave the tail at the right"),
        (
            "at the right side of the work is the wrong side",
            "at the right side of the work is the wrong side",
        ),
        ("sew right away; nothing is left over", "sew right away; nothing is left over"),
    ],
)
def test_for_a_left_hand_every_direction_is_the_other_one(words: str, turned: str) -> None:
    """And "right side", "stitches left" and "right away" stay what they are."""
    assert mirrored(words) == turned
    assert mirrored(mirrored(words)) == words


def test_a_left_handed_maker_hears_the_patterns_directions_turned() -> None:
    """What is done between rows is told for their hand."""
    text = PLAIN + "\nFinishing:\nJoin B at the upper right corner.\n"
    hands = Hands(begun(spoken_to(text, Speech(left_handed=True))))
    hands.row("Row 5")
    assert "upper left corner" in hands.does(deeds.Onward())


@pytest.mark.parametrize("length", [Length.SHORT, Length.CUES])
def test_yarn_that_is_joined_and_stitches_travelled_over_are_told_at_every_length(length: Length) -> None:
    """Hands cannot know them: what follows would stand in the wrong place."""
    mat = Hands(replace(at_hand("brick-lane-mosaic"), length=length))
    assert mat.row("Row 2")[0] == (
        "Row two, right side. Join B with a slip stitch in the first single crochet. Chain one."
    )
    square = Hands(replace(at_hand("kettle-square"), length=length))
    assert square.row("Rnd 2")[0].startswith(
        "Round two. Slip stitch in the next two double crochet and in the next chain-two space. Chain three"
    )
    third = square.row("Rnd 3")
    assert third[0].startswith(
        "Round three, right side facing. Join B with a slip stitch in any chain-two space."
    )


def test_a_row_first_told_shortly_still_says_what_goes_into_one_place() -> None:
    """Short is not too short to work by."""
    square = Hands(replace(at_hand("crossroads-square"), length=Length.SHORT))
    assert "In the chain-two space: two double crochet, chain two, two double crochet." in square.row("Rnd 2")
