"""Patterns as text, from a file or from standard input ("-").

A path comes in; the text and what to call it go out. Whatever stands between a maker and their text is Unreadable, one
sentence; letters that no encoding explains are replaced, never a reason to stop.
"""

import sys
from pathlib import Path

LARGEST = 8_000_000
"""Bytes; no pattern is longer, and a film is no pattern."""
STANDARD_INPUT = "-"


class Unreadable(Exception):
    """A text that cannot be had; the message says what is so and what to do."""


def text_of(path: str) -> tuple[str, str]:
    """The name and the text of a pattern."""
    if path == STANDARD_INPUT:
        return "standard input", decoded(sys.stdin.buffer.read(LARGEST + 1), "standard input")
    file = Path(path)
    try:
        with file.open("rb") as opened:
            raw = opened.read(LARGEST + 1)
    except FileNotFoundError:
        raise Unreadable(f"There is no file {path}; check its name and folder.") from None
    except IsADirectoryError:
        raise Unreadable(f"{path} is a folder; name the pattern in it.") from None
    except (OSError, ValueError) as refused:
        reason = getattr(refused, "strerror", None) or "its name holds a sign no file can have"
        raise Unreadable(
            f"{path} cannot be read ({reason}); save the pattern as a text file that is yours to read."
        ) from None
    return file.name, decoded(raw, path)


def decoded(raw: bytes, name: str) -> str:
    """Bytes as text: UTF-8, UTF-16 where it says so, and otherwise what Windows used to write."""
    if len(raw) > LARGEST:
        raise Unreadable(f"{name} is larger than {LARGEST // 1_000_000} MB; save the pattern alone, as text.")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", "replace")
    if raw.startswith((b"%PDF", b"PK\x03\x04")):
        raise Unreadable(f"{name} is no plain text; open it, copy the pattern, and save that as a text file.")
    if b"\0" in raw:
        raise Unreadable(f"{name} is no text; save the pattern as a text file.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252", "replace")
