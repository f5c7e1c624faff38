"""What a row begins with and is worked in is told: its ring or chain, its colours, its loops, the piece it goes along.

Who works by ear has nothing else to know it by. Rings and colour shorthand are common practice, no source.
"""

import pytest
from on_the_hook import program_of, told

from tracker.program.places import Place, Program, Stride
from tracker.session.fading.length import Length
from tracker.session.fading.words import aloud_at
from tracker.session.wording.spelled import spelled_out


def _row(text: str, row: int = 1) -> list[str]:
    return told(program_of(f"TEST PIECE\n\n{text}\n"), row)


@pytest.mark.parametrize(
    "words, begins",
    [
        ("Rnd 1: 6 sc in a magic ring. (6 sc)", "Round one. Six single crochet in a magic ring."),
        ("Rnd 1: 6 sc in MR (6)", "Round one. Six single crochet in a magic ring."),
        (
            "Rnd 1: Make a magic ring, ch 1, 8 sc in ring, join with sl st in first sc. (8 sc)",
            "Round one. Make a magic ring. Chain one; it is no stitch.",
        ),
        (
            "Rnd 1: Ch 4, join with sl st to form ring, ch 3 (counts as dc), 11 dc in ring, join. (12 dc)",
            "Round one. Chain four, join with a slip stitch to form a ring. Chain three: your first double crochet.",
        ),
        (
            "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6 sc)",
            "Round one. Chain two. Six single crochet in the second chain.",
        ),
        ("Row 1: Ch 15, sc in 2nd ch from hook and in each ch across. (14 sc)", "Row one. Chain fifteen. "),
    ],
)
def test_the_ring_or_the_chain_in_a_first_rounds_own_words_is_told(words: str, begins: str) -> None:
    """Once: nothing is worked into a ring that nobody was told to make."""
    said = _row(words)
    assert said[0].startswith(begins)
    assert " ".join(said).count("magic ring") == begins.count("magic ring")


CHECKED = """CHECKED CLOTH
Colors: A, B.

With A, ch 11.
Row 1 (RS): With A, sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 1, (A) 4, (B) 2, (A) 4, turn. (10 sc)
Row 3: Ch 1, A 4, B 2, A 4, turn. (10 sc)
Row 4: With B, ch 1, sc in each sc across. (10 sc)
"""


def test_stitches_counted_in_colours_are_told_in_them() -> None:
    """Four, two and four are not ten alike."""
    program = program_of(CHECKED)
    for row in (2, 3):
        assert told(program, row)[1:-1] == [
            "With A, four single crochet.",
            "With B, two single crochet.",
            "With A, four single crochet to finish.",
        ]


def test_a_change_of_colour_is_told_even_to_who_wants_only_cues() -> None:
    """Hands that go on by themselves would go wrong."""
    program = program_of(CHECKED)
    places = [place for place in _places(program) if place[2] == 2 and place[3] == 0]
    said = [aloud_at(program, place, Stride.GROUP, Length.CUES) for place in places]
    assert "With B, two single crochet." in said


def _places(program: Program) -> list[Place]:
    out, place = [], program.start
    while place != program.end:
        out.append(place)
        place = program.next(place)
    return out


def test_the_colour_a_row_begins_with_is_told_once() -> None:
    """As the row begins, and not once more behind its first stitches."""
    said = " ".join(told(program_of(CHECKED), 4))
    assert said.count("With B") == 1
    toy = _row("Rnd 1 (RS): With A, 6 sc in a magic ring. (6 sc)")
    assert toy[0] == "Round one, right side. With A. Six single crochet in a magic ring."


BRIM = """TEST HAT

Rnd 1: 6 sc in a magic ring. (6 sc)
Rnd 2: 2 sc in each sc around. (12 sc)
Rnd 3: In front loops only: (sc in next st, 2 sc in next st) 6 times. (18 sc)
Rnd 4: With B: (sc in next 2 sts, 2 sc in next st) 6 times. (24 sc)
"""


def test_a_loop_that_holds_for_a_whole_round_is_told() -> None:
    """Before what is worked in it, at every length."""
    program = program_of(BRIM)
    assert told(program, 3)[0].startswith(
        "Round three. In the front loops only. One single crochet, then two in one stitch."
    )
    first = next(place for place in _places(program) if place[2] == 3)
    assert "In the front loops only." in aloud_at(program, first, Stride.GROUP, Length.CUES)


def test_a_colour_before_a_bracket_is_no_step_of_its_own() -> None:
    """There is nothing to be made in it."""
    said = told(program_of(BRIM), 4)
    assert said[0].startswith("Round four. With B. Two single crochet, then two in one stitch.")


def test_legs_that_are_joined_are_told_leg_by_leg() -> None:
    """The chain between them, the joining stitch once, and whose stitches come next."""
    said = _row(
        "LEGS (make 2)\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each sc around. (12)\n\nBODY\n"
        "Rnd 3: Ch 3, join to the first leg with sc in any st, sc in next 11 sts of first leg, sc in next 3 ch, "
        "sc in next 12 sts of second leg, sc in other side of next 3 ch. (30)",
        3,
    )
    assert "Chain three. Join to the first leg with single crochet in any stitch." in said[0]
    assert "in the same stitch" not in said[0]
    assert said[1] == "Eleven single crochet of the first leg."


def test_ordinals_are_read_as_words_in_capitals_too() -> None:
    """A leaflet in capitals."""
    assert spelled_out("JOIN IN 3RD CH OF CH-4").startswith("JOIN IN third chain")


def test_a_stop_that_ends_a_sentence_is_kept_and_one_behind_an_abbreviation_is_not() -> None:
    """A voice pauses there."""
    assert spelled_out("3 dc in last sc. Turn.") == "three double crochet in last single crochet. Turn."
    assert spelled_out("Sl. st in next st. and ch 3") == "slip stitch in next stitch and chain three"


def test_a_spiral_told_behind_a_round_leaves_its_count_a_count() -> None:
    """The bracket behind "work in a spiral." is what the round comes to, and no more stitches."""
    said = _row(
        "Ch 12; join with sl st to form ring.\nRnd 1: Ch 1, sc in each ch around; do not join, work in a spiral. (12 sc)"
    )
    assert said == [
        "Round one. Chain one; it is no stitch.",
        "Twelve single crochet. Do not join. Work in a spiral.",
        "Round one: twelve single crochet. Count; it is the last round.",
    ]
