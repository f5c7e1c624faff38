"""The mended text, and the new file it goes into.

A text as it stood in its file and an edit found in it after cleaning come in; the text with that one edit goes out,
everything else as it was to the letter. An existing file is never written over.
"""

from pathlib import Path

from tracker.mending.mend import edited
from tracker.notation.read import source_of
from tracker.problems import Fix, Span


class NotWritten(Exception):
    """A file that cannot be written; the message says why in one sentence."""


def mended(text: str, fix: Fix) -> str:
    """The text with the edit made, which was found in the text as it is read."""
    read = source_of("", text).text
    wanted = edited(read, fix)
    if read == text:
        return wanted
    # Cleaning joins and drops letters, so the place of the edit is found by cleaning what comes before it.
    start, end = _raw_place(text, fix.span.start), _raw_place(text, fix.span.end)
    for first in range(max(0, start - 3), start + 4):
        for last in range(max(first, end - 3), max(first, end) + 4):
            candidate = edited(text, Fix(Span(first, last), fix.text))
            if source_of("", candidate).text == wanted:
                return candidate
    return wanted


def _raw_place(text: str, place: int) -> int:
    """How many letters of the file were read as the first `place` letters."""
    low, high = 0, len(text)
    while low < high:
        middle = (low + high) // 2
        if len(source_of("", text[:middle]).text) < place:
            low = middle + 1
        else:
            high = middle
    return low


def write_new(path: str, text: str) -> None:
    """Write a file that does not exist yet; NotWritten when it does or cannot be made."""
    file = Path(path)
    try:
        with file.open("x", encoding="utf-8", newline="") as opened:
            opened.write(text)
    except FileExistsError:
        raise NotWritten(f"{path} is there already and is left as it is; name a new file.") from None
    except (OSError, ValueError) as refused:
        reason = getattr(refused, "strerror", None) or "its name holds a sign no file can have"
        raise NotWritten(f"{path} cannot be written ({reason}); name a file in a folder of yours.") from None
