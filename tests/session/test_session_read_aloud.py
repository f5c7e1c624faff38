"""A pattern's own words read aloud: what a maker hears where a row is followed as written, and in remarks."""

import time

import pytest
from on_the_hook import program_of, sample, told

from tracker.session.wording import said_at
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.spelled import own_names

CLOTH = "CLOTH\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"


@pytest.mark.parametrize(
    "written, heard",
    [
        ("Sc in next 3 sts", "single crochet in the next three stitches"),
        ("*Sc in next 3 sts, 2 sc in next st", "star: single crochet in the next three stitches, two single crochet in the next stitch"),
        ("rep from * to last 2 sc", "repeat from the star to the last two single crochet"),
        ("Rep between * and ** 3 times", "repeat between the star and the double star three times"),
        ("then work from * to † once", "then work from the star to the dagger once"),
        ("(dc 1, sc 1) x 11", "eleven times: double crochet one, single crochet one"),
        ("[hdc in next st] twice", "half double crochet in the next stitch, twice"),
        ("(dc, ch 1, dc) in next sc", "in the next single crochet: double crochet, chain one, double crochet"),
        ("*Ch 3, [dc, ch 1] twice, dc in next st*", "star: chain three; then twice: double crochet, chain one; then double crochet in the next stitch, star"),
        ("1 dc into each tr and (1 dc, 1 ch, 1 dc) into each 2-ch sp all round", "one double crochet into each treble crochet and into each two-chain space all round: one double crochet, one chain, one double crochet"),
        ("[dc, (ch 1, dc) twice, ch 2] 4 times", "bracket, double crochet, bracket, chain one, double crochet, close bracket, twice, chain two, close bracket, four times"),
        ("(dc, ch 1) 11 times in ring", "eleven times in the ring: double crochet, chain one"),
        ("(sc, inc) around", "bracket, single crochet, increase, close bracket, around"),
        ("ss into top of 3 ch", "slip stitch into the top of the chain three"),
        ("working in opposite side of foundation ch", "working in the opposite side of the foundation chain"),
        ("with RS together, leaving rem 18 sts unworked", "with right sides together, leaving the remaining eighteen stitches unworked"),
        ("[ch 1, dc in next dc to end", "bracket, chain one, double crochet in the next double crochet to the end"),
        ("Ch 6 (counts as dc and ch-3 sp)", "chain six, counts as double crochet and chain-three space"),
        ("Sk next 9 sc (armhole)", "skip the next nine single crochet, armhole"),
        ("18 sc + 5 bo", "eighteen single crochet plus five bobbles"),
        ("ch3, sk1, 2dc", "chain three, skip one, two double crochet"),
        ("until 3 sts rem", "until three stitches remain"),
        ("6 sc in MR", "six single crochet in magic ring"),
        ("block to 12 x 12 cm", "block to twelve by twelve centimetres"),
        ("join with sl st in top of ch-3", "join with a slip stitch in the top of the chain three"),
        ("dc in 4th ch from hook and in next 2 ch", "double crochet in the fourth chain from the hook and in the next two chains"),
        ("in back loop only, from front to back", "in the back loop only, from front to back"),
        ("let me know :)", "let me know:"),
    ],
)  # fmt: skip
def test_it_is_heard_as_makers_say_it(written: str, heard: str) -> None:
    """Abbreviations and figures in words, stars and brackets named, signs said, articles where they belong."""
    assert read_out(program_of(CLOTH), written) == heard


def test_in_the_makers_terms_and_for_their_hand() -> None:
    """The stitches of the other country, the other side."""
    program = program_of(CLOTH, left_handed=True)
    assert read_out(program, "sc in upper right corner") == "single crochet in upper left corner"


def test_a_star_stitch_is_no_star() -> None:
    """Its name stays, whatever the star of the row is called."""
    program = program_of(
        "STARS\n\nSpecial stitches\nStar: pull up a loop in each of next 5 sts.\n" + CLOTH[7:]
    )
    assert read_out(program, "*star in next st; rep from * twice") == (
        "star: star in the next stitch; repeat from the star twice"
    )


def test_what_is_done_between_rows_is_read_out_as_well() -> None:
    """The joining of the squares, with its abbreviations."""
    program = sample("crossroads-square")
    place = program.part_start(1)
    assert said_at(program, place) == (
        "Now the joining. Lay out the squares in four rows of three. With right sides together, join them with slip "
        "stitch through the back loops, fifteen stitches and the two corner spaces along each edge."
    )


@pytest.mark.parametrize(
    "definition, name, said",
    [
        (
            "2/2 Right Cross (2/2 RC): Skip next 2 sts, FPtr around each of next 2 sts.",
            "2",
            "two over two right cross",
        ),
        (
            "2dc-cl: (yo, insert hook in next st, yo, pull up a loop) twice",
            "2dc-cl",
            "two-double crochet cluster",
        ),
        ("dc2inc: work 2 dc into next st", "dc2inc", "two double crochet in one stitch"),
    ],
)
def test_what_letters_and_figures_stand_for_is_said(definition: str, name: str, said: str) -> None:
    """Nobody hears "two RC"."""
    text = CLOTH.replace("CLOTH\n", f"CLOTH\n\nSpecial stitches\n{definition}\n")
    assert own_names(program_of(text))[name] == said


def test_a_copy_ends_its_yarn_as_the_row_it_copies() -> None:
    """Row six is row two, which ends with "Fasten off B"; and the work stays as it lies."""
    mat = sample("brick-lane-mosaic")
    assert told(mat, 6)[-1] == "Row six: twenty-nine single crochet. Count; don't turn. Fasten off B."
    assert "turn" not in " ".join(told(mat, 6)[:-1])


def test_a_colour_within_a_row_is_told_where_it_is_changed_to() -> None:
    """Not as the row begins: whoever hears it there changes too soon."""
    text = CLOTH + "Row 2: With B, turn, ch 1, sc in each st across, change to C. (20 sc)\n"
    said = told(program_of(text), 2)
    assert said[0] == "Row two. With B. Chain one; it is no stitch."
    assert said[1] == "Twenty single crochet. Change to C."
    assert [words for words in said if "hange to C" in words] == said[1:2]


def test_what_stands_behind_a_fastening_off_is_told_behind_it() -> None:
    """Ends are woven in once the row is counted."""
    said = told(
        program_of(CLOTH + "Row 2: Turn, ch 1, sc in each st. (20 sc)\nFasten off. Weave in ends.\n"), 2
    )
    assert said[-1] == "Row two: twenty single crochet. Count. Fasten off. Weave in the ends."
    assert "Weave" not in said[-2]


def test_an_edge_of_more_than_row_ends_is_not_dealt_out_over_them() -> None:
    """ "92 sc evenly around entire edge" of a hat: told as it stands, not thirteen in each of seven row ends."""
    text = (
        CLOTH
        + "Row 2: Turn, ch 1, sc in each st. (20 sc)\n\nEDGING\nRnd 1: Ch 1, work 92 sc evenly around; join. (92 sc)\n"
    )
    said = " ".join(told(program_of(text), 3))
    assert "Row end" not in said
    assert "inety-two single crochet" in said


def test_rows_repeated_together_are_named_as_they_are_printed() -> None:
    """Though one of them is a copy itself; and each pass is counted once."""
    rows = "Row 2: Turn, ch 1, sc in each st. (20 sc)\nRow 3: Turn, ch 1, hdc in each st. (20 hdc)\nRow 4: Rep Row 2.\n"
    program = program_of(f"{CLOTH}{rows}Rows 5-8: Rep Rows 3 and 4 twice.\n")
    assert told(program, 6)[0].startswith("Row six is row two. Three and four, second time.")
    assert told(program, 8)[0].startswith("Row eight is row two. Three and four, last time.")


def test_words_that_go_on_are_one_sentence_with_what_they_belong_to() -> None:
    """ "Sl st in top of ch-3 to join" is one doing, and no landing of it is told twice."""
    text = "ROUND\n\nCh 4, join with sl st to form a ring.\n"
    text += "Rnd 1: Ch 3 (counts as dc), 11 dc in ring, sl st in top of ch-3 to join. (12 dc)\n"
    assert told(program_of(text), 1)[-2] == "Slip stitch in the top of the chain three to join."


def test_a_row_of_last_rows_repeated_names_them() -> None:
    """ "Rep last 2 rows": rows three and four, whatever those are copies of."""
    rows = "Row 2: Turn, ch 1, sc in each st. (20 sc)\nRow 3: Turn, ch 1, hdc in each st. (20 hdc)\nRow 4: Rep Row 2.\n"
    program = program_of(f"{CLOTH}{rows}Rows 5-8: Rep last 2 rows twice.\n")
    assert told(program, 7)[0].startswith("Row seven is row three. Three and four, last time.")


@pytest.mark.parametrize(
    "text",
    ["(" * 4000 + "sc" + ")" * 4000, "*" * 20_000, "[sc, " * 5000, "a" * 50_000 + "*", "(sc) " * 5000],
    ids=["nested", "stars", "open", "letters", "pairs"],
)
def test_no_text_takes_long_to_read_out(text: str) -> None:
    """Brackets without end are no brackets any more."""
    program = program_of(CLOTH)
    begins = time.process_time()
    assert read_out(program, text) is not None
    assert time.process_time() - begins < 5
