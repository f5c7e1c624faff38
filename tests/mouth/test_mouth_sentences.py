"""What is fit to be spoken."""

import random

import pytest

from tracker.mouth.sentences import LONGEST, in_sentences, speakable, taken_for_commands

COMMANDS = (
    "next",
    "back",
    "again",
    "stop",
    "yes",
    "no",
    "count",
    "turn",
    "row seven",
    "where am I",
    "one",
    "two",
    "three",
)


@pytest.mark.parametrize(
    "text, sentences",
    [
        (
            "Last one. Then eight double crochet to the end.",
            ("Last one.", "Then eight double crochet to the end."),
        ),
        (
            "Thirty-one; should be thirty-two. Don't turn.",
            ("Thirty-one; should be thirty-two.", "Don't turn."),
        ),
        ("A 3.5 mm hook. More?", ("A 3.5 mm hook.", "More?")),
        (
            "Is it closed? Yes moves on; no says it again.",
            ("Is it closed?", "Yes moves on; no says it again."),
        ),
        ("Second", ("Second",)),
        ("", ()),
        (" … !", ()),
    ],
)
def test_a_text_is_said_sentence_by_sentence(text: str, sentences: tuple[str, ...]) -> None:
    """A point within a number ends nothing, and marks alone are not said."""
    assert in_sentences(text) == sentences


def test_a_long_row_is_said_in_pieces_that_lose_no_word() -> None:
    """A pattern without a single full stop still gives sentences that are made quickly."""
    row = " ".join(f"chain {number}, skip one, double crochet in the chain space" for number in range(40))
    pieces = in_sentences(row)
    assert all(len(piece) <= LONGEST for piece in pieces)
    assert " ".join(pieces) == row


def test_nothing_in_a_strangers_pattern_can_act_on_the_voice() -> None:
    """Control codes, hidden direction marks and doubled brackets are gone; the words stay."""
    text = "ch\x1b]8;;1\x07 [[dc in next st] \u202etwice\u202c]\x00\u200b,\u0085 turn"
    assert speakable(text) == "ch]8;;1 [ [dc in next st] twice], turn"


def test_no_text_at_all_leaves_marks_the_voice_would_obey() -> None:
    """Any characters in any order: what comes out has no control character and no phoneme bracket."""
    chance = random.Random(7)
    marks = "[[]]\x00\x07\x1b\u200e\u2028\n\t ab.!?'’é\U0001f9f6\ud800"
    for _ in range(300):
        text = "".join(chance.choice(marks) for _ in range(60))
        said = speakable(text)
        assert "[[" not in said
        assert all(mark.isprintable() for mark in said)


@pytest.mark.parametrize(
    "sentence, found",
    [
        ("Double crochet in the next chain; skip the next.", ()),
        ("Window: chain one, skip one, one double crochet.", ()),
        ("Count, then turn.", ("count",)),
        ("Second. Next.", ("next",)),
        ("Next — double crochet in the fourth chain.", ("next",)),
        ("Row seven: sixteen squares.", ("row seven",)),
        ("Row seven is row three.", ()),
        ("“Again”, the same four windows.", ("again",)),
        ("Where am I?", ("where am I",)),
        ("Row end six: two.", ("two",)),
        ("Row thirteen, one three. Go there?", ()),
        ("STOP!  Yes!", ("stop", "yes")),
        ("Work it (again) to the end", ("again",)),
        ("Tap each - back - and on", ("back",)),
        ("back-loop only, non-stop", ()),
    ],
)
def test_a_command_alone_between_two_pauses_is_found(sentence: str, found: tuple[str, ...]) -> None:
    """Only what stands alone would move the work; the same word inside a sentence is the trade's own."""
    assert taken_for_commands(sentence, COMMANDS) == found


def test_figures_are_compared_as_the_voice_says_them() -> None:
    """A seven in figures is heard as the word."""
    words = {"7": "seven"}

    def in_words(text: str) -> str:
        return " ".join(words.get(word, word) for word in text.split())

    assert taken_for_commands("Now: row 7.", ["row seven"], in_words) == ("row seven",)
    assert taken_for_commands("Now: row 7.", ["row seven"]) == ()
