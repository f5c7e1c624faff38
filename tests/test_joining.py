"""Many squares into one: how they lie, which edges meet, the order of joining; led, printed and planned."""

import pytest
from on_the_hook import program_of, sample

from tracker.load import load
from tracker.paper.gather import leaf_of
from tracker.program.joining import Layout, edges_of, last_edges, layout_of, map_of
from tracker.samples import samples
from tracker.session.wording import said_at


@pytest.mark.parametrize("down, across", [(1, 2), (2, 2), (4, 3), (1, 7), (5, 1)])
def test_every_edge_that_meets_another_is_joined_once(down: int, across: int) -> None:
    """Counted without the seams: in a grid each piece meets the one at its right and the one below it."""
    places = {row * across + at + 1: (row, at) for row in range(down) for at in range(across)}
    meeting = {
        (one, other)
        for one, (row, at) in places.items()
        for other, (row_too, at_too) in places.items()
        if one < other and abs(row - row_too) + abs(at - at_too) == 1
    }
    pairs = [pair for seam in Layout(down, across).seams for pair in seam.pairs]
    assert len(pairs) == len(set(pairs)) == len(meeting)
    assert set(pairs) == meeting


def test_the_squares_lie_as_the_pattern_says() -> None:
    """Four rows of three, right sides together; words that name another number are not believed."""
    pattern = load("x", samples()["crossroads-square"].read_text(encoding="utf-8")).pattern
    layout = layout_of(pattern, 12)
    assert layout == Layout(4, 3, "right sides together")
    assert layout_of(pattern, 30) is None
    assert map_of(Layout(4, 3)) == (" 1   2   3", " 4   5   6", " 7   8   9", "10  11  12")


@pytest.mark.parametrize(
    "name, edges",
    [
        # Worked by hand: a side grows by 4 a round, 3, 7, 11, 15; of the granny 4 groups of 3, 3 spaces, 2 at the corners.
        ("crossroads-square", (15, 15, 15, 15)),
        ("kettle-square", (17, 17, 17, 17)),
    ],
)
def test_the_edges_of_a_square_are_counted_between_its_corners(name: str, edges: tuple[int, ...]) -> None:
    """Corner spaces belong to no edge."""
    fabric = load(name, samples()[name].read_text(encoding="utf-8")).fabric
    assert last_edges(fabric) == edges
    assert len(edges_of(fabric.row(2).worked)) == 4


def test_the_joining_is_led_pair_by_pair_after_the_last_square() -> None:
    """Across first, then down; the words of the pattern before it; nothing of it after the first eleven."""
    program = sample("crossroads-square")
    place, said = program.part_start(0, 12), []
    while place != program.end:
        said.append(said_at(program, place))
        place = program.next(place)
    at = next(nth for nth, words in enumerate(said) if words.startswith("Now the joining."))
    assert said[at + 1] == (
        "Seam one of five, across: squares one and four, right sides together. "
        "Fifteen stitches on each edge; corner meets corner."
    )
    assert said[at + 2 : at + 4] == ["On to two and five.", "On to three and six. Fasten off."]
    assert len(said) - at - 1 == 17
    after_first = program.next(program.next(program.part_start(0, 1)))
    assert after_first[1] == 1
    place, joined = program.part_start(0, 1), 0
    while place[1] == 1 and place[0] == 0:
        joined += "Seam" in said_at(program, place)
        place = program.next(place)
    assert joined == 0


def test_a_pattern_that_does_not_say_how_they_lie_keeps_its_own_words() -> None:
    """Joined as written, after the last of them, with no seam made up."""
    text = (
        "COASTER\nMake 4.\n\nCh 3.\nRow 1: Sc in 2nd ch from hook, sc in next ch. (2 sc)\n\nFasten off.\n\n"
        "JOINING\nJoin the squares as you like.\n"
    )
    program = program_of(text)
    assert [part.copies for part in program.parts] == [4, 1]
    place, said = program.part_start(1), []
    while place != program.end:
        said.append(said_at(program, place))
        place = program.next(place)
    assert said == ["Now the joining. Join the squares as you like."]


def test_the_sheet_lists_the_seams_and_how_they_lie() -> None:
    """In words that need no picture."""
    leaf = leaf_of(load("x", samples()["crossroads-square"].read_text(encoding="utf-8")))
    assert leaf.layout[0] == "Top row: 1, 2, 3."
    assert "stitch for stitch" in leaf.layout[-1]
    assert sum(words.startswith(("Seam", "On to")) for entry in leaf.after for words in entry.words) == 17
    assert any("34 (square 2 × 12, Joining 10)" in words for entry in leaf.after for words in entry.words)


@pytest.mark.parametrize(
    "sides, says",
    [
        ((8, 8, 8, 8), ""),
        ((8, 6, 8, 6), ""),
        ((8, 6, 8, 7), "opposite edges have eight and nine between the corners."),
    ],
)
def test_edges_that_should_agree_and_do_not_are_told_as_the_round_begins(
    sides: tuple[int, ...], says: str
) -> None:
    """A square and a rectangle are well; where opposite edges differ, where to add is said, before the corner."""
    along = ", ".join(f"3 sc in next st, sc in next {many} sts" for many in sides)
    whole = sum(sides) + 4
    text = (
        f"RING\nCh {whole}, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around; join with sl st in first "
        f"sc. ({whole} sc)\nRnd 2: Ch 1, {along}; join with sl st in first sc. ({sum(sides) + 12} sc)\n"
    )
    program = program_of(text)
    assert edges_of(program.fabric.row(2).worked) == tuple(many + 2 for many in sides)
    said = said_at(program, program.row_start(program.start, 2))
    assert (says in said) if says else ("opposite" not in said)
