"""The piece as a whole: ripping back, marks, copies and parts, undo of any deed, resting the hands."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_the_hook import NOW_MS, at_hand, kept, program_of, worked

from tracker.program.places import Stride
from tracker.session import deeds
from tracker.session.apply import Say, apply
from tracker.session.deeds import Deed
from tracker.session.piece.copies import is_finished, parts_done
from tracker.session.replay import Kept, replayed, skimmed
from tracker.session.state import Session, begun

PANEL = at_hand()
SQUARES = begun(
    program_of(
        """SEA GLASS SQUARES
Make 5 squares. US terms.

Ch 7.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc)
Row 2: Ch 1, turn, sc in each sc across. (6 sc)
Fasten off.
"""
    )
)
VEST = begun(
    program_of(
        """DOLL VEST

BACK
Ch 7.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc)
Fasten off.

SLEEVES (make 2)
Ch 5.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (4 sc)
Fasten off.

FINISHING
Sew the sleeves to the back.
"""
    )
)

moves = st.one_of(
    st.sampled_from(
        [deeds.Onward()] * 8
        + [deeds.Back(), deeds.Undo(), deeds.Undo(), deeds.Redo(), deeds.Yes(), deeds.Yes(), deeds.No()]
        + [deeds.MarkHere("the blue end"), deeds.RipToMark(), deeds.RipBack(2), deeds.RipBack(0, Stride.ROW)]
    ),
    st.builds(deeds.GoToCopy, st.integers(0, 6), st.booleans()),
    st.builds(deeds.RipToRow, st.integers(1, 15)),
    st.builds(deeds.SetRest, st.integers(0, 90)),
    st.builds(deeds.SetStride, st.sampled_from(list(Stride))),
    st.builds(deeds.Count, st.integers(0, 40)),
)


def all_of(session: Session) -> tuple[object, ...]:
    """What undo gives back and replaying repeats."""
    return session.place, session.stride, session.laid, session.marks, session.rest_minutes


def lived(session: Session, said: list[Deed]) -> tuple[Session, list[Kept]]:
    """The session after some deeds, and what its journal has."""
    journal: list[Kept] = []
    for deed in said:
        session, effects = apply(session, deed, NOW_MS)
        journal += [Kept(keep.deed, keep.arguments, session.place) for keep in kept(effects)]
    return session, journal


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([PANEL, SQUARES, VEST]), st.lists(moves, max_size=60))
def test_replaying_is_having_been_there_with_copies_marks_and_ripping(
    start: Session, said: list[Deed]
) -> None:
    """All that a session holds, and what can be taken back and done over."""
    session, journal = lived(start, said)
    again = replayed(session.program, journal)
    assert all_of(again) == all_of(session)
    for deed in (deeds.Undo(), deeds.Undo(), deeds.Undo(), deeds.Redo(), deeds.Redo()):
        session, again = apply(session, deed, NOW_MS)[0], apply(again, deed, NOW_MS)[0]
        assert all_of(again) == all_of(session)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([PANEL, SQUARES, VEST]), st.lists(moves, max_size=40), moves)
def test_undo_undoes_any_deed_and_redo_does_it_over(start: Session, said: list[Deed], last: Deed) -> None:
    """A step, a mark, a stride, a reminder, a jump to another copy, a ripping."""
    session, _ = lived(start, said)
    after, effects = apply(session, last, NOW_MS)
    if isinstance(last, deeds.Undo | deeds.Redo) or not kept(effects) or after.past is session.past:
        return
    undone, _ = apply(after, deeds.Undo(), NOW_MS)
    assert all_of(undone) == all_of(session)
    assert all_of(apply(undone, deeds.Redo(), NOW_MS)[0]) == all_of(after)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.sampled_from([deeds.Onward(), deeds.Onward(), deeds.GoToCopy(4), deeds.Yes()]), max_size=60)
)
def test_what_lies_too_far_back_for_undo_still_says_which_copies_are_finished(said: list[Deed]) -> None:
    """Thirty squares are more deeds than are gone through again."""
    session, journal = lived(SQUARES, said)
    skimming = skimmed(session.program, journal)
    assert (skimming.place, skimming.laid) == (session.place, session.laid)


class TestRippingBack:
    """About the fabric: the question says what comes out, and the history stays."""

    @pytest.mark.parametrize(
        "asked, question",
        [
            ("rip back to row four", "Rip back to the start of row four: rows four to nine come out. Yes?"),
            ("rip back this row", "Rip row nine back to its start; row eight stays. Yes?"),
            ("rip back 1 row", "Rip row nine back to its start; row eight stays. Yes?"),
            ("rip back 2 rows", "Rip back to the start of row eight: rows eight and nine come out. Yes?"),
            ("rip back 3 rows", "Rip back to the start of row seven: rows seven to nine come out. Yes?"),
            ("rip back 90 rows", "Rip back to the start of row one: rows one to nine come out. Yes?"),
            (
                "rip back two",
                "Rip back in row nine, to two of sixteen squares: three stitches come out. Yes?",
            ),
            ("rip back to row 12", "That is not worked yet."),
            ("rip back to row 99", "There is no row ninety-nine."),
            ("rip back to the mark", "Nothing is marked behind your hook."),
        ],
    )
    def test_it_is_asked_back_with_what_comes_out(self, asked: str, question: str) -> None:
        """In the middle of row 9, four squares done."""
        session, _ = worked(PANEL, "row 9", "yes", "next", "next", "next", "next")
        after, said = worked(session, asked)
        assert said == [question]
        assert after.place == session.place

    @pytest.mark.parametrize(
        "steps, asked, question",
        [
            (("row 9", "yes"), "rip back 1 row", "Rip back to the start of row eight: row eight comes out. Yes?"),
            (("row 9", "yes"), "rip back this row", "You are there already."),
            (("row 10", "yes", "back"), "rip back 1 row", "Rip row nine back to its start; row eight stays. Yes?"),
            (("row 10", "yes", "back"), "rip back 2 rows", "Rip back to the start of row eight: rows eight and nine come out. Yes?"),
            (("row 1", "yes", "next"), "rip back 1 row", "Rip row one back to its start. Yes?"),
        ],
    )  # fmt: skip
    def test_a_row_that_is_begun_is_the_first_that_comes_out(
        self, steps: tuple[str, ...], asked: str, question: str
    ) -> None:
        """At a row's start there is nothing of it to take out; at its end, its count due, it is whole in the lap."""
        session, _ = worked(PANEL, *steps)
        assert worked(session, asked)[1] == [question]

    def test_then_the_hook_goes_back_into_the_row_before_with_its_count(self) -> None:
        """The count is what is looked for before the hook goes in."""
        after, said = worked(PANEL, "row 9", "yes", "next", "rip back to row four", "yes")
        assert said[0].startswith(
            "Hook back in the last loop of row three: sixteen squares, four open. Row four, wrong side."
        )
        assert after.place == PANEL.program.row_start(PANEL.place, 4)

    def test_back_to_a_mark_and_the_ripping_taken_back(self) -> None:
        """ "Take that back" is about the tool: it puts the place where it was."""
        session, said = worked(PANEL, "row 9", "yes", "next", "mark this", "next", "next")
        ripped, _ = worked(session, "rip back to the mark", "yes")
        assert ripped.place == session.marks[0].place
        back, said = worked(ripped, "take that back")
        assert back.place == session.place
        assert said[0].startswith("Taken back: nothing was ripped.")


class TestTakingBack:
    """Any deed that was kept can be taken back, and what the place does not show is named."""

    @pytest.mark.parametrize(
        "deed, words",
        [
            ("count 31", "Taken back: your count of thirty-one."),
            ("mark this", "Taken back: your mark."),
            ("row by row", "Taken back. One group at a step."),
        ],
    )
    def test_it_says_what(self, deed: str, words: str) -> None:
        """And the place stays."""
        session, _ = worked(PANEL, "row 9", "yes", "next")
        after, said = worked(session, deed, "take that back")
        assert said[0].startswith(words)
        assert all_of(after) == all_of(session)

    def test_a_note_is_kept_in_the_makers_own_words(self) -> None:
        """Capitals and all."""
        session, _ = worked(PANEL, "next", "Note: switch to Ball Two here")
        assert session.marks[-1].words == "switch to Ball Two here"
        assert worked(session, "my marks")[1][0].endswith("switch to Ball Two here.")


class TestCopies:
    """ "Make 5 squares": each has its own place."""

    def test_each_is_named_by_what_the_pattern_calls_it(self) -> None:
        """Square, because it says so."""
        session, _ = worked(SQUARES, "square 4")
        assert session.asked is not None
        assert session.asked.question == "Square four of five: not begun. Go there?"

    def test_a_square_laid_aside_is_taken_up_where_it_was_left(self) -> None:
        """And in working order once those before it are done."""
        session, _ = worked(SQUARES, "next", "next", "next", "square 4", "yes", "next", "next")
        left = session.place
        session, _ = worked(session, "square 1", "yes")
        assert session.place == worked(SQUARES, "next", "next", "next")[0].place
        while session.place[1] < 4:
            session, said = worked(session, "next")
        assert session.place == left
        assert said[0].startswith("Square four of five. ")

    def test_what_is_finished_and_what_is_left_is_told(self) -> None:
        """Finished, begun, not begun."""
        session = SQUARES
        while session.place[1] < 3:
            session, _ = worked(session, "next")
        session, _ = worked(session, "next", "square 5", "yes", "next", "next")
        assert worked(session, "what is finished")[1] == [
            "Two of five squares finished, square three left at row one, square five in hand at row one, one not begun."
        ]
        (part,) = parts_done(session)
        assert (part.finished, part.begun, part.untouched) == (2, ((0, 3), (0, 5)), 1)
        assert is_finished(session, (0, 1))

    def test_at_the_end_what_was_laid_aside_is_offered(self) -> None:
        """Nothing is called finished while a square lies half done."""
        session, _ = worked(SQUARES, "next", "square 2", "yes")
        while session.place != SQUARES.program.end:
            session, said = worked(session, "next")
        assert said == ["That was the last. Square one of five is left at row one. Go there?"]
        session, _ = worked(session, "yes")
        while session.place != SQUARES.program.end:
            session, said = worked(session, "next")
        assert said == ["The piece is finished."]

    def test_parts_are_told_each_by_its_name(self) -> None:
        """Once each, or in pairs."""
        session, said = worked(VEST, "what is finished")
        assert said == ["Back: in hand. Sleeves: none of two finished, two not begun. Finishing: not begun."]
        session, said = worked(session, "part 2", "yes")
        assert said[0].startswith("Now sleeve one of two.")
        assert worked(session, "piece 2", "yes")[0].place[:2] == (1, 2)
        assert worked(session, "part 1", "yes")[0].place[:2] == (0, 1)
        assert worked(session, "part 9")[1] == ["There is no part nine."]

    def test_what_finishes_all_of_them_is_told_once_behind_the_last(self) -> None:
        """Not after each sleeve."""
        session, told = VEST, []
        while session.place != VEST.program.end:
            session, said = worked(session, "next")
            told += said
        assert [words for words in told if "Sew the sleeves" in words] == [
            "Now the finishing. Sew the sleeves to the back."
        ]
        assert told.index("Now the finishing. Sew the sleeves to the back.") == len(told) - 2

    def test_a_finished_part_that_is_looked_at_again_stays_finished(self) -> None:
        """Unless something of it is ripped."""
        session = VEST
        while session.place[0] == 0:
            session, _ = worked(session, "next")
        looked, _ = worked(session, "part 1", "yes", "next", "next", "part 2", "yes")
        assert is_finished(looked, (0, 1))
        ripped, _ = worked(
            session, "part 1", "yes", "next", "next", "rip back this row", "yes", "part 2", "yes"
        )
        assert not is_finished(ripped, (0, 1))

    def test_parts_of_a_single_piece_are_refused(self) -> None:
        """It says so."""
        assert worked(begun(PANEL.program), "square 2")[1] == ["This is one piece: it has no other."]


class TestRestingTheHands:
    """A reminder at a row's end only, adjustable, and off when it is not wanted."""

    def worked_for(self, minutes: int, *first: str, rest: int = 45) -> list[str]:
        """What was said on the way through two rows, at one step a minute from `minutes` ago."""
        at_ms = NOW_MS
        session = begun(PANEL.program)
        session = worked(session, *first)[0] if first else session
        session = Session(session.program, session.place, rest_minutes=session.rest_minutes, rest_usual=rest)
        said: list[str] = []
        session, _ = apply(session, deeds.Jump(2, 2), at_ms)
        for _ in range(25):
            at_ms += minutes * 60_000 // 25
            session, effects = apply(session, deeds.Onward(), at_ms)
            said += [
                f"{session.program.is_count(session.place)}"
                for effect in effects
                if isinstance(effect, Say) and "stretch your fingers" in effect.text
            ]
        return said

    def test_it_comes_after_the_time_and_at_a_rows_end(self) -> None:
        """Never in the middle of a row."""
        assert self.worked_for(100) == ["True"]
        assert self.worked_for(20) == []

    def test_it_comes_for_who_goes_row_by_row_through_long_rows(self) -> None:
        """Thirteen minutes for a row of a ripple are work; an hour without a deed is a rest."""
        ripple = at_hand("low-tide-ripple")
        for minutes, due in ((13, True), (75, False)):
            session = Session(ripple.program, ripple.place, rest_usual=30)
            session, _ = worked(session, "row by row")
            said = ""
            for step in range(1, 7):
                at_ms = NOW_MS + step * minutes * 60_000
                session, effects = apply(session, deeds.Onward(), at_ms)
                said += " ".join(effect.text for effect in effects if isinstance(effect, Say))
            assert ("stretch your fingers" in said) is due

    def test_it_can_be_turned_off_and_adjusted(self) -> None:
        """For all pieces or for this one."""
        assert self.worked_for(100, rest=0) == []
        assert self.worked_for(100, "no more reminders") == []
        assert self.worked_for(20, "remind me every ten minutes") == ["True"]
