"""What the maker has settled once: the pedal's key, the voice, the ear's engine, the screen's theme.

Comes in: the environment. Goes out: a Settings value, and back to the disk. A file that cannot be read
gives the usual settings and one sentence; it is moved aside, never deleted, when something is kept next.
Fields that are not known here are kept as they are.
"""

import json
import os
import sys
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path
from typing import Any

import platformdirs

from tracker.mouth.port import Manner
from tracker.pedal.port import LearnedKey

EARS = ("auto", "embedded", "vosk", "off")
"""How the ear is chosen: auto takes vosk where an English model of it is found, and else the built-in one."""


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
    left_handed: bool = False

    @property
    def manner(self) -> Manner:
        """How the mouth speaks."""
        return Manner(self.voice, self.accent, self.speed_wpm, self.volume, self.speaker)


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
        if name not in known:
            continue
        if name == "pedal":
            keys = _keys(value)
            read[name], bad = keys or (), keys is None
        else:
            bad = type(value) is not type(getattr(usual, name)) or (name == "ear" and value not in EARS)
            read[name] = getattr(usual, name) if bad else value
        if bad:
            wrong.append(name)
    if wrong and not trouble:
        trouble = f"The setting {wrong[0]} in {file} is not one I know; the usual one holds."
    return replace(usual, **read), trouble


def keep(file: Path, settings: Settings) -> None:
    """Write the settings in one piece, private to their owner. Raises OSError."""
    raw, trouble = _raw(file)
    if trouble and file.exists():
        file.replace(file.with_name(f"{file.name}.damaged"))
    file.parent.mkdir(parents=True, exist_ok=True)
    mine = {
        name: value
        for name, value in asdict(settings).items()
        if name in raw or value != getattr(Settings(), name)
    }
    beside = file.with_name(f"{file.name}.new")
    beside.write_text(json.dumps(raw | mine, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    beside.replace(file)


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
