"""Filet: n squares of mesh stand on (m + 1) n + 1 stitches, and the squares of a row are those of its grid.

The widths are those of filet teaching pages (3n + 1 for ch-2 mesh, 2n + 1 for ch-1 mesh; common practice, no source).
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from on_the_hook import program_of, sample

from tracker.program.row.squares import mesh_of, squares_done


def net(grid: list[str], mesh: int) -> str:
    """A filet pattern in full words: one row for each line of the grid, over a row of blocks."""
    wide = (mesh + 1) * len(grid[0]) + 1
    rows = [f"Row 1: Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across. ({wide} dc)"]
    below = "#" * len(grid[0])
    for number, line in enumerate(grid, 2):
        # Each row is turned, so a row in working order meets the one below from its other end.
        below = below[::-1]
        stands_for = "dc" if line[0] == "#" else f"dc and ch-{mesh} sp"
        words = [f"Turn, ch {3 if line[0] == '#' else 3 + mesh} (counts as {stands_for})"]
        for at, (square, under) in enumerate(zip(line, below, strict=True)):
            last = "top of ch-3" if below[-1] == "#" else f"3rd ch of ch-{3 + mesh}"
            upright = f"dc in {last}" if at == len(line) - 1 else "dc in next dc"
            skip = f"sk next {mesh} dc" if under == "#" else f"sk next ch-{mesh} sp"
            if square == "#":
                fill = f"dc in next {mesh} dc" if under == "#" else f"{mesh} dc in next ch-{mesh} sp"
            else:
                fill = skip if at == 0 else f"ch {mesh}, {skip}"
            words.append(f"{fill}, {upright}")
        rows.append(f"Row {number}: {', '.join(words)}.")
        below = line
    return f"NET\n\nCh {wide + 2}.\n" + "\n".join(rows)


grids = st.integers(2, 9).flatmap(
    lambda wide: st.lists(
        st.text("#.", min_size=wide, max_size=wide).filter(lambda row: "." in row), min_size=2, max_size=5
    )
)


@given(grids, st.sampled_from([1, 2]))
def test_the_squares_of_a_row_are_those_of_its_grid(grid: list[str], mesh: int) -> None:
    """Whatever the picture, blocks over windows and windows over blocks."""
    program = program_of(net(grid, mesh))
    if program.mesh is None:  # a picture so dark that it could be any cloth
        assert sum(row.count(".") for row in grid) < 3
        return
    assert program.mesh == mesh
    for index, row in enumerate(grid, 2):
        found = program.squares(index)
        assert found is not None
        assert "".join("." if window else "#" for window in found) == row
        assert sum(1 for element in program.fabric.row(index).worked.elements if element.is_stitch) == len(
            row
        ) + 1 + mesh * row.count("#")


@pytest.mark.parametrize(
    "name, mesh", [("harbour-windows", 1), ("pebble-cloth", None), ("low-tide-ripple", None)]
)
def test_only_filet_is_taken_for_filet(name: str, mesh: int | None) -> None:
    """A textured cloth and a ripple are told in stitches."""
    assert mesh_of(sample(name).fabric) == mesh


def test_a_square_is_done_when_its_second_upright_stands() -> None:
    """The chain alone closes nothing."""
    program = sample("harbour-windows")
    elements = program.fabric.row(2).worked.elements
    assert [squares_done(elements[:made], 1) for made in range(8)] == [0, 0, 0, 1, 1, 2, 2, 3]
