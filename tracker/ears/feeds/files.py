"""Feeds recordings through an ear exactly as the microphone would.

In: paths of 16 kHz mono 16-bit WAVs (other rates and stereo are converted), the engine's name, what is
awaited. Out: one dict a file, in order, in the form the command `hear` prints. A file that cannot be read
raises RecordingUnreadable, one sentence. Files of one call are one voice in one sitting: what the ear
learns of the voice is carried from file to file.
"""

from __future__ import annotations

import wave
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np

from tracker.ears.hearing.sound.endpoint import Samples
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import RATE, Awaiting, Ear, EarMissing, Heard, Saying, Settled

BLOCK = 256
"""Samples a block, 16 ms, as the microphone gives them."""
ENGINES = ("embedded", "vosk")


class RecordingUnreadable(Exception):
    """The text says which file and why."""


def read_recording(path: Path) -> bytes:
    """The samples of a WAV as 16 kHz mono 16-bit."""
    try:
        with wave.open(str(path)) as f:
            rate, channels, width, data = (
                f.getframerate(),
                f.getnchannels(),
                f.getsampwidth(),
                f.readframes(f.getnframes()),
            )
    except FileNotFoundError:
        raise RecordingUnreadable(f"There is no file {path}; check its name and folder.") from None
    except (OSError, EOFError, wave.Error) as error:
        raise RecordingUnreadable(f"{path} is not a WAV recording that can be read ({error}).") from None
    if width != 2:
        raise RecordingUnreadable(f"{path} has {8 * width}-bit samples; save it as a 16-bit WAV.")
    if rate == RATE and channels == 1:
        return bytes(data)
    samples = (
        np.frombuffer(data[: len(data) // (2 * channels) * 2 * channels], "<i2")
        .reshape(-1, channels)
        .mean(axis=1)
    )
    if rate != RATE and len(samples):
        at = np.arange(0, len(samples), rate / RATE)
        samples = np.interp(at, np.arange(len(samples)), samples)
    return bytes(samples.astype("<i2").tobytes())


def make_ear(
    engine: str, sayings: tuple[Saying, ...], *, taught: Path | None = None, strict_name: str | None = None
) -> Ear:
    """An ear by its engine's name; raises EarMissing with one sentence when it cannot be had."""
    if engine == "embedded":
        from tracker.ears.embedded import EmbeddedEar

        ear = EmbeddedEar(sayings, strict_name=strict_name)
        if taught is not None:
            ear.teach(taught_recordings(taught))
        return ear
    if engine == "vosk":
        from tracker.ears.vosk import VoskEar

        return VoskEar(sayings)
    raise EarMissing(f"There is no ear called {engine}; there are {' and '.join(ENGINES)}.")


def taught_recordings(folder: Path) -> list[tuple[str, Samples]]:
    """The maker's own recordings in a folder: WAVs named PHRASE__K.wav, spaces as underscores; in the order
    of their names."""
    if not folder.is_dir():
        raise RecordingUnreadable(
            f"{folder} is not a folder; recordings to be taught lie in one as PHRASE__1.wav, PHRASE__2.wav …"
        )
    found = []
    for path in sorted(folder.glob("*.wav")):
        phrase = path.stem.rpartition("__")[0] or path.stem
        samples = np.frombuffer(read_recording(path), "<i2").astype(np.float32) / np.float32(32768)
        found.append((phrase.replace("_", " ").strip().lower(), samples))
    if not found:
        raise RecordingUnreadable(
            f"{folder} holds no recordings; they are WAVs named PHRASE__1.wav, PHRASE__2.wav …"
        )
    return found


def hear_files(
    paths: list[Path], engine: str = "embedded", awaiting: str = "command", taught: Path | None = None,
    strict: str | None = None, sayings: tuple[Saying, ...] = ENGLISH,
) -> Iterator[dict[str, Any]]:  # fmt: skip
    """One object a file, as the contract of `hear` has them."""
    ear = make_ear(engine, sayings, taught=taught, strict_name=strict)
    for path in paths:
        data = read_recording(path)
        ear.begin()
        ear.await_(Awaiting(awaiting))
        reports = [
            r for i in range(0, len(data), BLOCK * 2) for r in ear.feed(data[i : i + BLOCK * 2])
        ] + ear.finish()
        heard, passed = [], []
        for r in reports:
            if isinstance(r, Heard):
                heard.append(as_json(r))
            elif isinstance(r, Settled):
                if not r.stands:
                    heard, taken = (
                        [h for h in heard if h["start_ms"] != r.start_ms],
                        [h for h in heard if h["start_ms"] == r.start_ms],
                    )
                    passed += [passed_on(h) for h in taken]
            else:
                passed.append({"start_ms": r.start_ms, "end_ms": r.end_ms, "why": r.why})
        yield {
            "file": str(path),
            "seconds": round(len(data) / 2 / RATE, 3),
            "heard": heard,
            "passed_over": passed,
        }


def passed_on(heard: dict[str, Any]) -> dict[str, Any]:
    """A command that did not stand, as something passed over."""
    return {
        "start_ms": heard["start_ms"],
        "end_ms": heard["end_ms"],
        "why": f"{heard['words']}, and then more was said",
    }


def as_json(heard: Heard) -> dict[str, Any]:
    shown: dict[str, Any] = {"deed": heard.deed}
    if heard.number is not None:
        shown["number"] = heard.number
    shown |= {
        "words": heard.words,
        "sureness": heard.sureness,
        "start_ms": heard.start_ms,
        "end_ms": heard.end_ms,
    }
    shown |= {"decided_ms": heard.decided_ms, "compute_ms": heard.compute_ms}
    if heard.ask:
        shown["ask"] = True
    return shown
