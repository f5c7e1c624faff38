"""All of it at once: a word played by another process is heard through a sound server, the screen moves,
the answer is spoken.

The virtual card is PulseAudio's; the player and the recorder are its own tools, `paplay` and `parec`.
"""

import os
import sys
import time
import wave
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from ears_spoken import spoken
from virtual_sound import RATE, SoundCard, virtual_sound

from tracker.mouth.espeak import Espeak
from tracker.mouth.port import Manner
from tracker.mouth.sound import Sound, resampled
from tracker.samples import samples

if sys.platform == "win32":
    pytest.skip("Windows has no pty and no PulseAudio", allow_module_level=True)

from pretend_terminal import Terminal, terminal

ROOT = Path(__file__).resolve().parents[2]
ANSWER = "Row one, right side."
SENTENCES = (
    ANSWER,
    "Resting. Your place is kept.",
    "Chain thirty-five.",
    "Four blocks: eight double crochet.",
    "Row two, wrong side.",
)
"""Of all these only the first was asked for; sounds on a busy machine break, so that likeness itself says little."""


@pytest.fixture(scope="module")
def card() -> Iterator[SoundCard]:
    with virtual_sound() as found:
        yield found


def played(card: SoundCard, folder: Path, words: str) -> None:
    path = folder / "said.wav"
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(spoken(words))
    card.say_into_microphone(path)


def likeness(recording: np.ndarray, sound: Sound) -> float:
    """How much of the sound is in the recording where it fits best: 1 is all of it."""
    wanted = np.frombuffer(resampled(sound, RATE).pcm, "<i2").astype(float)
    recording = np.pad(recording, (0, max(0, len(wanted) - len(recording))))
    size = 1 << int(np.ceil(np.log2(len(recording) + len(wanted))))
    match = np.fft.irfft(np.fft.rfft(recording, size) * np.conj(np.fft.rfft(wanted, size)))
    at = int(np.argmax(match[: len(recording) - len(wanted) + 1]))
    there = recording[at : at + len(wanted)]
    return float(there @ wanted / (np.linalg.norm(there) * np.linalg.norm(wanted) + 1e-9))


def watched(screen: Terminal, seconds: float) -> None:
    """Let time pass; the ear is deaf while the mouth speaks, and a sentence takes some seconds."""
    ends = time.monotonic() + seconds
    while time.monotonic() < ends:
        screen.read(0.2)


def test_a_word_in_the_room_moves_the_screen_and_is_answered_aloud(card: SoundCard, tmp_path: Path) -> None:
    """Microphone, ear, journal, screen, mouth and speaker, with nothing in the place of any;
    and the mouth's own answer is not obeyed.
    """
    pytest.importorskip("onnxruntime")
    pattern = str(samples()["harbour-windows"])
    env = {name: value for name, value in card.env.items() if os.environ.get(name) != value}
    with terminal(
        [sys.executable, "-m", "tracker", "work", pattern], tmp_path, PYTHONPATH=str(ROOT), **env
    ) as screen:
        screen.until("listening")
        watched(screen, 7)
        assert "before the row" in screen.text
        with card.listening() as recording:
            played(card, tmp_path, "next")
            screen.until("Row 1 of 15")
            screen.until("heard “next”")
            watched(screen, 6)
        assert "0 of 16 squares" in screen.text  # one word, one step
        screen.press("q")
        assert screen.until_over() == 0
        assert b"ALSA" not in screen.sent
    heard = np.frombuffer(recording.pcm, "<i2").astype(float)
    voice = Espeak(Manner())
    assert max(SENTENCES, key=lambda sentence: likeness(heard, voice.make(sentence))) == ANSWER
