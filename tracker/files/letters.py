"""Bytes as letters, and the one fault that stands between a maker and their text.

Bytes come in, text goes out. A letter that no encoding explains is replaced and never a reason to stop; bytes that
are no text at all are Unreadable.
"""

import codecs
import re

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32"),  # begins like the mark of UTF-16, so it stands before it
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_SAID = rb"<meta[^>]{0,200}charset\s*=\s*[\"']?\s*([\w-]{2,20})|<\?xml[^>]{0,100}encoding=[\"']([\w-]{2,20})"


class Unreadable(Exception):
    """A text that cannot be had; the message says what is so and what to do."""


def letters_of(raw: bytes, name: str, page: bool = False) -> str:
    """The text of some bytes; `page` lets a web page say its own encoding."""
    for mark, encoding in _MARKS:
        if raw.startswith(mark):
            return raw[len(mark) if encoding == "utf-8" else 0 :].decode(encoding, "replace")
    if (halved := _without_mark(raw)) is not None:
        return raw.decode(halved, "replace")
    if _is_junk(raw):
        raise Unreadable(
            f"{name} is no text; open it in the program it comes from and save the pattern as text or PDF."
        )
    if page and (said := re.search(_SAID, raw[:4096], re.IGNORECASE)):
        try:
            return raw.decode((said[1] or said[2]).decode("ascii"), "replace")
        except LookupError:
            pass  # an encoding nobody knows: told apart below, as for a page that says none
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as odd:
        if odd.start >= len(raw) - 4:
            # a text that was cut in the middle of a letter is still UTF-8
            return raw[: odd.start].decode("utf-8")
    try:
        return raw.decode("cp1252")
    except UnicodeDecodeError:
        return raw.decode("latin-1")


def _without_mark(raw: bytes) -> str | None:
    """UTF-16 that does not say so: every second byte of Western text is nothing."""
    head = raw[:2000]
    if len(head) < 8:
        return None
    even, odd = head[0::2].count(0) / (len(head) / 2), head[1::2].count(0) / (len(head) / 2)
    if odd > 0.7 and even < 0.1:
        return "utf-16-le"
    if even > 0.7 and odd < 0.1:
        return "utf-16-be"
    return None


def _is_junk(raw: bytes) -> bool:
    """True for bytes that no program writes as text."""
    head = raw[:8000]
    if b"\0" in head:
        return True
    controls = sum(head.count(bytes([code])) for code in range(32) if code not in (8, 9, 10, 11, 12, 13, 27))
    return controls * 50 > len(head)
