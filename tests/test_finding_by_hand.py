"""Lost places and miscounts as an editor has them: what a maker would say, worked out by hand before the tool was asked.

The causes of a miscount are ranked by common practice, no source: edges first, then what is as large as a whole repeat,
then single stitches. Names of causes of one line of FAMILIES are one answer.
"""

import json
from pathlib import Path

import pytest
from corpus_cases import CORPUS
from test_finding_miscounts import _families

from tracker.finding.evidence import tallied
from tracker.finding.explain import explain_miscount
from tracker.finding.where.index import index_of
from tracker.finding_cli import main
from tracker.load import load
from tracker.samples import samples

COUNTED: tuple[tuple[str, int, str, str], ...] = (
    ("flat/v_stitch_scarf", 4, "16 dc, 7 ch-1 sp", "group_missed repeat_missed"),
    ("flat/v_stitch_scarf", 4, "17 dc, 7 ch-1 sp", "half_v"),
    ("flat/v_stitch_scarf", 9, "25 dc", "missed_turning_chain shell_short"),
    ("flat/shell_throw_strip", 4, "24 dc, 6 sc", "shell_short"),
    ("flat/shell_throw_strip", 4, "20 dc, 5 sc", "repeat_missed"),
    ("flat/shell_throw_strip", 4, "25 dc, 5 sc", "missed_turning_chain skipped_stitch"),
    ("flat/filet_diamond_mat", 3, "16 dc, 3 ch-2 sp", "block_for_mesh"),
    ("flat/filet_diamond_mat", 4, "16 dc, 3 ch-2 sp", "mesh_for_block"),
    ("flat/filet_diamond_mat", 2, "11 dc, 5 ch-2 sp", "missed_turning_chain skipped_stitch single_fill"),
    ("flat/granny_stripe_lap_rug", 3, "20", "group_missed"),
    ("flat/granny_stripe_lap_rug", 3, "22", "missed_turning_chain shell_short"),
    ("flat/not_counting_ch3_swatch", 2, "20", "worked_into_uncounted_tch doubled_stitch"),
    ("flat/not_counting_ch3_swatch", 2, "18", "first_stitch_skipped last_stitch_missed skipped_stitch"),
    ("flat/linen_stitch_hand_towel", 2, "13 sc, 10 ch-1 sp", "mesh_skipped repeat_missed"),
    ("flat/linen_stitch_hand_towel", 2, "14 sc, 10 ch-1 sp", "chain_omitted"),
    ("flat/toy_fox_ear", 4, "6", "edge_increase_missed skipped_stitch"),
    ("flat/toy_fox_ear", 4, "5", "edge_increase_missed"),
    ("flat/toy_fox_ear", 9, "6", "decrease_missed"),
    ("flat/bottom_up_shawlette", 5, "10", "edge_increase_missed missed_turning_chain"),
    ("flat/tall_mesh_market_tote", 3, "10 tr, 7 ch-2 sp", "chain_omitted"),
    ("flat/tall_mesh_market_tote", 3, "9 tr, 7 ch-2 sp", "mesh_skipped"),
    ("flat/tall_mesh_market_tote", 3, "9 tr, 8 ch-2 sp", "missed_turning_chain skipped_stitch"),
    ("rounds/snowday_mittens", 7, "25", "increase_missed skipped_stitch"),
    ("rounds/snowday_mittens", 19, "19", "decrease_missed doubled_stitch"),
    ("rounds/snowday_mittens", 10, "31", "doubled_stitch marker_moved"),
    ("rounds/snowday_mittens", 10, "29", "skipped_stitch marker_moved"),
    ("rounds/popcorn_block", 2, "18 dc, 3 ch-3 sp", "half_corner"),
    ("rounds/popcorn_block", 4, "36 sc, 3 ch-2 sp", "chain_omitted corner_single"),
    ("rounds/turned_granny_uk", 3, "33 tr, 4 ch-2 sp, 7 ch-1 sp", "group_missed"),
    ("rounds/turned_granny_uk", 3, "35 tr, 4 ch-2 sp, 8 ch-1 sp", "group_short"),
    ("rounds/dc_rug_uncounted", 4, "47", "increase_missed joined_early"),
    ("rounds/dc_rug_uncounted", 4, "49", "joining_st_worked extra_increase doubled_stitch"),
    ("rounds/dc_rug_uncounted", 4, "44", "repeat_missed"),
    ("rounds/dc_rug_uncounted", 7, "44 sc, 44 ch-1 sp", "mesh_skipped repeat_missed"),
    ("rounds/teashop_coaster_uk", 3, "30", "space_missed"),
    ("rounds/teashop_coaster_uk", 3, "31", "single_fill"),
    ("rounds/lantern_hexagon", 3, "35 dc, 5 ch-2 sp", "half_corner"),
    ("rounds/lantern_hexagon", 3, "35 dc, 6 ch-2 sp", "joined_early skipped_stitch"),
    ("rounds/lantern_hexagon", 4, "52", "corner_single"),
    ("rounds/lantern_hexagon", 4, "55", "joining_st_worked doubled_stitch"),
    ("rounds/harbour_cowl", 5, "65 dc, 13 sc", "repeat_missed"),
    ("rounds/harbour_cowl", 5, "69 dc, 14 sc", "shell_short"),
    ("rounds/harbour_cowl", 5, "75 dc, 15 sc", "extra_repeat"),
    ("rounds/solid_square_daggers", 5, "62", "corner_single"),
    ("rounds/riverside_beanie", 7, "55", "joining_st_worked doubled_stitch"),
    ("rounds/riverside_beanie", 7, "53", "first_stitch_skipped joined_early skipped_stitch"),
    ("flat/uk_wave_wrap", 4, "33", "edge_increase_missed group_short"),
    ("rounds/pip_mouse", 3, "11", "increase_missed skipped_stitch"),
    ("rounds/pip_mouse", 13, "31", "increase_missed skipped_stitch"),
    ("rounds/pip_mouse", 5, "15", "repeat_missed"),
    ("rounds/pip_mouse", 16, "29", "decrease_missed doubled_stitch"),
    ("rounds/vstitch_mandala", 4, "83 dc, 12 sc", "shell_short"),
    ("rounds/vstitch_mandala", 4, "77 dc, 11 sc", "repeat_missed"),
    ("ours/harbour-windows", 2, "24 dc, 7 ch-1 sp", "mesh_skipped"),
    ("ours/harbour-windows", 2, "26 dc, 7 ch-1 sp", "block_for_mesh"),
    ("ours/harbour-windows", 2, "24 dc, 8 ch-1 sp", "missed_turning_chain skipped_stitch"),
    ("ours/harbour-windows", 3, "28 dc, 5 ch-1 sp", "mesh_for_block"),
    ("ours/harbour-windows", 14, "16 dc, 15 ch-1 sp", "missed_last_mesh mesh_skipped"),
    ("flat/waffle_face_cloth", 4, "22", "missed_turning_chain post_skipped"),
    ("ours/low-tide-ripple", 4, "55", "edge_increase_missed missed_turning_chain"),
    ("ours/low-tide-ripple", 4, "57", "decrease_missed doubled_stitch"),
    ("ours/pebble-cloth", 3, "26", "last_stitch_missed first_stitch_skipped skipped_stitch"),
    ("ours/pebble-cloth", 3, "28", "worked_into_uncounted_tch doubled_stitch"),
    ("flat/half_granny_kerchief", 4, "23 dc, 1 ch-2 sp, 7 ch-1 sp", "group_missed repeat_missed"),
    ("flat/half_granny_kerchief", 4, "23 dc, 8 ch-1 sp", "half_corner"),
    ("flat/half_granny_kerchief", 4, "25 dc, 1 ch-2 sp, 8 ch-1 sp", "shell_short missed_turning_chain"),
    ("ours/tea-tray-cloth", 2, "36 dc, 10 ch-2 sp", "chain_omitted"),
    ("ours/tea-tray-cloth", 2, "38 dc, 10 ch-2 sp", "block_for_mesh"),
    ("ours/tea-tray-cloth", 3, "27 dc, 14 ch-2 sp", "missed_last_mesh mesh_skipped"),
    ("ours/tea-tray-cloth", 5, "38 dc, 10 ch-2 sp", "mesh_for_block"),
    ("ours/tea-tray-cloth", 4, "27 dc, 15 ch-2 sp", "skipped_stitch missed_turning_chain"),
    ("ours/kettle-square", 3, "33 dc, 4 ch-2 sp, 7 ch-1 sp", "group_missed"),
    ("ours/kettle-square", 3, "33 dc, 3 ch-2 sp, 8 ch-1 sp", "half_corner"),
    ("ours/kettle-square", 5, "64 sc, 4 ch-2 sp", "repeat_missed"),
    ("ours/kettle-square", 5, "67 sc, 4 ch-2 sp", "joined_early skipped_stitch"),
    ("ours/kettle-square", 4, "47 dc, 4 ch-2 sp, 12 ch-1 sp", "shell_short"),
    ("ours/kettle-square", 4, "48 dc, 4 ch-2 sp, 11 ch-1 sp", "chain_omitted"),
    ("ours/bramble-hedgehog", 3, "17", "increase_missed skipped_stitch"),
    ("ours/bramble-hedgehog", 4, "20", "repeat_missed"),
    ("ours/bramble-hedgehog", 8, "29", "skipped_stitch marker_moved"),
    ("ours/bramble-hedgehog", 13, "25", "decrease_missed doubled_stitch"),
    ("ours/bramble-hedgehog", 13, "20", "repeat_missed"),
    ("ours/bramble-hedgehog", 17, "7", "decrease_missed"),
    ("ours/bramble-hedgehog", 2, "11", "increase_missed skipped_stitch"),
    ("ours/bramble-hedgehog", 2, "10", "repeat_missed increase_missed"),
    ("ours/low-tide-ripple", 4, "54", "edge_increase_missed"),
    ("ours/low-tide-ripple", 13, "55", "last_stitch_missed skipped_stitch"),
    ("ours/low-tide-ripple", 5, "58", "decrease_missed"),
    ("ours/frost-ring", 3, "23 sc, 23 ch-3 sp", "mesh_skipped repeat_missed"),
    ("ours/frost-ring", 4, "47 dc, 24 ch-2 sp", "shell_short"),
    ("ours/frost-ring", 6, "99 dc, 11 sc", "repeat_missed"),
    ("ours/frost-ring", 6, "107 dc, 12 sc", "shell_short"),
    ("ours/frost-ring", 2, "24 dc, 23 ch-1 sp", "chain_omitted"),
    ("ours/frost-ring", 7, "120 sc, 12 slst, 11 ch-3 sp", "chain_omitted"),
    ("practice/uk_granny", 4, "54", "corner_single"),
    ("practice/uk_granny", 4, "57", "joining_st_worked doubled_stitch"),
    ("practice/uk_granny", 2, "21 tr, 3 ch-2 sp, 4 ch-1 sp", "half_corner"),
    ("flat/c2c_little_square", 3, "2 tile", "repeat_missed"),
    ("ours/quarry-rib-cowl", 5, "31", "missed_turning_chain post_skipped"),
    ("ours/quarry-rib-cowl", 5, "30", "repeat_missed"),
    ("ours/quarry-rib-cowl", 2, "33", "extra_in_first doubled_stitch"),
    ("ours/hearth-mat", 8, "25", "missed_turning_chain skipped_stitch"),
    ("ours/hearth-mat", 8, "27", "extra_in_first doubled_stitch"),
    ("ours/hearth-mat", 16, "106", "corner_single"),
    ("ours/hearth-mat", 16, "107", "joined_early skipped_stitch"),
    ("rounds/lunch_bag_oval", 1, "40", "increase_missed"),
    ("rounds/lunch_bag_oval", 2, "47", "increase_missed joined_early"),
    ("rounds/lunch_bag_oval", 5, "46", "repeat_missed"),
    ("rounds/lunch_bag_oval", 12, "47", "joined_early skipped_stitch"),
    ("ours/dusk-lane-shawl", 5, "31 dc, 1 ch-2 sp", "edge_increase_missed missed_turning_chain"),
    ("ours/dusk-lane-shawl", 5, "30 dc", "half_corner"),
    ("ours/orchard-shells", 3, "6 sc, 25 dc", "repeat_missed"),
    ("ours/orchard-shells", 3, "7 sc, 29 dc", "shell_short"),
    ("ours/orchard-shells", 2, "30 dc, 6 sc", "shell_short"),
    ("ours/spindrift-coasters", 2, "16", "last_stitch_missed first_stitch_skipped"),
    ("ours/spindrift-coasters", 3, "18", "worked_into_uncounted_tch doubled_stitch"),
    ("ours/spindrift-coasters", 4, "15", "repeat_missed"),
    ("flat/uk_raised_rib_cuff", 6, "22", "repeat_missed"),
    ("flat/uk_raised_rib_cuff", 2, "25", "missed_turning_chain post_skipped"),
    ("ours/orchard-shells", 3, "31 dc, 6 sc", "row_repeated"),
    ("ours/bramble-hedgehog", 5, "24", "row_repeated increase_missed"),
    ("ours/bramble-hedgehog", 3, "24", "row_left_out"),
    ("ours/spindrift-coasters", 4, "9 dc, 8 tr", "row_repeated"),
    ("ours/quarry-rib-cowl", 2, "32 dc", "row_repeated"),
    ("ours/frost-ring", 5, "48 dc, 24 ch-2 sp", "row_repeated"),
    ("ours/kettle-square", 4, "36 dc, 4 ch-2 sp, 8 ch-1 sp", "row_repeated"),
    ("ours/pebble-cloth", 4, "14 sc, 13 tr", "row_repeated"),
    ("rounds/lunch_bag_oval", 4, "48 sc", "row_repeated"),
)
"""Pattern, row, what was counted, and the editor's causes, likeliest first."""


def _file(name: str) -> Path:
    folder, _, piece = name.partition("/")
    return samples()[piece] if folder == "ours" else CORPUS / f"{name}.txt"


def test_the_editors_likeliest_causes_are_ours_on_patterns_not_tuned_by() -> None:
    """As many as of the cases made outside the project: 15 of 16, and 13 of 16."""
    first = three = 0
    for name, row, have, ranked in COUNTED:
        file = _file(name)
        loaded = load(file.name, file.read_text(encoding="utf-8"))
        counted = tallied(have, loaded.pattern.uk, index_of(loaded.fabric).own)
        causes = explain_miscount(loaded.fabric, row, counted, loaded.pattern.uk).causes
        ours = _families([each.cause for each in causes])
        theirs = _families(ranked.split())
        first += bool(ours) and ours[0] in theirs[:2]
        three += theirs[0] in ours[:3]
    assert three >= len(COUNTED) * 15 / 16
    assert first >= len(COUNTED) * 13 / 16


# fmt: off
AFTER_FIVE_TOGETHER = [
    (1, 5), (1, 6), (1, 7), (1, 8), (1, 9), (1, 10), (1, 11), (1, 12), (1, 13), (1, 14), (1, 15), (1, 16),
    (1, 17), (1, 18), (1, 19), (1, 20), (1, 21), (1, 22), (1, 23), (1, 24), (1, 25), (1, 26), (1, 27), (1,
    28), (1, 29), (1, 30), (2, 0), (2, 6), (2, 12), (2, 18), (2, 24), (2, 30), (3, 9), (3, 15), (3, 21), (3,
    27), (4, 6), (4, 12), (4, 18), (4, 24), (4, 30), (5, 9), (5, 15), (5, 21), (5, 27), (6, 6), (6, 12), (6,
    18), (6, 24), (6, 30), (7, 9), (7, 15), (7, 21), (7, 27), (8, 6), (8, 12), (8, 18), (8, 24), (8, 30),
    (9, 9), (9, 15), (9, 21), (9, 27), (10, 6), (10, 12), (10, 18), (10, 24), (10, 30), (11, 9), (11, 15),
    (11, 21), (11, 27),
]
# fmt: on
"""Places in a strip of shells at which the last five things worked are double crochet."""

SEEN: tuple[tuple[str, list[str], list[tuple[int, int]]], ...] = (
    ("ours/harbour-windows", ["--done", "Row 9", "--so-far", "5 dc, ch-1 sp, dc"], [(10, 7)]),
    ("ours/harbour-windows", ["--top-counts", "25 dc, 8 ch-1 sp; 33 dc"], [(8, 0), (14, 0)]),
    ("ours/harbour-windows", ["--top-counts", "29 dc, 4 ch-1 sp; 29 dc, 4 ch-1 sp"], [(5, 0), (11, 0)]),
    (
        "rounds/pip_mouse",
        ["--top-counts", "24 sc; 24 sc"],
        [(8, 0), (9, 0), (10, 0), (11, 0), (12, 0), (13, 0)],
    ),
    ("rounds/snowday_mittens", ["--done", "Rnd 10", "--count", "13"], [(11, 14)]),
    ("rounds/snowday_mittens", ["--done", "10", "--count", "11"], [(11, 11), (11, 12)]),
    ("flat/shell_throw_strip", ["--last", "shell"], AFTER_FIVE_TOGETHER),
    (
        "rounds/turned_granny_uk",
        ["--done", "2", "--last", "3 tr, 2-ch sp, 3 tr"],
        [(3, 11), (3, 23), (3, 35), (3, 47)],
    ),
    ("rounds/dc_rug_uncounted", ["--top-counts", "135"], [(9, 0)]),
    ("flat/toy_fox_ear", ["--done", "R4", "--count", "8"], []),
    ("rounds/lantern_hexagon", ["--top-counts", "12 dc, 6 ch-2 sp; 24 dc, 6 ch-2 sp"], [(3, 0)]),
    (
        "flat/waffle_face_cloth",
        ["--top-counts", "9 dc, 14 FPdc; 16 dc, 7 FPdc"],
        [(5, 0), (7, 0), (9, 0), (11, 0), (13, 0)],
    ),
    ("flat/tall_mesh_market_tote", ["--so-far", "2 tr, ch-5 sp"], [(4, 3), (7, 3)]),
    (
        "flat/half_granny_kerchief",
        ["--so-far", "dc, ch-1 sp, 3 dc, ch-1 sp, 3 dc, ch-1 sp"],
        [(3, 10), (4, 10), (5, 10), (6, 10)],
    ),
    ("flat/bottom_up_shawlette", ["--top-counts", "11 dc, 10 ch-1 sps; 23"], [(11, 0)]),
    (
        "flat/filet_diamond_mat",
        ["--last", "ch-2 sp, dc, ch-2 sp"],
        [
            (2, 7),
            (2, 9),
            (2, 11),
            (2, 13),
            (3, 7),
            (3, 14),
            (5, 7),
            (5, 14),
            (6, 7),
            (6, 9),
            (6, 11),
            (6, 13),
        ],
    ),
    # rows written out by hand from the printed words, and each place of them looked at
    ("ours/tea-tray-cloth", ["--top-counts", "28 dc, 15 ch-2 sp"], [(4, 0), (5, 0), (7, 0), (8, 0)]),
    (
        "ours/tea-tray-cloth",
        [
            "--done",
            "4",
            "--so-far",
            "dc, ch-2 sp, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, ch-2 sp",
        ],
        [(5, 19)],
    ),
    ("ours/tea-tray-cloth", ["--done", "3", "--so-far", "dc, ch-2 sp, dc, ch-2 sp, dc, dc, dc, dc"], []),
    ("ours/tea-tray-cloth", ["--top-counts", "46 dc, 6 ch-2 sp; 20 dc, 19 ch-2 sp"], [(10, 0)]),
    ("ours/kettle-square", ["--done", "3", "--count", "30"], [(4, 39), (4, 40)]),
    (
        "ours/kettle-square",
        ["--top-counts", "24 dc, 4 ch-2 sp, 4 ch-1 sp; 36 dc, 4 ch-2 sp, 8 ch-1 sp"],
        [(4, 0)],
    ),
    ("ours/kettle-square", ["--top-counts", "12 dc, 4 ch-2 sp; 36 dc, 4 ch-2 sp, 8 ch-1 sp"], []),
    ("ours/bramble-hedgehog", ["--top-counts", "24 sc"], [(5, 0), (15, 0)]),
    ("ours/bramble-hedgehog", ["--top-counts", "6"], [(2, 0), (18, 0), (25, 0), (27, 0), (28, 0), (29, 0)]),
    ("ours/bramble-hedgehog", ["--top-counts", "6 sc; 6 sc"], [(28, 0), (29, 0)]),
    ("ours/bramble-hedgehog", ["--done", "Rnd 2"], [(3, 0), (20, 0), (26, 0), (28, 0)]),
    ("ours/bramble-hedgehog", ["--last", "sc2tog, sc2tog"], [(17, 2), (17, 3), (17, 4), (17, 5), (18, 0)]),
    ("ours/bramble-hedgehog", ["--done", "Rnd 13", "--count", "11"], [(14, 11)]),
    (
        "ours/low-tide-ripple",
        ["--done", "6", "--last", "dc2tog, dc2tog"],
        [(7, 8), (7, 22), (7, 36), (7, 50)],
    ),
    (
        "ours/low-tide-ripple",
        ["--count", "20", "--side", "WS"],
        [(2, 20), (4, 20), (6, 20), (8, 20), (10, 20), (12, 20)],
    ),
    (
        "ours/low-tide-ripple",
        ["--last", "hdc, hdc, hdc, hdc, hdc, hdc", "--side", "RS"],
        [(13, 23), (13, 37), (13, 51)],
    ),
    ("ours/frost-ring", ["--above", "1 dc"], [(4, 0), (6, 0), (8, 0)]),
    ("ours/frost-ring", ["--so-far", "dc, dc, dc, dc, dc, dc, dc, dc, dc, sc, dc, dc, dc"], [(6, 13)]),
    ("ours/frost-ring", ["--done", "5", "--count", "27"], [(6, 27)]),
    (
        "practice/uk_granny",
        ["--top-counts", "24 tr, 4 ch-2 sp, 4 ch-1 sp; 36 tr, 4 ch-2 sp, 8 ch-1 sp"],
        [(4, 0)],
    ),
    (
        "practice/uk_granny",
        ["--so-far", "tr, tr, tr, ch-2 sp, tr, tr, tr, ch-1 sp, tr, tr, tr, ch-1 sp"],
        [(3, 12)],
    ),
    ("practice/uk_granny", ["--done", "3", "--count", "30"], [(4, 30)]),
    ("flat/c2c_little_square", ["--top-counts", "3 tile"], [(4, 0), (6, 0)]),
    ("flat/c2c_little_square", ["--top-counts", "4 tile; 3 tile"], [(6, 0)]),
    ("flat/c2c_little_square", ["--so-far", "tile, tile, tile"], [(4, 0), (4, 3), (6, 0)]),
    ("ours/quarry-rib-cowl", ["--top-counts", "32 dc; 2 dc, 15 fpdc, 15 bpdc", "--side", "RS"], [(3, 0)]),
    ("ours/hearth-mat", ["--count", "30"], [(16, 30)]),
    ("ours/hearth-mat", ["--done", "Row 15", "--count", "60"], [(16, 60)]),
    ("rounds/lunch_bag_oval", ["--top-counts", "48 sc; 48 sc"], [(4, 0)]),
    ("rounds/lunch_bag_oval", ["--last", "ch-20 sp"], [(13, 9), (13, 26)]),
    (
        "rounds/lunch_bag_oval",
        ["--so-far", "sc, sc, sc, sc, sc, sc, sc, sc, ch-20 sp, sc, sc, sc, sc, sc"],
        [(13, 14)],
    ),
    ("rounds/lunch_bag_oval", ["--above", "5 solid"], []),
    ("ours/dusk-lane-shawl", ["--top-counts", "56 dc, 1 ch-2 sp; 62 dc, 1 ch-2 sp"], [(11, 0)]),
    (
        "ours/dusk-lane-shawl",
        ["--so-far", "dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, ch-2 sp", "--side", "WS"],
        [],
    ),
    (
        "ours/dusk-lane-shawl",
        ["--so-far", "dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, dc, ch-2 sp", "--side", "WS"],
        [(4, 14)],
    ),
    ("ours/orchard-shells", ["--done", "17", "--count", "12"], [(18, 12)]),
    (
        "ours/spindrift-coasters",
        ["--top", "dc, tr, dc, tr, dc, tr, dc, tr, dc, tr, dc, tr, dc, tr, dc, tr, dc"],
        [(3, 0), (7, 0), (11, 0), (15, 0)],
    ),
    ("ours/spindrift-coasters", ["--last", "dc, dc, tr, dc"], [(4, 4), (8, 4), (12, 4), (16, 4)]),
    (
        "ours/spindrift-coasters",
        ["--top-counts", "10 dc, 7 tr; 17 dc", "--side", "WS"],
        [(6, 0), (10, 0), (14, 0)],
    ),
    ("flat/uk_raised_rib_cuff", ["--top-counts", "2 htr, 24 rdtrf"], [(7, 0), (12, 0)]),
    ("flat/uk_raised_rib_cuff", ["--above", "2 rdtrf"], [(9, 0)]),
)
"""Pattern, what is seen, and the places as (row, stitches and spaces done)."""


@pytest.mark.parametrize("name, seen, places", SEEN)
def test_what_a_maker_says_gives_the_places_found_by_hand(
    name: str, seen: list[str], places: list[tuple[int, int]], capsys: pytest.CaptureFixture[str]
) -> None:
    """On the command line, in the pattern's own terms."""
    main(["find", str(_file(name)), *seen, "--json"])
    answer = json.loads(capsys.readouterr().out)
    assert sorted((place["index"], place["elements_done"]) for place in answer["places"]) == places
    assert (answer["differs"] is None) == bool(places)


def test_rows_above_one_that_stands_out_are_seen_on_the_command_line(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """ "Two rows above the open one": the last open row below is the third from the top."""
    assert main(["find", str(_file("ours/harbour-windows")), "--above", "1 open", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert [place["index"] for place in answer["places"]] == [8, 14, 16]
    assert main(["find", str(_file("ours/harbour-windows")), "--above", "open", "--json"]) == 2


@pytest.mark.parametrize(
    "name, seen, said",
    [
        (
            "ours/harbour-windows",
            ["--above", "5 open"],
            "That fits no place: nowhere in this piece stand just five rows above the last row with spaces.",
        ),
        (
            "ours/pebble-cloth",
            ["--above", "3 tr", "--done", "4", "--count", "4"],
            "That fits no place: each of these is so somewhere, but nowhere together. Look again at the rows above the "
            "one that stands out: without that, the rest fits.",
        ),
        (
            "ours/harbour-windows",
            ["--top-counts", "33 dc", "--last", "ch-1 sp, dc, ch-1 sp", "--side", "RS"],
            "That fits no place: each of these is so somewhere, but nowhere together. Look again at the side that "
            "faces you: without that, the rest fits.",
        ),
    ],
)
def test_what_fits_nowhere_together_names_what_to_look_at_again(
    name: str, seen: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Rows 2, 8 and 14 stand on 33 double crochet and are worked with the wrong side facing."""
    main(["find", str(_file(name)), *seen])
    assert capsys.readouterr().out.strip() == said
