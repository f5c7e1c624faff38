"""A PDF as text.

The bytes of a file come in; its text goes out. A file that holds pictures of pages, that is locked, or that is broken
is Unreadable; what is written sideways (marks of a shop, a margin) is passed over.
"""

import io

from tracker.files.columns import Sheet, Word, text_of_sheets
from tracker.files.letters import Unreadable

_NO_LETTERS = {"(cid:127)": "•", "(cid:129)": "•", "(cid:149)": "•", "(cid:183)": "•"}
"""Signs that a file has no letter for, by the number they are drawn by: those of bullets."""
MOST_PAGES = 300
"""A pattern has a few; what follows is not read, and the text says so at its end."""


def text_of_pdf(raw: bytes, name: str) -> str:
    """The text of a PDF, page after page."""
    try:
        import pdfplumber
        from pdfminer.pdfdocument import PDFEncryptionError, PDFPasswordIncorrect, PDFTextExtractionNotAllowed
        from pdfplumber.utils.exceptions import PdfminerException
    except ImportError:
        raise Unreadable(
            f"{name} is a PDF, and what reads those is not installed; install it with: pip install 'rowteller[files]'."
        ) from None
    locked = (PDFPasswordIncorrect, PDFEncryptionError, PDFTextExtractionNotAllowed)
    sheets: list[Sheet] = []
    try:
        with pdfplumber.open(io.BytesIO(raw)) as document:
            pages = len(document.pages)
            for page in document.pages[:MOST_PAGES]:
                # a page that is not cut out of the whole keeps every one of its letters in memory
                sheets.append(_sheet(page))
                page.close()
    except MemoryError:
        raise
    except Exception as fault:  # the library raises whatever a broken file leads it into
        cause = fault.args[0] if isinstance(fault, PdfminerException) and fault.args else fault
        if isinstance(cause, locked):
            raise Unreadable(f"{name} is locked with a password; save an unlocked copy of it.") from None
        raise Unreadable(
            f"{name} is damaged and cannot be read as a PDF; fetch it anew, or copy its text out."
        ) from None
    if not any(sheet.words for sheet in sheets):
        raise Unreadable(
            f"{name} holds no text, only pictures of its pages; have a program recognise the text, or type it out."
        )
    text = text_of_sheets(sheets)
    if pages > MOST_PAGES:
        text += f"\nThe file goes on for {pages - MOST_PAGES} pages more, which were not read.\n"
    return text


def _sheet(page: "object") -> Sheet:
    upright = page.filter(lambda thing: thing.get("object_type") != "char" or thing.get("upright", True))  # type: ignore[attr-defined]
    words = upright.extract_words(x_tolerance_ratio=0.15, keep_blank_chars=False, use_text_flow=False)
    return Sheet(
        tuple(
            Word(
                _NO_LETTERS.get(w["text"], w["text"]),
                float(w["x0"]),
                float(w["x1"]),
                float(w["top"]),
                float(w["bottom"]),
            )
            for w in words
            if w["text"].strip()
        ),
        float(page.height),  # type: ignore[attr-defined]
    )
