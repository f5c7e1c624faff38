"""A pattern written back in clean notation is the same pattern: in its own terms, in the other ones, spelled out."""

import argparse
from functools import cache
from pathlib import Path

import pytest
from corpus_cases import RIGHT, WHOLE, reading
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.commands.written.write import add_parsers
from tracker.load import Loaded, load
from tracker.notation.pattern import Row, Setup
from tracker.problems import Severity
from tracker.samples import samples
from tracker.trade.terms import terms_of
from tracker.writing import differing, write
from tracker.writing.bare import bare

NAMES = [(folder, name) for folder in RIGHT for name in WHOLE[folder].split()]
ALL = [*NAMES, *(("", name) for name in samples())]


@cache
def pattern(folder: str, name: str) -> Loaded:
    """A pattern of the corpus, or one that comes with rowteller."""
    return reading(folder, name) if folder else load(name, samples()[name].read_text(encoding="utf-8"))


@cache
def in_terms(folder: str, name: str, terms: str) -> str:
    """The pattern written in these terms."""
    return write(pattern(folder, name), terms)


def tree(loaded: Loaded) -> object:
    """All that is worked, without where it stood."""
    return [
        bare(
            (
                block.items,
                getattr(block, "numbers", ()),
                getattr(block, "stated", ()),
                getattr(block, "rerun", None),
            )
        )
        for block in loaded.pattern.blocks
        if isinstance(block, Row) or isinstance(block, Setup) and block.items
    ]


TRANSLATED = [*ALL[:10], *ALL[10:-3:24], *ALL[-3:]]
"""Every 24th of them goes to the other terms and back, others are written in their own, others spelled out: all of
them, in every way, would take longer than the rest together."""
OWN = [*ALL[:10], *ALL[14:-3:24], *ALL[-3:]]


@pytest.mark.parametrize("folder, name", OWN, ids=[name for _, name in OWN])
def test_a_pattern_written_in_its_own_terms_reads_as_the_same_tree_and_fabric(folder: str, name: str) -> None:
    """Spans and spacing aside; every row makes the same stitches in the same order."""
    loaded = pattern(folder, name)
    text = in_terms(folder, name, "uk" if loaded.pattern.uk else "us")
    again = load("written", text)
    assert tree(again) == tree(loaded)
    assert differing(loaded, text) == ()
    assert not [problem for problem in again.problems if problem.severity is Severity.ERROR]


@pytest.mark.parametrize("folder, name", TRANSLATED, ids=[name for _, name in TRANSLATED])
def test_to_the_other_terms_and_back_is_the_pattern(folder: str, name: str) -> None:
    """The text in the other terms says which they are, holds no name of the first, and makes the same rows."""
    loaded = pattern(folder, name)
    other, own = ("us", "uk") if loaded.pattern.uk else ("uk", "us")
    text = in_terms(folder, name, other)
    found = terms_of(text)
    assert (found.uk, found.stated, found.against) == (other == "uk", True, ())
    assert differing(loaded, text) == ()
    back = write(load("written", text), own)
    assert differing(loaded, back) == ()


SPELLED = [*ALL[:10], *ALL[18:-3:24], *ALL[-3:]]


@pytest.mark.parametrize("folder, name", SPELLED, ids=[name for _, name in SPELLED])
def test_a_pattern_spelled_out_works_the_same_rows(folder: str, name: str) -> None:
    """Every row with its own words and its own count, wherever that reads back."""
    loaded = pattern(folder, name)
    text = write(loaded, full=True)
    assert differing(loaded, text) == ()


def test_rows_told_by_a_reference_are_spelled_out() -> None:
    """Each of the three rows stands there with its own count."""
    text = "Net\n\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"
    text += "Row 2: Ch 1, turn, sc in each st across.\nRows 3-5: Rep Row 2. Fasten off.\n"
    written = write(load("net", text), full=True).splitlines()
    assert [line for line in written if line.startswith("Row ")][2:] == [
        "Row 3: Ch 1, turn, sc in each st across. (11 sc)",
        "Row 4: Ch 1, turn, sc in each st across. (11 sc)",
        "Row 5: Ch 1, turn, sc in each st across. Fasten off. (11 sc)",
    ]


def test_the_number_of_a_foundation_makes_no_round_of_it() -> None:
    """In a list numbered from the chain on, as designers print it, the first round is number 2."""
    loaded = load(
        "hat",
        "HAT\n\n1. Chain 20, join to make a ring.\n2. Sc in each ch around. Join. (20)\n3. Repeat round 2.",
    )
    for full in (False, True):
        text = write(loaded, full=full)
        assert "Rnd 3" in text
        assert differing(loaded, text) == ()


def test_what_was_not_understood_is_written_word_for_word() -> None:
    """A phrase no one can read is no one's to change."""
    odd = "Row 2: Ch 1, turn, flumf the gribble in next 3 sts, sc in each st across."
    text = (
        f"Cloth\n\nUS terms.\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n{odd}\n"
    )
    assert odd in write(load("cloth", text))


def test_names_a_designer_gave_stay_and_those_of_the_trade_are_translated() -> None:
    """Also in definitions, in notes, spelled out, and where they gather stitches."""
    text = (
        "Fans\n\nUS terms.\nGauge: 12 double crochet = 10 cm.\nFan: 5 dc in one st.\n\nCh 20.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Row 2: Ch 1, turn, sc in first sc, *skip next 2 sc, fan in next sc, skip next 2 sc, "
        "sc in next sc; rep from * across.\n"
    )
    written = write(load("fans", text), "uk")
    assert "UK terms." in written
    assert "Tension: 12 treble = 10 cm." in written
    assert "Fan: 5 tr in one st." in written
    assert "*miss next 2 dc, fan in next dc, miss next 2 dc, dc in next dc; rep from * across" in written


def test_one_size_is_written_with_its_own_figures() -> None:
    """The list of sizes becomes the size."""
    text = "Band\n\nSizes: S (M, L)\n\nCh 21 (25, 29).\n"
    text += "Row 1: Sc in 2nd ch from hook and in each ch across. 20 (24, 28) sc\n"
    written = write(load("band", text, "M"))
    assert "Size: M" in written
    assert "Ch 25." in written
    assert "(24 sc)" in written
    assert load("again", written).pattern.sizes == ()


PLACES = st.sampled_from(
    [
        "next st",
        "next 2 sts",
        "next sc",
        "first st",
        "same st",
        "next ch-2 sp",
        "each of next 3 dc",
        "last st",
    ]
)
STITCHES = st.sampled_from(["sc", "hdc", "dc", "2 dc", "3 sc", "dc2tog", "sl st", "tr", "fpdc"])
PHRASES = st.one_of(
    st.builds("{} in {}".format, STITCHES, PLACES),
    st.builds("ch {}".format, st.integers(1, 9)),
    st.builds("sk {}".format, st.sampled_from(["next st", "next 2 sts", "first dc", "next ch-1 sp"])),
    st.builds("({}, ch 2, {}) in {}".format, STITCHES, STITCHES, PLACES),
    st.builds("{} {}".format, st.integers(2, 30), st.sampled_from(["sc", "hdc", "dc"])),
)
REPEATS = st.one_of(
    PHRASES,
    st.builds(
        "*{}, {}; rep from * {}".format,
        PHRASES,
        PHRASES,
        st.sampled_from(["across", "3 more times", "to last 2 sts", "twice"]),
    ),
    st.builds("[{}, {}] {} times".format, PHRASES, PHRASES, st.integers(2, 12)),
    st.builds(
        "sc in each {} {}".format,
        st.sampled_from(["st", "dc", "dc and ch-1 sp"]),
        st.sampled_from(["across", "to last 3 sts"]),
    ),
)
ROWS = st.lists(REPEATS, min_size=1, max_size=5).map(", ".join)


@settings(deadline=None, max_examples=120)
@given(rows=st.lists(ROWS, min_size=1, max_size=4), terms=st.sampled_from(["us", "uk"]))
def test_reading_what_was_written_gives_the_equal_tree(rows: list[str], terms: str) -> None:
    """For rows put together from the phrases of the trade, whether they can be worked or not."""
    text = "Cloth\n\nUS terms.\nCh 30.\n" + "".join(
        f"Row {k + 1}: {words}.\n" for k, words in enumerate(rows)
    )
    loaded = load("cloth", text)
    assert tree(load("written", write(loaded, terms))) == tree(loaded)


def test_the_command_writes_to_standard_output(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """And says in a sentence what cannot be read."""
    parser = argparse.ArgumentParser()
    add_parsers(parser.add_subparsers())
    said = parser.parse_args(["write", str(samples()["low-tide-ripple"]), "--terms", "uk"])
    assert said.run(said) == 0
    assert "Row 1 (RS): Tr in 4th ch from hook (counts as tr)" in capsys.readouterr().out
    said = parser.parse_args(["write", str(tmp_path / "none.txt")])
    assert said.run(said) == 2
    assert "There is no file" in capsys.readouterr().err
