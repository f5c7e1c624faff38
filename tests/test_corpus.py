"""The corpora as a ratchet: what is read right today is read right tomorrow.

The truth of every pattern was worked out by hand or by a simulator that is no part of the project. When reading
gets better, the figures of REACHED and the names of WHOLE are raised; they are never lowered.
"""

from dataclasses import dataclass

import pytest
from corpus_cases import BROKEN, RIGHT, cases, errors, judged, placed_right, reading


@dataclass(frozen=True, slots=True)
class Reached:
    """How well one folder is read."""

    patterns: int
    rows: int
    right: int
    """At least so many rows are claimed as understood, with the true counts."""
    wrong: int
    """At most so many are claimed as understood with other counts."""
    false_errors: int
    """At most so many errors are reported in patterns that have none."""


REACHED = {
    "practice": Reached(10, 126, 126, 0, 0),
    "flat": Reached(88, 1040, 865, 13, 28),
    "rounds": Reached(79, 1186, 1129, 2, 17),
}
PLACED = {"broken_practice": 12, "broken_flat": 71, "broken_rounds": 89}
"""In at least so many broken patterns the error is reported at its row."""
WHOLE = {
    "practice": """
        ami_ball cloth_row_end_border dc_swatch filet_open_net granny_square kids_beanie_sizes
        post_rib_cuff ripple_dc rows_of_rows uk_granny
    """,
    "flat": """
        alpine_stitch_blanket_square baby_bib_split_neck baby_bonnet_panel_sizes basketweave_runner
        blo_chevron_color_sequence bobble_cushion_front bottom_up_shawlette bra_cup_both_sides_rows
        c2c_rectangle_flannel cardigan_front_six_sizes ch1_filet_initial_tag cluster_fan_edging
        corner_point_est_patt corner_to_corner_square crossed_stitch_cowl even_in_pattern_tunic_panel
        evenly_spaced_yoke_band fan_group_table_mat fdc_start_openwork_top filet_diamond_mat
        foundation_stitch_band half_granny_kerchief half_moon_shawl_rows honeycomb_trellis
        knit_look_post_scarf leaflet_filet_squares legwarmer_size_only_rows ligatures_and_thin_spaces
        linen_stitch_hand_towel linked_and_extended_case long_wave_runner mesh_market_bag_side
        nested_star_mesh not_counting_ch3_swatch open_fan_lace_stole overlay_mosaic_mat
        pet_mat_numbers_only photo_corner_l_shape picnic_cloth_side_edging picot_shelf_edging
        popcorn_bath_mitt puff_and_cluster_lace puff_v_shawl_border repeat_then_once_scarflet
        ribbed_headband_sizes rows_counted_in_sizes_sock_cuff scrap_bunting_parts shell_throw_strip
        silent_chain_washcloth_crab spelled_out_words spike_stitch_placemat stripe_scarf_next_rows
        tall_mesh_market_tote tapestry_heart_patch terse_dishcloth toy_dragon_wing toy_fox_ear
        uk_bobble_blanket_square uk_triangle_flag_mixed_heights uk_wave_wrap vintage_leaflet_insertion
        waffle_face_cloth
    """,
    "rounds": """
        beech_leaf beehive_hexagon_uk beret_size_sections bluebell_bud bobble_cowl_even_rounds
        bobble_cushion_circle bumblebee_colours cabin_slipper_socks checkered_mug_cosy chevron_skirt
        crab_edge_placemat crossed_boot_cuffs daisy_bonnet dc_rug_uncounted desk_tidy_basket earflap_hat
        easter_egg_toy endless_granny_blanket fern_leg_warmers first_steps_booties five_point_star
        frilly_tree_ornament frosty_uk growing_washcloth hankie_edging harbour_cowl hedgerow_mitts
        hoarfrost_snowflake lantern_hexagon little_pineapple_doily moss_cowl_open net_market_bag
        nursery_blanket_border octo_cat_toy onechain_doily overlay_trivet pebble_turtle pennant_bunting
        pip_mouse pompom_hat_uk pram_cover_uk puff_trivet_uk riverside_beanie ruffle_scrunchie
        sideways_brim_hat solid_square_daggers spike_coaster square_toy_basket sundial_mandala
        sunflower_square table_cactus teashop_coaster_uk ten_petal_doily tidepool_bag turned_granny_uk
        turned_round_pouch vstitch_mandala waffle_headwrap_fsc wild_rose_flower word_numbered_trivet
    """,
}
"""Patterns of which every row is right and in which no error is reported."""


@pytest.mark.parametrize("folder", RIGHT)
def test_as_many_rows_are_read_right_as_ever(folder: str) -> None:
    """And none of the practice patterns is read wrong."""
    found = [judged(case) for case in cases(folder)]
    reached = REACHED[folder]
    assert (len(found), sum(each.rows for each in found)) == (reached.patterns, reached.rows), (
        f"{folder} holds other patterns than the table says; count them anew"
    )
    right = sum(each.right for each in found)
    assert right >= reached.right, f"{folder}: {right} rows are right, and {reached.right} once were"


@pytest.mark.parametrize("folder", RIGHT)
def test_no_more_rows_are_claimed_and_wrong_than_ever(folder: str) -> None:
    """A wrong count claimed as understood is the worst fault there is."""
    wrong = {case.name: judged(case).wrong for case in cases(folder) if judged(case).wrong}
    assert sum(wrong.values()) <= REACHED[folder].wrong, f"{folder}: claimed and wrong in {wrong}"


@pytest.mark.parametrize("folder", RIGHT)
def test_no_more_errors_are_told_in_right_patterns_than_ever(folder: str) -> None:
    """An error reported in a right pattern is the other worst fault."""
    told = {case.name: judged(case).false_errors for case in cases(folder) if judged(case).false_errors}
    assert sum(told.values()) <= REACHED[folder].false_errors, f"{folder}: errors told in {told}"


@pytest.mark.parametrize("folder", RIGHT)
def test_a_pattern_once_read_wholly_right_stays_so(folder: str) -> None:
    """Each by its name, so that one gained does not hide one lost."""
    lost = set(WHOLE[folder].split()) - {case.name for case in cases(folder) if judged(case).whole}
    assert not lost, f"{folder}: no longer wholly right: {', '.join(sorted(lost))}"


@pytest.mark.parametrize("folder", BROKEN)
def test_as_many_planted_errors_are_placed_as_ever(folder: str) -> None:
    """An error counts as placed when one of the two gravest problems names its row."""
    missed = [case.name for case in cases(folder) if not placed_right(case)]
    placed = len(cases(folder)) - len(missed)
    assert placed >= PLACED[folder], (
        f"{folder}: {placed} placed, {PLACED[folder]} once were; missed: {', '.join(missed)}"
    )


def test_every_planted_error_of_the_practice_patterns_is_an_error() -> None:
    """None of the twelve passes as a warning."""
    assert [
        case.name for case in cases("broken_practice") if not errors(reading(case.folder, case.name))
    ] == []
