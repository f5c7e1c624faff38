"""Errors planted in right patterns of the corpus, kind by kind: each is told at its row, at the words, and alone.

Where one edit mends it, and no other would do as well, that edit is found.
"""

from dataclasses import dataclass

import pytest
from corpus_cases import RIGHT, cases, errors

from tracker.load import load
from tracker.mending import mend, mended
from tracker.problems import Severity

TEXTS = {case.name: case.text for folder in RIGHT for case in cases(folder)}


@dataclass(frozen=True, slots=True)
class Planted:
    """One error."""

    base: str
    """The right pattern."""
    old: str
    new: str
    """Words of it, and what they were made into."""
    row: int
    """Number of the row that is wrong."""
    words: str = ""
    """What must be among the words underlined; nothing when several places would do."""
    mends: bool = True
    """True when the edit that takes it back is the one that is offered."""


PLANTED = (
    Planted(
        "basket_weave_block",
        "Rows 8-13: Rep Rows 2-7.\nRow 14: Ch 1, turn; sc in each st across. (22 sc)",
        "Rows 8-13: Rep Rows 2-7.\nRow 14: Ch 1, turn; sc in each st across. (20 sc)",
        14,
        "20 sc",
    ),
    Planted("uk_tea_light_lantern", "[25 sts]", "[24 sts]", 12, "24"),
    Planted(
        "cardigan_front_six_sizes", "[20 (22, 24, 28, 30, 32) sts]", "[19 (22, 24, 28, 30, 32) sts]", 7, "19"
    ),
    Planted("ch1_filet_initial_tag", "8 dc, 5 ch-1 sps", "8 dc, 4 ch-1 sps", 4, "4 ch-1"),
    Planted("uk_cot_panel", "27 tr, nine 1-ch sps", "27 tr, ten 1-ch sps", 2, "ten"),
    Planted("pip_mouse", "R14-15: sc around (32)", "R14-15: sc around (30)", 14, "30"),
    Planted("increase_evenly_yoke", "Ch 31.", "Ch 30.", 1),
    Planted("uk_cot_panel", "make 38 ch", "make 37 ch", 1),
    Planted("ch1_filet_initial_tag", "Ch 16.", "Ch 17.", 1),
    Planted("family_ear_warmer_rounds", "Ch 64 (72, 80)", "Ch 63 (72, 80)", 1),
    Planted("uk_linen_clutch", "41 ch", "42 ch", 1),
    Planted("uk_tea_light_lantern", "2 dc in next dc) 10 times", "2 dc in next dc) 9 times", 3),
    Planted("pip_mouse", "R18: (sc 2, dec) x 6 (18)", "R18: (sc 2, dec) x 7 (18)", 18),
    Planted("increase_evenly_yoke", "rep from * 5 more times", "rep from * 4 more times", 2),
    Planted(
        "uk_cot_panel",
        "miss 1 tr,\n1 tr into each of next 2 tr; rep",
        "miss 1 tr,\n1 tr into each of next 3 tr; rep",
        2,
    ),
    Planted(
        "uk_tea_light_lantern",
        "R11: 1 ch, 2 dc in each ch sp",
        "R11: 1 ch, 2 dc in each 2-ch sp",
        11,
        "2-ch sp",
        mends=False,
    ),
    Planted(
        "attic_granny_two_round",
        "3 dc in next ch-1 sp, ch 1] 3 times",
        "3 dc in next ch-2 sp, ch 1] 3 times",
        3,
        "ch-2 sp",
    ),
    Planted("increase_evenly_yoke", "sc in next 12 sc, ch 4", "sc in next 12 dc, ch 4", 6, "dc"),
    Planted("increase_evenly_yoke", "sk next 9 sc, sc in last 6 sc", "sk next 8 sc, sc in last 6 sc", 6),
    Planted("basket_weave_block", "Rows 8-13: Rep Rows 2-7.", "Rows 8-13: Rep Rows 2-17.", 8, "17"),
    Planted("uk_linen_clutch", "Rep row 2", "Rep row 32", 3, "32"),
    Planted("family_ear_warmer_rounds", "Rnds 3-5: Rep Rnd 2.", "Rnds 3-5: Rep Rnd 6.", 3, "Rnd 6"),
    Planted("ch1_filet_initial_tag", "Row 6: As Row 4.", "Row 6: As Row 14.", 6, "14"),
    Planted(
        "basket_weave_block",
        "Rows 8-13: Rep Rows 2-7.\nRow 14",
        "Rows 8-12: Rep Rows 2-7.\nRow 13",
        8,
        mends=False,
    ),
    Planted("basket_weave_block", "Rep Rows 2-7", "Rep Rows 2-6", 8, mends=False),
    Planted("pip_mouse", "R18: (sc 2", "R19: (sc 2", 19),
    # one number far off, and the next row goes on from the one before it
    Planted("granny_half_triangle_uk", "Row 3: 4 ch", "Row 13: 4 ch", 13, "Row 13"),
    Planted("uk_cot_panel", "5th row:", "6th row:", 6),
    Planted("uk_tea_light_lantern", "R12:", "R13:", 13),
    Planted("ch1_filet_initial_tag", "Row 5: As Row 3.\n", "", 6, mends=False),
    Planted("increase_evenly_yoke", "Row 5: Ch 1, turn, sc in each sc across. (42 sc)\n", "", 6, mends=False),
    Planted("uk_tea_light_lantern", "2 dc in next dc) 10 times", "2 dc in next dc 10 times", 3, "("),
    Planted("uk_cot_panel", "3 ch, miss first 2 tr, (1 tr", "3 ch, miss first 2 tr, 1 tr", 4, ")"),
    Planted("pip_mouse", "R16: (sc 6, dec) x 4 (28)", "R16: (sc 6, dec x 4 (28)", 16, "("),
    Planted("increase_evenly_yoke", "turn, *sc in next 4 sc", "turn, sc in next 4 sc", 2, "*"),
    Planted(
        "uk_linen_clutch",
        "Row 2: 1 ch, dc in first dc, *1 ch",
        "Row 2: 1 ch, dc in first dc, 1 ch",
        2,
        "*",
        mends=False,
    ),
    Planted("pip_mouse", "R14-15: sc around (32)", "R14-15: sv around (32)", 14, "sv"),
    Planted(
        "basket_weave_block",
        "hdc in top of tch. (12 FPdc, 8 BPdc, 2 hdc)",
        "hdv in top of tch. (12 FPdc, 8 BPdc, 2 hdc)",
        2,
        "hdv",
    ),
    Planted(
        "increase_evenly_yoke",
        "Row 3: Ch 1, turn, sc in each sc across",
        "Row 3: Ch 1, turn, csd in each sc across",
        3,
        "csd",
    ),
    Planted(
        "uk_cot_panel",
        "6th row: 1 ch (does not count as a st), 1 dc",
        "6th row: 1 ch (does not count as a st), 1 dcx",
        6,
        "dcx",
    ),
    Planted(
        "cardigan_front_six_sizes",
        "Row 7 (7, 9, 9, 11, 11): Ch 2, turn",
        "Row 7 (7, 9, 9, 11, 11): Ch 2 (does not count as a st), turn",
        7,
        "does not count",
    ),
    Planted(
        "basket_weave_block",
        "Row 3: Ch 2, turn",
        "Row 3: Ch 2 (does not count as a st), turn",
        3,
        mends=False,
    ),
    Planted(
        "family_ear_warmer_rounds", "Rnd 6: Ch 1, *sc", "Rnd 6: Ch 1 (counts as sc), *sc", 6, "counts as sc"
    ),
    Planted(
        "uk_cot_panel",
        "3rd row: 3 ch, miss first tr",
        "3rd row: 3 ch (does not count as a st), miss first tr",
        3,
        mends=False,
    ),
    Planted("uk_tea_light_lantern", "R3: 1 ch, (1 dc in", "R3: 1 ch, (1 sc in", 3, "sc"),
    Planted(
        "uk_linen_clutch",
        "rep from * to last dc, dc in last dc, turn.",
        "rep from * to last dc, sc in last dc, turn.",
        2,
        "sc",
    ),
    Planted(
        "basket_weave_block",
        "Row 3: Ch 2, turn; *BPdc around each of next 4 sts, FPdc around each of next 4 sts; rep from * once more, BPdc around each of next 4 sts, hdc in tch",
        "Row 3: Ch 2, turn; *BPdc around each of next 4 sts, FPdc around each of next 4 sts; rep from * once more, BPdc around each of next 4 sts, htr in tch",
        3,
        "htr",
    ),
    Planted("pip_mouse", "R19: (sc, dec) x 6 (12)", "R19: (sc, dec) x 6 (12 htr)", 19, "htr", mends=False),
    Planted(
        "cardigan_front_six_sizes", "Ch 22 (24, 26, 30, 32, 34)", "Ch 22 (24, 26, 30, 32)", 1, mends=False
    ),
    Planted(
        "family_ear_warmer_rounds",
        "Rnd 6: Ch 1, *sc in next st, dc in next st; rep from * around. Join. 64 (72, 80) sts",
        "Rnd 6: Ch 1, *sc in next st, dc in next st; rep from * around. Join. 64 (72) sts",
        6,
        "64 (72)",
        mends=False,
    ),
    Planted(
        "uk_tea_light_lantern",
        "R7-10: repeat R6.",
        "R7-10: ss into ch sp, 4 ch (counts as 1 tr, 1 ch), (1 tr in next ch sp, 1 ch) 13 times, ss to 3rd ch. [15 tr, 15 ch sps]",
        7,
        mends=False,
    ),
    Planted(
        "cardigan_front_six_sizes",
        "sk first st, hdc in each st across, hdc in top of tch. [21",
        "hdc in first st, hdc in each st across, hdc in top of tch. [21",
        2,
        mends=False,
    ),
    Planted("pip_mouse", "R7-12: sc around (24)", "R7-12: sc in next 23, inc (24)", 7, mends=False),
    # a turning chain that one count proved is not taken otherwise to make another agree
    Planted(
        "pennant_granny_triangle",
        "ch 3, 3 dc in same sp, *ch 1",
        "ch 3, 4 dc in same sp, *ch 1",
        2,
        "18 dc",
        mends=False,
    ),
    Planted("picnic_hexagon_bunting", "48 dc", "47 dc", 4, "47 dc"),
    Planted("word_numbered_trivet", "(20 stitches)", "(19 stitches)", 2, "19"),
    # a first row that would fit only against common practice
    Planted("patch_pocket", "Sc in 2nd ch", "Sc in 3rd ch", 1, "15 sc"),
    Planted("checkerboard_table_runner", "Ch 37", "Ch 38", 1, "35 dc"),
    Planted("uk_colon_sizes_slipover", "turn. 44 [48", "turn. 45 [48", 1, "45", mends=False),
    Planted("all_in_one_chain_coaster", "4th ch from hook", "5th ch from hook", 1, "5th ch"),
    # words that nobody explains, wherever they stand
    Planted("ami_ball", "R3: (sc 1, inc)", "R3: (sv 1, inc)", 3, "sv"),
    Planted("granny_square", "working 3 sc in", "working 3 scx in", 5, "scx"),
    Planted(
        "gusset_marker_mitten",
        "Rnds 2-8: Ch 1, sc in each sc around",
        "Rnds 2-8: Ch 1, sc in each scx around",
        2,
        "scx",
    ),
    Planted("frilly_tree_ornament", "R8: (sc 6, inc)", "R8: (cs 6, inc)", 8, "cs"),
    Planted("bluff_cowl_vst", "rev sc in each", "rev wst in each", 10, "wst", mends=False),
    # nor in a group, between commas, behind "first" or where a chain counts as it
    Planted("pumpkin_patch_trio", "Round 3: (sc, inc)", "Round 3: (scc, inc)", 3, "scc"),
    Planted(
        "toddler_cardi_left_front",
        "sk first sc, dc in each sc acro",
        "sk first scc, dc in each sc acro",
        2,
        "scc",
    ),
    Planted("hen_egg_cosy", "(hdc, dc, hdc) in next ch", "(hdc, dv, hdc) in next ch", 1, "dv"),
    Planted("fan_group_table_mat", "Ch 6 (counts as dc and ch-3", "Ch 6 (counts as dcx and ch-3", 3, "dcx"),
    Planted(
        "farmers_market_flower",
        "every loop: sc, hdc, 5 dc, hdc, sc",
        "every loop: sc, hdc, 5 dc, hdv, sc",
        5,
        "hdv",
    ),
    Planted("first_round_foundation_hat", "next 13 sts, sc2tog; rep", "next 13 sts, sc2og; rep", 2, "sc2og"),
    # two figures where there are three sizes
    Planted("ribbed_headband_sizes", "Ch 12 (15, 18)", "Ch 12 (15)", 1, "12 (15)"),
    Planted("puddle_jumper_hat", "[45 (60, 66)]", "[45 (60)]", 7, "45 (60)", mends=False),
    # several stitches together over fewer than they take
    Planted(
        "ripple_pram_rug_uk",
        "tr2tog over next 2 sts) twice, 1 tr into each of next 3 sts, 2 tr into top",
        "tr2tog over next 1 sts) twice, 1 tr into each of next 3 sts, 2 tr into top",
        2,
        "next 1 sts",
    ),
    # a count that would fit only if the chain stood for another stitch than is said of all
    Planted("basketweave_runner", "24 post sts, 2 hdc", "24 post sts, 1 hdc", 5, "1 hdc"),
    Planted(
        "gravel_turned_cowl",
        "*hdc in next 2 sts, ch 1, sk next st; rep",
        "*hdc in next 3 sts, ch 1, sk next st; rep",
        14,
    ),
    # brackets around what is told, not worked
    Planted("marigold_patch_square", "(sc, ch 1, sc) in each corner", "(sc, ch 1, sc in each corner", 6, "("),
    Planted("dockside_tote", "(100)\nRound 25", "(100\nRound 25", 24, "("),
    Planted("five_point_star", "(1 st)", "(1 st", 3, "("),
    Planted("parlor_window_stole", "sk (3 dc, sc, 3 dc)", "sk (3 dc, sc, 3 dc", 5, "(", mends=False),
    # lists of sizes before stitches of the pattern's own
    Planted("crossed_dc_shrug_panel", "14 (16, 18) Xdc", "14 (16) Xdc", 2, "14 (16)", mends=False),
    # what follows from a missing row, or from words that could not be read, is no error of its own
    Planted("hearthside_hexagon", "ch 1, 2 dc], *2 dc in sp", "ch 1, 2 dc], 2 dc in sp", 3, "*"),
    Planted(
        "lantern_bonnet_beanie",
        "*sc in next st, dc in next st; rep",
        "*sc in next st, htr in next st; rep",
        7,
        "htr",
        mends=False,
    ),
    # a phrase that stands twice, and changes left out
    Planted(
        "timberline_ribbed_hat",
        "*2 dc in next dc, dc in next 2 dc;",
        "*2 dc in next dc, dc in next 2 dc, dc in next 2 dc;",
        4,
    ),
    Planted("crumpet_cat", "*sc in next 2 sts, inc; rep", "*sc in next 2 sts, sc; rep", 4),
    # another stitch than the row below has, also where nothing stands that could be begun upon
    Planted(
        "allotment_granny_tote",
        "Rnds 16-18: Ch 1, sc in each sc",
        "Rnds 16-18: Ch 1, sc in each dc",
        16,
        "each dc",
        mends=False,
    ),
    Planted(
        "peppermint_cushion_round",
        "*sc in next sc, 2 sc in next sc; rep from * around; join. (24)",
        "*sc in next dc, 2 sc in next sc; rep from * around; join. (24)",
        3,
        "next dc",
    ),
    # stitches left in silence, though the count agrees
    Planted(
        "tight_ripple_cushion",
        "sc2tog; rep from * 2 more times. 42 sts",
        "sc; rep from * 2 more times. 42 sts",
        2,
        mends=False,
    ),
    # a row that has lost its stitches, and one that is worked twice over
    Planted(
        "cable_mug_hug", "Rnd 7: Ch 1, sc in ea st around, join", "Rnd 7: Ch 1, join", 7, "36 sc", mends=False
    ),
    Planted(
        "quick_cat_cave_top",
        "Rnd 9: ch 1, hdc in BLO around,",
        "Rnd 9: ch 1, hdc in BLO around, hdc in BLO around,",
        9,
    ),
    # a star that ends what none begins, a first round that comes twice
    Planted("pebble_turtle", "R4 - sc 1, inc, *sc 2", "R4 - sc 1, inc, sc 2", 4, "*"),
    Planted("uk_lattice_bag", "Round 2: 3 ch", "Round 1: 3 ch", 1, "Round 1", mends=False),
    # what one row says of its chain, and others bear out that it is not so
    Planted("kitchen_duo_restart", "Row 4: Ch 1,", "Row 4: Ch 1 (counts as sc),", 4, "counts as sc"),
    Planted("paired_stitch_cowl", "Row 2. ch 1,", "Row 2. ch 1 (counts as sc),", 2, "counts as sc"),
    Planted("snowdrop_doily", "Rnd 6: Ch 1,", "Rnd 6: Ch 1 (counts as sc),", 6, "counts as sc"),
    # a bare count that leaves the decrease out
    Planted(
        "picnic_hair_kerchief",
        "turn. sc2tog, sc in each st unti",
        "turn. sc in next st, sc in each st unti",
        2,
        mends=False,
    ),
    # rows that grow or shrink each time, whatever fails behind them
    Planted(
        "pebble_ridge_hat_even",
        "Rnds 7-9: Ch 2, dc in each",
        "Rnds 7-9: Ch 2, 2 dc in first dc, dc in each",
        7,
    ),
    Planted(
        "plumtree_yoke",
        "Rnds 3-4: Ch 2, hdc in each st around",
        "Rnds 3-4: Ch 2, hdc in each st to last 2 sts, hdc2tog",
        3,
    ),
    # rows that grow each time, and the one behind them is written for none
    Planted(
        "sickle_moon_scarflet",
        "Rows 65-84: Ch 1, sc in each sc across",
        "Rows 65-84: Ch 1, 2 sc in first st, sc in each st across",
        65,
        mends=False,
    ),
    # a star that nothing goes back to, and one that ends what none begins
    Planted("coaster_petals", "sc in next st* 12 times", "sc in next st 12 times", 3, "*"),
    Planted("daisy_meadow_granny", "ch 3, *CL in next sp", "ch 3, CL in next sp", 2, "*"),
    Planted("puff_blossom_coaster", "*skip 1 st, 5 dc in next st,", "skip 1 st, 5 dc in next st,", 5, "*"),
    Planted(
        "lap_rug_hexagon_clusters",
        "dc3tog) in next ch-3 sp; rep from * around",
        "dc3tog) in next ch-3 sp; rep from around",
        2,
        "rep from",
        mends=False,
    ),
    # behind what a chain is said to count as, in words of its own
    Planted(
        "lap_rug_hexagon_clusters", "in next ch-3 sp; rep from *", "in next ch-4 sp; rep from *", 2, "ch-4 sp"
    ),
    # a row that was left out, in a pattern of sizes and behind a remark
    Planted("corner_store_bucket_hat", "R 28 - 29 : 1 sc in each st. <96>\n", "", 30, "R 30", mends=False),
    # a repeat that works into what is not there: the words that name it
    Planted("popcorn_wheel_square", "sk 4 dc, sc in next dc;", "sk 4 dc, sc in next hdc;", 3, "next hdc"),
    # a space of another length than counted, and a stitch called by the short form of another
    Planted("photo_corner_l_shape", "(2 dc, ch 2, 2 dc) in center sc", "(2 dc, ch 3, 2 dc) in center sc", 3),
    Planted("stormhaven_cable_cushion", "*C6F, sc in next 2 sc*", "*C6F, ss in next 2 sc*", 5),
    Planted(
        "onechain_doily",
        "Rnd 2: Ch 5 (counts as dc and ch 2)",
        "Rnd 2: Ch 5 (does not count as a st)",
        2,
        "does not count",
        mends=False,
    ),
    # what a repeat lacks
    Planted(
        "repeat_then_once_scarflet", "*ch 1, sk next sc, dc in next sc; rep", "*ch 1, sk next sc; rep", 5
    ),
    # a statement behind slip stitches
    Planted(
        "lantern_star_ornament",
        "ch 3 (counts as dc), (2 dc, ch 3, 3 dc) in same sp, sk",
        "ch 3 (does not count as a st), (2 dc, ch 3, 3 dc) in same sp, sk",
        4,
        mends=False,
    ),
)


@pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: f"{planted.base}: {planted.new[:30]}")
def test_an_error_is_told_at_its_row_and_alone(planted: Planted) -> None:
    """Among the two gravest, with the words underlined; no other row is called wrong."""
    told_alone(planted)


def told_alone(planted: Planted) -> None:
    """Asserts all of that of one error, and that it is mended where it says so."""
    text = TEXTS[planted.base]
    assert planted.old in text
    bad = text.replace(planted.old, planted.new, 1)
    loaded = load(planted.base, bad)
    grave = [problem for problem in loaded.problems if problem.severity is not Severity.NOTE]
    grave.sort(key=lambda problem: problem.severity is not Severity.ERROR)
    assert grave
    rows = [numbers(problem.row) for problem in grave[:2]]
    assert any(row and row[0] <= planted.row <= row[-1] for row in rows), grave
    underlined = [loaded.source.words(problem.label.span).lower() for problem in grave[:2]]
    assert any(planted.words.lower() in words for words in underlined), underlined
    elsewhere = [numbers(problem.row) for problem in errors(loaded)]
    assert all(not row or row[0] <= planted.row <= row[-1] for row in elsewhere), errors(loaded)
    if planted.mends:
        found = mend(loaded)
        assert found is not None
        assert mended(bad, found.fix) == text


def numbers(label: str | None) -> list[int]:
    """The numbers in a row's name."""
    return [int(word) for word in (label or "").replace("-", " ").split() if word.isdigit()]
