"""The log: time a row, the pace by kind of stitch, and how long the rest takes, with honest ranges."""

import random
from dataclasses import replace

import pytest
from on_the_hook import NOW_MS, at_hand, program_of

from tracker.planning.yarn import of_element
from tracker.session.record.log import Step, kinds_timed, left_said, pace, rows_timed
from tracker.session.record.progress import progress
from tracker.session.state import Session, begun

SCARF = """SCARF
Ch 22.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (21 sc)
Row 2: Ch 1, turn, sc in each sc across. (21 sc)
Row 3: Ch 3 (counts as dc), turn, dc in each sc across. (21 dc)
Row 4: Ch 1, turn, sc in each dc across. (21 sc)
Rows 5-60: Rep Rows 3-4.
"""
EACH_S = {"sc": 4.0, "dc": 7.0}


def worked_through(session: Session, seed: int, each_s: dict[str, float], rest_after: int = 0) -> list[Step]:
    """A maker who works a piece at a pace that wavers by a third, and rests for an hour after some steps."""
    chance = random.Random(seed)
    program, place = session.program, session.place
    at_ms = NOW_MS
    steps = [Step(at_ms, "next", place)]
    while place != program.end:
        there = program.next(place)
        made = program.made(place)
        end = program.made(there) if there[:4] == place[:4] else ()
        if there[:4] == place[:4]:
            gone = end[len(made) :]
        else:
            gone = ()
        seconds = sum(each_s.get(element.kind, 2.0) for element in gone) * chance.uniform(0.67, 1.33) + 1
        at_ms += round(seconds * 1000)
        if rest_after and len(steps) % rest_after == 0:
            at_ms += 3_600_000
        place = there
        steps.append(Step(at_ms, "next", place))
    return steps


SESSION = begun(program_of(SCARF))


def test_a_row_takes_the_time_between_its_first_step_and_its_count() -> None:
    """Six rows by hand: the seconds that lie between the steps, nothing else."""
    steps = worked_through(SESSION, 1, EACH_S)
    rows = rows_timed(SESSION.program, steps)
    assert [row.row for row in rows] == list(range(1, 61))
    for row in rows[:6]:
        mine = [step.at_ms for step in steps if step.place[2] == row.row and step.place[3] == 0]
        assert row.seconds == pytest.approx((max(mine) - min(mine)) / 1000, abs=1.01)


def test_rests_are_left_out() -> None:
    """An hour's rest in the middle of a row is no part of it."""
    steady = rows_timed(SESSION.program, worked_through(SESSION, 2, EACH_S))
    rested = rows_timed(SESSION.program, worked_through(SESSION, 2, EACH_S, rest_after=7))
    assert max(row.seconds for row in rested) <= max(row.seconds for row in steady) + 1


def test_a_row_that_is_not_at_its_end_is_not_called_ended() -> None:
    """Stopped behind the first window of row two, and again at its count."""
    session = at_hand("harbour-windows")
    steps = worked_through(session, 1, EACH_S)
    program = session.program
    window = next(at for at, step in enumerate(steps) if step.place[2] == 2 and step.place[4:6] == (3, 0))
    count = next(at for at, step in enumerate(steps) if step.place[2] == 2 and program.is_count(step.place))
    assert [row.whole for row in rows_timed(program, steps[: window + 1])] == [True, False]
    assert [row.whole for row in rows_timed(program, steps[: count + 1])] == [True, True]


def test_what_two_machines_did_at_the_same_time_is_not_mixed() -> None:
    """Hers stands behind his in the journal, at times that lie between his: each row keeps its own seconds."""
    steps = worked_through(SESSION, 4, EACH_S)
    at = next(n for n, step in enumerate(steps) if step.place[2] == 11)
    early, late = steps[:at], steps[at - 1 :]
    back = late[0].at_ms - early[len(early) // 2].at_ms
    hers = [replace(step, at_ms=step.at_ms - back) for step in late]
    apart = {row.row: row.seconds for row in rows_timed(SESSION.program, steps)}
    merged = [*early, replace(early[-1], deed="merged"), *hers]
    together = {row.row: row.seconds for row in rows_timed(SESSION.program, merged)}
    assert all(together[row] == pytest.approx(apart[row], abs=0.1) for row in range(1, 61))


def test_each_kind_of_stitch_has_its_own_pace() -> None:
    """Four seconds a single crochet, seven a double: found again within a fifth."""
    found = {kind.kind: kind for kind in kinds_timed(SESSION.program, worked_through(SESSION, 3, EACH_S))}
    for kind, seconds in EACH_S.items():
        assert found[kind].seconds == pytest.approx(seconds, rel=0.2)
        assert found[kind].quick <= found[kind].seconds <= found[kind].slow


@pytest.mark.parametrize("seed", range(8))
def test_the_range_holds_what_the_rest_really_took(seed: int) -> None:
    """Told in the middle of a piece, by the first half; held against the second half, which was not seen."""
    steps = worked_through(SESSION, seed, EACH_S)
    half = next(at for at, step in enumerate(steps) if step.place[2] == 31)
    mine = pace(rows_timed(SESSION.program, steps[:half]))
    left = progress(replace(SESSION, place=steps[half].place)).left
    really = (steps[-1].at_ms - steps[half].at_ms) / 1000
    assert left * mine.quick <= really <= left * mine.slow


def test_before_there_is_a_log_it_is_said_to_be_a_guess() -> None:
    """And a piece without an end has none to tell."""
    assert "that is a guess until you have worked 3 rows" in left_said(SESSION, ())
    cloth = begun(program_of("CLOTH\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch. (8 sc)\n"
                             "Row 2: Ch 1, turn, sc in each st. (8 sc)\nRep Row 2 until long enough.\n"))  # fmt: skip
    assert left_said(cloth, ()).startswith("It goes on as long as you like")


def test_progress_goes_from_nothing_to_all_and_never_back() -> None:
    """In single crochets' worth of work, over every place."""
    session = at_hand("pebble-cloth")
    place, before = session.place, -1.0
    while place != session.program.end:
        now = progress(replace(session, place=place))
        assert before <= now.done <= now.whole
        before, place = now.done, session.program.next(place)
    done = progress(replace(session, place=session.program.end))
    assert (done.percent, done.left) == (100, 0)


def test_a_piece_of_a_million_rows_is_measured_at_once() -> None:
    """Rows that are printed are looked at, not each row that is worked."""
    session = begun(program_of(SCARF.replace("5-60", "5-1000000")))
    there = session.program.row_start(session.place, 500_000)
    now = progress(replace(session, place=there))
    assert now.percent == 49
    row = session.program.fabric.row(4).worked
    assert now.whole > 400_000 * sum(map(of_element, row.elements))
