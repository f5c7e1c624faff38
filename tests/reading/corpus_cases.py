"""The patterns of tests/corpus with their truths, each read once in a run.

`practice`, `flat` and `rounds` hold right patterns with what every row makes; `broken_…` hold the same kinds of
patterns with one error planted in each. The truths were worked out by hand or by a simulator that is no part of
the project.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from tracker.fabric.model import Placed
from tracker.load import Loaded, load
from tracker.problems import Problem, Severity
from tracker.trade.stitches import written

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
RIGHT = ("practice", "flat", "rounds")
"""Folders of patterns without an error."""
BROKEN = ("broken_practice", "broken_flat", "broken_rounds")
"""Folders of patterns with one error each."""
SAME_STITCH = {
    "sl st": "slst", "ss": "slst", "reverse sc": "revsc", "rev sc": "revsc", "crab st": "revsc", "spike sc": "spsc",
    "popcorn": "pop", "pc": "pop", "bobble": "bo", "puff st": "puff", "ps": "puff", "trc": "tr",
}  # fmt: skip

WHOLE = {
    "practice": """
        ami_ball cloth_row_end_border dc_swatch filet_open_net granny_square kids_beanie_sizes
        post_rib_cuff ripple_dc rows_of_rows uk_granny
    """,
    "flat": """
        gillie_cable_scarf_uk linen_weave_kitchen_cloth rosemary_matinee_back seafoam_arch_poncho_panel
        skyline_lace_ripple trellis_overlay_mosaic
        breakfast_table_mat_uk festival_hair_kerchief little_house_filet_uk moonpenny_cluster_scarf
        sierra_zigzag_runner slantwise_neckerchief spiky_stripe_cloth tulip_corner_coaster
        bobble_band_dishcloth harbour_shawlette_uk seaside_shell_scarf_words terrier_coat_back tide_line_c2c_mat
        v_stitch_cowl_panel wave_stripe_swatch zigzag_hand_towel
        braemar_cable_headband corner_start_scrubber harbour_net_scarf heron_filet_square hobnail_blanket_square
        linnet_cardigan_sleeve pantry_shelf_edging sickle_moon_shawlette allotment_stripe_blanket
        brekkie_waffle_cloth cabin_patch_four_logs magnolia_shell_throw mitred_memory_square
        penrose_pullover_front sawtooth_pillow_edging vee_stole_terse
        quay_filet_marker moorland_ripple_uk playgroup_slipover_back windfall_triangle crumb_dishcloth
        boatyard_c2c_uk cloister_mosaic_pad sunday_runner_scallops
        moss_border_washcloth shell_edge_sideways c2c_heart_panel teddy_jumper_uk
        openwork_scarf popcorn_throw_panel
        lakeside_raglan_underarm_chains baby_kimono_back_r_labels_sizes grandpa_set_slip_rib_hat
        basketweave_cushion_uk kite_shawlette filet_leaf_shorthand toddler_vest_sizes v_stitch_wrap
        bobble_squares_cushion mitten_flat_thumb rustic_shawl_crescent_uk
        gauge_swatch_trio lattice_window_runner moonlit_bobble_washcloth post_stitch_boot_toppers
        quilted_shell_border_towel
        corner_patch_c2c fan_lace_cowl fieldstone_pram_cover hourglass_strip linen_stitch_runner mitred_coaster
        moss_bath_mitt puffed_cocoa_scarf ruffled_tea_cloth_edging scalloped_trivet short_row_shawlette
        thrift_shop_doily_mat toddler_vest_back triangle_headscarf_uk windy_day_mitts_flat
        banana_leaf_crescent basketweave_lap_mat bunting_trim_shorthand campfire_granny_shawl
        diamond_filet_marker eyelet_wrist_warmers_uk grandmas_pot_holder hailstone_cushion harbour_ripple_uk
        mending_day_wrap onion_sling pebbled_face_cloth pillowcase_frill pocket_window_filet ribbed_leg_warmers
        scallop_shell_stroller_blanket translated_neck_warmer twin_cable_headband two_button_cuff
        two_tone_telegram willow_scarf_uk
        corner_square cotton_square fan_border graded_lace half_arch_net ladder_cloth mitred_square
        narrowing_panel old_style_strip peephole_mat pennant post_cuff ridge_cloth shell_cloth short_row_wedge
        slope spring_shawl square_cloth striped_dishcloth tile_cloth wrist_warmer
        chevron_cushion_uk offset_shell_blanket rows_within_rows_stole
        filet_bookmark_shorthand scalloped_cloth_edging crab_and_cable_mug_wrap half_moon_shawl_terse
        tunic_yoke_increasing_rows
        brackenridge_cardi_columns_of_sizes fishermans_rib_hat_sideways old_mill_edging_sideways_points
        plum_jam_bolero_age_table_uk sorrel_legwarmers_two_sizes_words
        tidepool_mesh_wrap_blog
        headband_ribbed_sideways triangle_scarf_vs undulating_bands_runner cardigan_left_front
        open_arch_table_strip granny_half_square bobbled_flannel_uk
        braided_cable_cuff_terse corrugated_ripple_leaflet cygnet_filet_boxes harebell_shells_dc_behind
        lattice_overlay_coaster oriole_back_htr_magazine pantry_cloth_with_edging wedge_collar_short_rows_uk
        dashwood_tee_numbered_sizes hillside_sleeve_age_colons linnet_cardigan_left_front_months
        no_name_sizes_counts_only_shawlette pebble_mitts_title_sizes terse_leaflet_bonnet_directions_for
        wrenfield_vest_table
        picot_border_for_a_blanket dino_hat_flaps curtain_tie_back_filet bed_socks_cuff granite_face_cloth tea_towel_topper seafoam_shell_scarf stepping_stones_blanket inset_mosaic_dishcloth evening_tide_triangle mitred_pot_holder
        mosaic_cowl
        curtain_tie_back_filet bed_socks_cuff granite_face_cloth tea_towel_topper seafoam_shell_scarf stepping_stones_blanket inset_mosaic_dishcloth evening_tide_triangle mitred_pot_holder
        left_on_purpose_tab stair_short_rows no_turning_chain edge_drawn_in ruffle_collar count_without_tch
        total_with_spaces some_stitches_only asides_in_brackets notes_with_numbers unworked_spaces
        skipped_tch_hidden inc_stated_as_change part_counts two_in_corner_only half_of_row picots_uncounted
        alpine_stitch_blanket_square alternating_cluster_stripe arch_lace_stole baby_bib_split_neck
        baby_bonnet_panel_sizes bag_base_then_round bag_with_base_and_straps basket_weave_block
        hot_water_cover
        basketweave_runner blanket_row_end_edging blo_chevron_color_sequence block_stitch_bath_mat
        bean_and_crossed_headwarmer
        nested_shells_stole_terse
        beg_mesh_end_mesh_runner
        bobble_band_pillow bobble_bunny_blanket_square bobble_cushion_front bordered_face_square
        puff_and_bar_cowl
        bobble_names_and_numbers
        bordered_ripple_square bottom_up_shawlette bra_cup_both_sides_rows bramble_stitch_cushion
        bullet_blog_baby_blanket bunting_flag_to_point button_up_collar c2c_little_square
        tray_border_in_filet_old_uk
        bus_tapestry_blanket_square
        c2c_beach_hut_rectangle
        c2c_heart_granny_way
        c2c_initial_blanket_counts
        sleeve_cuff_shaping
        c2c_kite_mc_cc
        c2c_pixel_apple
        chalk_path_two_colour_spike
        c2c_plain_blanket
        c2c_rect_scarf_end
        c2c_rectangle_flannel c2c_stripe_rectangle cabled_chair_pad cardigan_front_six_sizes
        c2c_sailboat_square
        pram_square_with_corners_uk
        hedgerow_tunic_front_uk
        ch1_filet_house_square
        ch1_filet_initial_tag checkbox_bulleted_phone_sock cluster_fan_edging cluster_v_scarf
        ch1_mesh_checker_scarf
        sideways_beanie_brim_for_two_sizes little_walker_dog_coat bobbly_cushion_front_two_measures
        collar_peter_pan comma_free_tote corner_point_est_patt corner_to_corner_square
        edging_blanket
        cosy_ribbed_cowl crossed_dc_shrug_panel crib_blanket_shell_leaflet crossed_stitch_cowl cuffed_sleeve_short_rows
        crocodile_y_stitch_cowl
        dashed_counts_clutch dec_rows_bib drifting_asymmetric_shawl even_in_pattern_tunic_panel
        dotted_popcorn_purse_flap
        even_and_odd_lap_blanket
        even_rows_sampler evenly_spaced_yoke_band eyelet_ribbon_bonnet_band fan_group_table_mat
        every_other_row_garter_scarf
        fair_isle_band_hdc
        fan_lace_scarf fdc_start_openwork_top filet_boat_panel filet_diamond_mat filet_initial_T
        filet_butterfly_om_bl
        filet_duck_pram_cover
        filet_heart_bookmark_full
        filet_kite_inc_dec
        popcorn_diamond_cushion_uk_us_note
        driftwood_sleeve_size_sections
        filet_letter_l_uk_table
        boot_topper_rib_worked_on
        filet_rose_corner_words
        filet_rosebud_chair_back
        pointed_filet_pendant_1924
        nubbly_sink_cloth
        filet_ship_sampler
        filet_valance_points_us
        nursery_bib_leaflet_uk
        filet_words_letter_h
        first_filet_coaster_chatty
        five_size_square_neck_top
        foundation_stitch_band fsc_summer_top granny_half_triangle_uk granny_rows_uk_wrap
        girls_bolero_sizes_age
        grandmothers_counterpane_strip
        granny_stripe_gaps_blanket lull_water_shells_in_all skiff_cardigan_words_in_sizes granny_stripe_lap_rug half_granny_kerchief half_moon_shawl_rows harbor_stripe_runner
        headband_twist_sizes_of
        bobble_pillow
        fern_path_half_shells patt_row_cardigan_back_uk dusk_triangle_slip_knot
        honeycomb_trellis hooded_scarf_rib_uk_leaflet hyphenless_dishcloth increase_evenly_yoke
        how_many_times_lace_panel
        inset_every_return_row
        inset_mosaic_coaster jumbled_layout_washcloth kids_poncho_panel knit_look_post_scarf
        inset_mosaic_diamond_uk_letters
        inset_mosaic_greek_key
        c2c_face_cloth_spelled_groups linked_dc_mat_rows_in_turn_border uk_filet_keyed_in_a_line
        inset_window_panes_cloth
        intarsia_toadstool_cushion
        jumper_sleeve_five_colons
        lace_fan_cowl_panel lace_ladder_insertion lacet_and_bar_panel lapghan_box_stitch
        lacet_shelf_lace_us
        leaflet_filet_squares leafy_triangle_scarf legwarmer_size_only_rows
        leafy_special_stitch_runner
        leggings_1914
        ligatures_and_thin_spaces linen_stitch_hand_towel linked_and_extended_case long_wave_runner
        berry_eyelet_cowl_panel
        diamond_specs_sleeve_tapestry
        loop_stitch_cuff magazine_pages_sampler measure_then_shape_sleeve mesh_market_bag_side
        mens_vest_slash_front
        seven_wedge_beanie_sideways
        mini_c2c_flag
        miss_pettigrews_shoulder_wrap
        three_ropes_muffler
        morning_washcloth_chatty mosaic_overlay_strip mosaic_stripe_mat moss_lane_runner
        mosaic_hound_tooth_strip
        mosaic_inset_wave_terse
        mosaic_numbers_and_d
        mosaic_overlay_joined_letters_uk
        muffler_1917
        n_or_n_plus_one_edging
        nested_star_mesh not_counting_ch3_swatch numbers_only_strap old_style_knee_cover_1912
        odd_rows_pebble_wrap
        filet_heart
        odd_rows_through_placemat
        old_counterpane_1890
        old_scallop_lambrequin
        lacy_scarf_mult
        one_paragraph_granny_stripe open_fan_lace_stole overlay_mosaic_mat pebble_placemat_even_rows
        popcorn_square
        kite_tail_scarf_one_edge
        overlay_lattice_pot_mat
        overlay_mosaic_arrow_band
        overlay_mosaic_dc_down
        overlay_mosaic_letters
        overlay_times_notation_coaster
        pajama_bonnet_numbered_sizes
        orchard_tunic_back_every_fourth
        parlor_tidy_1898
        pebble_beach_sleeve_four
        guest_towel_sugar_points
        pet_mat_numbers_only photo_corner_l_shape picnic_cloth_side_edging picot_edge_triangle
        picot_shelf_edging picot_shelf_trim picot_trimmed_collar_uk pineapple_bookmark pixie_hood
        plain_language_scarf pocket_scarf_pdf_wraps pocket_with_point popcorn_bath_mitt
        pram_rug_motif_border puff_and_cluster_lace puff_ridge_headband puff_v_shawl_border
        repeat_forms_scarf
        repeat_then_once_scarflet rib_sampler_post ribbed_headband_buttonholes ribbed_headband_sizes
        rickrack_edging_old
        quiet_fans_stole
        ripple_pram_rug_uk ripple_uk_pram ripple_with_sc3tog rows_counted_in_sizes_sock_cuff
        rows_as_other_rows_towel
        ruched_hairband_uk run_together_trivet sawtooth_edging_sideways sc_ripple_potholder
        saltmarsh_tank_front
        sampler_every_row_repeat_form
        shawl_top
        scallop_shell_pram_blanket scarf_from_the_middle scrap_bunting_parts seed_stitch_mug_wrap
        shaped_collar_points shell_throw_strip short_row_dishcloth_wedges short_row_shoulder_warmer
        short_row_wedge_potholder side_band_on_dc_rows side_to_side_cardi_back_slst
        evening_bolero_back_1950
        side_to_side_shawl_terse silent_chain_washcloth_crab sleeve_cap_each_end spelled_out_words
        c2c_pennant
        special_stitch_cable_mug
        cobbled_lane_inset_cloth
        spike_and_long_sc_cushion
        spike_stitch_placemat spiked_stripe_coverlet standing_stitch_blanket_strip
        star_lattice_pillow stripe_scarf_next_rows sunday_triangle_shawl sunwheel_cushion
        checker_tape_mug_cosy
        stripes_and_counts_baby_blanket
        stripes_in_order_wrap
        sweater_yoke_stripes_sizes
        tall_mesh_market_tote tapestry_arrow_coaster tapestry_heart_patch tapestry_mug_rug
        button_jar_drawstring_bag
        tapestry_checker_by_brackets
        library_day_satchel
        snug_corner_mini_c2c_wrap
        low_water_feather_fan_throw
        tapestry_number_color_bag_base
        tapestry_prose_pen_roll
        kids_vest_second_side_of_neck short_row_collar_unworked_taken_up
        tapestry_tulip_pouch
        tee_back_bracket_sizes ten_row_gift_tag terse_dishcloth toddler_vest_front_sizes
        baby_cardi_yoke_uk
        woven_paths_hand_towel
        raised_rib_hatband_uk
        toddler_cardi_left_front
        top_down_point_shawl toy_dragon_wing toy_fox_ear treble_lattice_wrap triangle_bandana_until
        eight_by_twelve_c2c_mat
        towel_edging_1912
        treble_cross_stole_1920
        triangle_shawl_center_spine trinity_face_flannel twin_mitten_cuffs uk_baby_cardigan_sleeve
        tulip_bud_stitch_cowl
        uk_bobble_blanket_square uk_collar_scallop uk_cot_panel uk_harbour_jacket_back
        orchid_lace_runner_three_row
        uk_c2c_sunrise
        three_tier_ruffle_cuff
        uk_cardigan_front_row_counts
        uk_corner_to_corner_pram_rug
        uk_filet_anchor_tray_cloth
        uk_filet_inc_ends
        uk_filet_shaped_collar
        heron_vest_two_fronts_sizes_slash
        uk_hot_water_bottle_cover
        uk_jiffy_lace_jumper_rows
        uk_linen_clutch uk_raised_rib_cuff uk_ripple_cushion uk_shell_edged_cloth
        uk_lullaby_cardigan_back
        uk_mosaic_ladder_cushion
        uk_mosaic_overlay_scarf_rows
        uk_popcorn_bedspread_panel
        uk_raglan_sleeve_square_brackets
        uk_raised_squares_throw
        uk_slipover_as_set
        uk_spelled_out_pram_cover uk_stopped_abbreviations uk_triangle_flag_mixed_heights
        uk_vandyke_filet_edging
        child_slip_on_vest_front_as_back market_lace_panel treble_jumper_both_fronts_sizes
        winter_branches_mitts_flat
        uk_vest_back_sizes uk_wave_wrap v_stitch_scarf vest_back_rejoined_shoulder vest_left_front vintage_leaflet_insertion
        until_and_even_shrug
        vintage_doily_strip_1905
        waffle_face_cloth wave_stitch_throw wide_stitch_baby_blanket windmill_bath_mat
        wheat_ear_stitch_runner
        whole_words_filet_cat
        pebble_scarf
        wordy_washcloth wrist_cuff_moss yoke_raglan_rows_sizes zigzag_filet_border
        porch_swing_ripple
        farmhouse_basketweave_pillow
        aran_ridge_ear_warmer ballroom_fans_scarf bobble_lattice_pillow bramley_matinee_sleeve farm_stand_bag
        guest_towel_scallops larkfield_boxy_tee marked_spine_shawl mitered_hot_pad pantry_shelf_lace
        vest_raglan
        kitchen_table_mitre_uk
        pebble_bay_blanket picnic_hair_kerchief sprout_cardigan_yoke toddler_apron_bib vee_stitch_wrap
        weekend_waffle_cloth windfall_shawl
        tube_doll_dress
        bathtime_hood_corner crescent_lake_shawl field_day_tote grit_stitch_washcloth half_circle_capelet
        homestead_wave_afghan moorland_cushion_uk parlor_window_stole pillowcase_beading_edge
        pointed_neck_scarf puff_row_cowl tidewater_sleeve
        brackenhill_pullover_front cardigan_button_band cottage_basketweave_throw daisy_chain_valance
        garden_party_pram_blanket oak_leaf_applique porch_granny_stripes reading_glasses_clutch
        ridged_chevron_runner slip_rib_brim uk_raglan_back
        breakfast_placemat chatty_dish_scrubber corner_start_lovey crossing_paths_scarf definition_first_scarf
        gathered_cuff_ruffle popcorn_trellis_pillow rabbit_ear_terse rail_fence_headband sunday_vest_front
        corner_each_tile_washcloth shell_in_shell_strip overlay_coaster_front_loops
        on_the_bias_potholder
        tiny_kite_c2c_arrows
        uk_summer_bunting
        cabin_hot_pad_three_logs
        marker_yoke_topper
        harbour_lights_middle_top_shawl
        diamond_net_stole divided_bolero_yoke fan_hem_edging feather_wave_wrap fishermans_neck_scarf
        hymn_book_marker_1908
        flared_doll_skirt_panel log_cabin_block plough_lane_wristers twin_twist_panel uk_trellis_shrug
        double_vee_afghan_strip granny_kerchief_cowl lemon_peel_face_cloth paired_stitch_cowl
        picot_bordered_cloth schoolday_vest_back spike_stripe_potholder tulip_row_lap_blanket
        bead_row_belt checkerboard_table_runner lighthouse_zigzag_throw open_air_triangle pebbled_loops_cloth
        slanted_skinny_scarf treble_fan_hem uk_feeding_bib
        bobble_bib_long_definition c2c_arrow_heart c2c_flannel_steps c2c_stroller_rectangle
        caps_leaflet_shell_dresser fairisle_cup_wrap_tapestry filet_ch1_words_motif
        filet_pennant_point inset_mosaic_brick lacet_shelf_band markdown_moss_mat overlay_mosaic_zag
        puff_dots_defined_below rope_cable_headband sail_bookmark_filet slash_sizes_sleeve
        stepped_filet_edge uk_basket_raised uk_colon_sizes_slipover uk_fan_wrist_cosy
        uk_filet_star_runner uk_inset_mosaic_bricks uk_run_together_collar
        baby_hat_flat
        xst_popcorn_wrap_paragraphs
        curly_five_sizes_front filet_wing_increases lacet_uk_border_numbers
        mosaic_chart_words_two_rows numbered_dec_sts_dash_counts tapestry_work_with_words
        terse_no_punctuation_coaster uk_cable_hot_water_bottle uk_corner_pram_square
        end_turn_mesh_swatch patch_pocket shell_hem_for_towel simple_raglan_front_sizes tall_ladder_cowl
        tight_ripple_cushion
        boathouse_cable_scarf everyday_counter_cloth first_frost_kerchief garden_gate_lunch_bag
        honeybee_cluster_cowl_panel moor_path_jacket_back_uk northern_sky_ripple_throw sandbar_shell_scarf
        cardi_back_uk
        sunday_market_top_front tea_tray_hankie_edge wren_lace_stole_uk
        dresser_edging_sideways_uk farmers_net_tote_side fieldway_pullover_sleeve gumdrop_cushion_front
        inglenook_bag_panel_uk low_tide_bias_wrap lullaby_bordered_blanket parlour_pineapple_panel
        slow_tide_wedge_shawlette
        starling_net_bandana stonecrop_vest_left_front
        fern_ridge_waffle_throw ferry_lane_tank_back harbour_stripes_cot_blanket_uk leaflet_collar_no_12
        lighthouse_cable_panel onion_net_bag_side_uk pebble_beach_moss_cloth regatta_pennant_uk
        two_button_neck_warmer
        vee_and_fan_scarf
        bluebell_cluster_runner dandelion_puff_coaster fjord_basket_liner_translated
        puff_row_cowl_flat sailor_back_on_ribbing shelf_edging_short_way terse_twist_headband
        tunic_front_slipped_neck v_and_shell_lane_scarf vest_front_rows_by_turns
        snowberry_crib_blanket
        lavender_bed_jacket_yoke_uk lengthwise_stripe_scarf quayside_raglan_back sawmill_shelf_points
        first_day_raglan_cardigan
        pier_ripple_blanket_uk_mag
        sickle_moon_scarflet willow_walk_v_shrug
        breeze_window_scarf buttonhole_band_picots cabin_hot_mat_bordered harvest_waistcoat_front_uk
        overlay_band_numbers_and_drops
        long_edge_down_shawl meadow_granny_kerchief_uk rover_dog_coat tern_shell_v_lapghan
        wrapped_suzette_cloth
        cedar_spine_shawl hayloft_strip_afghan kestrel_slipover_back_uk named_rows_bobble_cowl_band
        old_mission_edging_1914 pebble_lane_boxy_vest satchel_in_pieces thunderhead_ripple
        washcloth_rows_words
        c2c_small_boat_letters ear_warmer_folded_sizes
        braided_ridge_afghan_square checker_square_coaster_colours gosling_one_piece_jacket
        tea_cosy
        long_strap_sideways mealtime_bib_straps reader_fan_bookmark_uk scalloped_trellis_stole_panel
        swing_skirt_panel two_by_two_hdc_scarf
        c2c_small_boat_letters ear_warmer_folded_sizes vest_front_beg_dec
        sundial_top_back_uk_first_size
        alder_cuffed_sleeve bow_tie_set_small_pieces gravel_path_mug_mat larch_cardigan_left_front_uk rib_band_turned_sideways
        millpond_twin_cable_scarf scullery_cloth_crab_uk sideways_v_kerchief spa_day_bath_mat
        sweater_front_uk
        pillowcase_edging_chain_at_end
        bandit_bandana_dog bluebell_eyelet_stole_uk cobble_puff_pillow_panel conservatory_fan_throw
        family_ear_warmer_sideways kitchen_duo_restart open_point_ripple_scarf
        corduroy_pillow_back heathland_mini_shawl_uk hot_water_wrap_edged puddle_toddler_pants_leg
        woven_look_coaster
        beaded_wire_cuff c2c_owl_boxes_in_a_note commuter_phone_pouch_parts lantern_row_filet_panel
        overlay_x_letters_key_mat uk_estuary_slipover_back uk_lacet_cupboard_trim
        empty_and_filled_place_card filet_leaf_both_ends mini_c2c_hdc_rectangle_rainbow
        picnic_cutlery_roll_parts two_bracket_tank_front uk_inset_lattice_pot_holder
        anemone_bandana_test_sheet bib_from_danish bobble_field_pillow_magazine bulleted_steps_v_scarf
        sideways_scallop_trim
        lakeside_cloth_from_german leaf_letters_xva lodgepole_bias_scarf rainy_day_chatty_cloth
        slipover_back_mill_uk thirties_purse_panel
        dots_on_odd_rows_coaster first_bookmark_in_words ladder_and_scallop_edging_old
        onda_shawl_from_italian pinewood_spine_shawl_sides raised_block_hot_pad_uk
        table_of_rows_wrist_warmer three_cables_headband two_letter_rows_blanket uk_bag_strap_scalloped
        doll_top_from_russian fsc_tank_two_necks hdc_post_blanket_counted_border moss_legging_panel_sizes
        harbor_day_bunting_flags
        tulip_marker_run_lengths
        next_row_eyelet_runner peak_and_valley_lap_rug podcast_scarflet_spoken ridged_hot_mat_vintage
        terse_earflap_no_marks x_stitch_ear_warmer
        baby_yoke_dividing_row cloth_with_counted_border cropped_cardi_right_front emoji_eyelet_bookmark
        fifties_pot_holder_ridges filet_noughts_and_crosses half_loop_trellis_scarf pochette_from_french
        uk_pennant_dec_then_every worksheet_half_treble_uk
        mesh_sampler
        color_order_placemat crossover_scrubbie_commentary dragon_wing_numbers fan_wrap_base_rows
        garter_square_metric_test panel_with_picot_ridges previous_row_boot_cuff side_vent_strip_ml
        everyday_tote_base_and_sides
        uk_raglan_sleeve_magazine vintage_apron_pocket
        c2c_step_by_step_then_tile_counts intarsia_window_cushion_slashes
        overlay_plain_numbers_border_unwritten strip_throw_edged_strips two_panel_poncho_fringe_ties
        uk_button_pocket_apron_parts uk_filet_swag_shorthand uk_kindling_mitts_three_brackets
        vneck_size_only_same_numbers
        c2c_mushroom_brackets_arrow filet_heart_sachet_told_out five_color_stripe_throw_sequence
        lunch_tote_gusset_pocket tapestry_chevron_pouch_flat toddler_raglan_yoke_rows_sizes
        c2c_ten_by_five_scarf_inc_dec_rows filet_ch1_diamond_narrowing inset_mosaic_ldc_terse_steps
        cluster_ladder_scarf_movements
        ribbed_headband_n_times_sizes uk_filet_squirrel_tray_lead_in uk_moorhen_waistcoat_band
        c2c_whale_color_words drop_shoulder_sleeve_every_fourth filet_bird_glued_shorthand
        sea_breeze_slipover_dash_sizes
        granny_stripe_dog_coat_sizes_slots inset_pairs_over_each_space uk_satchel_rows_rounds_flap
        aussie_bib_uk_next_row half_hexagon_cushion_insert
        hurried_text_message_scarf mesh_bag_panel_brackets petal_edge_headband_towards
        positions_bobble_letter sampler_band_terse_uk slash_heights_wave swedish_pot_rag
        aran_honeycomb_chart_words cluster_ridge_capelet_imperial ear_flap_hat_band_repeat_count
        lace_collar_uk_old_leaflet lighthouse_stripe_towel_hanger one_line_rows_semicolons
        pram_mitten_cuff_back_forth shaped_flap_at_same_time sock_yarn_triangle_count_col
        latticed_filet_strap_in_words
        acorn_bonnet_pipe_sizes
        c2c_cactus_percolor_terms cardi_back_size_only_sections_us filet_initial_k_counts
        mosaic_overlay_us_centre_square project_bag_drawstring_squares
        tapestry_wall_pennant_rows_read uk_filet_blind_pull_written
        c2c_strawberry_dash_counts filet_pillow_lace_repeat_uk fringed_tassel_cowl_ties_buttonholes
        inset_mosaic_uk_col_letters mens_vest_front_bracket_sizes
        c2c_moon_uk_blocks_told filet_swan_ch1_spaces_blocks intarsia_arrow_sides_with_words
        mosaic_overlay_uk_ladder_band
        checklist_headband_brackets diary_style_facecloth
        checklist_headband_brackets diary_style_facecloth
        fan_border_cushion_sides magazine_bobble_edge_throw tote_strap_and_tab_parts
        uk_bag_gusset_measured_counts uk_stitch_dictionary_entry
        dishcloth_waffle
        shell_lap_strip
        stormhaven_cable_cushion
        leaf_edge_pillowcase_repeat
        shaped_pennant
        hollow_way_hood
        lacy_collar
        fell_side_pullover_angle_sizes
        leaf_stole_table
        centre_shawl_uk
        lacet_curtain
        tide_pouch_slip_stitch_rib
        cable_headband
        two_row_stripe
        crumpled_rows_any_size_blanket
        filet_shorthand
        v_lace_runner
        pebble_cardi_front_and_band
        crossed_dc_wrap
        pineapple_mini
        dec_each_end
        tank_top_uk
        half_double_scarf_notch
    """,
    "rounds": """
        sunflower_centre_granny weekend_market_net_bag copper_beech_hat_uk barn_owl_chick u_moon_jar_by_phone
        clover_leaf_coaster_set_uk harbour_lights_textured_cowl snowberry_mitten_sizes u_star_hanger_steps_czech
        bluebell_wheel_motif_uk lily_pad_frog_parts juniper_slouch_hat u_snail_shell_talked_through
        brookside_house_socks fireside_log_basket_uk heather_top_down_yoke_tee lantern_bay_mittens
        plum_orchard_hexagon pocket_octopus_reef u_dictated_daisy_coaster u_kite_tail_cowl_labels_reversed
        bobble_beanie_pompom cottage_blanket_solid_square_joined fern_the_tortoise granny_stripe_bag_uk
        marigold_round_doily petal_pink_baby_booties u_whelk_basket_rows_numbers_dots
        cottage_flower_leaf doorstep_oval_mat dovecote_hexagon_uk little_pebble_mouse lodge_slippers_sizes
        patio_hexagon_coaster snowball_mittens_sizes toolshed_basket
        ribbed_beanie_spiralish
        amigurumi_whale garter_hat_kid_sizes picot_square_uk
        hex_honeycomb_mat oval_basket_spiral two_tier_rose cable_cowl_uk pineapple_table_mat tube_sock_baby
        daisy_square_join granite_hat_topdown
        bilberry_bear_joined_legs candlewick_cowl_bobbles compass_trivet_capital_steps garden_wall_square_uk
        moss_hare_compact_uk sandpiper_produce_bag tide_table_beanie_bottom_up windowsill_pineapple_round
        ashdown_blanket_edging_corners cobnut_bootees_uk dragonet_egg_scales_shorthand
        greenwich_granny_join_as_you_go harbour_watch_cap_sizes_table lantern_star_ornament pond_newt_semicolons
        saltmarsh_vstitch_mandala vestry_star_doily_1930s
        barnstormer_bucket_hat_uk brine_the_seal_words clementine_baby_bonnet copper_kettle_mittens
        crumb_catcher_square_bullets firefly_snowflake flip_the_fox_arms_flat garden_gate_doily_prose_steps
        grumble_goat_counts_first hearth_cowl_two_rounds_table_uk hollyberry_basket marmalade_toy_ball_elephant
        pebble_path_socks pollen_layered_daisy quayside_ripple_pot_mat_octagon slipper_by_the_yard_plain_talk
        sunday_lunch_placemat_hex teatime_trivet_numeric_tabs thimbleweed_granny_circle tiny_top_hat_spoken
        wagtail_tissue_cover_square winters_star_uk_pamphlet
        wayside_granny_hexagon simple_winter_hat hollow_rose_applique mopsy_mouse_numbers
        button_pot_table meadowsweet_solid_square_uk harbourside_mitts seacombe_pineapple_doily
        dune_troll_joined_legs market_pouch_both_sides icicle_leaflet ribbed_brim_beanie
        meadow_field_bunny hearthrug_toddler_slippers pocket_piglet_r_after cafe_mug_mat_blog
        almshouse_hexagon_uk harvest_moon_coaster orchard_popcorn_square saturday_mesh_tote
        towpath_cowl_uk breakfast_egg_table terse_acorn_oneliner
        fenland_round_cushion_uk wrenna_the_witch_hat_doll pepper_sock_short_afterthought aubretia_tile_cluster
        dunlin_market_net_uk gladiolus_leaf_and_bloom marzipan_pig_legs_joined thornwick_hat_brim_up_words
        cottage_loaf_tea_cosy_uk drumlin_cowl_moss_sizes hobby_horse_head_list larkspur_circle_yoke_sizes_br
        mossbank_star_blanket puddle_duck_booties_uk rivet_market_tote_rounds_rows wisteria_doily_pineapple_min
        foldaway_oval_basket_tshirt grandpas_watch_cap_prose hollyhock_layered_mandala lattice_round_cloth_thread
        posy_pocket_octopus quayside_coaster_hex_join sandpiper_cardi_yoke_uk teasel_thumb_mitten_kids
        alpine_basket_rounds cat_toy_mouse_wrapped post_stitch_wrist_warmers pinwheel_doily
        poncho_child_colons baby_bootie_oval_sole snowflake_six_point seed_pouch_spiral_rows
        hex_motif_clusters_uk fox_ears_two_parts
        pear_ornament mitten_with_thumb_hole oval_pet_mat popcorn_medallion_square market_bag_round_to_rows
        estuary_bucket_hat_sizes gull_street_granny_circle_bag kelp_cabled_mitts_rounds larder_hexagon_growing
        linnet_popcorn_motif_uk millrace_turned_cowl otis_the_otter_etsy penny_lane_petal_brooch
        button_the_bear_unlabelled clotted_cream_hotpad_oneline cobnut_slouch_columns frost_hollow_snowflake
        peg_bag_rows_to_rounds ripple_edge_doily_leaflet saltbox_granny_uk_mag tarn_toe_up_sock
        harvest_oval_vbag larkfield_round_yoke_dress pip_puffin_list rosette_mat_roman_uk stile_hat_uk_sizes
        sunpatch_mandala_blog thrift_hexagon_terse woodpile_mitts_slash
        bramble_lane_granny_square driftwood_mug_rug_star hugo_the_hippo meadow_lace_parasol_round
        orchard_pear_applique ribbed_tube_scarf_family
        pemberton_pig_parts
        blackthorn_popcorn_hexagon boat_day_bag_oval confetti_square_standing hazel_layer_rose
        hearth_ballet_slippers lace_bauble_cover linden_plate_doily_uk olive_the_snail pebble_ridge_hat_even
        tosya_the_hamster
        peony_layers_blog
        baby_octopus_comfort daisy_meadow_granny first_steps_moccasins gatherer_mushroom_bag
        juniper_the_moth long_table_doily_prose penrose_hotpad_uk stormcloud_watch_cap sunset_cowl_shells
        winter_star_ornament
        bess_bonnet_uk cactus_pot_trio farmers_market_flower join_as_you_go_hexie lantern_sleeve_puff
        pipkin_the_hedgehog popcorn_pinwheel_square ridgeway_sock_toe_up
        sorrel_the_squirrel_arms_joined

        corner_store_bucket_hat duckling_rattle_parts gus_the_goose hollyhock_square_book
        mitten_pair_child_plain summer_net_tote_uk tea_rose_doily_petals willow_round_yoke_poncho
        doily_small
        thatch_bucket_hat_adult
        drizzle_cowl_textured fairy_ring_doily hillside_hat_uk_sizes mabel_the_cow marguerite_coaster_petals
        copper_beech_mandala
        starling_cowl_uk
        pantry_shelf_basket_hdc rosehip_granny_hexagon
        kitchen_scrubby_flower lupin_mandala_wall market_day_string_bag_uk
        percy_the_pumpkin toddler_sunhat_shells zinnia_brooch_old_leaflet
        gardeners_knee_pad_oval harebell_doily_uk pea_pod_trio_baby quick_slouch_mesh_beret
        blog_beanie_told_to_a_friend
        saffron_wheel_square tilly_the_teacup_pig
        percival_penguin_numbers_restart
        face_scrubby_repeat puff_ear_warmer wherry_baby_bonnet river_stones_cowl beach_bucket_handles octagon_bath_mat pip_the_mouse_tail
        clapboard_gift_bag_square_base
        pebble_pot_tapestry
        wherry_baby_bonnet river_stones_cowl beach_bucket_handles octagon_bath_mat pip_the_mouse_tail
        eight_shells spiral_no_join corner_sides_count ring_with_extra decreasing_closed uk_blanket_squares crab_and_join
        baby_hat_three_sizes_spiral
        crumpet_cat foundry_beanie frosted_star_motif peppermint_cushion_round quilted_mug_cosy_round
        drift_beanie_slash_sizes
        driftwood_wrist_warmers_braces
        peat_smoke_cowl
        harvest_hat_four_sizes
        spiral_basket_colours
        hat_labels_with_size_remarks
        kids_hooded_poncho_rounds
        gooseander_doily_book_1950s
        mitten_sizes_inline_only
        socks_cuff_sizes_dashes
        tapestry_arrow_basket
        tapestry_drawstring_pouch
        tapestry_strawberry_purse_round
        thistle_cuff_mittens uk_lattice_bag
        bonfire_spiral_wrap_mitts bramble_infinity_cowl dumpling_bear_keyring first_snow_booties
        mitten_thumb
        granite_ear_warmer_hat marsh_marigold_coaster moonwort_doily pedlar_drawstring_bag
        cornflower_mandala fireside_slippers gilded_frame_square harbourmaster_beanie lace_round_yoke_collar
        millrace_ripple_cowl parcel_string_bag toadstool_gnome uk_egg_cosies
        cygnet_bootee_uk_two_sizes
        christmas_bell
        barnaby_fox biscuit_mouse bobbled_drawstring_pouch boulder_slouch_hat button_strap_booties
        cathedral_mandala chunky_catchall cluster_lace_cowl cuff_down_bed_socks daisy_chain_coaster
        dockside_tote foxglove_mittens garden_tote_granny_bag gusset_marker_mitten gusset_thumb_mitts
        harvest_path_socks honeypot_hexagon kitchen_garden_solid_square lacewing_doily lantern_bonnet_beanie
        sugar_skep_honeycomb_cosy
        tramline_tapestry_cowl_chartwords
        kaleidoscope_tile_uk
        larkspur_pineapple_mat layered_anemone_brooch little_acorn_beret lullaby_shell_cowl
        marigold_patch_square meadow_granny_hexagon moss_stitch_infinity_cowl nutmeg_owl orchard_face_cloth
        oval_bread_basket picot_pillowcase_trim pilgrim_bear_legs_first pocket_hedgehog_terse
        poplar_wreath_oval_rug
        pumpkin_patch_trio ribbon_v_cowl ridgeback_watch_cap ripple_edge_headband_round
        rounds_to_rows_baby_bonnet scalloped_blanket_edging sea_glass_mitts_spiral short_heel_house_socks
        six_arm_snow_crystal spiral_closing_beanie square_doily_edging starfish_applique starwort_hexagon
        bobbin_the_field_vole_etsy
        tall_bottle_bag thimble_the_rabbit thistledown_doily timberline_ribbed_hat turtle_sprout_parts
        uk_hearth_round_pad uk_pram_shoes victorian_fan_square wisteria_round_doily
        windfall_basket_weave_pouf
        acorn_baby_rattle_cover acorn_cup_coaster_v2 afterthought_heel_sock all_in_one_chain_coaster
        almanac_solid_square attic_granny_two_round autumn_leaf_garland_oval baby_hat_bottom_up
        baby_mary_janes basket_rope_handles beach_basket_tapestry bear_cub_joined_legs beech_leaf
        beehive_hexagon_uk beret_size_sections bluebell_bud bluff_cowl_vst bobble_band_beanie
        bobble_cowl_even_rounds bobble_cushion_circle bramble_hedgepig bramble_mitts_rib briar_rose_triangle
        bumblebee_colours cabin_slipper_socks cable_mug_hug caps_leaflet_hotplate catkin_shoe_uk
        puffin_nursery_rug
        hexham_beanie_increase_table
        lockside_mitts_uk_letters
        chatty_rib_beanie checkered_mug_cosy chevron_skirt circle_in_square_sunburst clover_bunny
        cluster_flower_square clutch_bag_scales cobble_lane_bag_uk courtyard_mandala crab_edge_placemat
        crossed_boot_cuffs daisy_bonnet dc_rug_uncounted desk_tidy_basket dormouse_terse
        owl_amigurumi
        dotted_placemat_square double_potholder earflap_hat easter_egg_toy endless_granny_blanket
        family_ear_warmer_rounds fan_mandala_taller fern_leg_warmers ferry_wrist_warmers
        tansy_six_petal_hexagon_flower
        first_round_foundation_hat first_steps_booties five_point_star four_pineapple_mat
        cornmill_hex_bag_uk
        frilly_tree_ornament frost_fern_snowflake frosty_uk garden_gate_hexagon gnome_hat_striped
        cuthbert_the_carthorse
        picking_apples_tote
        granny_circle_cushion granny_cushion_rounds_to_rows growing_washcloth hankie_edging
        lavender_sachet_rounds_rows
        threlkeld_granny_circle_to_square
        limpet_rose_petals_behind_uk
        quince_hexagon_blanket
        harbour_bell_doily harbour_cowl hdc_spiral_bucket_hat hearthside_hexagon hedgerow_mitts hen_egg_cosy
        hoarfrost_snowflake hob_slipper_sock kettle_mittens lacy_cowl_fans lakeside_solid_granny
        beanie_adult
        merrow_mermaid_tail_rounds
        lamplight_sock_flap lantern_hexagon lantern_slope_mittens larder_raised_square_uk lattice_lamp_doily
        mitts_r_labels_from_cuff salt_spray_cluster_doily mooring_net_bag_handles ankle_warmers_total_rows
        hearth_slippers_oval_sole
        pondside_oval_tray_mat
        lattice_snowflake laundry_basket_marker layered_rosette lily_pond_mandala little_pineapple_doily
        lunch_bag_oval mandala_trivet_crossed marigold_oval_rug market_mesh_produce_bag milk_jug_cover
        modern_granny_join mole_uk_toy moss_cowl_open mushroom_pincushion net_market_bag
        vintner_bottle_bag_stripe
        numbered_pouch_terse nursery_blanket_border octagon_rug_trebles octagon_tile_wrapped octo_cat_toy
        octopus_pot_scrubber onechain_doily orbit_pinwheel_colors orchard_tea_cosy_uk otter_keychain
        oval_bath_mat oval_egg_basket overlay_trivet pebble_coin_purse pebble_turtle pencil_pot_cables
        penguin_hand_puppet pennant_bunting pennant_granny_triangle picnic_hexagon_bunting pip_mouse
        placemat_octagon_border plumtree_yoke poinsettia_pin pompom_hat_uk popcorn_block
        popcorn_hexagon_whole popcorn_wheel_square pram_cover_uk pudding_penguin puddle_jumper_hat
        kittiwake_cowl_moebius_rows
        nettle_lace_shrug_yoke_round
        puff_blossom_coaster puff_trivet_uk pumpkin_pie_ornament quayside_mesh_bag quick_cat_cave_top
        retro_coaster_bullets ribbed_cup_cozy_sizes ripple_star_baby_blanket riverside_beanie
        crinoline_doll_skirt_ruffle
        tidewrack_slouch_sizes
        plant_hanger_ring
        alderney_yoke_hat_uk
        rope_bowl_nested rose_window_cd rose_window_square rosette_hexagon_join_sc ruffle_scrunchie
        crossed_wrist
        ruffled_marigold rug_growing_hexagon shawl_pin_flower_layers shell_edged_round_shawl
        tapestry_band
        sideways_brim_hat sill_pot_cosy skipper_hat_sizes slipper_cuff_even slouchy_mesh_beanie
        snow_lantern_joined snow_star_six snowball_joined_squares snowday_mittens snowdrop_doily
        snowflake_twig sock_short_row_heel solid_square_daggers spa_scrubby_round spike_coaster
        oval_bag
        spiral_hdc_pouf_bottom sprout_yoke_sweater square_toy_basket standing_dc_mandala star_pot_holder
        starburst_hexagon_puff stocking_afterthought sunburst_granny_beginner sundial_mandala
        sawmill_beanie_stop_sizes
        daybreak_sun_catcher_thread
        sunflower_square swirl_hotpad table_cactus teashop_coaster_uk tee_yarn_catchall ten_petal_doily
        thumb_hole_wristers tidal_cluster_square tidepool_bag tiny_turtle_shell toadstool_trinket
        toddler_mitten_cord tote_with_boxy_base triangle_granny_garland tube_socks_toe_up
        tumble_troll_joined turned_granny_uk turned_pantry_square turned_round_pouch turnstile_beanie_up
        uk_baby_bootees uk_cobweb_doily uk_hexagon_blanket_motif uk_tea_light_lantern vee_stitch_bucket_bag
        uk_pixie_hat_months
        hexie
        vest_hexagon_two_rounds vstitch_mandala waffle_headwrap_fsc weekday_v_cowl whale_rattle
        wheel_cushion_uk wild_rose_flower willow_square_joined_hdc windmill_granny_turn
        windward_mitten_sizes woodland_granny_uk2 word_numbered_trivet wrapped_trivet_pdf xva_panda
        cable_cowl_rounds comma_dash_sizes_hat tapestry_basket_band
        alpine_band_two_below glossary_dash_mb_mitt
        sock_uk
        barley_the_vole hedge_maple_hexagon lockkeeper_mitts_gusset needle_pouch_flap oval_farm_stand_bag
        ropemaker_basket_handles_sizes
        abbots_wharf_shell_bag_bottom
        parsonage_doily pear_drop_bonnet rose_arbour_cushion_uk veranda_v_cowl woodpile_ribbed_hat
        dovecote_table_centre_uk first_frost_beanie garden_path_square_uk jute_turned_basket
        kite_festival_overlay never_ending_solid_square paddling_pool_sandals pelle_the_puffin
        shepherds_fingerless_mitts_uk snug_toddler_mitts
        nordic_mug_hug
        juniper_lodge_bobble_hat
        button_jar_lidded_pot_uk cabbage_rose_brooch dogwood_luncheon_doily granddads_tammy_uk
        honesty_hexagon_uk millpond_circle_square orchard_net_bag_strap sea_mist_slouch thistle_puff_cowl
        wallace_the_whale_calf
        bluebell_yoke_top caravan_flower_hexagon cub_earflap_hat envelope_potholder_uk finn_the_fox_cub
        yule_log_star_points
        quoin_tapestry_purse_letters_chart
        hallway_loafers_uk porch_plant_hanger seashell_arches_cowl square_button_box twirl_the_bunny
        allotment_granny_tote bertie_brontosaurus gossamer_web_doily gravel_turned_cowl hill_farm_slash_hat
        ottery_market_net_bag
        picot_pram_hat_uk primrose_popcorn_block toasty_bottle_cover_uk towpath_slit_wristers
        bath_step_round_rug bobble_arm_penguin_chick campfire_granny_poncho clover_field_mouse_uk
        hamper_basketweave_cowl plainspoken_granny ridge_line_post_hat rope_walk_project_bag
        wren_tray_cloth_uk
        chevron_tapestry_bowl elevenses_tea_cosy gatehouse_bottom_up_hat granny_circle_pouch
        farrier_fingerless_rounds
        glasshouse_mandala_prose
        saltbox_square_within_circle
        kitchen_gull_tapestry_bowl
        lotus_pool_mandala mince_pie_star_uk pebble_beach_wave_cowl_uk veg_patch_carrot_radish
        brace_sizes_slippers honeybee_granny_hexagon_blanket murka_number_first_cat odd_loop_infinity_cowl
        photographers_flap_mitts snuggle_bear_lovey tambourine_circle_bag vicarage_mat_called_rows_uk
        bear_head_arms
        brooch_rose_petals first_booties_instep lap_rug_hexagon_clusters market_tote_mesh
        layered_rose_brooch mandala_ten_round arches_doily_leaflet star_mandala_terse flower_bookmark_doily_uk
        pine_doily_spider picot_doily_old
        ferry_lane_row_base_basket glued_blog_coaster ladder_lace_cowl_until ribbed_sideways_mitts_uk
        hollin_hexagon_cardi_uk_half
        granny_for_beginners_eight
        scout_the_bear_joined_arms shell_in_shell_centrepiece size_remark_family_beanie spiked_wheel_potholder
        harrier_toe_up_sock_toe
        bath_mitt_bobble_cuff rag_rug_until_eighty wrens_basket_picot_uk
        dinner_bell_snood even_rounds_bobble_hat picot_daisy_motif_uk robin_with_flat_wings
        lych_gate_octagon_uneven
        shell_cuff_handwarmers two_layer_hexagon_hotpad washhouse_face_round
        honesty_bonnet_rows_then_round marigold_granny_hexagon_uk pocket_whale_keyring
        ridge_mitts_increase_thumb rippled_doily_thread woven_look_bowl
        beacon_key_bowl_tapestry pebble_cap_braces_child six_patch_doll_quilt
        plarn_allotment_basket uk_barley_bootees_sizes uk_beaded_jug_cover uk_four_square_trivet
        bead_drop_earring_wire
        hexagon_cushion_flower_seven house_socks_toe_sizes overlay_mdc_bandana_cowl_rounds
        uk_garden_square_cot_blanket
        granny_hood_four_squares rag_doormat_oval_chatty uk_fairisle_beanie_slash_rounds
        nine_patch_cushion_join_border romper_pieces_running_numbers_sizes
        seahouses_mandala_overlay_posts
        uk_tapestry_plant_pot_rounds
        stripes_self_colour_card_uk_cowl uk_toddler_sock_heel_sizes uk_wire_bowl_and_bead_rim
        star_ornament
        tapestry_bucket_bag_round_words twelve_squares_lap_blanket_border
        uk_party_shoes_parts_buttonstrap
        slipper_sizes_words_and_braces uk_bonnet_back_then_brim_ties
        dahlia_three_storeys
        coaster_petals
        solid_square_border
        hex_tile
        marsh_otter_joined_legs
        pincushion_picot_ring_then_square slipper_sole_heel_numbered_on
        selkie_cowl_lace_rounds
        windrose_doily_leaflet
        drawing_room_pineapples
        ollerton_owl_translated
        c_mandala
        market_mesh
        pinwheel_square_popcorn
        uk_mesh_bag
        yoke_corners
        plain_headband_knot
        granny_rect
        daisy_coaster_leaflet double_daisy_brooch dusty_moth_keyring fisher_hat_bottom_up
        harvest_granny_colours little_mushroom_translated pinecone_trivet_chatty plum_pouch_oval_base
        robin_in_the_hedge
        ravensworth_stocking_hat_sizes
        teapot_stand_shells_uk twill_cowl_turned bed_sock_toe_then_heel_rows chunky_beanie_dashed_counts
        bramblecote_bonnet_rounds_rows
        cotton_rope_basket_handles dawn_mandala_in_words meadow_hexagon_two_colour_uk
        sundew_square_cluster_corner
        round_pot_holder_rug_cotton six_point_snowflake_ring solid_coaster_along_sides thimble_owlet
        hoarwithy_pineapple_coaster_uk
        thumbless_baby_mitts_uk
    """,
}
"""Patterns of which every row is right and in which no error is reported."""


@dataclass(frozen=True, slots=True)
class Case:
    """One pattern with what is true of it."""

    folder: str
    name: str
    text: str
    truth: Mapping[str, Any]


@cache
def cases(folder: str) -> tuple[Case, ...]:
    """All patterns of a folder, by name."""
    found = []
    for file in sorted((CORPUS / folder).glob("*.truth.json")):
        name = file.name.removesuffix(".truth.json")
        text = (CORPUS / folder / f"{name}.txt").read_text(encoding="utf-8")
        found.append(Case(folder, name, text, json.loads(file.read_text(encoding="utf-8"))))
    return tuple(found)


@cache
def reading(folder: str, name: str) -> Loaded:
    """A pattern of the corpus, read; for a broken one in the size that is broken."""
    case = next(case for case in cases(folder) if case.name == name)
    return load(f"{name}.txt", case.text, case.truth.get("size"))


def rows_of(loaded: Loaded) -> list[Placed]:
    """The rows that count as such: every worked one, and foundation rows that make stitches."""
    return [
        p for _, p in loaded.fabric.rows() if p.kind != "note" and (p.worked.makes or p.kind != "foundation")
    ]


def counts(made: Mapping[str, int]) -> dict[str, int]:
    """Counts under one spelling of each name."""
    out: dict[str, int] = {}
    for name, number in made.items():
        plain = " ".join(name.lower().split())
        plain = re.sub(r"^ch[- ](\d+)[- ]?(?:sp|lp|loop|space)s?$", r"ch-\1 sp", plain)
        plain = SAME_STITCH.get(plain, plain)
        out[plain] = out.get(plain, 0) + number
    return {name: number for name, number in out.items() if number}


def made_by(loaded: Loaded, placed: Placed) -> dict[str, int]:
    """What a row makes, in the pattern's own terms."""
    return counts({written(name, loaded.pattern.uk): number for name, number in placed.worked.makes.items()})


def errors(loaded: Loaded) -> list[Problem]:
    return [problem for problem in loaded.problems if problem.severity is Severity.ERROR]


@dataclass(frozen=True, slots=True)
class Judged:
    """How one right pattern was read."""

    rows: int
    right: int
    """Rows claimed as understood whose counts are the true ones."""
    wrong: int
    """Rows claimed as understood whose counts are not."""
    false_errors: int
    whole: bool
    """True when every row is right, none is missing or too many, and no error is reported."""


def judged(case: Case) -> Judged:
    """A right pattern against its truth."""
    return _judged(case, reading(case.folder, case.name))


def judged_text(case: Case, text: str) -> Judged:
    """The truth of a right pattern against another text that should make the same fabric."""
    return _judged(case, load(f"{case.name}.txt", text, case.truth.get("size")))


def _judged(case: Case, loaded: Loaded) -> Judged:
    worked, truths = rows_of(loaded), case.truth["rows"]
    right = wrong = 0
    for placed, truth in zip(worked, truths, strict=False):
        same = made_by(loaded, placed) in [counts(one) for one in (truth["stitches"], *truth.get("also", ()))]
        right += same and placed.worked.understood
        wrong += placed.worked.understood and not same
    false_errors = len(errors(loaded))
    whole = right == len(truths) == len(worked) and not false_errors
    return Judged(len(truths), right, wrong, false_errors, whole)


def placed_right(case: Case) -> bool:
    """True when one of the two gravest problems of a broken pattern names the row that is wrong."""
    problems = reading(case.folder, case.name).problems
    grave = [p for p in problems if p.severity is Severity.ERROR]
    grave += [p for p in problems if p.severity is Severity.WARNING]
    return any(_overlap(problem.row, case.truth["row"]) for problem in grave[:2])


def _overlap(row: str | None, other: str | None) -> bool:
    mine, theirs = _numbers(row), _numbers(other)
    if isinstance(mine, str) or isinstance(theirs, str):
        return mine == theirs
    return mine[0] <= theirs[-1] and theirs[0] <= mine[-1]


def _numbers(label: str | None) -> tuple[int, ...] | str:
    plain = (label or "").lower().strip().rstrip(":")
    plain = re.sub(r"^(rows?|rnds?|rounds?|r)\b\.?\s*", "", plain)
    found = re.findall(r"\d+", plain)
    return tuple(int(number) for number in found[:2]) if found else plain
