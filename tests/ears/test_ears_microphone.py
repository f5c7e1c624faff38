"""The microphone for real: a sound server with no card, words played by another process, heard through
sounddevice."""

from __future__ import annotations

import os
import subprocess
import sys
import time
import wave
from collections.abc import Iterator
from pathlib import Path

import pytest
from ears_spoken import spoken
from virtual_sound import SoundCard, virtual_sound

LISTEN = """
import sys, time
from tracker.ears.embedded import EmbeddedEar
from tracker.ears.feeds.microphone import Listener
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import Heard
def take(r):
    print(f"heard {r.deed}" if isinstance(r, Heard) else f"passed over: {r.why}", flush=True)
listener = Listener(EmbeddedEar(ENGLISH), take, lambda why: print("lost", why, flush=True))
listener.start()
print("listening", flush=True)
for line in sys.stdin:
    if line.startswith("deaf"):
        listener.deaf_for(float(line.split()[1])); print("deaf", flush=True)
    else:
        break
listener.stop()
print("lost blocks", listener.lost_blocks, flush=True)
"""


@pytest.fixture(scope="module")
def card() -> Iterator[SoundCard]:
    with virtual_sound() as found:
        yield found


class Ear:
    """A process of its own that listens to the virtual microphone and prints what it hears."""

    def __init__(self, card: SoundCard) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-c", LISTEN],
            env=card.env, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
            cwd=Path(__file__).resolve().parents[2],
        )  # fmt: skip
        self.expect("listening")

    def expect(self, beginning: str) -> str:
        assert self.process.stdout is not None
        line = self.process.stdout.readline().strip()
        assert line.startswith(beginning), line
        return line

    def tell(self, line: str) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(line + "\n")
        self.process.stdin.flush()


@pytest.fixture
def ear(card: SoundCard) -> Iterator[Ear]:
    found = Ear(card)
    yield found
    found.process.kill()
    found.process.communicate()


def played(card: SoundCard, folder: Path, sound: bytes) -> None:
    path = folder / "said.wav"
    with wave.open(str(path), "wb") as f:
        f.setnchannels(1)
        f.setsampwidth(2)
        f.setframerate(16000)
        f.writeframes(sound)
    card.say_into_microphone(path)


def test_words_played_by_another_process_are_heard(card: SoundCard, ear: Ear, tmp_path: Path) -> None:
    """Two commands go through the sound server, PortAudio and the ear, and come out as deeds; no block is
    lost."""
    played(card, tmp_path, spoken("next") + spoken("where am i"))
    ear.expect("heard next")
    ear.expect("heard where")
    ear.tell("stop")
    assert ear.expect("lost blocks").endswith(" 0")


def test_while_the_mouth_speaks_the_microphone_is_deaf(card: SoundCard, ear: Ear, tmp_path: Path) -> None:
    """What sounds while the mouth has the word is passed over; afterwards the ear is open again."""
    ear.tell("deaf 30")
    ear.expect("deaf")
    played(card, tmp_path, spoken("next"))
    ear.expect("passed over: the tool was speaking")
    ear.tell("deaf 0")
    ear.expect("deaf")
    time.sleep(0.5)  # the tail in which the room still sounds
    played(card, tmp_path, spoken("again"))
    ear.expect("heard again")


def test_no_sound_device_is_one_sentence(tmp_path: Path) -> None:
    """Without a device the listener says so in one sentence, and there is no traceback."""
    code = LISTEN.replace(
        "listener.start()",
        "\ntry:\n    listener.start()\nexcept Exception as e:\n    print(type(e).__name__, e); raise SystemExit",
    )
    env = os.environ | {"PULSE_SERVER": "unix:/nowhere", "XDG_RUNTIME_DIR": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-c", code],
        env=env,
        capture_output=True,
        text=True,
        cwd=Path(__file__).resolve().parents[2],
    )
    assert done.stdout.startswith("EarMissing There is no microphone")
    assert "Traceback" not in done.stderr
