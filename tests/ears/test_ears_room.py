"""Levels: where speech begins and ends, and what is said of a bad microphone or a loud room."""

from __future__ import annotations

import numpy as np
import pytest
from ears_spoken import spoken

from tracker.ears.hearing.sound.endpoint import Endpointer, Samples, Segment, room_advice
from tracker.ears.port import RATE


def sound(words: str, loudness: float = 0.5, noise: float = 0.0) -> Samples:
    samples = np.frombuffer(spoken(words, loudness=loudness), "<i2").astype(np.float32) / np.float32(32768)
    return (samples + np.random.default_rng(2).normal(0, noise, len(samples)) if noise else samples).astype(
        np.float32
    )


def segments(samples: Samples, block: int = 256) -> list[Segment]:
    ear = Endpointer()
    return [s for i in range(0, len(samples), block) for s in ear.feed(samples[i : i + block])] + ear.finish()


@pytest.mark.parametrize("loudness", [0.9, 0.2, 0.03])
def test_a_word_is_one_stretch_whatever_its_loudness(loudness: float) -> None:
    """A loud, a usual and a faint word are each one stretch, in the place where they were said."""
    (found,) = segments(sound("onward", loudness))
    assert 500 <= found.start_ms <= 750
    assert 150 < found.end_ms - found.start_ms < 900


def test_a_kettle_becomes_part_of_the_room() -> None:
    """Steady noise is soon not taken for speech, and a word over it is."""
    kettle = np.random.default_rng(3).normal(0, 0.02, RATE * 6).astype(np.float32)
    word = sound("where am i")
    kettle[RATE * 4 : RATE * 4 + len(word)] += word[: RATE * 2]
    late = [s for s in segments(kettle) if s.start_ms > 3000]
    assert len(late) == 1
    assert 4400 < late[0].start_ms < 4800


def test_a_good_microphone_needs_no_advice() -> None:
    """A clear word in a quiet room: nothing to say."""
    assert room_advice(sound("next")) == ()


@pytest.mark.parametrize(
    ("samples", "says"),
    [
        (np.zeros(RATE * 2, np.float32), "no sound at all"),
        (np.random.default_rng(1).normal(0, 0.001, RATE * 3).astype(np.float32), "No word was heard"),
        (np.clip(sound("next", 6.0), -1, 1), "overdriven"),
        (sound("next", 0.015), "very quietly"),
        (sound("next", 0.5, noise=0.02), "loud beside the words"),
    ],
    ids=["muted", "nobody spoke", "clipping", "too far", "too noisy"],
)
def test_a_bad_microphone_or_room_gets_one_clear_sentence(samples: Samples, says: str) -> None:
    """Each fault is named with what to do about it."""
    assert any(says in sentence for sentence in room_advice(samples))
