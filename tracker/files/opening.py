"""A pattern's file as text, whatever kind of file it is; "-" is standard input.

A path comes in; what to call the pattern and its text go out. Whatever stands between a maker and their text is
Unreadable, one sentence. What a file is, is told from its first bytes, and from its name only where they do not say.
"""

import os
import re
import sys

from tracker.files.letters import Unreadable, letters_of

STANDARD_INPUT = "-"
LARGEST = 200_000_000
"""Bytes of a file that is looked at; pictures make a PDF large."""
LONGEST = 10_000_000
"""Bytes of plain text that are read; a longer one is cut, and says so at its end."""
CUT = (
    "\n\nThe text goes on here and was cut, because it is longer than any pattern; save the pattern alone.\n"
)
_ENCRYPTED_OFFICE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_PICTURES = (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"II*\0", b"MM\0*", b"BM")
_PAGES = (".html", ".htm", ".xhtml", ".mhtml", ".mht")
_SAVE = "open it and save the pattern as text, DOCX or PDF."


def text_of(path: str) -> tuple[str, str]:
    """The name and the text of a pattern."""
    if path == STANDARD_INPUT:
        name = "standard input"
        return name, text_in(sys.stdin.buffer.read(LARGEST + 1), name, "")
    name = os.path.basename(path)
    try:
        if os.path.isdir(path):
            raise Unreadable(f"{path} is a folder; name the pattern in it.")
        with open(path, "rb") as opened:
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
    return name, text_in(raw, name, os.path.splitext(name)[1].lower())


def text_in(raw: bytes, name: str, ending: str) -> str:
    """The text in the bytes of a file with this ending (".md", "" when it has none)."""
    if len(raw) > LARGEST:
        raise Unreadable(f"{name} is larger than {LARGEST // 1_000_000} MB; save the pattern alone, as text.")
    if b"%PDF-" in raw[:1024]:
        from tracker.files.portable import text_of_pdf

        return text_of_pdf(raw, name)
    if raw.startswith(b"PK\x03\x04"):
        from tracker.files.document import text_of_docx

        return text_of_docx(raw, name)
    if raw.startswith(_ENCRYPTED_OFFICE):
        raise Unreadable(f"{name} is locked with a password or comes from an old word processor; {_SAVE}")
    if raw.startswith(_PICTURES):
        raise Unreadable(f"{name} is a picture and holds no text; have the text recognised, or type it out.")
    if raw.startswith(b"{\\rtf"):
        raise Unreadable(f"{name} is a rich text file; {_SAVE}")
    if len(raw) > LONGEST:
        return text_in(raw[:LONGEST], name, ending) + CUT
    if ending in _PAGES or _looks_like_page(raw):
        # what reads pages takes a while to load, and most patterns are none
        from tracker.files.webpage import lines_of_page, page_in_archive

        archived = page_in_archive(raw)
        return lines_of_page(letters_of(raw, name, page=True) if archived is None else archived)
    text = letters_of(raw, name)
    if ending in (".md", ".markdown", ".mdown", ".mkd"):
        from tracker.files.markdown import plain

        return plain(text)
    return text


def _looks_like_page(raw: bytes) -> bool:
    """True for a web page or an archive of one, whatever its file is called."""
    head = raw[:3000].lower().replace(b"\0", b"")
    if b"<" not in head and b"mime" not in head:
        return False
    archive = b"mime-version:" in head and b"multipart/related" in head
    return archive or re.search(rb"<(?:!doctype html|html[\s>]|body[\s>])", head) is not None
