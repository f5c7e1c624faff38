"""When words are told: behind their count, at the end of their range, at every length; and one of a thing or several."""

import pytest
from on_the_hook import program_of, told, walked

from tracker.program.places import Program, Stride
from tracker.session.fading.length import Length
from tracker.session.fading.words import aloud_at
from tracker.session.wording import said_at
from tracker.session.wording.rows import now_the_part
from tracker.session.wording.spelled import own_names

TOY = """RATTLE
Head
Rnd 1: sc 6 in magic ring (6).
Rnd 2: 2 sc in each st (12).
Rnds 3-5: sc around (12). Stuff, and put the bell inside.
Rnd 6: sc2tog 6 times (6). Close.
"""

RIPPLE = """PEAKS
Ch 15.
Row 1: Sc2tog over 2nd and 3rd ch from hook, sc in next 4 ch, 3 sc in next ch, sc in next 5 ch, sc2tog. (14 sts)
Row 2: Ch 1, turn, sc3tog, sc in next 3 sts, 4 sc in next st, sc in next 5 sts, sc2tog. (14 sts)
Rows 3-4: Rep Row 2. At end of Row 4 change to B.
Rows 5-6: Rep Row 2. Do not fasten off.
"""

MOSAIC = """TILES
Mosaic dc (mdc): dc in the skipped st two rows below, in front of the ch.

Ch 6.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (5 sc)
Row 2: Ch 1, sc in first 2 sc, ch 1, sk 1 sc, sc in last 2 sc, turn. (4 sc, 1 ch-1 sp)
Row 3: Ch 1, sc in first 2 sc, ch 1, sk ch-1 sp, sc in last 2 sc, turn. (4 sc, 1 ch-1 sp)
Row 4: Ch 1, sc in first 2 sc, mdc, sc in last 2 sc. (4 sc, 1 mdc)
"""

MESH = """NET
Ch 14.
Row 1: Dc in 8th ch from hook, (ch 2, sk 2 ch, dc in next ch) 2 times. (4 dc, 3 ch-2 sps)
Row 2: Ch 5 (counts as dc and ch 2), turn; sk first ch-2 sp, dc in next dc, 2 dc in next ch-2 sp, dc in next dc, ch 2, sk 2 ch, dc in next ch. (6 dc, 2 ch-2 sps)
Row 3: Ch 5 (counts as dc and ch 2), turn; sk first ch-2 sp, dc in next 4 dc, ch 2, dc in 3rd ch of ch-5. (6 dc, 2 ch-2 sps)
Row 4: Rep Row 3.
"""


def shortly(program: Program, row: int, length: Length = Length.SHORT) -> list[str]:
    """What is said in a row, place by place, at a length."""
    places = [place for place in walked(program) if place[2] == row and place[3] == 0]
    return [aloud_at(program, place, Stride.GROUP, length) for place in places]


def test_what_stands_behind_a_count_is_told_when_it_was_taken() -> None:
    """Stuffing is put in, and a hole closed, once the round is right; of a range behind its last round."""
    program = program_of(TOY)
    assert told(program, 3)[-1] == "Round three: twelve single crochet. Count."
    assert told(program, 5)[-1] == "Round five: twelve single crochet. Count. Stuff, and put the bell inside."
    assert told(program, 6) == [
        "Round six. Two single crochet together, six times: twelve becomes six.",
        "Round six: six stitches. Count. Close.",
    ]


BEAD = """BEAD MOUSE
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnd 3: (Sc in next st, inc) 6 times. (18)
Rnds 4-6: Sc in each st around. (18)
Rnd 7: (Sc in next st, sc2tog) 6 times. (12)
Rnd 8: Sc2tog 6 times. (6)
"""
LATE = "Add the eyes between rounds 5 and 6 and stuff the head before closing. Fasten off.\n"
FILLED = "Before you close: eyes in, and stuff. For a baby, embroider them."


@pytest.mark.parametrize(
    "text, said",
    [
        (BEAD + LATE, f"{FILLED} The pattern says: Add the eyes between rounds five and six and stuff"),
        (BEAD.replace("Rnd 1", "Materials: two safety eyes, fiberfill.\nRnd 1"), FILLED),
        (BEAD.replace("Rnd 1", "Materials: fiberfill.\nRnd 1"), "Before you close: stuff."),
        (BEAD.replace("Rnd 7", "Stuff now.\nRnd 7") + "Stuff the rest.\n", ""),
        (BEAD + "Fasten off. Do not stuff.\n", ""),
        (BEAD.partition("Rnd 7")[0] + "Add safety eyes and stuff.\n", ""),
    ],
    ids=["behind it", "materials", "only stuffed", "told in time", "not stuffed", "stays open"],
)
def test_what_has_to_be_inside_is_told_before_the_piece_is_closed(text: str, said: str) -> None:
    """At the last round through which it goes, where the pattern itself tells of it too late."""
    program = program_of(text)
    heard = [words for row in range(1, program.fabric.length + 1) for words in told(program, row)]
    assert [words.split(".")[0] for words in heard if "Before you close" in words] == (
        ["Round seven"] if said else []
    )
    assert any(said in words for words in heard)


def test_what_a_range_says_of_its_end_is_told_there() -> None:
    """A change of colour with the last stitch, at every length; what is not done next behind the count."""
    program = program_of(RIPPLE)
    assert not any("change" in words for words in told(program, 3))
    for length in Length:
        assert shortly(program, 4, length)[-2].endswith("At end of row four change to B.")
    assert told(program, 6)[-1].endswith("Count. Do not fasten off.")


def test_a_change_is_told_to_who_goes_row_by_row() -> None:
    """Once, before the count."""
    program = program_of(RIPPLE)
    place = next(place for place in walked(program) if place[2] == 4)
    for words in (
        said_at(program, place, Stride.ROW),
        aloud_at(program, place, Stride.ROW, Length.SHORT),
        aloud_at(program, place, Stride.ROW, Length.CUES),
    ):
        assert words.count("change to B") == 1
        assert words.index("change to B") < words.index("Count.")


def test_stitches_worked_together_are_told_with_all_their_chains_and_counted_as_one_sort() -> None:
    """However many each takes in; a number before another number is heard as one of them."""
    program = program_of(RIPPLE)
    assert told(program, 1)[0] == "Row one. Two single crochet together in the second and third chain."
    assert told(program, 2)[-1].startswith(
        "Row two: fourteen stitches: two decreases, twelve single crochet."
    )
    assert shortly(program_of(TOY), 6)[0] == "Round six. Two single crochet together, six times, to the end."


def test_a_stitch_whose_definition_tells_the_place_is_told_without_another() -> None:
    """A mosaic stitch goes into the skipped stitch, not into the space in front of it."""
    assert told(program_of(MOSAIC), 4)[2].startswith("Mosaic double crochet")
    assert "space" not in told(program_of(MOSAIC), 4)[2]


def test_all_that_goes_with_a_turning_chain_is_told_at_every_length() -> None:
    """What is in that group is in no other."""
    assert shortly(program_of(MESH), 4)[0] == (
        "Row four is row three. Chain five, turn: a double crochet and its window; then a block."
    )


@pytest.mark.parametrize(
    "row, said",
    [
        ("Sc in each st across. (6 sc)", "Six single crochet to the end."),
        ("Sc in blo of each st across. (6 sc)", "Six single crochet in the back loops to the end."),
        ("Sc in next 4 sts, sc2tog. (5 sts)", "Two single crochet together to finish."),
        ("Sc2tog 3 times. (3 sts)", "Two single crochet together, three times, to the end."),
    ],
)
def test_the_last_group_of_a_row_in_few_words(row: str, said: str) -> None:
    """How far it goes, and in which loop."""
    text = (
        f"T\n\nCh 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\nRow 2: Ch 1, turn. {row}\n"
    )
    assert shortly(program_of(text), 2)[-2] == said


ROBIN = """ROBIN
Body (start in brown)
Rnd 1: 6 sc into magic ring [6]
Rnds 2, 4: sc in each st [6]
Rnd 3: with red, sc in each st [6]

Wings (make 2 in brown, worked flat)
Ch 4.
Row 1: sc in 2nd ch from hook and in each ch to end [3]
"""


def test_what_a_heading_says_beside_a_name_is_said_with_it() -> None:
    """What to begin in is done; the rest belongs to each copy."""
    program = program_of(ROBIN)
    assert told(program, 1)[0].startswith("Now the body. Start in brown. Round one.")
    place = next(place for place in walked(program) if program.begins(place) and place[0] == 1)
    assert said_at(program, place) == "Now wing one of two, in brown, worked flat. Chain four."


def test_rows_printed_together_that_do_not_follow_one_another_name_the_first() -> None:
    """Round four goes on as round two did before the red."""
    assert told(program_of(ROBIN), 4)[0] == "Round four. As round two. Single crochet in each: six."


def test_a_cable_leans_the_other_way_for_the_left_hand_and_a_part_keeps_its_name() -> None:
    """The lean is how the fabric lies; the name of a part is a label (common practice, no source)."""
    text = """CABLES

2/2 Right Cross (2/2RC): Skip next 2 sts, FPtr around each of next 2 sts; FPtr around each of 2 skipped sts.

RIGHT FRONT

Ch 12.
Row 1: Dc in 4th ch from hook and in each ch across. (10 dc)
Row 2: Ch 3 (counts as dc), turn, dc in next 2 dc, 2/2RC over next 4 sts, dc in next 3 dc. (10 sts)
"""
    right, left = program_of(text), program_of(text, left_handed=True)
    assert "two over two right cross" in own_names(right).values()
    assert "two over two left cross" in own_names(left).values()
    assert now_the_part(left, left.start) == now_the_part(right, right.start)


def test_corners_are_called_so_and_the_first_is_marked_in_its_middle() -> None:
    """The middle stitch is the corner of the round after it (common practice, no source)."""
    text = """CLOTH
Ch 5.
Row 1: Sc in 2nd ch from hook and in each ch across. (4 sc)
Rows 2-4: Ch 1, turn, sc in each sc across. (4 sc)
Border: Ch 1, do not turn, sc around all four sides, 4 sc along each side and 3 sc in each corner, join with sl st in first sc. (28 sc)
"""
    said = told(program_of(text), 5)
    corners = [words for words in said if words.startswith("Corner")]
    assert corners[0] == "Corner: three single crochet in one stitch. Mark the middle one."
    assert set(corners[1:]) == {"Corner: three single crochet in one stitch."}


def test_stitches_whose_words_are_read_out_whole_are_told_once() -> None:
    """ "Sc in same st and in each sc around, 3 sc in …" is one phrase of the pattern's."""
    text = """MAT
Rnd 1: Ch 2, (sc, ch 2) 4 times in 2nd ch from hook; join with sl st in first sc. (4 sc, 4 ch-2 sps)
Rnd 2: Ch 1, sc in same st and in each sc around, 3 sc in each corner sp; join with sl st in first sc. (16 sc)
"""
    said = " ".join(told(program_of(text), 2))
    assert said.count("in the same stitch") == 1


@pytest.mark.parametrize(
    "behind, said",
    [
        ("Insert safety eyes between R1 and R2.", True),
        ("Insert safety eyes between R1 and R2. For a baby, embroider them.", False),
        ("Sew on the eyes.", False),
    ],
)
def test_eyes_are_embroidered_for_a_baby(behind: str, said: bool) -> None:
    """Said where they are put in, unless the pattern says it; a round by its letter is said as one."""
    text = f"MOUSE\nRnd 1: sc 6 in magic ring (6).\nRnd 2: sc around (6). {behind}\nRnd 3: sc around (6)."
    words = told(program_of(text), 2)[-1]
    assert ("For a baby, embroider the eyes." in words) is said
    assert ("between round one and round two" in words) is ("R1" in behind)


def test_a_list_of_abbreviations_is_not_read_aloud() -> None:
    """Each entry read aloud would say itself: magic ring equals magic ring."""
    text = "MOUSE\n\nMR = magic ring, inc = 2 sc in one st, FO = fasten off\n\nHEAD\nR1: 6 sc in MR [6]\n"
    program = program_of(text)
    assert "equals" not in said_at(program, program.start)
    for parted in (
        "MR = magic ring   inc = 2 sc in same st\nWorked in a spiral",
        "MR: magic ring; dec: sc2tog",
    ):
        program = program_of(f"MOUSE\n\n{parted}\n\nHEAD\nR1: 6 sc in MR [6]\n")
        assert said_at(program, program.start) == "Round one. Six single crochet in a magic ring."


def test_stitches_with_nothing_to_work_into_each_of_are_told_by_their_number() -> None:
    """In a ring, and where the foundation is made with them."""
    ring = program_of("EAR\nRnd 1: Make a magic ring, sc 5 (5).\nRnd 2: 2 sc in each st (10).\n")
    assert told(ring, 1)[0].endswith("Make a magic ring. Five single crochet in the ring.")
    band = program_of("BAND\nRow 1: Fsc 12. (12 fsc)\nRow 2: Ch 1, turn, sc in each st across. (12 sc)\n")
    assert "Twelve foundation single crochet." in told(band, 1)[0]


def test_why_a_row_is_told_word_for_word_is_said_first() -> None:
    """The maker who hears it knows what to look at, without the screen."""
    text = """MOUSE
Rnd 1: 6 sc in magic ring (6).
Rnd 2: 2 sc in each st (12).
Rnd 3: (2 sc, sc2tog) x 5 (15).
"""
    assert told(program_of(text), 3)[0].startswith(
        "Round three. Careful: it has a repeat worked five times, and on pass four there is no stitch left to work into. "
    )


def test_rows_worked_even_are_told_to_begin_with_the_chain_that_their_words_leave_out() -> None:
    """Once for all of them, and not where the row before has none: rounds in a spiral, rows of slip stitches."""
    text = (
        "PANEL\n\nCh 20.\nRow 1: Dc in 4th ch from hook and in each ch across. (18 dc)\nWork 3 rows even in dc.\n"
        "Row 5: Ch 3, turn, dc in each st across. (18 dc)\n"
    )
    program = program_of(text)
    assert "Begin each with its turning chain." in told(program, 2)[0]
    assert not any("Begin each" in words for row in (3, 4, 5) for words in told(program, row))
    assert not any("Begin each" in words for words in told(program_of(TOY + "Work 2 rounds even.\n"), 6))
