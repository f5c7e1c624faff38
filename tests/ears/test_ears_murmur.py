"""A loud room: its steady murmur is taken off what is heard of a word."""

from __future__ import annotations

import numpy as np
import pytest
from ears_spoken import as_bytes, spoken_afresh

from tracker.ears.embedded import EmbeddedEar
from tracker.ears.hearing.sound.embed import Cut, Embedder
from tracker.ears.hearing.sound.murmur import LEFT, ROOM_FRAMES, without_murmur
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import Heard, Learnt, Report
from tracker.ears.teaching import pink

WORD_AT = 60


@pytest.fixture(scope="module")
def ear() -> EmbeddedEar:
    return EmbeddedEar(ENGLISH)


def mel(murmur: float, word: float) -> np.ndarray:
    """A room of that power in each band, and a word of that power in the first half of the bands."""
    rng = np.random.default_rng(4)
    power = murmur * rng.exponential(1.0, (110, 32))
    power[WORD_AT:90, :16] += word
    return (np.log10(power) + 2).astype(np.float32)


def test_the_room_is_taken_off_and_the_word_stays() -> None:
    """A word a hundred times the room's power is as it was; beside it, and before it, the room is as low as it may
    be for most of the time."""
    before = mel(1e6, 1e8)
    after = without_murmur(before)
    assert np.abs(after[WORD_AT:90, :16] - before[WORD_AT:90, :16]).max() < 0.1
    room = after[:WORD_AT, 2:30]
    assert np.median(room) == pytest.approx(np.log10(LEFT * 1e6) + 2, abs=0.1)
    assert room.std() < 0.6 * before[:WORD_AT, 2:30].std()


def test_a_click_before_the_word_does_not_swallow_it() -> None:
    """Of a cup put down in the room before the word little is taken for the room."""
    clicked = mel(1e6, 1e8)
    clicked[10:13] += 4.0
    after = without_murmur(clicked)
    assert np.abs(after[WORD_AT:90, :16] - clicked[WORD_AT:90, :16]).max() < 0.1


def test_voices_are_no_steady_room() -> None:
    """Where half of the room before the word is twice as loud, it is taken off only if that is asked for."""
    room = mel(1e6, 1e8)
    assert without_murmur(room, steady=True) is not room
    room[:20] += np.log10(2)
    assert without_murmur(room, steady=True) is room
    assert without_murmur(room) is not room


def test_before_the_stream_began_there_was_no_room() -> None:
    """Digital silence before the first word tells nothing of the room."""
    first = mel(1e6, 1e8)
    first[:ROOM_FRAMES] = 2.0
    assert without_murmur(first) is first


def test_a_word_among_voices_is_looked_at_with_and_without_them() -> None:
    """A kettle's noise is just taken off; noise that comes and goes as talk does leaves two views of a word, the first
    of them as it came."""
    embedder = Embedder()
    kettle = pink(24000, 3)
    kettle[12000:18000] += 10 * pink(6000, 4)
    talk = kettle * np.repeat(np.tile([0.5, 2.0], 6), 2000).astype(np.float32)
    quiet = Cut(kettle, 8000.0, loud=False)
    assert len(embedder.views(quiet)) == 1
    assert len(embedder.views(quiet._replace(loud=True))) == 1
    as_it_came, less = embedder.views(Cut(talk, 8000.0, loud=True))
    assert np.array_equal(as_it_came, embedder(Cut(talk, 8000.0, loud=False)))
    assert np.array_equal(less, embedder(Cut(talk, 8000.0, loud=True, unsteady=True)))


def heard_in_noise(ear: EmbeddedEar, words: str, seed: int) -> list[str]:
    said = np.frombuffer(spoken_afresh([words], 2.0, 1.0), "<i2") / 32768
    loud = said[np.abs(said) > 0.02]
    noise = pink(len(said), seed)
    level = np.sqrt((loud**2).mean()) * 10 ** (-10 / 20) / np.sqrt((noise**2).mean())
    ear.recall(Learnt())
    ear.begin()
    return told(ear.feed(as_bytes(said + noise * level)) + ear.finish())


def told(reports: list[Report], *, full: bool = False) -> list[str]:
    return [r.words if full else r.deed for r in reports if isinstance(r, Heard)]


def test_a_phrase_that_noise_breaks_is_one_deed(ear: EmbeddedEar) -> None:
    """10 dB of pink noise may leave "yes" of "yes please", and what follows is then the whole of it again."""
    for words, deed in (
        ("yes please", "yes"),
        ("help me", "help"),
        ("only cues", "cues"),
        ("undo that", "undo"),
    ):
        assert heard_in_noise(ear, words, 3) == [deed]


def test_a_phrase_said_on_is_one_deed(ear: EmbeddedEar) -> None:
    """What begins with the word just heard and follows it at once is the same asking, said out; a breath later it is
    asked for again."""
    for gap_s, wanted in ((0.1, ["help"]), (1.5, ["help", "help me"])):
        ear.recall(Learnt())
        ear.begin()
        said = bytes(32000) + spoken_afresh(["help", "help me"], 0.02, gap_s) + bytes(32000)
        assert told(ear.feed(said) + ear.finish(), full=True) == wanted
