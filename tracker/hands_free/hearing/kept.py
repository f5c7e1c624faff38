"""Where the maker's own recordings lie: a folder on this machine, and nowhere else.

Comes in: phrases and samples. Goes out: WAVs named PHRASE__K.wav, readable by their owner only. What cannot be written
is an OSError; `forget` leaves nothing behind.
"""

import json
import os
import re
import shutil
import wave
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict
from pathlib import Path

from tracker.ears.port import Learnt
from tracker.journal.pieces import home

RATE = 16_000
FOLDER = "voice"
LEARNT = "learnt.json"


def voice_folder(environ: Mapping[str, str] = os.environ) -> Path:
    """The folder of the maker's own voice: recordings, and whatever the ear learned from it."""
    return home(environ) / FOLDER


def taught_folder(folder: Path | None = None) -> Path | None:
    """The same where it holds recordings; None where the ear was taught nothing."""
    folder = folder or voice_folder()
    return folder if any(folder.glob("*__*.wav")) else None


def keep_takes(folder: Path, phrase: str, takes: list[bytes]) -> None:
    """Keep a phrase's recordings, 16 kHz mono 16 bit, in the place of those there were. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    folder.chmod(0o700)
    forget(folder, phrase)
    for number, samples in enumerate(takes, 1):
        with wave.open(str(folder / f"{_as_name(phrase)}__{number}.wav"), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(samples)


def phrases_kept(folder: Path) -> dict[str, int]:
    """The phrases that were taught, and how many recordings there are of each."""
    found: dict[str, int] = {}
    for path in sorted(folder.glob("*__*.wav")):
        phrase = path.stem.rpartition("__")[0].replace("_", " ")
        found[phrase] = found.get(phrase, 0) + 1
    return found


def keep_learnt(learnt: Learnt, folder: Path | None = None) -> None:
    """Keep what the ear learnt of the voice in a sitting. What cannot be written is not kept; nothing is lost by it."""
    folder = folder or voice_folder()
    with suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True)
        folder.chmod(0o700)
        (folder / LEARNT).write_text(json.dumps(asdict(learnt)), encoding="utf-8")


def learnt_before(folder: Path | None = None) -> Learnt:
    """What was kept of earlier sittings; nothing where there is none, or where it cannot be read."""
    try:
        found = json.loads(((folder or voice_folder()) / LEARNT).read_text(encoding="utf-8"))
        return Learnt(
            tuple(tuple(float(x) for x in row) for row in found["voice"]),
            tuple((str(deed), float(doubt)) for deed, doubt in found["doubts"]),
            tuple((str(deed), tuple(int(ms) for ms in waits)) for deed, waits in found["paces"]),
            tuple(tuple(float(x) for x in row) for row in found.get("mouth", ())),
        )
    except (OSError, ValueError, TypeError, KeyError):
        return Learnt()


def forget(folder: Path, phrase: str = "") -> int:
    """Remove a phrase's recordings, or all there is of the maker's voice; how many recordings went. Raises OSError."""
    name = _as_name(phrase)
    found = [path for path in folder.glob("*.wav") if not phrase or path.stem.rpartition("__")[0] == name]
    for path in found:
        path.unlink()
    if not phrase and folder.exists():
        shutil.rmtree(folder)
    return len(found)


def _as_name(phrase: str) -> str:
    return re.sub(r"[^\w'-]+", "_", phrase.strip().lower()).strip("_")
