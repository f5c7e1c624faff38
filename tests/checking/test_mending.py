"""When one edit makes the whole pattern agree it is found, and the text with it differs in nothing else."""

from pathlib import Path

import pytest
from corpus_cases import RIGHT, Case, cases, errors, reading

from tracker.load import load
from tracker.mending import mend, mended, offered, write_new
from tracker.mending.text import NotWritten

BASES = {case.name: case for folder in RIGHT for case in cases(folder)}
ALSO = (
    "f01_dishcloth_count f20_waffle_three f25_mesh_repeat_short f40_dragon_wing_short f46_basketweave_range "
    "f54_mitt_bracket f60_bobble_unknown f69_picnic_mixed r05_pip_left_over r07_pip_row_missing "
    "r14_hedgerow_foundation_off r33_octo_unclosed_bracket r36_onechain_unpaired_star r64_net_bad_row_reference "
    "r89_waffle_mixed_terms r06_pip_repeat_too_many r21_desk_row_twice "
    "f306_triangle_bandana_until_decrease_too_many f308_simple_raglan_front_sizes_decrease_left_out "
    "f313_corduroy_pillow_back_increase_too_many r416_pipkin_the_hedgehog_increase_left_out "
    "f357_uk_cardigan_front_row_counts_wrong_stitch f321_blanket_row_end_edging_bad_row_reference "
    "r408_uk_pram_shoes_decrease_left_out r458_hob_slipper_sock_wrong_stitch"
).split()
"""Planted errors of the other corpora, of every kind that one edit can mend."""
PLANTED = [
    *cases("broken_practice"),
    *(case for folder in ("broken_flat", "broken_rounds") for case in cases(folder) if case.name in ALSO),
]


@pytest.mark.parametrize("case", PLANTED, ids=[case.name for case in PLANTED])
def test_a_planted_error_is_mended_into_the_pattern_it_was_planted_in(case: Case) -> None:
    """To the letter: the base pattern is no part of what the search sees."""
    found = mend(reading(case.folder, case.name))
    assert found is not None, case.truth["explain"]
    assert mended(case.text, found.fix) == BASES[case.truth["base"]].text


def test_all_the_other_errors_were_found() -> None:
    """Each name of the list is a case, so that none is passed over."""
    assert {case.name for case in PLANTED} >= set(ALSO)


CLOTH = "Cloth\n\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"
THEN = "Row 3: Ch 1, turn, sc in each st across. (11 sc)\n"


@pytest.mark.parametrize(
    "wrong, right",
    [
        (
            "Row 2: Ch 1, turn, sc in each st across. (12 sc)\n",
            "Row 2: Ch 1, turn, sc in each st across. (11 sc)\n",
        ),
        (
            "Row 2: Ch 1, turn, sc in next 4 sts, dc in next 8 sts. (4 sc, 7 dc)\n" + THEN,
            "Row 2: Ch 1, turn, sc in next 4 sts, dc in next 7 sts. (4 sc, 7 dc)\n" + THEN,
        ),
        (
            "Row 2: Ch 1, turn, (sc in next st, dc in next st) six times, sc in last st. (6 sc, 5 dc)\n",
            "Row 2: Ch 1, turn, (sc in next st, dc in next st) five times, sc in last st. (6 sc, 5 dc)\n",
        ),
        (
            "Row 2: Ch 1, turn, (sc in next st, dc in next st 5 times, sc in last st. (6 sc, 5 dc)\n",
            "Row 2: Ch 1, turn, (sc in next st, dc in next st) 5 times, sc in last st. (6 sc, 5 dc)\n",
        ),
    ],
)
def test_small_slips_are_mended(wrong: str, right: str) -> None:
    """A stated count, a number in figures and in words, a bracket."""
    found = mend(load("cloth", CLOTH + wrong))
    assert found is not None
    assert mended(CLOTH + wrong, found.fix) == CLOTH + right


def test_a_right_pattern_is_not_mended() -> None:
    """There is nothing to offer."""
    assert mend(load("cloth", CLOTH)) is None


def test_what_two_edits_would_take_is_not_mended() -> None:
    """Half a cure is none."""
    text = (
        CLOTH
        + "Row 2: Ch 1, turn, sc in each st across. (13 sc)\nRow 3: Ch 1, turn, sc in each st across. (14 sc)\n"
    )
    assert mend(load("cloth", text)) is None


def test_a_phrase_left_out_is_put_in_as_the_pattern_tells_it_elsewhere() -> None:
    """With the comma it needs, which is not read out."""
    row = "Row 2: Ch 1, turn, *dc in next sc, sc in next sc; rep from * to last sc, dc in last sc. (6 dc, 5 sc)\n"
    then = "Row 3: Ch 1, turn, sc in each st across. (11 sc)\n"
    wrong = row.replace(", dc in last sc", "")
    found = mend(load("cloth", CLOTH + wrong + then))
    assert found is not None
    assert mended(CLOTH + wrong + then, found.fix) == CLOTH + row + then
    assert "“dc in last sc”" in found.sentence


def test_the_edit_is_offered_where_the_error_is_told() -> None:
    """In words, and as a fix for other programs; the other problems stay as they are."""
    loaded = load("cloth", CLOTH + "Row 2: Ch 1, turn, sc in each st across. (12 sc)\n")
    found = mend(loaded)
    assert found is not None
    told = errors(offered(loaded, found))
    assert [problem.fix for problem in told] == [found.fix]
    assert "Change “12” in “12 sc” in line 5 to “11”, and the whole pattern agrees." in told[0].help


def test_everything_else_stays_to_the_letter() -> None:
    """Also what is cleaned away in reading: curly quotes, soft hyphens, Windows' line ends, odd blanks."""
    text = "“Cloth” \u2026\r\n\r\nCh\u00a012.\r\nRow 1: Sc in 2nd ch from hook and in each ch a\u00adcross. (12 sc)\r\n"
    text += "Row 2: Ch 1, turn, sc in each st across. (11 sc)\r\n"
    found = mend(load("cloth", text))
    assert found is not None
    assert mended(text, found.fix) == text.replace("(12 sc)", "(11 sc)")


def test_the_mended_text_goes_into_a_new_file_only(tmp_path: Path) -> None:
    """A file that is there is the maker's, and is left as it is."""
    write_new(str(tmp_path / "new.txt"), "Row 1: × 2\r\n")
    assert (tmp_path / "new.txt").read_bytes() == "Row 1: × 2\r\n".encode()
    with pytest.raises(NotWritten, match="is there already"):
        write_new(str(tmp_path / "new.txt"), "Row 2")
    assert (tmp_path / "new.txt").read_bytes() == "Row 1: × 2\r\n".encode()
    with pytest.raises(NotWritten, match="cannot be written"):
        write_new(str(tmp_path / "no" / "such" / "folder.txt"), "Row 2")


ROUND = (
    "Patch\n\nCh 4; join with sl st to form ring.\n"
    "Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join. (12 dc, 4 ch-2 sps)\n"
    "Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, [ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp] 3 times,"
    " ch 1; join. (24 dc, 4 ch-2 sps, 4 ch-1 sps)\n"
)


@pytest.mark.parametrize(
    "right, wrong",
    [
        # a group is the same from both ends, and its slip counts once for every place
        ("(3 dc, ch 2, 3 dc) in next", "(3 dc, ch 2, 4 dc) in next"),
        ("(3 dc, ch 2, 3 dc) in next", "(2 dc, ch 2, 3 dc) in next"),
        # but for the one that a chain begins
        ("(24 dc,", "(23 dc,"),
        ("ch 3, (2 dc, ch 2, 3 dc)", "ch 3, (2 dc, ch 2, 4 dc)"),
    ],
)
def test_a_group_is_made_even(right: str, wrong: str) -> None:
    """Rather than the count made to fit it."""
    text = ROUND.replace(right, wrong)
    assert text != ROUND
    found = mend(load("patch", text))
    assert found is not None
    assert mended(text, found.fix) == ROUND


def test_of_two_counts_alike_the_one_that_is_off_is_put_right() -> None:
    """The spaces of one chain, and not those of two, though both are said to be four."""
    right = ROUND.replace(
        " ch 1; join. (24 dc, 4 ch-2 sps, 4 ch-1 sps)", " join. (24 dc, 4 ch-2 sps, 3 ch-1 sps)"
    )
    wrong = right.replace("3 ch-1 sps)", "4 ch-1 sps)")
    assert right != wrong
    found = mend(load("patch", wrong))
    assert found is not None
    assert mended(wrong, found.fix) == right


def test_what_is_passed_over_on_one_side_of_a_stitch_is_passed_over_on_the_other() -> None:
    """Where the row has too many for its count."""
    cloth = "Cloth\n\nCh 26.\nRow 1: Sc in 2nd ch from hook and in each ch across. (25 sc)\n"
    row = "Row 2: Ch 1, turn, sc in first sc, *sk 2 sc, 5 dc in next sc, sk 2 sc, sc in next sc; rep from * across. (20 dc, 5 sc)\n"
    wrong = row.replace("next sc, sk 2 sc", "next sc")
    found = mend(load("cloth", cloth + wrong))
    assert found is not None
    assert mended(cloth + wrong, found.fix) == cloth + row


@pytest.mark.parametrize(
    "right, wrong",
    [
        (
            "2 sc in first sc, sc in each sc to last sc, 2 sc in last sc. (13 sc)",
            "2 sc in first sc, sc in each sc to last sc. (13 sc)",
        ),
        (
            "sc in first 2 sc, (sc in next sc, sc2tog) 3 times. (8 sc)",
            "sc in first 2 sc, (sc in next sc, sc in next 2 sts) 3 times. (8 sc)",
        ),
        (
            "sc in first 2 sc, (sc in next sc, sc in next 2 sc) 3 times. (11 sc)",
            "sc in first 2 sc, (sc2tog, sc in next 2 sc) 3 times. (11 sc)",
        ),
    ],
)
def test_edges_and_decreases_are_put_back_whole(right: str, wrong: str) -> None:
    """What a row ends with as what it begins with; a decrease without a noun left behind it."""
    also = "Row 3: Ch 1, turn, sc2tog, sc in each st across.\n"
    row = f"Row 2: Ch 1, turn, {right}\n"
    text = CLOTH + row.replace(right, wrong) + also
    found = mend(load("cloth", text))
    assert found is not None
    assert mended(text, found.fix) == CLOTH + row + also


STRIPES = CLOTH + "Row 2: Ch 1, turn, dc in each st across.\n"


@pytest.mark.parametrize(
    "wrong, right, row",
    [
        # the row that the words end with tells what the range is
        (
            "Rows 3-6: Rep Rows 1 and 2, ending with Row 1.\nRow 8: Ch 1, turn, sc in each st across.\n",
            "Rows 3-7: Rep Rows 1 and 2, ending with Row 1.\nRow 8: Ch 1, turn, sc in each st across.\n",
            "Rows 3-6",
        ),
        # another yarn begins no other side where a number is missing behind it
        (
            "Row 3: Ch 1, turn, sc in each st across. Fasten off.\nRow 3: Join B with sc in first st, sc in each st across.\n"
            "Row 5: Ch 1, turn, sc in each st across.\n",
            "Row 3: Ch 1, turn, sc in each st across. Fasten off.\nRow 4: Join B with sc in first st, sc in each st across.\n"
            "Row 5: Ch 1, turn, sc in each st across.\n",
            "Row 3",
        ),
    ],
)
def test_a_number_of_rows_is_put_right_where_it_was_wrong(wrong: str, right: str, row: str) -> None:
    """And not at the row behind it, whose number only disagrees."""
    loaded = load("cloth", STRIPES + wrong)
    assert [problem.row for problem in errors(loaded)] == [row]
    found = mend(loaded)
    assert found is not None
    assert mended(STRIPES + wrong, found.fix) == STRIPES + right


@pytest.mark.parametrize(
    "right, wrong",
    [
        # an increase at one end as at the other, rather than a bigger one there
        (
            "2 sc in first sc, sc in each sc to last sc, 2 sc in last sc. (13 sc)",
            "sc in first sc, sc in each sc to last sc, 2 sc in last sc. (13 sc)",
        ),
        # a repeat that makes exactly what is stated, rather than the count
        (
            "(sc in next sc, dc in next sc) 5 times, sc in last sc. (6 sc, 5 dc)",
            "(sc in next sc, dc in next sc) 4 times, sc in last sc. (6 sc, 5 dc)",
        ),
        # the last stitch behind the chain that leads to it
        (
            "sc in next 3 sc, ch 2, sc in last 8 sc. (11 sc, 1 ch-2 sp)",
            "sc in next 3 sc, ch 2. (11 sc, 1 ch-2 sp)",
        ),
    ],
)
def test_the_likelier_of_two_edits_is_offered(right: str, wrong: str) -> None:
    """Where several would make the pattern agree."""
    row = f"Row 2: Ch 1, turn, {right}\n"
    found = mend(load("cloth", CLOTH + row.replace(right, wrong)))
    assert found is not None
    assert mended(CLOTH + row.replace(right, wrong), found.fix) == CLOTH + row


def test_a_statement_against_custom_is_put_right_before_the_numbers() -> None:
    """A chain of three that is said not to count, where one that counts makes all agree."""
    row = "Row 2: Ch 3 (counts as dc), turn, dc in next 4 sts, sk 1 st, dc in next 5 sts. (10 dc)\n"
    wrong = row.replace("(counts as dc)", "(does not count as a st)")
    found = mend(load("cloth", CLOTH + wrong))
    assert found is not None
    assert mended(CLOTH + wrong, found.fix) == CLOTH + row


def test_where_a_row_is_left_out_nothing_is_mended() -> None:
    """What does not fit behind the gap was written for the row that is missing; and no number there is wrong."""
    rows = (
        "Row 2: Ch 1, turn, sc in each sc across. (11 sc)\nRow 4: Ch 1, turn, 2 dc in each dc across. (44 dc)\n"
        "Row 5: Ch 1, turn, sc in each dc across. (44 sc)\n"
    )
    assert mend(load("cloth", CLOTH + rows)) is None


def test_a_search_ends_when_it_has_taken_too_long() -> None:
    """The clock is asked before each edit that is tried."""
    times = iter(range(0, 1_000, 5))
    text = CLOTH + "Row 2: Ch 1, turn, sc in each st across. (12 sc)\n"
    assert mend(load("cloth", text), clock=lambda: next(times)) is None


def test_a_first_row_is_not_renumbered_for_one_that_is_missing() -> None:
    """A row that is left out has no mend."""
    text = (
        CLOTH
        + "Row 3: Ch 1, turn, sc in each sc across. (11 sc)\nRow 4: Ch 1, turn, sc in each sc across. (11 sc)\n"
    )
    assert mend(load("cloth", text)) is None


MESH = """Ch 26.
Row 1: Dc in 8th ch from hook (counts as dc, ch 2, dc), *ch 2, sk 2 ch, dc in next ch; rep from * across. (8 dc, 7 ch-2 sps)
Row 2: Ch 5 (counts as dc, ch 2), turn, sk first dc and ch-2 sp, dc in next dc, *ch 2, sk next ch-2 sp, dc in next dc;
rep from * 4 more times, ch 2, dc in 5th ch of turning ch. (8 dc, 7 ch-2 sps)
Row 3: Ch 5, turn, sk first dc and ch-2 sp, dc in next dc, *ch 2, sk next ch-2 sp, dc in next dc; rep from * 4 more
times, ch 2, dc in 3rd ch of ch-5. (8 dc, 7 ch-2 sps)
"""
WHEEL = """Ch 4, join with sl st to form ring.
Rnd 1: Ch 3 (counts as dc), 11 dc in ring; join with sl st in 3rd ch of beg ch-3. (12 dc)
Rnd 2: Ch 5 (counts as dc, ch 2), *dc in next dc, ch 2; rep from * around; join in 3rd ch of ch-5. (12 dc, 12 ch-2 sps)
"""


@pytest.mark.parametrize(
    "right, words, wrong",
    [
        (MESH, "3rd ch of ch-5", "6th ch of ch-5"),
        (WHEEL, "3rd ch of beg ch-3", "4th ch of beg ch-3"),
        (WHEEL, "3rd ch of ch-5", "6th ch of ch-5"),
    ],
)
def test_a_chain_that_a_turning_chain_does_not_have_is_told(right: str, words: str, wrong: str) -> None:
    """At its own words; what is offered in its place is a chain that is there."""
    assert not errors(load("net", right))
    loaded = load("net", right.replace(words, wrong))
    (problem,) = errors(loaded)
    assert problem.code == "C205"
    assert loaded.source.words(problem.label.span) in (wrong, f"in {wrong}")
    found = mend(loaded)
    assert found is not None
    assert not errors(load("net", mended(loaded.source.text, found.fix)))
    assert found.fix.text in ("5th", "3rd")
