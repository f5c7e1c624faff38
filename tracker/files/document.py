"""A word processor's document (DOCX) as text.

The bytes of a file come in; its paragraphs, lists with their numbers, and tables go out as lines. Words that were
struck out in a tracked change are left out, words put in are there.
"""

import io
import re
import zipfile
from collections.abc import Iterator
from typing import Any

from tracker.files.cells import lines_of_table
from tracker.files.letters import Unreadable

LARGEST_UNPACKED = 300_000_000
"""Bytes of all parts together; no document is larger, and a small file may unpack into anything."""
_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def text_of_docx(raw: bytes, name: str) -> str:
    """The text of a document."""
    try:
        import docx
    except ImportError:
        raise Unreadable(
            f"{name} is a document, and what reads those is not installed; "
            "install it with: pip install 'rowteller[files]'."
        ) from None
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as parts:
            if sum(part.file_size for part in parts.infolist()) > LARGEST_UNPACKED:
                raise Unreadable(f"{name} is too large; save the pattern alone, as text.")
            if "word/document.xml" not in parts.namelist():
                raise Unreadable(f"{name} is no DOCX; open it and save the pattern as text, DOCX or PDF.")
        document = docx.Document(io.BytesIO(raw))
        lines = list(_lines(document.element.body, _Numbering(document)))
    except Unreadable:
        raise
    except MemoryError:
        raise
    except Exception:  # the library raises whatever a broken file leads it into
        raise Unreadable(f"{name} is damaged and cannot be read; open it and save it anew.") from None
    text = "\n".join(lines).strip("\n")
    if not text.strip():
        raise Unreadable(
            f"{name} holds no text; if the pattern is a picture in it, have the text recognised or type it out."
        )
    return text + "\n"


def _lines(body: Any, numbering: "_Numbering") -> Iterator[str]:
    for block in body:
        if block.tag == f"{_W}p":
            style = _style(block)
            heading = style.lower().replace(" ", "").startswith(("heading", "title"))
            words = _words(block)
            if heading and words.strip():
                yield ""
            yield numbering.of(block, words) + words
            if heading and words.strip():
                yield ""
        elif block.tag == f"{_W}tbl":
            yield from lines_of_table(
                [_words_of_cell(cell) for cell in row.iter(f"{_W}tc")] for row in block.iter(f"{_W}tr")
            )
        elif block.tag in (f"{_W}sdt", f"{_W}sdtContent", f"{_W}ins", f"{_W}customXml"):
            yield from _lines(block, numbering)


def _words_of_cell(cell: Any) -> str:
    return " ".join(_words(paragraph) for paragraph in cell.iter(f"{_W}p"))


def _words(paragraph: Any) -> str:
    """The text of a paragraph; a line break within it is a line break."""
    out: list[str] = []
    for piece in paragraph.iter():
        tag = piece.tag
        if tag == f"{_W}t":
            out.append(piece.text or "")
        elif tag == f"{_W}tab" and piece.getparent().tag == f"{_W}r":
            out.append("    ")
        elif tag in (f"{_W}br", f"{_W}cr"):
            out.append("\n")
        elif tag == f"{_W}noBreakHyphen":
            out.append("-")
    return "".join(out)


def _style(paragraph: Any) -> str:
    found = paragraph.find(f"{_W}pPr/{_W}pStyle")
    return "" if found is None else str(found.get(f"{_W}val") or "")


class _Numbering:
    """The numbers that a document gives to the items of its lists."""

    def __init__(self, document: Any) -> None:
        self.at: dict[tuple[str, int], int] = {}
        self.levels: dict[tuple[str, int], tuple[str, str, int]] = {}
        """For each list and level: its kind of number, the text around it, its first number."""
        self.styles: dict[str, tuple[str, int]] = {}
        for style in document.styles.element.iter(f"{_W}style"):
            number = style.find(f"{_W}pPr/{_W}numPr/{_W}numId")
            if number is not None:
                self.styles[str(style.get(f"{_W}styleId"))] = (str(number.get(f"{_W}val")), 0)
        try:
            root = document.part.numbering_part.element
        except (KeyError, NotImplementedError, AttributeError):
            return  # a document without lists
        kinds = {str(kind.get(f"{_W}abstractNumId")): kind for kind in root.iter(f"{_W}abstractNum")}
        for one in root.iter(f"{_W}num"):
            link = one.find(f"{_W}abstractNumId")
            kind = kinds.get(str(link.get(f"{_W}val"))) if link is not None else None
            for level in kind.iter(f"{_W}lvl") if kind is not None else ():
                said = {name: _value(level, name) for name in ("numFmt", "lvlText", "start")}
                start = said["start"]
                self.levels[str(one.get(f"{_W}numId")), int(level.get(f"{_W}ilvl") or 0)] = (
                    said["numFmt"], said["lvlText"], int(start) if start.isdigit() else 1,
                )  # fmt: skip

    def of(self, paragraph: Any, words: str) -> str:
        """What the document prints before an item: "1. ", "Row 3: ", or nothing."""
        number = paragraph.find(f"{_W}pPr/{_W}numPr")
        if number is not None:
            key = (_value(number, "numId"), int(_value(number, "ilvl") or 0))
        elif (style := self.styles.get(_style(paragraph))) is not None:
            key = style
        else:
            return ""
        kind, around, start = self.levels.get(key, ("bullet", "", 1))
        if kind != "decimal" or not words.strip():
            return ""
        self.at[key] = self.at.get(key, start - 1) + 1
        if re.match(r"\s*(?:rows?|rnds?|rounds?|r)\.?\s*\d", words, re.IGNORECASE):
            return ""
        label = re.sub(r"%\d", str(self.at[key]), around) if around else f"{self.at[key]}."
        return f"{label} "


def _value(element: Any, name: str) -> str:
    found = element.find(f"{_W}{name}")
    return "" if found is None else str(found.get(f"{_W}val") or "")
