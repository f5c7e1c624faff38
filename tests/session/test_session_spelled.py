"""Written phrases as they are read aloud: abbreviations and figures spelled out, nothing added or left out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.session.wording.spelled import spelled_out


@pytest.mark.parametrize(
    "words, expected",
    [
        ("2 sc in side of each dc row", "two single crochet in side of each double crochet row"),
        ("sk next ch-1 sp", "skip next chain-one space"),
        ("sl st in first 2 dc", "slip stitch in first two double crochet"),
        ("dc in 3rd ch of ch-4", "double crochet in third chain of chain-four"),
        ("leave rem 15 sts unworked", "leave remaining fifteen stitches unworked"),
        ("inc 6 sts evenly spaced", "increase six stitches evenly spaced"),
        ("puff st", "puff stitch"),
        ("18 sc + 5 bo, 1 bo", "eighteen single crochet + five bobbles, one bobble"),
        ("7 stitches. 3 sp.", "seven stitches. three spaces"),
        ("sits on an FPdc, a inc", "sits on a front post double crochet, an increase"),
        ("FPdc around FPdc", "front post double crochet around front post double crochet"),
        ("sc2tog", "two single crochet together"),
        ("2dc in next sp", "two double crochet in next space"),
        ("work even in pattern", "work even in pattern"),
        ("mind the cat", "mind the cat"),
        ("", ""),
    ],
)
def test_abbreviations_and_figures_are_spelled_out(words: str, expected: str) -> None:
    """The trade's own, by the table of stitches and the Craft Yarn Council's list (from memory)."""
    assert spelled_out(words) == expected


def test_uk_words_are_spelled_in_uk_names() -> None:
    """ "dc" is a double crochet there too, and another stitch."""
    assert spelled_out("1 tr into next htr", uk=True) == "one treble into next half treble"


def test_a_stitch_of_the_patterns_own_keeps_its_name() -> None:
    """ "bl" is a block where the pattern says so."""
    assert spelled_out("2 bl", own=frozenset({"bl"})) == "two bl"


@given(st.text(max_size=200))
def test_no_text_makes_it_stumble(words: str) -> None:
    """And what it gives has nothing left to spell out but names."""
    once = spelled_out(words)
    assert "  " not in once
