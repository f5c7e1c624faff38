"""Deeds: the only change of a session. Moves are kept before they are shown, questions change nothing."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from on_the_hook import NOW_MS, at_hand, kept, worked

from tracker.program.places import Stride
from tracker.session import deeds
from tracker.session.apply import Rest, Show, apply
from tracker.session.deeds import Deed
from tracker.session.effects import Say
from tracker.session.replay import Kept, replayed
from tracker.session.state import Session, begun

SESSION = at_hand()

moves = st.one_of(
    st.sampled_from(
        [deeds.Onward()] * 6
        + [deeds.Back(), deeds.Back(), deeds.Undo(), deeds.Redo(), deeds.Yes(), deeds.No(), deeds.Stop()]
    ),
    st.builds(deeds.GoToRow, st.integers(0, 17)),
    st.builds(deeds.SetStride, st.sampled_from(list(Stride))),
    st.builds(deeds.Count, st.integers(0, 40), st.booleans()),
    st.builds(deeds.PutAt, st.tuples(*[st.integers(0, 5)] * 7)),
)
questions = st.sampled_from(
    [
        deeds.Again(),
        deeds.Where(),
        deeds.HowMany(),
        deeds.Left(),
        deeds.WholeRow(),
        deeds.HowWorked(),
        deeds.Help(),
        deeds.Number(3),
    ]
)


@settings(max_examples=60, deadline=None)
@given(st.lists(moves | questions, max_size=60))
def test_replaying_the_journal_is_the_same_as_having_been_there(said: list[Deed]) -> None:
    """Place, stride and what can be taken back: all from what was kept."""
    session = SESSION
    journal: list[Kept] = []
    for deed in said:
        session, effects = apply(session, deed, NOW_MS)
        journal += [Kept(keep.deed, keep.arguments, session.place) for keep in kept(effects)]
    again = replayed(session.program, journal)
    assert (again.place, again.stride) == (session.place, session.stride)
    for deed in (deeds.Undo(), deeds.Undo(), deeds.Redo()):
        session, again = apply(session, deed, NOW_MS)[0], apply(again, deed, NOW_MS)[0]
        assert again.place == session.place


@settings(max_examples=60, deadline=None)
@given(st.lists(moves, max_size=30), moves)
def test_undo_undoes_and_redo_does_it_over(said: list[Deed], last: Deed) -> None:
    """Any move, from any place that can be reached."""
    session = SESSION
    for deed in said:
        session, _ = apply(session, deed, NOW_MS)
    if isinstance(last, deeds.Undo | deeds.Redo):
        return
    after, _ = apply(session, last, NOW_MS)
    if after.place != session.place:
        undone, _ = apply(after, deeds.Undo(), NOW_MS)
        assert undone.place == session.place
        assert apply(undone, deeds.Redo(), NOW_MS)[0].place == after.place


def test_one_cause_is_told_as_one() -> None:
    """And a number that is none of those told changes nothing of the work."""
    session = SESSION
    for deed in (deeds.Onward(), deeds.Onward(), deeds.Count(12)):
        session, _ = apply(session, deed, NOW_MS)
    after, effects = apply(session, deeds.Number(3), NOW_MS)
    assert after.place == session.place
    assert [said.text for said in effects if isinstance(said, Say)] == [
        "There is one cause that gives this count."
    ]


@settings(deadline=None)
@given(st.lists(moves, max_size=20), questions)
def test_a_question_changes_nothing_and_is_not_kept(said: list[Deed], question: Deed) -> None:
    """ "Where am I" may be asked a hundred times."""
    session = SESSION
    for deed in said:
        session, _ = apply(session, deed, NOW_MS)
    if isinstance(question, deeds.Number):
        # behind "How many are open?", and where causes were told by number, a number is the answer
        assume(session.amiss.squares is None)
        assume(session.amiss.off is None)
    after, effects = apply(session, question, NOW_MS)
    assert after == session
    assert kept(effects) == []


@settings(deadline=None)
@given(st.lists(moves, max_size=20), moves)
def test_every_move_is_kept(said: list[Deed], deed: Deed) -> None:
    """What changes the place goes to the journal, with a name that replaying knows."""
    session = SESSION
    for one in said:
        session, _ = apply(session, one, NOW_MS)
    after, effects = apply(session, deed, NOW_MS)
    if (after.place, after.stride) != (session.place, session.stride):
        assert len(kept(effects)) == 1


def test_a_jump_is_asked_back_with_its_digits_and_done_on_yes() -> None:
    """ "Thirteen" and "thirty" are told apart before anything moves."""
    asked, said = worked(SESSION, "go to row thirteen")
    assert said == ["Row thirteen, one three. Go there?"]
    assert asked.place == SESSION.place
    there, said = worked(asked, "yes")
    assert there.place[2] == 13
    assert said[0].startswith("Row thirteen is row seven.")


@pytest.mark.parametrize("lines", [("row 9", "no", "yes"), ("row 9", "next", "back", "yes"), ("yes",)])
def test_a_question_lapses_once_it_is_passed_over(lines: tuple[str, ...]) -> None:
    """A late yes to an old question goes nowhere."""
    after, said = worked(SESSION, *lines)
    assert after.place == SESSION.place
    assert said == ["Nothing was asked."]


def test_a_row_that_is_not_there_is_refused_with_the_last_that_is() -> None:
    """Nothing is asked, so yes does nothing."""
    after, said = worked(SESSION, "row 40")
    assert said == ["There is no row forty, four zero; the last is row fifteen."]
    assert after.asked is None


def test_how_many_and_how_many_left_are_told_in_squares() -> None:
    """In the middle of the third window."""
    session, said = worked(SESSION, "row 2", "yes", "next", "next", "next", "how many")
    assert said == ["Three of sixteen squares: six of twenty-five stitches."]
    assert worked(session, "how many left")[1] == ["Thirteen squares to go."]


def test_where_am_i_answers_in_one_line_and_aloud() -> None:
    """Row, repeat, group, and how far."""
    session, _ = worked(SESSION, "row 9", "yes", "next", "next", "next", "next")
    _, effects = apply(session, deeds.Where(), NOW_MS)
    place = "Row 9 (Row 3 again, time 2 of 2), group 4 of 8, 2 of 2"
    assert effects[0] == Show((f"place: {place}: dc in next ch-1 sp, dc in next dc · 4 of 16 squares",))
    assert getattr(effects[1], "text", "").startswith(
        "Row nine, which is row three, right side. Second block of two."
    )


@pytest.mark.parametrize(
    "row, count, expected",
    [
        (2, "count 25", "Twenty-five. That is right."),
        (2, "i have 16 squares", "Sixteen squares. That is right."),
        (
            2,
            "i have twenty-four",
            "Twenty-four; should be twenty-five, with eight windows. Don't turn. Feel under your hook: is the chain three bare?",
        ),
        (
            2,
            "count 26",
            "Twenty-six; should be twenty-five, with eight windows. "
            "Feel the foot of the chain three: are there two bases in that stitch?",
        ),
        (
            7,
            "count 32",
            "Thirty-two; should be thirty-three. Don't turn. Feel under your hook: is the chain four bare?",
        ),
    ],
)
def test_a_count_is_held_against_what_is_due_and_says_where_to_look(
    row: int, count: str, expected: str
) -> None:
    """At the row's end, before the turn: edges first (common practice, no source)."""
    session, _ = worked(SESSION, f"row {row + 1}", "yes", "back", count)
    assert session.program.is_count(session.place)
    assert worked(session, count)[1] == [expected]


def test_a_count_in_the_middle_is_held_against_what_is_done() -> None:
    """Stitches so far in row 2 after the first window."""
    session, _ = worked(SESSION, "row 2", "yes", "next", "next", "next")
    assert worked(session, "count 6")[1] == ["Six. That is right."]
    assert worked(session, "count 5")[1][0].startswith("Five; should be six so far.")


def test_stop_rests_and_going_on_wakes() -> None:
    """Nothing is closed for good."""
    session, effects = apply(SESSION, deeds.Stop(), NOW_MS)
    assert session.resting
    assert Rest() in effects
    after, _ = worked(session, "next")
    assert not after.resting
    assert after.place != SESSION.place


def test_at_the_end_the_piece_is_finished_and_stays_so() -> None:
    """One step too many is no fault."""
    session = SESSION
    while session.place != session.program.end:
        session, _ = worked(session, "next")
    session, said = worked(session, "next")
    assert said == ["The piece is finished."]
    assert worked(session, "back")[0].place < session.place


def test_the_stride_may_change_anywhere_and_keeps_the_place() -> None:
    """Finer and coarser."""
    session, said = worked(SESSION, "row 2", "yes", "next", "stitch by stitch")
    assert said == ["One stitch at a step."]
    session, said = worked(session, "next", "next")
    assert said == ["Three."]
    session, _ = worked(session, "group by group", "next")
    assert session.place[4:] == (2, 0, 0)


@pytest.mark.parametrize(
    "row, steps, expected",
    [
        (
            2,
            1,
            "Double crochet: yarn over, into the stitch, yarn over, pull up a loop: three loops; yarn over, through two; yarn over, through two. Under both loops at the top of the stitch.",
        ),
        (2, 0, "Chain: yarn over, through the loop on the hook; once for each."),
    ],
)
def test_how_a_stitch_is_made_is_told_from_the_table(row: int, steps: int, expected: str) -> None:
    """Yarn-overs as in the table of stitches."""
    session, _ = worked(SESSION, f"row {row}", "yes", *["next"] * steps)
    assert worked(session, "show me how")[1] == [expected]


def test_an_old_journal_with_names_nobody_knows_keeps_its_places() -> None:
    """The place kept beside a deed holds, whatever the deed was."""
    program = SESSION.program
    place = program.row_start(program.start, 5)
    again: Session = replayed(
        program, [Kept("next", {}, program.next(program.start)), Kept("levitate", {"by": 3}, place)]
    )
    assert again.place == place
    assert begun(program).place == program.start


def test_a_long_piece_can_be_compared_and_kept_by_however_many_steps_can_be_taken_back() -> None:
    """Five thousand steps deep, far beyond what Python lets one call through another."""
    one = two = SESSION
    for at in range(5_000):
        deed = deeds.Back() if at % 3 == 2 else deeds.Onward()
        one, two = apply(one, deed, at)[0], apply(two, deed, at)[0]
    assert one == two
    assert {one: "a page"}[two] == "a page"
    assert apply(one, deeds.Undo(), NOW_MS)[0] != one
