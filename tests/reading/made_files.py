"""Pattern files of every kind, made for the tests: PDFs with columns and running heads, documents with lists."""

from collections.abc import Sequence
from pathlib import Path

import docx
from reportlab.lib.pagesizes import A4
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas

ROWS = (
    "Row 1: Dc in 4th ch from hook (skipped ch count as dc), dc in each ch across. (26 dc)",
    "Row 2: Ch 1 (does not count as a st), turn, sc in each st across. (26 sc)",
    "Row 3: Ch 1, turn, *sc in next 2 sts, 2 sc in next st; rep from * to last 2 sts, sc in last 2. (34 sc)",
)


def pdf(file: Path, pages: Sequence[Sequence[tuple[float, float, str]]], password: str = "") -> Path:
    """A PDF with lines of text at places in points from the left and top edge of an A4 page."""
    lock = StandardEncryption(password, canPrint=0) if password else None
    canvas = Canvas(str(file), pagesize=A4, encrypt=lock)
    for page in pages:
        canvas.setFont("Helvetica", 10)
        for left, top, words in page:
            canvas.drawString(left, A4[1] - top, words)
        canvas.showPage()
    canvas.save()
    return file


def column(left: float, top: float, words: str, leading: float = 14) -> list[tuple[float, float, str]]:
    """Lines under one another."""
    return [(left, top + leading * k, line) for k, line in enumerate(words.split("\n")) if line]


def scanned(file: Path) -> Path:
    """A PDF that holds a picture of a page and no letter."""
    canvas = Canvas(str(file), pagesize=A4)
    canvas.rect(60, 60, 300, 500, fill=1)
    canvas.showPage()
    canvas.save()
    return file


def document(file: Path) -> Path:
    """A DOCX with headings, a numbered list, a table, a line break and a tracked change."""
    made = docx.Document()
    made.add_heading("The Saltmarsh Cloth", 0)
    made.add_paragraph("Ch 28.")
    made.add_heading("Cloth", 1)
    first = made.add_paragraph(ROWS[0])
    first.add_run().add_break()
    first.add_run("Row 2: Ch 1 (does not count as a st), turn, sc in each st across. (26 sc)")
    table = made.add_table(rows=0, cols=3)
    for cells in (("Row", "What to do", "Stitches"), ("3", "Ch 1, turn, sc in each st across", "26 sc")):
        for cell, words in zip(table.add_row().cells, cells, strict=True):
            cell.text = words
    made.add_heading("To finish", 1)
    made.add_paragraph("Fasten off.", style="List Number")
    made.add_paragraph("Weave in ends.", style="List Number")
    made.save(str(file))
    return file
