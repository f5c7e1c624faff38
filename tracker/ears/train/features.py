"""Recordings to what the head learns from: each utterance as the ear itself would cut and embed it.

In: clips with texts and labels, noises. Out: `Examples` (embeddings, class, spelling in units, weight,
voice), kept in a file. The endpointer and embedder of the running ear are used, so that the head sees in
training what it will see at work.
"""

from __future__ import annotations

import itertools
import re
import wave
import zlib
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from tracker.ears.hearing.judge import QUIET_DB
from tracker.ears.hearing.sound.embed import Embedder, cut_of
from tracker.ears.hearing.sound.endpoint import Endpointer, Samples, Segment
from tracker.ears.hearing.words import classes, units
from tracker.ears.train.augment import Beds, augment
from tracker.ears.train.saying.texts import OTHER
from tracker.ears.train.voices import read_wav

MOST_FRAMES = 42
ID = re.compile(r"[0-9a-f]{8}")
"""What tells recordings of the open collections apart: the first eight letters of their names."""
MERGE_MS = 450


@dataclass(frozen=True, slots=True)
class Example:
    embeddings: NDArray[np.float16]
    label: int
    spelling: tuple[int, ...] | None
    """Units; None when what was said is not known."""
    voice: str
    """family/voice, or the source of real speech."""
    noisy: bool


def spell(text: str) -> tuple[int, ...]:
    known = {word: i for i, word in enumerate(units())}
    words = "".join(c if c.isalpha() or c == "'" else " " for c in text.lower()).split()
    return tuple(known.get(word, 1) for word in words)


def segments_of(sound: Samples) -> tuple[Endpointer, list[Segment]]:
    ear = Endpointer()
    found = [s for i in range(0, len(sound), 1600) for s in ear.feed(sound[i : i + 1600])]
    return ear, found + ear.finish()


def embed(ear: Endpointer, embedder: Embedder, *found: Segment) -> NDArray[np.float32]:
    """The same cut as at work, from the first of those stretches to the last."""
    loud = max(s.over_db for s in found) < QUIET_DB
    return embedder(cut_of(ear, found[0].start_ms, found[-1].end_ms, loud=loud))[:MOST_FRAMES]


def from_clip(
    clip: tuple[Samples, str, str, str], family: str, beds: Beds, embedder: Embedder, noisy: bool, seed: int
) -> list[Example]:
    """One copy of a clip: a command gives one example, other speech one for each stretch of it."""
    samples, text, label, voice = clip
    rng = np.random.default_rng([seed, zlib.crc32(f"{family} {text} {voice} {noisy}".encode())])
    sound, first_ms, last_ms = augment(samples, rng, beds, noisy)
    ear, found = segments_of(sound)
    mine = [s for s in found if s.end_ms > first_ms - 50 and s.start_ms < last_ms + 50 and not s.too_long]
    if not mine:
        return []
    index = classes().index(label)
    name = f"{family}/{voice}"
    apart = any(b.start_ms - a.end_ms >= MERGE_MS for a, b in itertools.pairwise(mine))
    if label != OTHER and apart:
        return []
    if label != OTHER or (len(mine) == 1 and len(text.split()) < 8):
        whole = embed(ear, embedder, *mine)
        return [Example(whole.astype(np.float16), index, spell(text), name, noisy)]
    return [Example(embed(ear, embedder, s).astype(np.float16), index, None, name, noisy) for s in mine]


def real_recordings(folder: Path, keep_apart: Path | None) -> list[tuple[Path, str]]:
    """Open recordings of real people's speech that is no command, with their source's name, in a fixed order.

    The folder holds clones of Picovoice/speech-to-intent-benchmark (Apache-2.0, data/speech),
    Picovoice/wake-word-benchmark (Apache-2.0, audio) and MycroftAI/Precise-Community-Data (only the recordings
    that its licences name as public domain). What is in `keep_apart` is measured with, so it is left out.
    """
    apart = (
        {m.group() for f in keep_apart.rglob("*.wav") if (m := ID.search(f.name))} if keep_apart else set()
    )
    free = {
        line.strip().split("/")[-1]
        for f in folder.rglob("license*.txt")
        for line in f.read_text(errors="replace").splitlines()
    }
    found = []
    for path in sorted(folder.rglob("*.wav")):
        match = ID.search(path.name)
        if match and match.group() in apart:
            continue
        if "speech/clean" in str(path):
            found.append((path, "real/orders"))
        elif path.name in free:
            found.append((path, f"real/{path.name.split('-')[0]}"))
        elif path.parent.parent.name == "audio":
            found.append((path, f"real/{path.parent.name}"))
    return found


def from_real(
    path: Path, source: str, beds: Beds, embedder: Embedder, noisy: bool, seed: int
) -> list[Example]:
    """Every stretch of a real recording, as other speech; as it is, or (`seed` above 0) in another room."""
    sound = read_wav(path.read_bytes())
    rng = np.random.default_rng([seed, zlib.crc32(path.name.encode())])
    if seed:
        sound, *_ = augment(sound, rng, beds, noisy)
    else:
        quiet = np.zeros(8000, np.float32)
        sound = np.concatenate([quiet, sound, quiet])
        sound = sound + rng.normal(0, 3e-4, len(sound)).astype(np.float32)
    ear, found = segments_of(sound)
    index = classes().index(OTHER)
    return [
        Example(embed(ear, embedder, s).astype(np.float16), index, None, source, noisy)
        for s in found
        if not s.too_long
    ]


def write_wav(path: Path, samples: Samples) -> None:
    with wave.open(str(path), "wb") as f:
        f.setnchannels(1)
        f.setsampwidth(2)
        f.setframerate(16000)
        f.writeframes((np.clip(samples, -1, 1) * 32767).astype("<i2").tobytes())
