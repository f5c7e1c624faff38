"""What the maker has settled once: the pedal's key, the voice, the ear's engine, the screen's theme.

Comes in: the environment. Goes out: a Settings value, and back to the disk. A file that cannot be read
gives the usual settings and one sentence; it is moved aside, never deleted, when something is kept next.
Fields that are not known here are kept as they are.
"""

import json
import os
import sys
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields, replace
from pathlib import Path
from typing import Any

import platformdirs

from tracker.mouth.port import Manner
from tracker.pedal.port import LearnedKey
from tracker.trade.said.speech import Speech

EARS = ("auto", "embedded", "vosk", "off")
"""How the ear is chosen: auto takes vosk where an English model of it is found, and else the built-in one."""
LENGTHS = ("full", "short", "cues")
TERMS = ("pattern", "us", "uk")
_ONE_OF: dict[str, tuple[str, ...]] = {
    "ear": EARS,
    "telling": LENGTHS,
    "terms": TERMS,
    "voice": ("espeak", "natural"),
    "screen_reader": ("look", "yes", "no"),
}


@dataclass(frozen=True, slots=True)
class Settings:
    """All that is settled."""

    ear: str = "auto"
    """One of EARS."""
    microphone: str = ""
    """Part of the microphone's name; empty means the system's own choice."""
    mouth: bool = True
    """False: nothing is said aloud, as with --quiet."""
    voice: str = "espeak"
    """"espeak" or "natural"."""
    accent: str = "en-us"
    speed_wpm: int = 165
    """Words a minute."""
    volume: int = 100
    """Percent."""
    speaker: str = ""
    """Part of the speaker's name; empty means the system's own choice."""
    pedal_everywhere: bool = False
    """True: the pedal is heard while another window has focus, which means being shown every key typed."""
    pedal: tuple[LearnedKey, ...] = ()
    """The learned switches."""
    theme: str = ""
    """The screen's theme by name; empty means the usual one."""
    rounds_as_rows: bool = False
    """True: rounds are drawn as rows under each other, not around their middle."""
    left_handed: bool = False
    greeted: bool = False
    """True once the guided start was gone through, or skipped."""
    telling: str = "full"
    """How much is said: one of LENGTHS."""
    fading: bool = True
    """False: rows that the hands know are told as if they were new."""
    tones: bool = True
    """False: no tones."""
    terms: str = "pattern"
    """Words the stitches are called by: one of TERMS."""
    headphones: bool = False
    """True: the microphone doesn't hear what is said aloud, so that the ear stays open."""
    screen_reader: str = "look"
    """Whether plain lines are read aloud by a screen reader: "look" for one that runs, "yes" or "no"."""
    ear_name: str = ""
    """A name that is said before each command; empty for none."""
    renamed: tuple[tuple[str, str], ...] = ()
    """Commands that have a word of the maker's own: the deed's name, and that word."""
    offered: bool = False
    """True once the maker was told that the ear can learn their voice."""
    file: Path | None = field(default=None, compare=False)
    """Where they are kept; None for nowhere."""

    rest_minutes: int = 45
    """After so many minutes of work the hands are told to rest, at a row's end; 0 for never."""

    @property
    def manner(self) -> Manner:
        """How the mouth speaks."""
        return Manner(self.voice, self.accent, self.speed_wpm, self.volume, self.speaker)

    @property
    def speech(self) -> Speech:
        """In whose words."""
        return Speech({"us": False, "uk": True}.get(self.terms), self.left_handed)


def settings_file(environ: Mapping[str, str] = os.environ) -> Path:
    """Where the settings lie: ROWTELLER_HOME comes first, then XDG_CONFIG_HOME, then the platform's own place."""
    if given := environ.get("ROWTELLER_HOME"):
        return Path(given).expanduser() / "settings.json"
    xdg = Path(environ.get("XDG_CONFIG_HOME", ""))
    if xdg.is_absolute():  # the standard says to pass over a relative one
        return xdg / "rowteller" / "settings.json"
    if sys.platform in ("win32", "darwin"):
        return platformdirs.user_config_path("rowteller", appauthor=False) / "settings.json"
    return Path(environ.get("HOME") or Path.home()) / ".config" / "rowteller" / "settings.json"


def settled(file: Path) -> tuple[Settings, str]:
    """The settings, and one sentence when they could not all be read."""
    raw, trouble = _raw(file)
    known = {field.name: field for field in fields(Settings)}
    usual = Settings()
    read: dict[str, Any] = {}
    wrong: list[str] = []
    for name, value in raw.items():
        if name not in known or name == "file":
            continue
        if name == "pedal":
            keys = _keys(value)
            read[name], bad = keys or (), keys is None
        elif name == "renamed":
            pairs = _pairs(value)
            read[name], bad = pairs or (), pairs is None
        else:
            bad = type(value) is not type(getattr(usual, name)) or value not in _ONE_OF.get(name, (value,))
            read[name] = getattr(usual, name) if bad else value
        if bad:
            wrong.append(name)
    if wrong and not trouble:
        trouble = f"The setting {wrong[0]} in {file} is not one I know; the usual one holds."
    return replace(usual, file=file, **read), trouble


def keep(file: Path, settings: Settings) -> None:
    """Write the settings in one piece, private to their owner. Raises OSError."""
    raw, trouble = _raw(file)
    if trouble and file.exists():
        file.replace(file.with_name(f"{file.name}.damaged"))
    file.parent.mkdir(parents=True, exist_ok=True)
    mine = {
        name: value
        for name, value in asdict(settings).items()
        if name != "file" and (name in raw or value != getattr(Settings(), name))
    }
    beside = file.with_name(f"{file.name}.new")
    beside.write_text(json.dumps(raw | mine, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    beside.replace(file)


def changed(settings: Settings, **to: Any) -> tuple[Settings, str]:
    """The settings with some of them changed, here and on the disk; a sentence when that could not be written.

    What another window has settled meanwhile stays.
    """
    after = replace(settings, **to)
    if settings.file is None:
        return after, ""
    try:
        keep(settings.file, replace(settled(settings.file)[0], **to))
    except OSError as error:
        return after, f"The settings in {settings.file} cannot be written ({error.strerror or error})."
    return after, ""


SLOWEST, FASTEST, SPEED_STEP = 90, 320, 1.15
SOFTEST, LOUDEST, VOLUME_STEP = 20, 100, 20


def spoken_so(settings: Settings, manner: str) -> dict[str, Any]:
    """What changes in the settings when another manner of speaking is asked for; empty when it is at its limit."""
    wishes: dict[str, dict[str, Any]] = {
        "faster": {"speed_wpm": min(FASTEST, round(settings.speed_wpm * SPEED_STEP))},
        "slower": {"speed_wpm": max(SLOWEST, round(settings.speed_wpm / SPEED_STEP))},
        "louder": {"volume": min(LOUDEST, settings.volume + VOLUME_STEP)},
        "softer": {"volume": max(SOFTEST, settings.volume - VOLUME_STEP)},
        "silent": {"mouth": False},
        "aloud": {"mouth": True},
    }
    return {name: value for name, value in wishes[manner].items() if value != getattr(settings, name)}


def _raw(file: Path) -> tuple[dict[str, Any], str]:
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return {}, ""
    except (OSError, ValueError) as error:
        return {}, f"The settings in {file} cannot be read ({error}); the usual ones hold."
    if not isinstance(found, dict):
        return {}, f"The settings in {file} are not what I wrote; the usual ones hold."
    return found, ""


def _pairs(value: object) -> tuple[tuple[str, str], ...] | None:
    """Pairs of words from what the file holds; None when it holds something else."""
    if not isinstance(value, list):
        return None
    if not all(
        isinstance(one, list) and len(one) == 2 and all(isinstance(w, str) for w in one) for one in value
    ):
        return None
    return tuple((one[0], one[1]) for one in value)


def _keys(value: object) -> tuple[LearnedKey, ...] | None:
    """Learned keys from what the file holds; None when it holds something else."""
    if not isinstance(value, list):
        return None
    keys: list[LearnedKey] = []
    for each in value:
        if not isinstance(each, dict) or each.get("switch") not in (1, 2, 3):
            return None
        names = [each.get(name, "") for name in ("terminal", "pynput", "evdev")]
        if not all(isinstance(name, str) for name in names):
            return None
        keys.append(LearnedKey(each["switch"], *names))
    return tuple(keys)


def in_usual_words(settings: Settings, line: str) -> str:
    """A typed line as it is understood: the maker's own word for a command is as good typed as said.

    >>> in_usual_words(Settings(renamed=(("next", "hop along"),)), "Hop along")
    'next'
    """
    words = " ".join(line.lower().split())
    return next((name for name, phrase in settings.renamed if phrase == words), line)
