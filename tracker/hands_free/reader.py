"""Whether a screen reader speaks on this machine: then plain lines are spoken already, and we do not say them again.

Comes in: the platform and its environment. Goes out: true or false. What cannot be told counts as none; the setting
`screen_reader` says otherwise.
"""

import os
import sys
from collections.abc import Mapping
from pathlib import Path

PROGRAMS = ("orca", "brltty", "espeakup", "speechd-up", "fenrir", "yasr")
"""Programs on Linux that speak what a terminal shows, or put it under the fingers."""
_GET_SCREEN_READER = 0x0046  # SPI_GETSCREENREADER


def speaks_already(
    setting: str,
    platform: str = sys.platform,
    environ: Mapping[str, str] = os.environ,
    proc: Path = Path("/proc"),
) -> bool:
    """True when a screen reader reads the terminal, or the maker says so ("yes"; "no" for never)."""
    if setting in ("yes", "no"):
        return setting == "yes"
    try:
        if platform == "win32":
            return _windows()
        if platform == "darwin":
            return _mac()
        if platform.startswith("linux"):
            return _linux(proc)
    except (OSError, ValueError, AttributeError):
        return False
    return False


def _linux(proc: Path) -> bool:
    """One of the programs runs for the same maker, or for the whole machine."""
    for comm in proc.glob("[0-9]*/comm"):
        try:
            name = comm.read_text().strip()
        except OSError:  # it has ended meanwhile
            continue
        if name in PROGRAMS:
            return True
    return False


def _windows() -> bool:
    import ctypes

    answer = ctypes.c_int(0)
    windll = getattr(ctypes, "windll")  # noqa: B009 - not there on other platforms
    windll.user32.SystemParametersInfoW(_GET_SCREEN_READER, 0, ctypes.byref(answer), 0)
    return bool(answer.value)


def _mac() -> bool:
    import subprocess

    asked = ["defaults", "read", "com.apple.universalaccess", "voiceOverOnOffKey"]
    found = subprocess.run(asked, capture_output=True, text=True, timeout=2, check=False)
    return found.stdout.strip() == "1"
