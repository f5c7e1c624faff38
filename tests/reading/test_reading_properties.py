"""Whatever is given to the reader, it answers: no text crashes it, and nothing is claimed that was not understood."""

import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest
from corpus_cases import RIGHT, cases
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.load import Loaded, load
from tracker.notation.pattern import Row, Setup
from tracker.notation.read import source_of
from tracker.notation.scan import T, scan
from tracker.problems import Span
from tracker.problems.render import as_json, spoken, underlined

TEXTS = [case.text for folder in RIGHT for case in cases(folder)]
SHORT = [text for text in TEXTS if len(text) < 1500]
WORDS = sorted({word for text in SHORT for word in text.split()})


def whole(loaded: Loaded) -> Loaded:
    """A loaded pattern after everything that must hold of any was checked."""
    length = len(loaded.source.text)
    last = 0
    for block in loaded.pattern.blocks:
        assert 0 <= block.span.start <= block.span.end <= length
        assert block.span.start >= last, "blocks come in the order of the text"
        last = block.span.start
        if isinstance(block, (Row, Setup)):
            for span in spans_in(block.items):
                assert 0 <= span.start <= span.end <= length
    for problem in loaded.problems:
        assert 0 <= problem.label.span.start <= problem.label.span.end <= length
        assert problem.headline
        assert underlined(problem, loaded.source)
        assert spoken(problem)
        assert as_json(problem, loaded.source)["line"] >= 1
    for index, placed in loaded.fabric.rows(1, 50):
        assert loaded.fabric.row(index) == placed
        assert not (placed.worked.understood and placed.worked.row.unread), "an unread row is never claimed"
    return loaded


def spans_in(value: object) -> Iterator[Span]:
    """Every span within a value of the tree."""
    if isinstance(value, Span):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from spans_in(each)
    elif is_dataclass(value):
        for field in fields(value):
            yield from spans_in(getattr(value, field.name))


# -- any text


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=400))
def test_any_text_is_answered(text: str) -> None:
    """Letters of every script, controls, marks that turn the direction of writing."""
    whole(load("any", text))


SIGNS = st.sampled_from([*"()[]{}*,;.:–—-=×+†&/\"' \n", "**", "\n\n", "1", "2", "12", "3rd", "4th"])


@settings(deadline=None, max_examples=200)
@given(st.lists(st.one_of(st.sampled_from(WORDS), SIGNS), max_size=60))
def test_the_words_of_the_trade_in_any_order_are_answered(pieces: list[str]) -> None:
    """Rows, repeats and references that make no sense."""
    whole(load("any", "Ch 20.\nRow 1: " + " ".join(pieces)))


@settings(deadline=None, max_examples=120)
@given(st.data())
def test_a_pattern_with_words_lost_doubled_or_swapped_is_answered(data: st.DataObject) -> None:
    """As a page looks that was copied badly."""
    words = data.draw(st.sampled_from(SHORT)).split(" ")
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(words) - 1))
        other = data.draw(st.integers(0, len(words) - 1))
        match data.draw(st.sampled_from(["lost", "doubled", "swapped", "sign"])):
            case "lost" if len(words) > 1:
                del words[at]
            case "doubled":
                words.insert(at, words[at])
            case "swapped":
                words[at], words[other] = words[other], words[at]
            case _:
                words[at] += data.draw(SIGNS)
    whole(load("mutated", " ".join(words)))


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(SHORT), st.data())
def test_a_pattern_cut_anywhere_is_answered(text: str, data: st.DataObject) -> None:
    """The page that is missing, and the half of a bracket with it."""
    start = data.draw(st.integers(0, len(text)))
    whole(load("cut", text[start : data.draw(st.integers(start, len(text)))]))


@settings(deadline=None, max_examples=200)
@given(st.text(max_size=300))
def test_every_letter_belongs_to_one_token(text: str) -> None:
    """Tokens lie in order and leave nothing but blanks between them."""
    tokens = scan(text)
    at = 0
    for token in tokens:
        assert text[at : token.start].strip() == ""
        assert at <= token.start <= token.end <= len(text)
        at = token.end
    assert tokens[-1].kind is T.END


@pytest.mark.parametrize("text", TEXTS[::9], ids=map(str, range(len(TEXTS[::9]))))
def test_every_line_of_a_right_pattern_stands_in_the_tree(text: str) -> None:
    """In a row, in the foundation, in a note, as the title or as the name of a part."""
    loaded = whole(load("right", text))
    readings = [loaded, *(load("right", text, size) for size in loaded.pattern.sizes)]
    worked = [block.span for reading in readings for block in reading.pattern.blocks]
    labels = [
        line
        for line in loaded.source.text.split("\n")
        if re.match(r"\s*(?:row|rnd|round) \d", line, re.IGNORECASE)
    ]
    for line in labels:
        at = loaded.source.text.index(line)
        assert any(span.start <= at + len(line) - len(line.lstrip()) < span.end for span in worked), line


# -- hostile text

HOSTILE = 1_500
"""Letters of one piece over and over."""
PIECES = (
    "\n", " \n", "(", ")", "[", "({[", "*", "* ", "**", "- ", "–", "— ", ",", "; ", ". ", "1 ", "1, ", "(1) ", "1 (2) ", "x 6 ", "ch 1 ",
    "Row 1: ", "Row 1\n", "Rows 1-", "1.\n", "1st ", "rep from * ", "2 sc in ", "in next ", "each of ", "and ", "(counts as dc) ", "= ", "= = ",
    "Sizes: S (", "Shell: ", "a = ", "(A) 1 ", "sc2tog ", "fp", "As Row 1. ", "Rep Rows 1-", "BODY\n", "Body\n\n", "ending last rep with ",
    "omitting last ", "not US ", "page 1\n", "#", "__a", "until ",
)  # fmt: skip


@pytest.mark.parametrize("piece", PIECES)
def test_one_piece_over_and_over_is_answered(piece: str) -> None:
    """As a text of its own, and as a row."""
    whole(load("hostile", (piece * HOSTILE)[:HOSTILE]))
    whole(load("hostile", "Ch 9.\nRow 1: " + (piece * HOSTILE)[:HOSTILE]))


@pytest.mark.parametrize(
    "opens, closes, deep",
    [
        ("(", ")", 10_000),
        ("(sc, ", ") twice", 10_000),
        ("[(", ")]", 2_000),
    ],
)
def test_ten_thousand_brackets_in_one_another_are_answered(opens: str, closes: str, deep: int) -> None:
    """Deeper than any maker follows; the row is followed as written."""
    loaded = whole(load("deep", f"Ch 9.\nRow 1: {opens * deep}sc{closes * deep}."))
    assert all(not placed.worked.understood for _, placed in loaded.fabric.rows())


@pytest.mark.parametrize(
    "row",
    ["*sc, " * 2_000 + "sc" + "; rep from * twice" * 2_000, "ending last rep with " * 500],
    ids=["stars", "endings"],
)
def test_stars_and_endings_within_each_other_are_answered(row: str) -> None:
    """Thousands deep, as brackets are."""
    whole(load("deep", f"Ch 9.\nRow 1: {row}."))


def test_a_foundation_of_a_million_million_chains_in_a_row_is_answered() -> None:
    """It is not made, and the row is not claimed."""
    whole(load("many", "Ch 9.\nRow 1: Ch 1000000000000, sc in each ch."))


@pytest.mark.parametrize(
    "row",
    [
        "Sc in next st, *sc in next st; rep from * 1000000000000 times.",
        "(Sc, ch 1) 999999999999999999999999 times.",
        "1000000000000 sc.",
        "Sc in next 1000000000000 sts.",
        "1000000000000 sc in ring.",
        "[[[(sc) 1000000 times] 1000000 times] 1000000 times] 1000000 times.",
    ],
)
def test_a_million_million_stitches_are_answered(row: str) -> None:
    """They are not made, and the row is not claimed."""
    loaded = whole(load("many", f"Ch 9.\nRow 1: {row}"))
    assert all(not placed.worked.understood for _, placed in loaded.fabric.rows())


@pytest.mark.parametrize(
    "rows",
    [
        "Row 2: Rep Row 2.",
        "Row 2: As Row 3.\nRow 3: As Row 2.",
        "Rows 2-9: Rep Rows 2-9.",
        "Rows 2-3: Rep Rows 4-5.\nRows 4-5: Rep Rows 2-3.",
        "Rep last 9 rows 1000000000 times.",
        "Rows 2-1000000000: Rep Row 1.",
        "Rows 9-2: Rep Row 1.",
        "Row 2: Rep Row 0.",
        "Rep Rows 1-2 until it is long enough, then Rep Rows 1-2 until it is long enough.",
    ],
)
def test_rows_that_repeat_themselves_come_to_an_end(rows: str) -> None:
    """In the telling; how long the piece gets is the maker's affair."""
    loaded = whole(
        load("rows", f"Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n{rows}")
    )
    assert loaded.fabric.row(1).worked.makes == {"sc": 8}


TEN_MEGABYTES = """
import resource, sys
resource.setrlimit(resource.RLIMIT_AS, (1_500_000_000, 1_500_000_000))
from tracker.load import load
piece = sys.argv[1]
loaded = load("large", piece * (10_000_000 // len(piece)))
print(loaded.fabric.length, len(loaded.problems))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="the system has no limit on a process's memory")
@pytest.mark.parametrize("piece", ["the quick brown fox ", "1", "(", "sc in next st, "])
def test_ten_megabytes_are_read_in_little_memory(piece: str) -> None:
    """In a process that may have one and a half gigabytes, Python and all; nothing is claimed of such a text."""
    command = [sys.executable, "-c", TEN_MEGABYTES, piece]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-500:]
    assert done.stdout.split()


# -- old books
#
# Their names mean other stitches than today's, so a count of them would be wrong. Quoted from Project Gutenberg's
# editions, both in the public domain: Mrs Beeton's Book of Needlework, 1870 (no. 15147), and Handbook of Wool Knitting
# and Crochet, Needlecraft Publishing Co., 1918 (no. 26113).

BEETON_240 = """COUVRETTE IN CROCHET

For each large circle make a chain of 20 stitches, and join it into a circle.

1st round: 30 stitches of double crochet over the circle of chain stitches.

2nd round: 36 stitches of double crochet.

3rd round: 1 double, 5 chain, miss 1.

5th round: Close double crochet; 3 stitches in 1 in the centre stitch of each loop.

6th to 12th round: The same as the 5th, close double crochet, increasing in the centre of each small scallop,
which forms the 18 raised petals of the dahlia.
"""
BEETON_BORDER = """BORDER IN TATTING AND CROCHET

2nd row: 1 treble in every other stitch, 1 chain stitch after every treble.
"""
NEEDLECRAFT_JACKET = """CROCHETED JACKET

1. Miss 3, 1 treble in each of 68 stitches following, shell of 3 trebles, 2 chain and 3 trebles in next stitch, to
widen for center of back, a treble in each remaining stitch, turn.

2. Chain 3 for 1st treble, a treble in each treble, including the 3 trebles of shell, up to the 2 chain, make a shell
as before under 2 chain, then a treble in each following to the end, turn.

3 to 23. Same as 2d row.
"""
NEEDLECRAFT_BORDER = """FOR THE BORDER

1. Shell of 6 trebles in a stitch, miss 2, a treble in next, miss 2; repeat.

2. Shell of 6 trebles between 3d and 4th trebles of shell in previous row, and treble in treble; repeat.

3. Chain 4, fasten back in 1st stitch for a picot, a double between 2 trebles, repeat, making 5 picots around the
shell, a double in single treble; repeat.
"""


@pytest.mark.parametrize(
    "quoted",
    [BEETON_240, BEETON_BORDER, NEEDLECRAFT_JACKET, NEEDLECRAFT_BORDER],
    ids=["couvrette", "border 1870", "jacket", "border 1918"],
)
def test_old_notation_is_followed_as_written_and_never_claimed(quoted: str) -> None:
    """Every row of it is there to be told word for word, and none is counted."""
    loaded = whole(load("old book", quoted))
    assert not any(placed.worked.understood for _, placed in loaded.fabric.rows())
    told = " ".join(loaded.source.words(block.span) for block in loaded.pattern.blocks)
    told += " ".join(loaded.pattern.notes)
    for paragraph in quoted.split("\n\n")[1:]:
        assert " ".join(source_of("old book", paragraph).text.split()) in told
