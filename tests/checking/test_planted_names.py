"""Errors of names and places planted in right patterns: what is joined in, how long a space is, which chain is the top.

Each leaves the numbers as they are, or tells by itself what is wrong with them.
"""

import pytest
from corpus_cases import errors
from test_planted_errors import TEXTS, Planted, told_alone

from tracker.load import load
from tracker.problems import Severity

PLANTED = (
    # squares by the pattern's own name for them, and groups by one that no list holds
    Planted("whole_words_filet_cat", "(8 spaces)", "(9 spaces)", 1, "9 spaces"),
    Planted("uk_filet_anchor_tray_cloth", "[14 tr, 10 sp]", "[14 tr, 12 sp]", 4, "12 sp"),
    Planted("cabbage_rose_brooch", "first sc. (6 petals)", "first sc. (7 petals)", 3, "7 petals"),
    Planted(
        "ribbon_v_cowl",
        "around; sl st in 3rd ch of ch-4. 30",
        "around; sl st in 3rd ch of ch-4. 31",
        2,
        "31 V",
    ),
    Planted("ribbon_v_cowl", "to last 2 ch", "to last 3 ch", 1, "last 3 ch"),
    Planted("harbour_lights_middle_top_shawl", "[20 shells]", "[17 shells]", 20, "17 shells"),
    # what is counted beside them, in brackets behind a total, and with a figure too many
    Planted("windfall_triangle", "turn. (12 dc + centre sp)", "turn. (13 dc + centre sp)", 2, "13 dc"),
    Planted("puff_and_cluster_lace", "8 puffs, 4 dc, 9", "8 puffs, 2 dc, 9", 2, "2 dc"),
    Planted("morning_washcloth_chatty", "13 sc and 13 dc", "13 sc and 19 dc", 1, "19 dc"),
    Planted("autumn_leaf_garland_oval", "7 sc, 6 hdc", "7 sc, 16 hdc", 1, "16 hdc"),
    # what a round is joined in
    Planted(
        "shepherds_fingerless_mitts_uk", "cuff, ss into first dc", "cuff, ss into first tr", 1, "first tr"
    ),
    Planted("comma_dash_sizes_hat", "sl st in first hdc", "sl st in first dc", 1, "first dc"),
    Planted("snow_lantern_joined", "3rd ch of beg ch-6", "2nd ch of beg ch-6", 2, "2nd ch of"),
    Planted("doily_small", "sl st in 3rd ch of beg ch 4", "sl st in 5th ch of beg ch 4", 1, "5th ch of"),
    # one stitch of another name at the end of each side
    Planted("willow_square_joined_hdc", "dc in each dc to end", "dc in each sc to end", 2, "each sc"),
    # a space of a length that stands nowhere
    Planted("collar_peter_pan", "hdc, sc) in next ch-5 lp", "hdc, sc) in next ch-3 lp", 6, "ch-3 lp"),
    Planted(
        "oval_egg_basket",
        "8 sc in each ch-6 sp around; join. (40",
        "8 sc in each ch-4 sp around; join. (40",
        10,
        "ch-4",
    ),
    Planted(
        "uk_button_pocket_apron_parts", "in each 2-ch sp, ending", "in each 1-ch sp, ending", 32, "1-ch sp"
    ),
    # what a row says of its chain, told rather than its count
    Planted(
        "hedge_maple_hexagon", "Rnd 5: Ch 1", "Rnd 5: Ch 1 (counts as sc)", 5, "counts as sc", mends=False
    ),
    Planted(
        "ten_petal_doily", "(counts as dc)", "(does not count as a st)", 2, "does not count", mends=False
    ),
    # one US name where every chain is that of a UK stitch
    Planted("bluebell_eyelet_stole_uk", "sp, 1 dc into next tr", "sp, 1 sc into next tr", 2, "sc"),
    Planted("uk_egg_cosies", "tr), 1 tr in", "tr), 1 te in", 5, "te"),
    # a second Row 1 that turns on the first
    Planted("uk_party_shoes_parts_buttonstrap", "Row 2: 1 ch, turn", "Row 1: 1 ch, turn", 1, "Row 1"),
    # a few stitches jumped before the last
    Planted(
        "latticed_filet_strap_in_words",
        "(ch 2, skip 2 dc, dc in next dc) 3 times, dc in next 2 dc",
        "(ch 2, skip 1 dc, dc in next dc) 3 times, dc in next 2 dc",
        2,
        mends=False,
    ),
    # numbers that only a mend shows
    Planted("short_row_shawlette", "Rep Rows 2-7 three", "Rep Rows 22-7 three", 8, "22-7"),
    Planted("first_steps_booties", "[dc2tog] 6 times, sc", "[dc3tog] 6 times, sc", 7),
)


@pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: f"{planted.base}: {planted.new[:30]}")
def test_a_name_that_is_wrong_is_told_at_its_words(planted: Planted) -> None:
    """At its row, with its words underlined, and mended."""
    told_alone(planted)


def test_one_uk_name_among_us_chains_is_told() -> None:
    """Ch 3 that counts as dc is a US chain."""
    text = TEXTS["skiff_cardigan_words_in_sizes"].replace(
        "dc in each dc to last 4", "dc in each htr to last 4"
    )
    assert [(p.code, p.label.text) for p in errors(load("skiff", text))] == [("T105", "the other terms")]


CAP = "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (%s sc)\nRnd 3: *Sc in next sc, 2 sc in next sc; rep from * around. (%s sc)\n"


@pytest.mark.parametrize(
    "second, third, wrong",
    [
        (12, 18, ()),
        (13, 18, ("Rnd 2",)),
        (12, 19, ("Rnd 3",)),
        (13, 19, ("Rnd 2", "Rnd 3")),
        (14, 21, ("Rnd 2",)),
    ],
)
def test_two_counts_that_differ_are_told_each_at_its_row(
    second: int, third: int, wrong: tuple[str, ...]
) -> None:
    """12 and 18 are made (by hand); 21 is what 14 would make, so that only one of the two is wrong there."""
    assert tuple(p.row for p in errors(load("cap", CAP % (second, third)))) == wrong


def test_what_is_wrong_in_a_uk_pattern_is_told_in_its_names() -> None:
    """The row below has trebles there, which are double crochet in the US."""
    text = TEXTS["uk_satchel_rows_rounds_flap"].replace(
        "1 dc in each dc, ss in first dc. 76", "1 dc in each tr, ss in first dc. 76"
    )
    (told,) = (p for p in load("satchel", text).problems if p.severity is not Severity.NOTE)
    assert told.headline.endswith("work into each tr, and the row below has dc")
