"""How it sounds: pattern text in, sentences out. Short, the landing in its own group, the count before the turn."""

import pytest
from on_the_hook import PATTERNS, SWATCH, program_of, sample, told, walked

from tracker.mouth.sentences import taken_for_commands
from tracker.program.places import Stride
from tracker.session.commands import COMMANDS
from tracker.session.wording import said_at, where_said

SC = "TEST\n\nCh 27.\nRow 1: Sc in 2nd ch from hook and in each ch across. (26 sc)\n"


def test_a_foundation_chain_says_what_is_not_counted() -> None:
    """The loop on the hook is no chain; asked stitch by stitch, the tens are called."""
    program = sample("harbour-windows")
    assert said_at(program, program.start) == "Chain thirty-five. Your hook loop isn't one."
    tapped = [said_at(program, place, Stride.STITCH) for place in walked(program, Stride.STITCH, 35)]
    assert tapped[0] == "Chain thirty-five. Tap each; I call the tens. Your hook loop isn't one."
    assert [words for words in tapped[1:] if words] == ["Ten.", "Twenty.", "Thirty.", "Thirty-five."]


def test_a_filet_row_is_told_in_windows_and_blocks() -> None:
    """A repeat once in full, then "second"; the last one with what follows; squares counted at the end."""
    assert told(sample("harbour-windows"), 2) == [
        "Row two, wrong side. Chain three: your first double crochet. Skip the stitch it stands on.",
        "Two blocks: four double crochet.",
        "Window: chain one, skip one, one double crochet. Four of these.",
        "Second.",
        "Third.",
        "Last one. Then eight double crochet.",
        "Four blocks: eight double crochet.",
        "Window: chain one, skip one, one double crochet. Four of these.",
        "Second.",
        "Third.",
        "Last one. Then four double crochet to the end.",
        "Four double crochet to finish; the fourth goes in the top of the chain three.",
        "Row two: sixteen squares, eight open. Count, then turn.",
    ]


def test_a_row_that_starts_open_and_ends_on_a_chain_of_four() -> None:
    """Chain four is a stitch and its window; the row back ends in its third chain (common practice, no source)."""
    program = sample("harbour-windows")
    assert told(program, 6)[0] == (
        "Row six, wrong side. Careful: not like the last row. It starts open. "
        "Chain four: a double crochet and its window. Skip one, one double crochet."
    )
    assert (
        told(program, 7)[-2]
        == "Block: double crochet in the space, double crochet in the third chain of the chain four."
    )
    assert told(program, 15)[-2] == (
        "Last one, to the end of the row; its stitch goes in the third chain of the chain four, counted from the base."
    )


def test_a_row_that_is_another_one_again_says_so() -> None:
    """And what breaks the run in it is told again."""
    program = sample("harbour-windows")
    assert told(program, 8)[0].startswith("Row eight is row two. Two to seven, second time. Chain three")
    assert "Careful: not like the last row. It starts open." in told(program, 12)[0]


def test_colours_and_fastening_off_are_told_where_they_are_done() -> None:
    """The change with the stitch it is made in, not as its row begins; fastening off after the count."""
    program = sample("low-tide-ripple")
    assert told(program, 4)[0] == "Row four is row two. Chain three: your first double crochet."
    assert told(program, 4)[-2] == (
        "Two double crochet in the top of the chain three. Changing to B in the last stitch of row four."
    )
    assert told(program, 5)[0].startswith("Row five is row two. With B.")
    assert "With B" not in told(program, 6)[0]
    assert told(program, 12)[-1].endswith("Count. Fasten off B.")
    assert told(program, 13)[0].startswith("Row thirteen, right side. Careful: the repeat is over.")
    assert told(program, 13)[-1].endswith("Count; it is the last row.")


def test_the_passes_of_a_long_repeat_are_counted() -> None:
    """Three ripples, the last told as the last."""
    said = told(sample("low-tide-ripple"), 2)
    begun = [words.partition(". ")[0] for words in said if "time" in words]
    assert begun == ["Three times over", "Second time", "Last time"]


@pytest.mark.parametrize(
    "words, expected",
    [
        (
            "ch 1, sc in each st across. (26 sc)",
            ["Chain one; it is no stitch.", "Single crochet in each: twenty-six."],
        ),
        (
            "ch 1, sc in blo of each st across. (26 sc)",
            ["Chain one; it is no stitch.", "Single crochet in the back loop of each: twenty-six."],
        ),
        (
            "ch 1, (sc in next 11 sts, sc2tog) twice. (24 sts)",
            [
                "Chain one; it is no stitch.",
                "Eleven single crochet, then two together. Two of these: twenty-six becomes twenty-four.",
                "Last one, to the end of the row.",
            ],
        ),
        (
            "ch 1, 2 sc in first st, sc in next 24 sts, 2 sc in last st. (28 sc)",
            [
                "Chain one; it is no stitch.",
                "Two single crochet in the first stitch.",
                "Twenty-four single crochet.",
                "Two single crochet in the last stitch.",
            ],
        ),
        (
            "ch 3 (counts as dc), sk first st, FPdc around next 24 sts, dc in last st. (26 sts)",
            [
                "Chain three: your first double crochet. Skip the stitch it stands on.",
                "Twenty-four front post double crochet.",
                "Double crochet in the last stitch.",
            ],
        ),
    ],
)
def test_a_row_sounds_as_it_is_done(words: str, expected: list[str]) -> None:
    """Numbers and stitches in words, where they go when that is not a matter of course."""
    said = told(program_of(f"{SC}Row 2: Turn, {words}\n"), 2)
    said[0] = said[0].removeprefix("Row two. ")
    assert said[:-1] == expected


def test_the_landing_is_told_inside_its_own_group() -> None:
    """Never as a surprise after it."""
    assert (
        told(program_of(SWATCH), 2)[1]
        == "Nine double crochet to finish; the ninth goes in the top of the chain three."
    )


def test_uk_patterns_are_told_in_uk_words() -> None:
    """Treble, not double crochet; the count too."""
    uk = """SQUARE (UK terms)

12 ch.
Row 1: 1 tr into 4th ch from hook (3 missed ch count as 1 tr), 1 tr into each ch to end. (10 tr)
Row 2: Turn, 3 ch (counts as 1 tr), miss first tr, 1 tr into each of next 8 tr, 1 tr into top of 3 ch. (10 tr)
"""
    said = told(program_of(uk), 2)
    assert said == [
        "Row two. Chain three: your first treble. Miss the stitch it stands on.",
        "Nine treble to finish; the ninth goes in the top of the chain three.",
        "Row two: ten treble. Count; it is the last row.",
    ]


def test_one_stitch_at_a_step_is_a_tally() -> None:
    """A run told once and then counted, its last one with the landing."""
    said = told(program_of(SWATCH), 2, Stride.STITCH)
    assert said[1:-1] == [
        "Nine double crochet to finish; the ninth goes in the top of the chain three.",
        *("Two.", "Three.", "Four.", "Five.", "Six.", "Seven.", "Eight."),
        "Last one, nine; it goes in the top of the chain three.",
    ]


def test_one_row_at_a_step_tells_the_whole_row() -> None:
    """For those who know their pattern."""
    (row,) = told(program_of(SWATCH), 2, Stride.ROW)
    assert row.startswith("Row two, wrong side. Chain three")
    assert row.endswith("the ninth goes in the top of the chain three. Ten double crochet. Count, then turn.")


def test_a_row_that_is_not_understood_is_told_word_for_word_and_not_counted() -> None:
    """What the pattern says of its count is told as its word."""
    program = program_of(f"{SC}Row 2: Turn, ch 1, frobnicate in next st, sc in each st across. (26 sc)\n")
    said = told(program, 2)
    assert said[0] == (
        "Row two. Not all of its words are understood; here they are, one phrase at a time. Turn."
    )
    assert said[1:] == [
        "Chain one.",
        "As it is written: frobnicate in the next stitch.",
        "Single crochet in each stitch across.",
        "Row two is done as written. The pattern says twenty-six single crochet. Count; it is the last row.",
    ]


def test_a_row_whose_count_is_misprinted_is_still_told_group_by_group() -> None:
    """Its words were understood; both numbers are told at its end, and neither is claimed."""
    said = told(program_of(SWATCH.replace("top of ch-3. (10 dc)\nRow 3", "top of ch-3. (11 dc)\nRow 3")), 2)
    assert said == [
        "Row two, wrong side. Careful: its words and its count do not agree. "
        "Chain three: your first double crochet. Skip the stitch it stands on.",
        "Nine double crochet to finish; the ninth goes in the top of the chain three.",
        "Row two: its words make ten double crochet; the pattern says eleven double crochet. Count, then turn.",
    ]


@pytest.mark.parametrize("name", sorted(file.stem for file in PATTERNS.glob("*.txt")))
def test_nothing_is_said_that_an_ear_would_take_for_a_command(name: str) -> None:
    """The word "next" is the maker's; no phrase of the table ever stands alone in a sentence of ours."""
    phrases = [phrase for command in COMMANDS for phrase in command.phrases if "{n}" not in phrase]
    program = sample(name)
    for stride in Stride:
        for place in walked(program, stride):
            for sentence in (said_at(program, place, stride), where_said(program, place)):
                assert taken_for_commands(sentence, phrases) == (), sentence
                assert " next" not in sentence or program.pattern.title not in sentence


KINDS = (
    "harbour-windows", "pebble-cloth", "low-tide-ripple", "spindrift-coasters", "bramble-hedgehog", "brick-lane-mosaic",
    "frost-ring", "hearth-mat", "kettle-square", "stove-lid-cap",
)  # fmt: skip
"""One of each kind: filet, texture, ripple, UK words, toy, mosaic, doily, edging, granny, hat."""


@pytest.mark.parametrize("name", KINDS)
def test_our_own_patterns_sound_as_they_always_did(name: str, golden: object) -> None:
    """Every sentence of every place, to be read like a text."""
    program = sample(name)
    lines = [f"{program.pattern.title}: what is said, group by group", ""]
    lines += [said_at(program, place) for place in walked(program)]
    assert callable(golden)
    golden(f"said-{name}.txt", "\n".join(lines) + "\n")


MAT = (
    "MAT\nCh 28.\nRow 1 (RS): Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across. (26 dc)\n"
    "Rows 2-15: Ch 3 (counts as dc), turn, dc in next dc and in each dc across, working last dc in top of ch-3. (26 dc)\n"
    "\nEDGING\n\nRnd 1 (RS): Ch 1, 3 sc in first dc, sc in next 24 dc, 3 sc in last st, work 24 sc evenly along row ends, "
    "working in free loops of foundation ch, 3 sc in first ch, sc in next 24 chs, 3 sc in last ch, "
    "work 24 sc evenly along row ends; join with sl st in first sc. (108 sc)\n"
)


def test_row_ends_are_called_one_by_one() -> None:
    """24 along 15: nine take two, six take one; what so few do to the edge; the other side comes up from the foundation."""
    program = program_of(MAT)
    said = []
    place = program.row_start(program.start, 16)
    while place[2] == 16 and place != program.end:
        said.append(said_at(program, place))
        place = program.next(place)
    first = next(words for words in said if "Row end one" in words)
    assert first == (
        "Twenty-four along fifteen row ends, corners not among them; I call each. Common practice is about thirty; "
        "so few draw the edge in. Follow the pattern. Row end one, a double crochet: two, around its post."
    )
    assert "Row end six, a turning chain: two, around the chain." in said
    assert sum("Row end" in words for words in said) == 30
    assert sum(": two," in words for words in said) == 18
    assert any(words.endswith("Row end one, a turning chain: two, around the chain.") for words in said)
    sixth = next(
        at
        for start in program.starts(16, Stride.GROUP)
        if said_at(program, at := program.row_start(program.start, 16)[:4] + start).startswith("Row end six")
    )
    assert "Row end six, a turning chain: two, around the chain." in where_said(program, sixth)
    again = said_at(program, sixth, again=True)
    assert again.endswith("Row end six, a turning chain: two, around the chain.")
    assert "Row end one" not in again
    made = [
        program.elements_done(program.row_start(program.start, 16)[:4] + start)
        for start in program.starts(16, Stride.GROUP)
    ]
    assert made == sorted(made)
    assert made[-1] == 108


def test_which_side_faces_is_no_colour_and_is_told_once() -> None:
    """ "With RS facing, join B" is heard once; the colour follows with its join."""
    said = told(sample("kettle-square"), 3)[0]
    assert said.lower().count("right side facing") == 1, said
    assert "Join B with a slip stitch" in said
