"""A grid becomes a written filet pattern, and the pattern read again makes the grid.

For any picture, either mesh and either hand.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.charts.chart import Wish as ChartWish
from tracker.charts.chart import charted
from tracker.filet.alphabet import LETTERS, lettered
from tracker.filet.grid import NoGrid, grid_of, read_grid
from tracker.filet.pattern import Wish, in_working_order, reads_backwards, written
from tracker.filet.words import counts, first_row, foundation, further_row
from tracker.load import Loaded, load

grids = st.integers(1, 12).flatmap(
    lambda wide: st.lists(st.text("#.", min_size=wide, max_size=wide), min_size=1, max_size=12)
)
"""Any picture of up to twelve squares by twelve, one square alone and all of one sort too."""


def charted_text(loaded: Loaded, left_handed: bool = False) -> str:
    """The one chart of a pattern, in letters."""
    (sheet,) = charted(loaded.source, loaded.pattern, loaded.fabric, ChartWish(left_handed=left_handed))
    return sheet.letters


@settings(max_examples=120, deadline=None)
@given(grids, st.sampled_from([1, 2]), st.booleans())
def test_reading_the_written_pattern_gives_the_grid_back(lines: list[str], mesh: int, mirrored: bool) -> None:
    """With nothing wrong in it, every row understood, and every stated count met."""
    grid = grid_of(tuple(lines))
    loaded = load("grid", written(grid, Wish(mesh=mesh, mirrored=mirrored)))
    assert [problem.headline for problem in loaded.problems] == []
    assert all(placed.worked.understood for _, placed in loaded.fabric.rows())
    assert loaded.fabric.length == grid.height
    assert charted_text(loaded, left_handed=mirrored) == grid.text


@settings(max_examples=30, deadline=None)
@given(grids, st.sampled_from([1, 2]))
def test_the_other_hand_sees_the_mirror_image(lines: list[str], mesh: int) -> None:
    """Rows for the right hand, charted for the left, are the picture in a mirror."""
    grid = grid_of(tuple(lines))
    loaded = load("grid", written(grid, Wish(mesh=mesh)))
    assert charted_text(loaded, left_handed=True).split() == [line[::-1] for line in grid.lines]


@pytest.mark.parametrize(
    "mesh, squares, chains, nth",
    [
        (2, "########", 27, "4th"),
        (2, "........", 29, "8th"),
        (1, "########", 19, "4th"),
        (1, "........", 20, "6th"),
    ],
)
def test_the_foundation_is_the_one_teaching_pages_print(
    mesh: int, squares: str, chains: int, nth: str
) -> None:
    """3n + 3 and 3n + 5 chains, 2n + 3 and 2n + 4 (filet starting chains, jahodnett.tripod.com/id178.html)."""
    assert foundation(mesh, squares) == chains
    assert first_row(mesh, squares).startswith(f"Dc in {nth} ch from hook")


@pytest.mark.parametrize(
    "mesh, squares, below, words",
    [
        (2, "#", "#", "Ch 3 (counts as dc), turn, dc in next 2 dc, dc in top of ch-3"),
        (2, ".", ".", "Ch 5 (counts as dc and ch-2 sp), turn, sk first ch-2 sp, dc in 3rd ch of ch-5"),
        (1, ".", "#", "Ch 4 (counts as dc and ch-1 sp), turn, sk first 2 dc, dc in top of ch-3"),
        (1, "#", ".", "Ch 3 (counts as dc), turn, dc in next ch-1 sp, dc in 3rd ch of ch-4"),
        (2, "####", "####", "Ch 3 (counts as dc), turn, dc in next 11 dc, dc in top of ch-3"),
    ],
)
def test_a_row_begins_and_ends_as_its_squares_ask(mesh: int, squares: str, below: str, words: str) -> None:
    """Open begins with the longer chain; the last dc goes into the chain the row below began with (common practice)."""
    assert further_row(mesh, squares, below, 3) == words


def test_the_second_row_lands_in_the_skipped_chains() -> None:
    """After an open start, counted from the base: the 5th of a ch-2 mesh, the 4th of a ch-1 mesh."""
    assert further_row(2, ".", ".", 2).endswith("dc in 5th ch of skipped chs")
    assert further_row(1, ".", ".", 2).endswith("dc in 4th ch of skipped chs")


@given(st.text("#.", min_size=1, max_size=30), st.sampled_from([1, 2]))
def test_counts_follow_the_arithmetic_of_filet(squares: str, mesh: int) -> None:
    """dc = squares + 1 + fill × blocks; spaces = open squares; in all mesh + 1 to a square and one more."""
    said = counts(mesh, squares)
    dc = int(said.split(" dc")[0])
    assert dc == len(squares) + 1 + mesh * squares.count("#")
    assert dc + mesh * squares.count(".") == (mesh + 1) * len(squares) + 1


def test_what_repeats_is_written_as_a_repeat() -> None:
    """Within a row in brackets, and rows that were written before by their numbers."""
    words = written(grid_of((".#.#.#.#.#", ".#.#.#.#.#", ".#.#.#.#.#", "..........", "..........")))
    assert "] 4 times" in words
    assert "(ch 2, sk next 2 chs, dc in next ch) 9 times" in words
    tower = written(grid_of(("#..#", "####", "#..#", "####", "#..#", "####", "#..#", "####")))
    # Row 2 lands in the beginning chain, so the rows that come again are those from Row 3 on.
    assert "Rows 5-8: Rep Rows 3-4 twice." in tower


def test_right_side_rows_run_from_the_right() -> None:
    """And for the left hand from the left."""
    grid = grid_of(("##.", "#.."))
    assert in_working_order(grid) == ("..#", "##.")
    assert in_working_order(grid, mirrored=True) == ("#..", ".##")


def test_lettering_that_would_read_backwards_is_told() -> None:
    """A picture that is its own mirror image needs no word."""
    assert "right hand" in reads_backwards(lettered("HOME"), mirrored=True)
    assert "left hand" in reads_backwards(lettered("HOME"), mirrored=False)
    assert reads_backwards(lettered("TOT"), mirrored=True) == ""
    assert "read backwards" in written(lettered("L"), Wish(mirrored=True))


@pytest.mark.parametrize(
    "title", ["Row 1: sc in each st", "ch 3", "R2", "24 sts", "dc", "Notes", "\x1b]8;;\x07", ""]
)
def test_no_title_is_taken_for_a_row(title: str) -> None:
    """Whatever a maker calls it, the piece has its rows and no other."""
    loaded = load("grid", written(grid_of((".#", "#.")), Wish(title=title)))
    assert loaded.fabric.length == 2
    assert loaded.problems == ()
    assert charted_text(loaded) == ".#\n#.\n"


@pytest.mark.parametrize(
    "text, says",
    [
        ("", "no square"),
        ("#.#\n#.", "Line 2 of the grid has 2 squares and the widest has 3"),
        ("#.#\n#?#", "Line 2 of the grid has ? in it"),
        ("#. #", "has a blank in it"),
        ("#" * 500, "is the most"),
    ],
)
def test_a_grid_that_is_none_is_told_in_one_sentence(text: str, says: str) -> None:
    """Which line, and what to do."""
    with pytest.raises(NoGrid) as told:
        read_grid(text)
    assert says in str(told.value)


def test_every_letter_is_seven_high_and_whole() -> None:
    """And no two letters look alike."""
    for sign, rows in LETTERS.items():
        assert len(rows) == 7, sign
        assert len({len(row) for row in rows}) == 1, sign
    assert len(set(LETTERS.values())) == len(LETTERS)
    with pytest.raises(NoGrid, match="no %"):
        lettered("100 %")
