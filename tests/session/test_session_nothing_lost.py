"""What a row says beside its stitches reaches the maker, once, and before the hands need it."""

from tests.on_the_hook import program_of, told, walked
from tracker.program.places import Program
from tracker.session.wording import said_at


def all_told(program: Program) -> list[str]:
    return [said_at(program, place) for place in walked(program)]


def test_on_which_side_a_cable_crosses_is_told_before_it_is_worked() -> None:
    words = told(
        program_of(
            "Rope\n\nCh 9.\nRow 1 (WS): Hdc in 2nd ch from hook and in each ch across, turn. (8 hdc)\n"
            "Row 2 (RS): Ch 1, hdc in first hdc, sk next 3 sts, FPtr around each of next 3 sts, working in front of "
            "sts just made, FPtr around each of 3 skipped sts, hdc in last hdc, turn. (2 hdc, 6 FPtr)\n"
        ),
        2,
    )
    assert words[3] == (
        "Working in front of stitches just made, front post treble crochet around each of three skipped stitches."
    )


def test_how_a_stitch_of_a_repeat_is_worked_is_told_and_its_name_in_brackets_is_not() -> None:
    text = (
        "Bricks\n\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (11 sc)\n"
        "Row 2: Ch 1, sc in first sc, *ch 1, sk 1, sc in next sc; rep from * across, turn. (6 sc, 5 ch-1 sps)\n"
        "Row 3: Ch 1, sc in first sc, *dc in skipped sc 2 rows below ({}), sc in next sc; rep from * across. "
        "(6 sc, 5 dc)\n"
    )
    words = " ".join(told(program_of(text.format("working in front of ch-1 sps")), 3))
    assert "two rows below, working in front of the chain-one spaces, single crochet. Five of these." in words
    assert "made" not in " ".join(told(program_of(text.format("long dc made")), 3))


def test_words_between_the_rows_are_told_once_though_a_row_begins_with_them() -> None:
    program = program_of(
        "Bib\n\nBODY\nCh 23.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (22 sc)\n"
        "Row 2: Ch 1, turn, sc in each sc across. (22 sc)\n\nFIRST STRAP\n"
        "Row 3: Ch 1, turn, sc in first 7 sts, leave rem 15 sts unworked. (7 sc)\nFasten off.\n\nSECOND STRAP\n"
        "Sk next 8 unworked sts of Row 2 for neck, join yarn with sl st in next st.\n"
        "Row 3: Ch 1, sc in same st and in each of next 6 sts. (7 sc)\nFasten off.\n"
    )
    said = all_told(program)
    assert sum("kip the next eight" in words or "Skip eight" in words for words in said) == 1
    # nobody knows how the work is held by who joins yarn to stitches left waiting
    strap = [words for words in said if words.startswith("Row three")][1]
    assert strap == "Row three. Chain one, one single crochet in the same stitch, six single crochet."


def test_the_words_of_a_row_keep_their_order() -> None:
    words = told(
        program_of(
            "Tiles\n\nBlock = ch 3, 3 dc in the ch-3 space of the block below.\n"
            "Increase block (at the start of a row) = ch 6, dc in 4th ch from hook and in each of next 2 ch.\n\n"
            "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch. 1 block. Turn.\n"
            "Row 2: Increase block, block in next block. 2 blocks. Turn.\n"
            "Row 3: Sl st to ch-3 sp of first block, work 1 block as before, sl st in last. 1 block. Turn.\n"
        ),
        3,
    )
    assert words[0].startswith(
        "Row three. Slip stitch to the chain-three space of the first block. Tile as before."
    )


def test_a_block_that_begins_a_row_is_told_by_its_own_name() -> None:
    words = told(
        program_of(
            "Tiles\n\nBlock = ch 3, 3 dc in the ch-3 space of the block below.\n"
            "Increase block (at the start of a row) = ch 6, dc in 4th ch from hook and in each of next 2 ch.\n\n"
            "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch. 1 block. Turn.\n"
            "Row 2: Increase block, block in next block. 2 blocks. Turn.\n"
        ),
        2,
    )
    assert words[0] == "Row two. Increase block, tile."


def test_a_colour_that_changes_behind_several_rows_changes_in_the_last_of_them() -> None:
    said = all_told(
        program_of(
            "Leg\n\nRnd 1: 6 sc in magic ring = 6 sts\nRnd 2-4: 1 sc in every st = 6 sts\nChange to orange.\n"
            "Rnd 5-6: *1 sc, 1 sc* x 3 = 6 sts\nChange to white.\nRnd 7: 1 sc in every st = 6 sts\n"
        )
    )
    assert [words.partition(".")[0] for words in said if "Change to orange" in words] == ["Round four"]
    white = next(k for k, words in enumerate(said) if "Change to white" in words)
    assert any(words.startswith("Round six") for words in said[:white])
    assert "" not in said


def test_a_colour_in_a_label_is_told_as_its_row_begins() -> None:
    said = all_told(
        program_of(
            "Stripes\n\nWith A, ch 11.\nRow 1 (A): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
            "Row 2 (B): Ch 1, sc in each sc across, turn. (10 sc)\nRow 3 - Color A: Ch 1, sc in each sc across. (10 sc)\n"
            "Row 4 (RS): Ch 1, sc in each sc across. (10 sc)\n"
        )
    )
    assert [words.split(". ")[1] for words in said if words.startswith("Row two. ")] == ["With B"]
    assert [words.split(". ")[1] for words in said if words.startswith("Row three. ")] == ["With Color A"]
    assert any(words.startswith("Row four, right side. Chain one") for words in said)


def test_the_order_of_colours_of_rows_worked_again_is_told_as_they_begin() -> None:
    program = program_of(
        "Stripes\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "Row 2: Ch 1, turn, sc in each sc across. (10 sc)\n"
        "Rows 3-8: Rep Row 2 in the following color order: 2 rows A, 2 rows B, 2 rows C.\n"
    )
    assert "In the following color order: two rows A, two rows B, two rows C." in told(program, 3)[0]
    assert "color order" not in told(program, 4)[0]


def test_the_turn_behind_a_part_is_told_where_the_next_goes_on_from_it() -> None:
    program = program_of(
        "Mat\n\nBODY\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n\nFLAP\n"
        "Row 2: Turn, ch 1, sc in each sc across. (10 sc)\n\nSTRAP\nCh 5.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n"
    )
    assert told(program, 1)[-1].endswith("Count, then turn; it is the last row of the body.")
    assert "turn" not in told(program, 2)[-1]


def test_where_all_rows_are_worked_on_the_right_side_nobody_is_told_to_turn() -> None:
    rows = (
        "With MC, ch 6.\nRow 1 (MC): Sc in 2nd ch from hook and in each ch across. (5 sts)\n"
        "Row 2 (CC): Sc in each st across. (5 sts)\nRow 3 (MC): Sc in each st across. (5 sts)\n"
    )
    for note in (
        "overlay mosaic, all rows on RS",
        "Work all rows on the right side, starting each with a new yarn.",
        "Always work on the right side: at the end of every row fasten off.",
        "RS rows only: fasten off at the end of each row.",
        "Notes: Do not turn. Every row begins with a sc in the first st.",
    ):
        said = all_told(program_of(f"Band\n{note}\n\n{rows}"))
        assert not any("then turn" in words for words in said), note
        assert any("Count; don't turn." in words for words in said), note


def test_a_corner_between_groups_is_told_between_them_and_gaps_are_no_stitches() -> None:
    program = program_of(
        "Granny\n\nCh 4, join to form ring.\nRnd 1: Ch 3 (counts as dc), 15 dc in ring, join to top of ch-3. (16 dc)\n"
        "Rnd 2: Join yarn between any two sts. Ch 3 (counts as dc), dc in same space, 2 dc in each space between sts "
        "around, join. (32 dc)\n"
        "Rnd 3: Slip stitch to the next gap, ch 3, 2 dc in same gap, *3 dc in each of the next 3 gaps, between the next "
        "two pairs make a corner: 3 dc, ch 2, 3 dc*; repeat from * to * twice more. Join.\n"
    )
    assert not any(
        "three double crochet, chain two" in words and "In one stitch" in words for words in all_told(program)
    )


def test_nothing_is_told_of_a_rest_that_no_stitch_is_left_for() -> None:
    words = told(
        program_of(
            "Toy\n\nRnd 1: 6 sc in magic ring = 6 sts\nRnd 2: inc in every st = 12 sts\nRnd 3: inc in every 2nd st = 18 sts\n"
        ),
        3,
    )
    assert words[-2] == "Last one, to the end of the round."


def test_a_stitch_made_of_several_is_told_by_its_name_and_number_alone() -> None:
    words = told(
        program_of(
            "Wrap\n\nCrossed dc (Cdc): Sk next st, dc in next st, working in front of dc just made, dc in skipped st.\n\n"
            "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"
            "Row 2: Ch 3 (counts as dc), turn; Cdc across. (5 Cdc, 1 dc)\n"
        ),
        2,
    )
    assert words[1].startswith("Five crossed double crochet")
    assert len(words) == 3


def test_a_marker_moved_to_a_decrease_hangs_there_whatever_was_worked_behind_it() -> None:
    program = program_of(
        "Mitre\n\nCh 12.\nRow 1: Sc in 2nd ch from hook and in next 3 ch, sc3tog over next 3 ch, sc in each rem ch; "
        "place marker in the sc3tog. [9 sts]\n"
        "Row 2: Ch 1, turn; sc in each st to 1 st before marked st, sc3tog, sc in each st to end; move marker up to the "
        "new sc3tog. [7 sts]\nRow 3: Rep Row 2. [5 sts]\n"
    )
    assert told(program, 3)[1:3] == ["Two single crochet.", "Three single crochet together."]


def test_a_chain_of_a_space_is_told_as_that_chain() -> None:
    program = program_of(
        "Lacet\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "Row 2: Ch 3 (counts as dc), turn, *ch 5, sk 2 sc, dc in next sc; rep from * across. (4 dc, 3 ch-5 sps)\n"
        "Row 3: Ch 1, turn, sc in first dc, *sc in 3rd ch of next ch-5, sc in next dc; rep from * across.\n"
    )
    assert "in the third chain of the next chain-five" in " ".join(told(program, 3))


def test_slip_stitches_to_where_a_round_begins_are_told_each() -> None:
    program = program_of(
        "Granny\n\nCh 5, sl st to form ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, [3 dc in ring, ch 2] "
        "3 times, sl st in top of ch-3. (12 dc, 4 ch-2 sps)\n"
        "Rnd 2: Sl st in next dc, sl st in next dc, sl st in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in "
        "same sp, [(3 dc, ch 2, 3 dc) in next ch-2 sp] 3 times, sl st in top of ch-3. (24 dc, 4 ch-2 sps)\n"
    )
    assert told(program, 2)[0].startswith(
        "Round two. Slip stitch in the next double crochet, slip stitch in the next double crochet, "
        "slip stitch in the next chain-two space."
    )


def test_the_work_is_rotated_before_its_row_ends_are_worked_and_not_turned() -> None:
    program = program_of(
        "Logs\n\nCENTER\nCh 6\nRow 1: sc in 2nd ch from hook and across (5)\nRows 2-5: ch 1, turn, sc across (5)\n\n"
        "LOG 2\nRow 6: ch 1, rotate the work a quarter turn, 5 sc along the row ends (5)\n"
    )
    assert told(program, 5)[-1].endswith("Count; it is the last row of the center.")
    assert told(program, 6)[1].startswith("Rotate the work a quarter turn. Five along five row ends")


def test_rows_worked_until_something_is_so_are_told_though_nobody_knows_how_many() -> None:
    scarf = (
        "Scarf\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "Row 2: Ch 1, turn, sc in each sc across. (10 sc)\nRep Row 2 until piece measures 50 in from beg.\n"
    )
    until = "Repeat row two until piece measures fifty inches from the beginning."
    before_the_last = all_told(
        program_of(f"{scarf}Last Row: Ch 1, turn, sl st in each st across. (10 sl sts)\nFasten off.\n")
    )
    assert before_the_last.index(until) == before_the_last.index("Row two: ten single crochet. Count.") + 1
    assert all_told(program_of(f"{scarf}Fasten off.\n"))[-1] == f"{until} Fasten off."


def test_of_figures_for_every_size_one_is_told_however_they_are_parted() -> None:
    for figures in ("3/5/7", "3 (5) (7)", "3 (5/7)", "3 (5, 7)", "3: 5: 7"):
        program = program_of(
            "Vest\nSizes S/M/L\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
            f"Row 2: Turn. Sl st in first {figures} sts, ch 1, sc in each st to end.\n"
        )
        assert "first three stitches" in told(program, 2)[0], figures


def test_chains_that_join_two_pieces_are_told_once() -> None:
    words = told(
        program_of(
            "Bunny\n\nLEGS (make 2)\nRnd 1: 6 sc in magic ring [6]\nRnd 2: 6 inc [12]\n\nBODY\n"
            "Rnd 3: ch 3, join to the first leg with sc in any st, sc in next 11 sts of first leg, sc in next 3 ch, "
            "sc in next 12 sts of second leg, sc in other side of next 3 ch [30]\n"
        ),
        3,
    )
    assert " ".join(words).count("Chain three") == 1


def test_a_remark_behind_a_repeat_is_not_announced_as_work() -> None:
    words = told(
        program_of(
            "Cloth\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
            "Row 2: Ch 1, turn, *sc in next st, dc in next st; rep from * across. If you have done it right, you will see it. "
            "(5 sc, 5 dc)\n"
        ),
        2,
    )
    assert not any("Then if you" in line for line in words)


def test_increases_spread_evenly_are_not_told_one_beside_another() -> None:
    words = told(
        program_of(
            "Yoke\n\nCh 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
            "Row 2: Ch 1, turn, sc across, increasing 6 sts evenly spaced. (36 sc)\n"
        ),
        2,
    )
    assert words[1:] == [
        "Single crochet across, increasing six stitches evenly spaced.",
        "Row two: thirty-six single crochet. Count; it is the last row.",
    ]


def test_how_a_picot_is_made_is_not_told_as_where_the_work_begins() -> None:
    program = program_of(
        "Hoarfrost\nSize 10 thread.\nPicot: ch 3, sl st in 3rd ch from hook.\n\nCh 6; join with sl st to form a ring.\n"
        "Rnd 1: Ch 1, 12 sc in ring; join with sl st in first sc. [12 sc]\n"
    )
    assert all_told(program)[0] == "Chain six; join with a slip stitch to form a ring."
