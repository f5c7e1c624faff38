"""Levels: where speech begins and ends, and what is said of a bad microphone or a loud room."""

from __future__ import annotations

import numpy as np
import pytest
from ears_spoken import as_bytes, spoken

from tracker.ears.embedded import VOICES_DB, EmbeddedEar
from tracker.ears.hearing.sound.endpoint import Endpointer, Samples, Segment, room_advice
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import RATE, Awaiting, Heard
from tracker.ears.train.augment import colour, make_beds


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


TALKERS = [
    sound("the next thing you want to do is find the top of the turning chain"),
    sound("it was a cold day"),
]


def over(words: str, bed: Samples, snr_db: float) -> Samples:
    """The words with two seconds of the noise before them and one after, so much louder than it."""
    said = sound(words)
    said = np.concatenate([np.zeros(RATE * 3 // 2, np.float32), said])
    loud = said[np.abs(said) > 0.05 * np.abs(said).max()]
    noise = np.resize(bed, len(said))
    level = np.sqrt((loud**2).mean() / (noise**2).mean())
    out: Samples = (0.5 * (said + noise * level * 10 ** (-snr_db / 20))).astype(np.float32)
    return out


def noises() -> tuple[Samples, Samples]:
    """Pink noise, and ten people who talk."""
    rng = np.random.default_rng(4)
    return colour(rng, RATE * 6, 1.0), make_beds(rng, TALKERS, []).babble[4]


def test_a_room_of_voices_is_told_from_a_steady_noise_by_how_its_level_moves() -> None:
    """Far on either side of where the line is drawn, at several loudnesses."""
    pink, babble = noises()
    for snr_db in (6.0, 10.0, 15.0):
        steady = [s.uneven_db for s in segments(over("carry on", pink, snr_db)) if s.start_ms > 1500]
        moving = [s.uneven_db for s in segments(over("carry on", babble, snr_db)) if s.start_ms > 1500]
        assert steady
        assert moving
        assert max(steady) < 0.8 * VOICES_DB
        assert min(moving) > VOICES_DB


@pytest.mark.parametrize("awaiting", list(Awaiting), ids=lambda a: a.name.lower())
def test_among_voices_no_row_or_count_is_heard_that_nobody_asked_for(awaiting: Awaiting) -> None:
    """In a quiet room the same words are one."""
    pytest.importorskip("onnxruntime")

    def rows(samples: Samples) -> list[Heard]:
        ear = EmbeddedEar(ENGLISH)
        ear.await_(awaiting)
        reports = ear.feed(as_bytes(samples)) + ear.finish()
        return [r for r in reports if isinstance(r, Heard) and r.deed in ("row", "count")]

    _, babble = noises()
    for words in ("go to row seven", "i have twelve stitches"):
        assert [r.words for r in rows(sound(words))] == [words]
        assert awaiting is Awaiting.NUMBER or not rows(over(words, babble, 10.0))
