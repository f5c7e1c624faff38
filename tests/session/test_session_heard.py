"""What a maker hears who has nothing but the voice: places, sides, colours and numbers told so that no other is heard."""

import pytest
from on_the_hook import NOW_MS, PATTERNS, program_of, told, walked

from tracker.program.cues import breaks_the_run, colours, copy_at
from tracker.session import deeds
from tracker.session.apply import Say, apply
from tracker.session.state import begun
from tracker.session.wording import said_at
from tracker.session.wording.explain import how_worked

TOY = "TOY\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Inc around. (12)\n"
SQUARE = (
    "SQUARE\n\nCh 4, join with sl st to form a ring.\nRnd 1 (RS): Ch 3 (counts as dc), 2 dc in ring, ch 2, "
    "(3 dc in ring, ch 2) 3 times; join with sl st to top of ch 3. (12 dc, 4 ch-2 sps)\n"
)
CLOTH = "CLOTH\n\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"


@pytest.mark.parametrize(
    "rounds, said",
    [
        ("", "Two single crochet in each of six: six becomes twelve."),
        ("Rnd 3: (Sc in next sc, 2 sc in next sc) 6 times. (18)\n", "Six of these: twelve becomes eighteen."),
        ("Rnd 3: Sc2tog 6 times. (6)\n", "Two single crochet together, six times: twelve becomes six."),
    ],
)
def test_what_a_round_makes_of_the_one_below_is_told_with_its_repeat(rounds: str, said: str) -> None:
    """Four single crochet, then two together: thirty-six becomes thirty."""
    program = program_of(TOY + rounds)
    assert said in " ".join(told(program, program.fabric.length))


def test_a_count_that_stays_and_chain_spaces_make_nothing_of_another_number() -> None:
    """Nor does a join, or a row with two groups of stitches."""
    same = program_of(TOY + "Rnd 3: Sc in each st around. (12)\nRnd 4: Inc, sc in next 11 sts. (13)\n")
    rows = [*told(same, 3), *told(same, 4), *told(program_of(SQUARE), 1)]
    assert not any("becomes" in words for words in rows)


def test_which_side_faces_is_told_where_it_is_another_or_the_yarn_was_cut() -> None:
    """In rounds it is the same all the way; in rows it is told, and behind a fastening off."""
    rounds = (
        SQUARE + "Rnd 2: Ch 1, sc in each dc and 2 sc in each ch-2 sp around; join. Fasten off. (20 sc)\n"
    )
    rounds += "Rnd 3: Join B with sl st in any sc, ch 1, sc in each sc around; join. (20 sc)\n"
    program = program_of(rounds)
    assert told(program, 1)[0].startswith("Round one, right side.")
    assert told(program, 2)[0].startswith("Round two. Chain one")
    assert told(program, 3)[0].startswith("Round three, right side.")


STRIPES = CLOTH.replace("Ch 13", "With A, ch 13") + (
    "Row 2: Ch 1, turn, sc in each sc across. (12 sc)\nRows 3 & 4: With B, rep Row 2.\nRows 5 & 6: With A, rep Row 2.\n"
    "Rows 7-14: Rep Rows 3-6 twice.\n"
)


def test_rows_that_repeat_coloured_copies_tell_their_colours() -> None:
    """Rows 3 and 4 are row 2 in B: rows 7 and 8 are them again, and in no other colour."""
    program = program_of(STRIPES)
    assert [colours(program, row) for row in (7, 8, 9, 11, 13)] == [
        ("With B",),
        (),
        ("With A",),
        ("With B",),
        ("With A",),
    ]
    assert told(program, 7)[0].startswith("Row seven is row two. Three to six, second time. With B.")


def test_rows_repeated_together_are_counted_by_their_passes() -> None:
    """Row 4 is row 2 again within the pass: that is no further pass."""
    text = (
        CLOTH
        + "Row 2: Ch 1, turn, sc in each sc across. (12 sc)\nRow 3: Ch 1, turn, hdc in each st across. (12 hdc)\n"
    )
    program = program_of(text + "Row 4: Rep Row 2.\nRows 5-13: Rep Rows 2-4 three times.\n")
    found = [copy_at(program, row) for row in range(5, 14)]
    assert [copy.time for copy in found if copy] == [2, 2, 2, 3, 3, 3, 4, 4, 4]
    assert told(program, 4)[0].startswith("Row four is row two. Chain one")


def test_a_part_that_takes_rounds_from_another_is_at_the_end_of_no_repeat() -> None:
    """Its own round is nothing the hands could run past."""
    text = (
        "HEXIES\n\nFIRST PIECE\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Inc around. (12)\nRnd 3: Sc in each st around. (12)\n"
        "Fasten off.\n\nSECOND PIECE\nRnds 1-2: As Rnds 1-2 of first piece.\nRnd 3: (Sc, inc) 6 times. (18)\nFasten off.\n"
    )
    program = program_of(text)
    assert not [row for row in range(1, program.fabric.length + 1) if breaks_the_run(program, row)]


@pytest.mark.parametrize(
    "words, said",
    [
        (
            "ch 3, dc in next 2 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp, *dc in next 3 dc, (2 dc, ch 2, 2 dc) in next "
            "ch-2 sp; rep from * 2 more times; join with ss into top of 3 ch. (28 dc, 4 ch-2 sps)",
            "Three double crochet; then in the chain-two space: two double crochet, chain two, two double crochet.",
        ),
        (
            "ch 1, *sc in next 3 dc, 3 sc in next ch-2 sp; rep from * around; join with sl st in first sc. (24 sc)",
            "Three single crochet, three single crochet in the chain-two space.",
        ),
    ],
)
def test_what_goes_into_a_space_is_not_heard_as_part_of_what_stands_before(words: str, said: str) -> None:
    """ "Three double crochet, in the space" would be three in the space."""
    program = program_of(f"{SQUARE}Rnd 2: {words[:1].upper()}{words[1:]}\n")
    assert said in " ".join(told(program, 2))


def test_several_in_each_of_several_spaces_go_into_spaces() -> None:
    """The three sides of a granny square have spaces between its groups."""
    program = program_of(SQUARE + "Rnd 2: Ch 1, 3 sc in each of next 4 ch-2 sps; join. (12 sc)\n")
    assert "in each of four spaces" in " ".join(told(program, 2)).lower()


BORDER = """CUSHION

SQUARE (make 4)
Ch 4, join with sl st to form a ring.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st to top of ch-3. (12 dc, 4 ch-2 sps)
Fasten off.

JOINING
With RS together, sl st the squares in 2 rows of 2.

BORDER
Rnd 1: Join red with sc in any outer corner ch-2 sp, 2 more sc in same sp, *sc in next 3 dc, sc in joined ch-2 sp, sc in joined ch-2 sp, sc in next 3 dc, 3 sc in corner ch-2 sp; rep from * 3 more times, omitting last 3 sc, join. (44 sc)
"""


def test_a_border_around_joined_pieces_names_its_spaces() -> None:
    """What the joining left cannot be known: the pattern's own words tell the place, and the join is told once."""
    program = program_of(BORDER)
    heard = " ".join(told(program, program.fabric.length))
    assert (
        "Join red with single crochet in any outer corner chain-two space, two more single crochet in the same"
        in heard
    )
    assert heard.count("Join red") == 1
    assert "single crochet in the joined chain-two space" in heard
    assert "Three single crochet in the corner chain-two space" in heard
    assert any("right sides together" in said_at(program, place) for place in walked(program))


def test_the_middle_of_a_shell_is_told() -> None:
    """Named by several words, a shell of the pattern's own is called in full within a place too."""
    text = (
        "SHELLS\n\nSpecial stitches\nSmall shell (sm sh): 3 dc in same st.\nLarge shell (lg sh): 5 dc in same st.\n\nCh 20.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Row 2: Ch 1, turn, sc in first sc, *sk 2 sc, lg sh in next sc, sk 2 sc, sc in next sc; rep from * across. (3 lg sh, 4 sc)\n"
        "Row 3: Ch 3 (counts as dc), turn, dc in first sc, *sc in center dc of next lg sh, sm sh in next sc; rep from * to "
        "last lg sh, sc in center dc of last lg sh, 2 dc in last sc. (2 sm sh, 3 sc, 4 dc)\n"
    )
    heard = " ".join(told(program_of(text), 3))
    assert "single crochet in the center double crochet of the next large shell, small shell" in heard.lower()


def test_rows_below_are_as_many_as_the_pattern_says() -> None:
    """A spike goes as deep as it is written."""
    text = CLOTH + "Row 2: Ch 1, turn, sc in each sc across. (12 sc)\n"
    text += "Row 3: Ch 1, turn, *sc in next 3 sc, sc in next st 2 rows below; rep from * across. (12 sc)\n"
    program = program_of(text)
    assert "two rows below" in " ".join(told(program, 3))


def test_a_turning_chain_told_shortly_keeps_its_turn() -> None:
    """Where the chain is made before the work is turned, nothing else says that it is."""
    program = program_of(
        CLOTH + "".join(f"Row {row}: Ch 1, turn, sc in each sc across. (12 sc)\n" for row in (2, 3, 4))
    )
    session, heard = begun(program), ""
    for step in range(20):
        session, effects = apply(session, deeds.Onward(), NOW_MS + 5_000 * step)
        if session.place[2] == 4:
            heard = next(effect.spoken for effect in effects if isinstance(effect, Say))
            break
    assert heard == "Row four. Chain one, turn."


def test_a_tile_is_explained_by_its_movements_and_its_first_by_its_stitch() -> None:
    """The pattern defines none: nothing is said to be its words."""
    text = (
        "C2C\n\nR1: Ch 6, dc in 4th ch from hook and in next 2 ch. (1 tile)\n"
        "R2: Ch 6, turn, dc in 4th ch from hook and in next 2 ch, sl st in ch-3 sp of next tile, ch 3, 3 dc in same sp. (2 tiles)\n"
        "R3: Turn, sl st in next 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, sl st in last ch-3 sp. (1 tile)\nFasten off.\n"
    )
    program = program_of(text)
    assert "chain three, three double crochet in the same space" in told(program, 2)[0]
    explained = [how_worked(program, place) for place in walked(program) if not place[3]]
    assert not any("The pattern says" in words or "does not say more" in words for words in explained)
    assert explained[0].startswith("Double crochet: yarn over")


def test_picots_are_counted_beside_the_stitches_and_not_among_them() -> None:
    """Twelve stitches carry four picots, whatever the round is made of."""
    text = (
        CLOTH
        + "Row 2: Ch 1, turn, *sc in next 3 sc, ch 3, sl st in last sc made (picot); rep from * to end. (12 sc, 4 picots)\n"
    )
    assert told(program_of(text), 2)[-1].startswith("Row two: twelve single crochet, four picots.")


def test_the_turn_is_told_where_the_words_have_it() -> None:
    """Behind a repeat it is the end of the row, whatever chain the row began with."""
    text = (
        CLOTH.replace("(12 sc)", "Turn. (12 sc)")
        + "Row 2: Ch 3, *dc in next st; rep from * across. Turn. (12 dc)\n"
    )
    program = program_of(text + "Row 3: Ch 3, *dc in next st; rep from * across. Turn. (12 dc)\n")
    assert told(program, 2)[-1].endswith("Count, then turn.")
    assert "then turn" not in told(program, 3)[0]


def test_a_number_that_changes_is_told_however_well_the_row_is_known() -> None:
    """Of a triangle all but its numbers is the same; they are what the hands cannot know."""
    text = (
        "TRIANGLE\n\nMake a magic ring.\nRow 1: Ch 3 (counts as dc), 3 dc in ring, ch 2, 4 dc in ring. Turn. (8 dc, 1 ch-2 sp)\n"
        "Row 2: Ch 3, dc in first dc, dc in each dc to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc to last st, "
        "2 dc in top of ch-3. Turn. (14 dc, 1 ch-2 sp)\nRows 3-6: Rep Row 2.\n"
    )
    heard = heard_in(text, 5)
    assert heard == [
        "Row five is row two. Chain three: your first double crochet.",
        "",
        "Twelve double crochet.",
        "",
        "Twelve double crochet.",
        "Two double crochet in the top of the chain three.",
        "Row five: thirty-two double crochet, one chain-two space. Count, then turn.",
    ]


def test_an_end_that_nothing_foretold_is_told_however_well_the_row_is_known() -> None:
    """After "last one, then …" one group more, with three in the last stitch: nobody would see it coming."""
    text = (PATTERNS / "orchard-shells.txt").read_text(encoding="utf-8")
    heard = heard_in(text, 6)
    assert heard[:3] == [
        "Row six is row two. Two and three, third time. Chain three: your first double crochet.",
        "",
        "",
    ]
    assert heard[-3:-1] == ["", "Skip two, three double crochet in the last stitch."]


def heard_in(text: str, row: int) -> list[str]:
    """What a maker hears in a row who goes on at a steady pace from the beginning."""
    session, heard = begun(program_of(text)), []
    for step in range(400):
        session, effects = apply(session, deeds.Onward(), NOW_MS + 5_000 * step)
        if session.place[2] == row and session.place[3] == 0:
            heard += [effect.spoken for effect in effects if isinstance(effect, Say)]
            if session.program.is_count(session.place):
                break
    return heard


def test_letters_that_stand_for_stitches_are_said_as_stitches() -> None:
    """Nobody counts six A; and a letter's own words are no list of all that follows it."""
    text = (
        "BALL\n\nX = single crochet\nV = increase (2 sc in one stitch)\nA = decrease (2 sc together)\nMR = magic ring\n"
        "The number in brackets is the stitch count\n\nBody\nR1: 6X in MR (6)\nR2: 6V (12)\nR3: (X, A)*4 (8)\n"
    )
    program = program_of(text)
    assert told(program, 2)[0].startswith("Round two. Six increases: six becomes twelve.")
    assert (
        told(program, 3)[0] == "Round three. Single crochet, decrease. Four of these: twelve becomes eight."
    )
    assert told(program, 3)[-1].startswith(
        "Round three: eight stitches: four single crochet, four decreases."
    )
    first = next(place for place in walked(program) if place[2] == 1 and place[3] == 0)
    assert how_worked(program, first).startswith("Single crochet: into the stitch, yarn over")
    third = next(place for place in walked(program) if place[2] == 3 and place[3] == 0)
    assert "magic ring" not in how_worked(program, third)


def test_a_stitch_spelled_out_where_it_begins_a_round_is_told_as_it_is_spelled() -> None:
    """The first cluster stands on its chain; where it is called by its name, the name does."""
    text = (
        "DOILY\n\nCluster: Holding back on hook the last loop of each tr, make 3 tr in same loop, thread over and draw "
        "through all loops on hook.\n\nCh 6, join with sl st to form a ring.\nRnd 1: Ch 1, 8 sc in ring; join. (8 sc)\n"
        "Rnd 2: Ch 1, sc in first sc, *ch 5, sc in next sc; rep from * around, ending with ch 5. Join to first sc. (8 loops)\n"
        "Rnd 3: Sl st to center of next loop, ch 4, holding back on hook the last loop of each tr, make 2 tr in same loop, "
        "thread over and draw through all loops on hook (counts as first cluster), * ch 7, cluster in next loop. Repeat from "
        "* around, ending with ch 7. Join to tip of first cluster. (8 clusters)\n"
    )
    program = program_of(text)
    heard = " ".join(told(program, 3))
    assert "chain four, holding back on hook the last loop of each treble crochet, make two treble" in heard
    assert "Chain seven, one cluster in the chain-five space. Seven of these." in heard


def test_how_a_cluster_of_the_patterns_own_is_worked_is_its_own_words() -> None:
    """The trade's are of double crochet: a cluster of trebles is none of them."""
    text = "CLUSTERS\n\nCluster (cl): Holding back the last loop of each tr, make 3 tr in next st, yo, draw through all loops.\n\n"
    text += "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"
    program = program_of(
        text + "Row 2: Ch 3 (counts as dc), turn, cl in next st, dc in next 9 sts. (10 dc, 1 cl)\n"
    )
    place = next(place for place in walked(program) if place[2] == 2 and place[4] == 1)
    assert how_worked(program, place).startswith(
        "The pattern says: Holding back the last loop of each treble crochet"
    )
    assert "up to its last pull" not in how_worked(program, place)


def test_a_picot_within_a_corner_says_where_it_is_closed() -> None:
    """Three double crochet, chain three and a slip stitch would be anything."""
    text = (
        "STAR\n\nCh 5; join with sl st to form ring.\nRnd 1: Ch 1, 10 sc in ring; join in first sc. [10 sc]\n"
    )
    text += (
        "Rnd 2: Ch 1, *sc in next sc, (3 dc, ch 3, sl st in last dc made, 3 dc) in next sc; rep from * around; join. "
        "[5 sc, 30 dc, 5 picots]\n"
    )
    assert "chain three, slip stitch in the last double crochet made, three" in " ".join(
        told(program_of(text), 2)
    )


def test_where_a_chain_ends_the_row_its_own_chain_is_explained() -> None:
    """The third of a chain of five is not its top."""
    text = (
        "MESH\n\nCh 17.\nRow 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. (5 dc, 4 ch-2 sps)\n"
        "Row 2: Ch 5 (counts as dc and ch-2 sp), turn, sk first ch-2 sp, dc in next dc, *ch 2, sk ch-2 sp, dc in next dc; "
        "rep from * to last sp, ch 2, sk 2 ch, dc in next ch. (5 dc, 4 ch-2 sps)\n"
        "Row 3: Ch 5, turn, sk first ch-2 sp, dc in next dc, *ch 2, sk ch-2 sp, dc in next dc; rep from * to last sp, ch 2, "
        "dc in 3rd ch of beg ch-5. (5 dc, 4 ch-2 sps)\n"
    )
    program = program_of(text)
    last = [place for place in walked(program) if place[2] == 3 and not program.is_count(place)][-1]
    assert "Into the third chain of the chain five, counted from the base" in how_worked(program, last)


def test_what_comes_next_is_foretold_in_few_words() -> None:
    """It is told in full once it is there: nobody keeps five phrases in mind over a group in hand."""
    mat = PATTERNS.parent / "tests" / "corpus" / "rounds" / "larkspur_pineapple_mat.txt"
    heard = told(program_of(mat.read_text(encoding="utf-8")), 4)
    foretold = [words for words in heard if ". Then " in words]
    assert foretold == ["Last one. Then chain two, skip the next chain-two space."]
    assert heard[heard.index(foretold[0]) + 1].startswith(
        "Chain two, skip the next chain-two space, eight double"
    )


def test_of_a_row_that_is_read_out_the_turn_waits_for_the_count() -> None:
    """Told as a phrase of its own, and again with the count, the work would be turned twice."""
    row = "Row 2: Ch 1, frobble in first sc, sc in next 11 sc, turn. (12 sc)\n"
    program = program_of(
        CLOTH.replace("(12 sc)", "Turn. (12 sc)") + row + "Row 3: Ch 1, sc in each st across, turn.\n"
    )
    heard = told(program, 2)
    assert not program.is_followed(2)
    assert "Turn." not in heard
    assert heard[-1].endswith("Count, then turn.")
    last = told(program_of(CLOTH + row), 2)
    assert last[-1].endswith("Count; it is the last row. Then turn.")


def test_what_is_written_is_read_out_with_its_brackets_and_articles() -> None:
    """Asked for, the pattern's own words sound as they do elsewhere."""
    program = program_of(SQUARE)
    session, effects = apply(begun(program), deeds.Onward(), NOW_MS)
    _, effects = apply(session, deeds.Ask("written"), NOW_MS)
    said = " ".join(effect.text for effect in effects if isinstance(effect, Say))
    assert "then three times: three double crochet in the ring, chain two" in said
    assert "join with a slip stitch to the top of the chain three" in said


def test_rows_worked_straight_are_told_so_and_not_in_the_words_of_an_increase() -> None:
    """Behind "rep last 4 rows" the next in turn would be the increase: straight rows are none."""
    sleeve = PATTERNS.parent / "tests" / "corpus" / "flat" / "bramley_matinee_sleeve.txt"
    program = program_of(sleeve.read_text(encoding="utf-8"))
    assert copy_at(program, 22) is None
    assert program.fabric.row(22).worked.makes == program.fabric.row(21).worked.makes
    heard = told(program, 22)
    assert "row six" not in " ".join(heard)
    assert heard[0].endswith("Thirty-four half treble; the last goes in the top of the chain two.")


def test_a_bracket_that_begins_with_its_slip_stitch_is_told_once() -> None:
    """The slip stitch and the chain lead there; the rest goes into the same space."""
    program = program_of(
        SQUARE
        + "Rnd 2: Sl st in next 2 dc, (sl st, ch 3, dc, ch 2, 2 dc) in next ch-2 sp, dc in next 3 dc, *(2 dc, ch 2, 2 dc) in "
        "next ch-2 sp, dc in next 3 dc; rep from * around; join. (28 dc, 4 ch-2 sps)\n"
    )
    assert told(program, 2)[:2] == [
        "Round two. Slip stitch in the next two double crochet. Slip stitch in the next chain-two space. "
        "Chain three: your first double crochet.",
        "In the same space: double crochet, chain two, two double crochet.",
    ]


@pytest.mark.parametrize(
    "name",
    [
        "rounds/twelve_squares_lap_blanket_border",
        "rounds/six_patch_doll_quilt",
        "flat/c2c_mushroom_brackets_arrow",
    ],
)
def test_a_border_with_its_corners_where_the_maker_puts_them_has_no_edges_to_compare(name: str) -> None:
    """Nothing is wrong with it, and nothing is said to be."""
    text = (PATTERNS.parent / "tests" / "corpus" / f"{name}.txt").read_text(encoding="utf-8")
    program = program_of(text)
    rows = [row for row in range(1, program.fabric.length + 1) if program.fabric.row(row).kind == "round"]
    assert rows
    assert not any("opposite edges" in said for row in rows for said in told(program, row)[:1])
