"""The ear's words: numbers as they are said, spellings, templates, tables."""

from __future__ import annotations

import doctest

import numpy as np
import pytest

from tracker.ears.hearing import figures, head, templates, words
from tracker.ears.hearing.judge import Judge
from tracker.ears.phrases_en import ENGLISH, TAUGHT
from tracker.ears.port import Awaiting


@pytest.mark.parametrize("module", [words, templates, head])
def test_the_examples_in_the_docstrings_hold(module: object) -> None:
    """What a docstring shows is what happens."""
    found = doctest.testmod(module)  # type: ignore[arg-type]
    assert found.attempted > 0
    assert found.failed == 0


def test_every_number_has_its_own_words() -> None:
    """No two numbers are said alike."""
    assert len({words.number_words(n) for n in range(1000)}) == 1000


def test_every_phrase_of_the_table_is_spelled_with_known_words() -> None:
    """A phrase in the English table can be heard by the shipped head."""
    for saying in ENGLISH:
        for phrase in saying.phrases:
            unknown = [w for w in phrase.split() if w != "{n}" and w not in words.units()]
            assert not unknown, (
                f"{phrase!r}: the head does not know {unknown}; take other words or train it anew"
            )


@pytest.mark.parametrize(
    ("said", "label", "other", "number", "phrase"),
    [
        (("i", "have", "nine", "stitches"), "count", ("nine", "ninety"), 9, "i have {n} stitches"),
        (("row", "nineteen"), "row", ("nineteen", "ninety"), 19, "row {n}"),
    ],
)
def test_between_two_numbers_as_likely_it_is_the_one_that_is_mistaken_for_the_other(
    said: tuple[str, ...], label: str, other: tuple[str, str], number: int, phrase: str
) -> None:
    """ "Nine stitches" comes out as ninety and hardly ever the other way; a little more for ninety does not tip it."""
    frames = np.full((2 * len(said) + 1, len(words.units())), -9.0, np.float32)
    frames[::2, 0] = -0.1
    for i, word in enumerate(said):
        frames[2 * i + 1, words.units().index(word)] = -0.8
    at = 2 * said.index(other[0]) + 1
    frames[at, words.units().index(other[1])] = -0.7
    found = figures.best_number(frames, words.SLOTTED[label])
    assert (found.number, found.phrase) == (number, phrase)


def test_a_round_in_another_accent_is_no_count() -> None:
    """Where "round" and "count" are as likely it is the round; a clear count stays one."""
    frames = np.full((5, len(words.units())), -9.0, np.float32)
    frames[::2, 0] = -0.1
    frames[1, words.units().index("count")] = -0.5
    frames[1, words.units().index("round")] = -0.9
    frames[3, words.units().index("seven")] = -0.1
    every = (*words.SLOTTED["row"], *words.SLOTTED["count"])
    assert figures.best_number(frames, every).phrase == "round {n}"
    frames[1, words.units().index("round")] = -8.0
    assert figures.best_number(frames, every).phrase == "count {n}"


def test_a_clear_spelling_is_read_as_its_number() -> None:
    """Frames that say "row", "twenty", "three" one after the other are row 23, by a wide margin."""
    units = words.units()
    said = ["", "row", "", "twenty", "three", ""]
    frames = np.full((len(said), len(units)), -9.0, np.float32)
    for i, word in enumerate(said):
        frames[i, units.index(word)] = -0.01
    found = figures.best_number(frames, words.SLOTTED["row"])
    assert (found.number, found.phrase) == (23, "row {n}")
    assert found.margin > 5


def test_a_number_that_may_go_on_is_known() -> None:
    """ "Twenty" may become "twenty three"; "twenty three" is over."""
    units = words.units()

    def frames(*said: str) -> np.ndarray:
        out = np.full((len(said), len(units)), -9.0, np.float32)
        for i, word in enumerate(said):
            out[i, units.index(word)] = -0.01
        return out

    assert figures.best_number(frames("", "twenty", ""), words.SLOTTED["number"]).open_ended
    assert not figures.best_number(frames("", "twenty", "three", ""), words.SLOTTED["number"]).open_ended


def test_the_phrase_taught_for_each_deed_is_in_the_table() -> None:
    """What a maker is shown to say is one of the phrases that are understood."""
    phrases = {saying.deed: saying.phrases for saying in ENGLISH}
    for deed, phrase in TAUGHT.items():
        assert phrase in phrases[deed]


def test_noise_that_moves_every_distance_alike_hides_no_taught_phrase() -> None:
    """Beside many phrases a distance counts by its share: more of it is allowed where the word hardly stands out."""
    rng = np.random.default_rng(2)
    said = rng.normal(size=(8, 7, 24)).astype(np.float32)
    taught = templates.Templates()
    for take, frames in enumerate(said):
        taught.add(f"phrase {take}", frames, take)
    taught.calibrate()
    noisy = said[3] + rng.normal(size=said[3].shape).astype(np.float32) * 1.1
    loud, quiet = taught.nearest(noisy, 14.0)[0], taught.nearest(noisy, 40.0)[0]
    assert loud.phrase == quiet.phrase == "phrase 3"
    assert loud.score > 0 > quiet.score
    stranger = rng.normal(size=(7, 24)).astype(np.float32)
    assert taught.nearest(stranger, 14.0)[0].score < 0


@pytest.mark.parametrize(
    ("length_ms", "deed", "told"),
    [(1000, "listen", "listen to me"), (1000, "no", "no thanks"), (300, "no", "no")],
)
def test_a_word_drawn_out_is_the_phrase_that_holds_it(length_ms: int, deed: str, told: str) -> None:
    """Noise leaves of "listen to me" the "listen"; a second of that is the phrase, and no word too long for one."""
    known = words.units()
    spelt = np.full((14, len(known)), -9.0, np.float32)
    spelt[:, 0] = 0.0
    spelt[4, 0], spelt[4, known.index(told.split()[0])] = -9.0, 0.0
    names = np.full(len(words.classes()), -9.0, np.float32)
    names[words.classes().index(told)] = 0.0
    verdict = Judge(ENGLISH)(head.Opinion(names, spelt, spelt), length_ms, Awaiting.COMMAND)
    assert (verdict.deed, verdict.words) == (deed, told)
