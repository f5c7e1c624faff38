"""Rounds around their middle on the screen: where what is done lies, and when rows are drawn instead."""

import pytest
from on_the_hook import program_of
from test_looks_around import BALL, GRANNY, TUBE, drawn
from test_screen_page import Work, in_role, sample, text_of

from tracker.screen.drawing.disc import disc_lines
from tracker.screen.drawing.words import Line, width_of
from tracker.screen.page import Showing, page
from tracker.session.state import begun

SOLID, DOTS = set("▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"), {chr(0x2801 + bits) for bits in range(255)}


def cells(lines: tuple[Line, ...], role: str) -> list[tuple[int, int]]:
    """Where a role is: line and column of each of its cells."""
    out = []
    for nth, line in enumerate(lines):
        column = 0
        for text, drawn_as in line:
            out += [(nth, column + at) for at in range(len(text)) if drawn_as == role and text[at] != " "]
            column += len(text)
    return out


@pytest.mark.parametrize("width, height", [(26, 13), (44, 22), (72, 36)])
@pytest.mark.parametrize("left", [False, True])
def test_half_a_round_is_filled_on_the_side_where_the_hands_began(
    width: int, height: int, left: bool
) -> None:
    """Nine of eighteen: all of it right of the middle for the right hand, left of it for the left one."""
    found, shown = drawn(BALL, "round 3", "yes", *["next"] * 3, left=left)
    assert shown.around is not None
    lines = disc_lines(found, shown.around, width, height)
    assert [sum(width_of(text) for text, _ in line) for line in lines] == [width] * height
    outer = [column for line, column in cells(lines, "done") if lines_solid(lines, line, column)]
    assert len(outer) > 20
    side = (
        [column >= width // 2 - 1 for column in outer]
        if not left
        else [column <= width // 2 for column in outer]
    )
    assert all(side)
    # What is in hand comes next, over the top on the other side.
    now = cells(lines, "now")
    assert now
    assert min(line for line, _ in now) == 0
    coming = [column for line, column in cells(lines, "coming") if line > 1]
    assert all((column < width // 2) is not left for column in coming)


def lines_solid(lines: tuple[Line, ...], line: int, column: int) -> bool:
    return "".join(text for text, _ in lines[line])[column] in SOLID


def test_more_than_colour_tells_what_is_done() -> None:
    """What is done and in hand is filled, what is to come is dotted; what is in hand reaches where nothing else does."""
    found, shown = drawn(BALL, "round 3", "yes", *["next"] * 2)
    assert shown.around is not None
    lines = disc_lines(found, shown.around, 44, 22)
    signs = {
        role: {sign for line in lines for text, own in line for sign in text if own == role}
        for role in ("now", "coming")
    }
    assert signs["now"] <= SOLID
    assert signs["coming"] <= DOTS
    middle = 11, 22

    def far(role: str) -> float:
        return (
            max(
                (2 * (line - middle[0])) ** 2 + (column - middle[1]) ** 2
                for line, column in cells(lines, role)
                if lines_solid(lines, line, column)
            )
            ** 0.5
        )

    assert far("now") > far("done") + 1


def test_a_square_is_square_on_a_screen_whose_cells_are_twice_as_high_as_wide() -> None:
    """The lines of a granny square's upper edge are as wide as its lower one's, and twice as many columns as lines."""
    found, shown = drawn(GRANNY, "round 2", "yes", "next")
    assert shown.around is not None
    lines = disc_lines(found, shown.around, 44, 22)
    coming = cells(lines, "coming")
    rows, columns = [line for line, _ in coming], [column for _, column in coming]
    top = [column for line, column in coming if line == min(rows)]
    assert max(top) - min(top) > 0.8 * (max(columns) - min(columns))
    assert 1.7 < (max(columns) - min(columns) + 1) / (max(rows) - min(rows) + 1) < 2.3


@pytest.mark.parametrize(
    "width, height, round_here", [(60, 20, False), (80, 24, True), (120, 40, True), (200, 60, True)]
)
def test_rounds_lie_around_their_middle_where_there_is_room(
    width: int, height: int, round_here: bool
) -> None:
    """Beside the group; else as rows under it."""
    seen = sample("crossroads-square", "row 3", "yes", "next").view()
    text = text_of(page(seen, Showing(), width, height))
    assert bool(set(text) & DOTS) is round_here
    assert ("Rnd 3 ◄" in text) is not round_here


def test_the_maker_may_have_rows_and_a_tube_has_them() -> None:
    """The choice is kept in what is shown; a cowl has no middle to lie around."""
    seen = sample("crossroads-square", "row 3", "yes", "next").view()
    assert "Rnd 3 ◄" in text_of(page(seen, Showing(as_rows=True), 120, 40))
    assert "Rnd 2 ◄" in text_of(page(Work(TUBE, "round 2", "yes").view(), Showing(), 120, 40))


def test_a_step_within_a_round_touches_only_lines_near_the_place() -> None:
    """A step changes some of the lines, and a line that was there once is the very same when it comes back."""
    found, shown = drawn(BALL, "round 3", "yes", "next")
    assert shown.around is not None
    before = disc_lines(found, shown.around, 44, 22)
    work = Work(BALL, "round 3", "yes", "next", "next")
    around = work.view().around
    assert around is not None
    after = disc_lines(found, around, 44, 22)
    changed = sum(a != b for a, b in zip(before, after, strict=True))
    assert 3 < changed < 20
    assert disc_lines(found, shown.around, 44, 22) == before
    assert all(a is b for a, b in zip(disc_lines(found, shown.around, 44, 22), before, strict=True))


def test_the_place_is_seen_at_every_step_of_a_round() -> None:
    """In every round of the ball something is in hand until the count."""
    work = Work(BALL)
    program = program_of(BALL)
    assert begun(program)
    for _ in range(40):
        seen = work.view()
        if seen.around is not None and seen.around.in_hand and seen.done < seen.due:
            assert in_role(page(seen, Showing(), 80, 24), "now"), seen.row
        work.do("next")


def test_a_shawl_rises_to_its_spine_where_there_is_room() -> None:
    """The spine's space lies highest, both ends lowest and level; in a small room it is drawn straight."""
    seen = sample("dusk-lane-shawl", "row 12", "yes", *["next"] * 4).view()
    assert seen.waved
    lines = text_of(page(seen, Showing(), 120, 40)).splitlines()
    rows = [at for at, line in enumerate(lines) if "○" in line]
    named = [at for at, line in enumerate(lines) if "Row 12 ◄" in line]
    assert len(named) == 1
    assert min(rows) <= named[0] - 5
    assert lines[named[0]].count("Ŧ") > 20
    small = text_of(page(seen, Showing(), 80, 24)).splitlines()
    assert len([line for line in small if "○" in line]) == 5
    assert not sample("hearth-mat", "row 4", "yes").view().waved
