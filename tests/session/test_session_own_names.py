"""What the pattern calls by letters of its own is told in words: squares, tiles, special stitches, sizes, brackets."""

import pytest
from corpus_cases import cases, reading
from on_the_hook import program_of, told

from tracker.program.places import Program
from tracker.session.amiss.asking import marker_at
from tracker.session.state import begun
from tracker.session.wording.spelled import own_names

FILET = """SAIL
Open mesh (om): ch 2, sk next 2 dc or next ch-2 sp, dc in next dc.
Block (bl): dc in next 2 dc or 2 dc in next ch-2 sp, dc in next dc.

Ch 14.
Row 1: Dc in 8th ch from hook, (ch 2, sk 2 ch, dc in next ch) twice. (3 om)
Row 2: 1 om, 1 bl, 1 om.
Row 3: 3 bl.
Row 4: 2 bl, 1 om.
"""


def corpus(name: str) -> Program:
    for folder in ("flat", "rounds"):
        if any(case.name == name for case in cases(folder)):
            loaded = reading(folder, name)
            return Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems)
    raise AssertionError(name)


@pytest.mark.parametrize(
    "row, said",
    [
        (
            2,
            [
                "Row two. Chain five: a double crochet and its window. Skip the space, one double crochet.",
                "Block: two double crochet in the space, one in the next.",
                "Window: chain two, skip the space, one double crochet; the last goes in the fifth chain of the chain "
                "seven, counted from the base.",
                "Row two: three squares, two open. Count, then turn.",
            ],
        ),
        (
            3,
            [
                "Row three. Careful: not like the last row. It starts with a block. Chain three: your first double "
                "crochet. Skip the stitch it stands on.",
                "Three blocks: nine double crochet, two in each space; the last goes in the third chain of the chain "
                "five, counted from the base.",
                "Row three: three squares, none open. Count, then turn.",
            ],
        ),
        (
            4,
            [
                "Row four. Chain three: your first double crochet.",
                "Two blocks: six double crochet.",
                "Window: chain two, skip two, one double crochet; the last goes in the top of the chain three.",
                "Row four: three squares, one open. Count; it is the last row.",
            ],
        ),
    ],
)
def test_filet_told_in_squares_is_told_in_stitches(row: int, said: list[str]) -> None:
    """A first window wants a chain of five in a mesh of two (trade handbooks on filet; 3 for the post, 2 across)."""
    assert told(program_of(FILET), row) == said


def test_what_stands_on_such_a_row_is_what_its_squares_are() -> None:
    """Posts are squares and one more; a window has its chains, a block two more stitches."""
    fabric = program_of(FILET).fabric
    assert fabric.row(2).worked.makes == {"dc": 6, "ch-2 sp": 2}
    assert fabric.row(3).worked.makes == {"dc": 10}
    assert [(e.kind, e.chains) for e in fabric.row(2).worked.elements[:2]] == [("dc", 3), ("sp", 2)]


def test_tiles_keep_the_words_they_are_told_in() -> None:
    """The stitches of the first tile, and the slip stitch that ends a row that narrows."""
    said = told(corpus("c2c_little_square"), 3)
    assert (
        said[0]
        == "Row three. Chain six, turn, double crochet in the fourth chain from the hook and in the next two chains."
    )
    assert told(corpus("c2c_little_square"), 6)[1] == (
        "Slip stitch in the next chain-three space, chain three, three double crochet in the same space. "
        "Slip stitch in the last chain-three space."
    )


@pytest.mark.parametrize(
    "definition, name, said",
    [
        ("Drop-down dc (ddc): dc in the unused front loop of the st two rows below.", "ddc", "drop-down double crochet"),
        ("Popcorn (pc): 5 dc in next st, drop loop from hook, insert hook in first dc, draw loop through.", "pc", "popcorn"),
        ("C4F: Skip next 2 sts, FPtr around each of next 2 sts, FPtr around each of 2 skipped sts.", "c4f", "C four F"),
        ("X-st (crossed dc): Sk next st, dc in next st, dc in skipped st.", "x-st", "crossed double crochet"),
        ("sh - shell: 5 dc in same st", "sh", "shell"),
        ("V-st = (dc, ch 1, dc) in same st", "v-st", "V-stitch"),
        ("SHELL: 3 DC, CH 2, 3 DC IN SAME SP.", "shell", "shell"),
        ("LDC (long dc) = dc in the unworked sc three rows below, in front of the ch", "ldc", "long double crochet"),
    ],
)  # fmt: skip
def test_a_stitch_is_called_in_full_where_its_definition_does(definition: str, name: str, said: str) -> None:
    """Letters that are all there is are spelled."""
    text = f"CLOTH\n\nSpecial stitches\n{definition}\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch. (20 sc)\n"
    assert own_names(program_of(text))[name] == said


def test_it_is_called_so_wherever_it_is_told() -> None:
    """In the row, in the join, in the count; the one that begins a round by its own name."""
    block = corpus("popcorn_block")
    said = told(block, 1)
    assert said[0] == "Round one. Beginning popcorn in the ring, chain three."
    assert said[1] == "Popcorn in the ring, chain three. Three of these."
    assert said[-2] == "Join with a slip stitch in the first popcorn."
    assert told(corpus("overlay_mosaic_mat"), 3)[-1].endswith(
        "five drop-down double crochet. Count; don't turn. Fasten off."
    )


def test_the_end_of_a_bracket_is_heard() -> None:
    """What stands behind it does not go into the same place."""
    said = told(corpus("popcorn_block"), 2)
    assert said[3] == (
        "In the chain-three space: two double crochet, chain three, two double crochet; then one double crochet. "
        "Three of these."
    )


def test_of_figures_for_every_size_one_is_told() -> None:
    """And a hook's size as a number, not letter by letter."""
    from tracker.session.wording.places import said_at

    jacket = corpus("uk_harbour_jacket_back")
    assert said_at(jacket, jacket.start).startswith("With four millimetre hook make forty-two chain.")


def test_a_round_that_only_a_note_joins_is_joined_at_its_end_and_needs_no_marker() -> None:
    """ "Join every round with a slip stitch"."""
    mandala = corpus("fan_mandala_taller")
    assert (
        told(mandala, 2)[-1]
        == "Round two: twenty-four double crochet, twelve chain-one spaces. Count, then join."
    )
    session = begun(mandala)
    place = mandala.row_start(mandala.start, 2)
    from tracker.records import replace

    assert marker_at(replace(session, place=place)) == ""


def test_a_remark_for_the_end_of_a_range_is_told_at_its_end() -> None:
    """ "Rows 2–14: …, turn. Do not fasten off." is for row fourteen."""
    square = corpus("bordered_face_square")
    assert "fasten" not in " ".join(told(square, 2)).lower()
    assert "Do not fasten off." in " ".join(told(square, 14))


def test_the_mark_for_the_way_back_is_where_the_way_back_ends() -> None:
    """The third chain of a chain four that is a stitch and a space."""
    from tracker.records import replace

    trellis = corpus("star_lattice_pillow")
    session = replace(begun(trellis), place=trellis.row_start(trellis.start, 2))
    assert marker_at(session) == "Mark the third chain of the chain four: the way back ends in it."
    assert "third chain of the chain four" in told(trellis, 3)[-2]


def test_two_rows_that_come_again_are_two() -> None:
    """ "Three and four", not "three to four"."""
    assert told(corpus("overlay_mosaic_mat"), 5)[0].startswith(
        "Row five is row three. Three and four, second time."
    )


@pytest.mark.parametrize(
    "name, row, at, said",
    [
        ("onechain_doily", 2, 0, "Round two. Chain five: a double crochet and its chain-two space."),
        ("onechain_doily", 5, 2, "In each of twenty-two spaces: single crochet, chain five."),
        ("granny_kerchief_cowl", 3, 2, "In each of two spaces: chain one, three double crochet."),
        ("frilly_tree_ornament", 3, 0, "Round three. Back loop only. One single crochet, then two in one stitch. Three of these: six becomes nine."),
        ("standing_dc_mandala", 2, 0, "Round two. Yarn B: two double crochet in each of ten. Invisible join."),
        ("overlay_times_notation_coaster", 2, 1, "Fifteen single crochet into the back loop."),
        ("leafy_triangle_scarf", 2, 1, "Double crochet in the first stitch, then one in the next."),
    ],
)  # fmt: skip
def test_all_that_is_to_be_done_is_told_where_it_is_done(name: str, row: int, at: int, said: str) -> None:
    """What a chain stands for before a repeat, in how many spaces, the loop a repeat is worked in, the yarn first."""
    assert told(corpus(name), row)[at] == said


def test_where_the_legs_of_a_decrease_go_is_told() -> None:
    """One of three in the stitch before."""
    assert "placing the first leg in the same stitch" in told(corpus("trinity_face_flannel"), 2)[2]


def test_rounds_numbered_with_nothing_but_figures_are_rounds_where_a_ring_begins_them() -> None:
    """ "1: MR6": not turned, and marked."""
    gnome = corpus("toadstool_gnome")
    assert gnome.fabric.row(1).kind == "round"
    assert told(gnome, 1)[-1] == "Round one: six single crochet. Count."


def test_stitches_into_stitches_and_spaces_are_told_so() -> None:
    """ "Sc in each st and in each ch-1 sp": the spaces are not to be passed over."""
    assert (
        told(corpus("trinity_face_flannel"), 3)[1] == "Single crochet in each stitch and space: twenty-one."
    )


def test_a_row_below_that_repeats_is_told_once_through() -> None:
    """As a maker would say it, not pair by pair."""
    from tracker.session.wording.where import below_said

    hug = corpus("cable_mug_hug")
    assert below_said(hug, hug.row_start(hug.start, 3)) == (
        "Round two, from where you begin: four front post double crochet, two back post double crochet, six times."
    )


def test_how_a_cable_is_worked_ends_with_its_posts() -> None:
    """It goes under no loops of a top."""
    from tracker.session.wording.explain import how_worked

    hug = corpus("cable_mug_hug")
    said = how_worked(hug, hug.next(hug.row_start(hug.start, 3)))
    assert said.startswith("The pattern says: skip the next two stitches, front post treble crochet")
    assert "both loops" not in said


@pytest.mark.parametrize(
    "name, row, said",
    [
        (
            "growing_washcloth",
            3,
            "Double crochet in each double crochet around, working in each corner space: two double crochet, chain two, "
            "two double crochet",
        ),
        (
            "scalloped_blanket_edging",
            2,
            "Single crochet in each single crochet around, working three single crochet in the center single crochet of "
            "each corner.",
        ),
        (
            "checkerboard_table_runner",
            3,
            "Five double crochet in the chain-five space, then one in each of five.",
        ),
    ],
)
def test_what_is_done_otherwise_in_some_places_is_told(name: str, row: int, said: str) -> None:
    """A corner within an "each": whoever only hears it must not go straight past."""
    heard = " ".join(told(corpus(name), row)).replace("(", "").replace(")", "")
    assert said in heard
