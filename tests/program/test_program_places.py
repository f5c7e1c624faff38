"""Places: their order is the order of working, and going on and going back are each other's opposite."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_the_hook import SWATCH, program_of, sample, walked

from tracker.fabric.model import HIDDEN
from tracker.program.places import Program, Stride
from tracker.session.wording import said_at

NAMES = ("harbour-windows", "pebble-cloth", "low-tide-ripple")
PROGRAMS = {name: sample(name) for name in NAMES}
COPIES = """FLAGS

BIG FLAG (make 2)
Ch 6.
Row 1: Sc in 2nd ch from hook and in each ch across. (5 sc)
Row 2: Ch 1, turn, sc in each sc across. (5 sc)
Fasten off.

CORD
Ch 11.
Row 1: Sl st in 2nd ch from hook and in each ch across. (10 sl sts)
Fasten off.
"""


@pytest.mark.parametrize("stride", list(Stride))
@pytest.mark.parametrize("name", NAMES)
def test_working_order_is_the_order_of_the_addresses(name: str, stride: Stride) -> None:
    """Each place is a plain tuple greater than the one before it, whatever the stride."""
    for one, other in pairwise([*walked(PROGRAMS[name], stride), PROGRAMS[name].end]):
        assert one < other


@given(st.sampled_from(NAMES), st.sampled_from(list(Stride)), st.integers(0, 2000))
def test_going_on_and_then_back_returns(name: str, stride: Stride, steps: int) -> None:
    """From any place that is reached at a stride."""
    program = PROGRAMS[name]
    place = program.start
    for _ in range(steps % 300):
        place = program.next(place, stride)
    after = program.next(place, stride)
    assert program.holds(after)
    if after != place:
        assert program.back(after, stride) == place


@given(st.sampled_from(NAMES), st.lists(st.tuples(st.sampled_from(list(Stride)), st.booleans()), max_size=40))
def test_any_mixture_of_strides_stays_on_places(name: str, moves: list[tuple[Stride, bool]]) -> None:
    """The maker may change the stride at any time."""
    program = PROGRAMS[name]
    place = program.start
    for stride, on in moves:
        place = program.next(place, stride) if on else program.back(place, stride)
        assert program.holds(place)


@pytest.mark.parametrize("name", NAMES)
def test_what_stands_grows_from_place_to_place_and_is_whole_at_the_count(name: str) -> None:
    """At a row's end everything on it is made."""
    program = PROGRAMS[name]
    for place in walked(program, Stride.STITCH):
        placed = program.placed(place)
        if placed is not None and program.is_count(place):
            assert program.made(place) == placed.worked.elements
    for one, other in pairwise(walked(program, Stride.STITCH)):
        if one[2] == other[2] and one[3] == other[3] == 0:
            assert len(program.made(one)) <= len(program.made(other)) <= len(program.made(one)) + 1


def test_the_stitches_told_one_by_one_are_those_of_the_fabric() -> None:
    """As many single steps in a row as there are elements on it, and its count."""
    program = PROGRAMS["pebble-cloth"]
    for index, placed in program.fabric.rows():
        assert len(program.starts(index, Stride.STITCH)) == len(placed.worked.elements) + 1


def test_a_row_repeated_for_ever_is_never_unrolled() -> None:
    """The place after another costs the same in the millionth row as in the second."""
    text = SWATCH.replace("Row 3:", "Rows 3-3000000:")
    program = program_of(text)
    row = program.find(2_999_999, program.start)
    assert row == 2_999_999
    place = program.row_start(program.start, row)
    assert program.fabric.row(row).label == "Row 2999999"
    for _ in range(5):
        place = program.next(place)
    assert place == (0, 1, 3_000_000, 0, 2, 0, 0)
    assert program.next(place) == program.end
    assert program.back(program.back(place)) == (0, 1, 3_000_000, 0, 0, 0, 0)


def test_copies_and_parts_are_walked_one_after_another_with_what_is_done_between_them() -> None:
    """Two flags, each with its chain, then the cord."""
    program = program_of(COPIES)
    rows = [place[:4] for place in walked(program, Stride.ROW)]
    flag = [(1, -1), (1, 0), (2, 0)]
    assert rows == [
        *((0, 1, row, aside) for row, aside in flag),
        *((0, 2, row, aside) for row, aside in flag),
        (1, 1, 3, -1),
        (1, 1, 3, 0),
    ]


def test_talk_between_the_rows_is_met_in_the_first_copy_alone() -> None:
    """What is to be done there is met in each, and both ways the same places are."""
    text = COPIES.replace("Row 2:", "You are doing so well, this goes fast now.\nRow 2:")
    text = text.replace("Fasten off.", "Fasten off. Nearly there!", 1)
    program = program_of(text)
    places = list(walked(program))
    told = [
        (place[1], program.source.words(found.span)) for place in places if (found := program.aside(place))
    ]
    assert [copy for copy, words in told if "so well" in words] == [1]
    for one, other in pairwise([*places, program.end]):
        assert program.back(other) == one
    ends = [said_at(program, place) for place in places if place[0] == 0 and place[2] == 2]
    assert ["Nearly there" in words for words in ends if "Fasten off." in words] == [True, False]


def test_a_row_is_found_by_its_number_in_the_part_in_hand_first() -> None:
    """Both parts have a row 1."""
    program = program_of(COPIES)
    cord = next(place for place in walked(program) if place[0] == 1)
    assert (
        program.find(1, program.start),
        program.find(1, cord),
        program.find(2, cord),
        program.find(9, cord),
    ) == (1, 3, 2, None)


@settings(max_examples=300)
@given(st.lists(st.integers(-3, 40), min_size=0, max_size=9))
def test_an_address_from_anywhere_is_either_a_place_or_refused(numbers: list[int]) -> None:
    """A journal of another pattern cannot lead out of this one."""
    program = PROGRAMS["harbour-windows"]
    if program.holds(tuple(numbers)):
        assert tuple(numbers) in set(walked(program, Stride.STITCH)) | {program.end}


def test_a_text_with_no_row_has_a_start_and_an_end() -> None:
    """Nothing is asked of such a pattern that could fail."""
    program: Program = program_of("Just some words.")
    assert program.next(program.start) in (program.start, program.end) or program.holds(
        program.next(program.start)
    )
    assert program.back(program.end) <= program.end


def test_elements_done_leave_out_a_chain_that_is_no_stitch() -> None:
    """So that the place can be found again by what can be seen."""
    program = PROGRAMS["pebble-cloth"]
    assert program.fabric.row(2).worked.elements[0].kind == HIDDEN
    assert program.elements_done((0, 1, 2, 0, 1, 0, 0)) == 0
    assert program.elements_done((0, 1, 2, 0, 2, 1, 0)) == 3
