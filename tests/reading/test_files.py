"""Patterns are read from whatever file they come in, and a file that cannot be read says so in one sentence."""

import io
import sys
import textwrap
import zipfile
from html import escape
from pathlib import Path

import docx
import pytest
from corpus_cases import Case, cases
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from made_files import ROWS, column, document, pdf, scanned

from tracker.files import Unreadable, text_of
from tracker.files.columns import Sheet, Word, text_of_sheets
from tracker.files.markdown import plain
from tracker.files.webpage import lines_of_page
from tracker.load import load

GOOD = [case for case in cases("practice") if case.name in ("post_rib_cuff", "ripple_dc", "granny_square")]


def rows(text: str) -> list[tuple[str, dict[str, int], bool]]:
    """Every row of a pattern with what it makes."""
    fabric = load("a pattern", text).fabric
    return [(placed.label, placed.worked.makes, placed.worked.understood) for _, placed in fabric.rows()]


def fault(path: Path) -> str:
    """The sentence that stands between a maker and their text."""
    with pytest.raises(Unreadable) as told:
        text_of(str(path))
    sentence = str(told.value)
    assert "\n" not in sentence
    assert sentence.endswith(".")
    return sentence


# -- plain text


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252", "latin-1"]
)
def test_plain_text_is_read_in_any_common_encoding(tmp_path: Path, encoding: str) -> None:
    """With its mark or without one; “×” and “½” are in all of these."""
    words = "Café cloth, 5½ mm\nRow 1: (sc, ch 1) × 6. (12 sts)\n"
    (tmp_path / "cloth.txt").write_bytes(words.encode(encoding))
    assert text_of(str(tmp_path / "cloth.txt")) == ("cloth.txt", words)


def test_curly_quotes_as_windows_wrote_them_are_read(tmp_path: Path) -> None:
    """0x91 to 0x97 are controls in Latin-1 and quotes and dashes in Windows' letters."""
    (tmp_path / "old.txt").write_bytes(b"\x93Moss\x94 stitch \x96 24 sts")
    assert text_of(str(tmp_path / "old.txt"))[1] == "“Moss” stitch – 24 sts"


def test_a_text_cut_in_the_middle_of_a_letter_is_still_utf_8(tmp_path: Path) -> None:
    """What came before the cut is as it was."""
    (tmp_path / "cut.txt").write_bytes("Row 1: 6 sc × 2 ×".encode()[:-1])
    assert text_of(str(tmp_path / "cut.txt"))[1] == "Row 1: 6 sc × 2 "


def test_standard_input_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    """The path for it is a hyphen."""

    class Given:
        buffer = io.BytesIO(ROWS[0].encode())

    monkeypatch.setattr(sys, "stdin", Given)
    assert text_of("-") == ("standard input", ROWS[0])


def test_a_text_longer_than_any_pattern_is_cut_and_says_so(tmp_path: Path) -> None:
    """Ten megabytes are read, and the last line tells of the rest."""
    (tmp_path / "long.txt").write_bytes(b"Row 1: sc in each st.\n" * 600_000)
    text = text_of(str(tmp_path / "long.txt"))[1]
    assert len(text) < 10_000_300
    assert text.strip().rsplit("\n", 1)[-1].startswith("The text goes on here and was cut")


# -- what cannot be read


def test_whatever_is_no_pattern_says_so_in_a_sentence(tmp_path: Path) -> None:
    """A missing file, a folder, a picture, a scanned and a locked PDF, junk."""
    assert "There is no file" in fault(tmp_path / "none.txt")
    assert "is a folder" in fault(tmp_path)
    assert "holds no text" in fault(scanned(tmp_path / "scan.pdf"))
    assert "locked with a password" in fault(pdf(tmp_path / "lock.pdf", [column(60, 100, ROWS[0])], "secret"))
    for name, raw, told in (
        ("cut.pdf", b"%PDF-1.7\n1 0 obj\n<<", "damaged"),
        ("photo.jpg", b"\xff\xd8\xff\xe0\0\x10JFIF", "is a picture"),
        ("locked.docx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(100), "locked with a password"),
        ("cut.docx", b"PK\x03\x04" + bytes(60), "damaged"),
        ("rich.rtf", b"{\\rtf1 Row 1}", "rich text"),
        ("program", b"\x7fELF\x02\x01\x01\0" + bytes(range(256)), "is no text"),
    ):
        (tmp_path / name).write_bytes(raw)
        assert told in fault(tmp_path / name)


def test_a_name_no_file_can_have_is_a_sentence() -> None:
    """A NUL in it is refused by the system."""
    with pytest.raises(Unreadable, match="cannot be read"):
        text_of("row\0.txt")


@pytest.mark.parametrize("library, made", [("pdfplumber", scanned), ("docx", document)])
def test_a_missing_library_says_what_to_install(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, library: str, made: "type[scanned]"
) -> None:
    """The extra is named as pip wants it."""
    file = made(tmp_path / f"a.{library}")
    monkeypatch.setitem(sys.modules, library, None)
    assert "pip install 'rowteller[files]'" in fault(file)


def test_another_program_s_archive_is_no_document(tmp_path: Path) -> None:
    """A zip with something else in it."""
    with zipfile.ZipFile(tmp_path / "a.odt", "w") as archive:
        archive.writestr("content.xml", "<office/>")
    assert "is no DOCX" in fault(tmp_path / "a.odt")


# -- PDF

LEFT = """Ch 28.
Row 1: Dc in 4th ch from hook
(skipped ch count as dc), dc in each
ch across. (26 dc)
Row 2: Ch 1 (does not count as a
st), turn, sc in each st across.
(26 sc)"""
RIGHT = """Row 3: Ch 1, turn, single cro-
chet in each st across. (26 sc)
Row 4: Ch 3, turn, work front-
post dc around next st, (dc, ch-
2, dc) in next st.
Fasten off."""


def two_columns(number: int, right_top: float) -> list[tuple[float, float, str]]:
    """A page with running head and foot, a line across, and two columns under it."""
    return [
        (60, 30, "Saltmarsh Designs"),
        (480, 30, f"page {number}"),
        (60, 100, "This is what the cloth looks like, told in one line that goes across both columns of it."),
        *column(60, 130, LEFT),
        *column(320, right_top, RIGHT),
        (60, 815, "For your own use only"),
        (300, 830, str(number)),
    ]


@pytest.mark.parametrize("right_top", [130, 137, 123.5])
def test_columns_are_read_one_after_the_other(tmp_path: Path, right_top: float) -> None:
    """Whether their lines stand level or not; words broken at a line's end are mended, heads and feet are gone."""
    text = text_of(str(pdf(tmp_path / "two.pdf", [two_columns(1, right_top), two_columns(2, right_top)])))[1]
    words = " ".join(text.split())
    assert "across. (26 dc) Row 2: Ch 1 (does not count as a st), turn" in words
    assert "(26 sc) Row 3: Ch 1, turn, single crochet in each st" in words
    assert "work front-post dc around next st, (dc, ch-2, dc) in next st. Fasten off." in words


def test_a_row_that_goes_on_in_the_next_column_or_on_the_next_page_is_one_row(tmp_path: Path) -> None:
    """In a bracket, behind a comma or a colon; and the last column may be a line long. Counts by hand."""
    one = "Cuff\n\nCh 13.\nRow 1: Sc in 2nd ch from hook, sc in next\n11 ch. (12 sc)\nRow 2: Ch 1, turn. Next 4 sts:"
    two = "sc. Next 4 sts: hdc. Last 4 sts: sc. (8 sc,\n4 hdc)\nRow 3: Ch 1, turn, sc in next 5 sts, ch 2, sk"
    three = "2 sts, sc in last 5 sts. (10 sc, 1 ch-2 sp)\nRow 4: Ch 1, turn, sc in next 5 sc, 2 sc in\nsp, sc in last 5 sc. (12"
    pages = [[*column(60, 100, one), *column(320, 100, two)], [*column(60, 100, three), (320, 100, "sc)")]]
    told = rows(text_of(str(pdf(tmp_path / "on.pdf", pages)))[1])
    assert [makes for _, makes, _ in told] == [
        {"sc": 12}, {"sc": 8, "hdc": 4}, {"sc": 10, "ch-2 sp": 1}, {"sc": 12},
    ]  # fmt: skip
    assert all(understood for *_, understood in told)


def test_heads_feet_and_page_numbers_are_dropped(tmp_path: Path) -> None:
    """What stands at the edge of every page; a row that stands there stays."""
    pages = [
        [*two_columns(n, 130), (60, 62, f"Row {n + 5}: Ch 1, turn, sc in each st across.")] for n in (1, 2, 3)
    ]
    text = text_of(str(pdf(tmp_path / "heads.pdf", pages)))[1]
    assert "Saltmarsh" not in text
    assert "own use" not in text
    assert "page 2" not in text
    assert [line for line in text.split("\n") if line.strip().isdigit()] == []
    assert "Row 6:" in text
    assert "Row 8:" in text


def test_a_small_line_above_the_title_of_a_single_page_is_no_title() -> None:
    """The name of a magazine's section, which only one page shows, is a running head too."""
    words = [
        Word("Winter", 60, 90, 30, 38),
        Word("issue", 94, 120, 30, 38),
        Word("Fern", 60, 120, 60, 82),
        Word("Mitts", 130, 200, 60, 82),
        *(Word(f"Row{n}:", 60, 90, 110 + 16 * n, 120 + 16 * n) for n in range(4)),
    ]
    assert text_of_sheets([Sheet(tuple(words), 842.0)]).split("\n")[0] == "Fern Mitts"
    named = [Word("UK", 60, 90, 30, 38), Word("terms", 94, 120, 30, 38), *words[2:]]
    assert text_of_sheets([Sheet(tuple(named), 842.0)]).split("\n")[0] == "UK terms"


def test_a_table_is_not_taken_for_columns(tmp_path: Path) -> None:
    """A narrow first column belongs to what stands beside it."""
    page = [(60, 200, "Row"), (140, 200, "What to do"), (480, 200, "Stitches")]
    for n in range(1, 9):
        page += [
            (60, 200 + 16 * n, f"Row {n}:"),
            (140, 200 + 16 * n, "Ch 1, turn, sc in each st across."),
            (480, 200 + 16 * n, "(26 sc)"),
        ]
    text = text_of(str(pdf(tmp_path / "table.pdf", [page])))[1]
    assert [" ".join(line.split()) for line in text.split("\n")][
        1
    ] == "Row 1: Ch 1, turn, sc in each st across. (26 sc)"


@pytest.mark.parametrize("case", GOOD, ids=[case.name for case in GOOD])
def test_a_pattern_is_the_same_out_of_every_kind_of_file(tmp_path: Path, case: Case) -> None:
    """Out of a PDF in one column and in two, a document, a page, Markdown: the rows and their counts agree."""
    lines = case.text.split("\n")
    wrapped = [piece for line in lines for piece in (textwrap.wrap(line, 52) or [""])]
    half = len(wrapped) // 2
    while wrapped[half].strip():
        half -= 1
    narrow = [
        *column(50, 120, "\n".join(wrapped[:half]), 12),
        *column(320, 120, "\n".join(wrapped[half:]), 12),
    ]
    made = docx.Document()
    for line in lines:
        made.add_paragraph(line)
    made.save(str(tmp_path / "a.docx"))
    page = "<html><head><script>var rows = 3;</script></head><body><nav>Home</nav>"
    for block in escape(case.text).split("\n\n"):
        page += f"<p>{'<br>'.join(block.splitlines())}</p>"
    (tmp_path / "a.html").write_text(page, encoding="utf-8")
    (tmp_path / "a.md").write_text(case.text.replace("*", "\\*"), encoding="utf-8")
    pdf(tmp_path / "one.pdf", [column(50, 120, case.text, 13)])
    pdf(tmp_path / "two.pdf", [narrow])
    wanted = rows(case.text)
    for name in ("a.docx", "a.html", "a.md", "one.pdf", "two.pdf"):
        assert rows(text_of(str(tmp_path / name))[1]) == wanted, name


# -- documents


def test_a_document_keeps_its_lists_tables_and_line_breaks(tmp_path: Path) -> None:
    """Numbers that the word processor gives are written out; a table's row is a row."""
    lines = text_of(str(document(tmp_path / "a.docx")))[1].split("\n")
    assert "The Saltmarsh Cloth" in lines
    assert "Row 2: Ch 1 (does not count as a st), turn, sc in each st across. (26 sc)" in lines
    assert "Row 3: Ch 1, turn, sc in each st across (26 sc)" in lines
    assert "2. Weave in ends." in lines


def test_tracked_changes_are_read_as_they_would_be_accepted(tmp_path: Path) -> None:
    """Words put in are there, words struck out are not."""
    made = docx.Document()
    paragraph = made.add_paragraph("Row 1: Sc in next ")
    for tag, inside, words in (("w:del", "w:delText", "7"), ("w:ins", "w:t", "8")):
        change, run, text = OxmlElement(tag), OxmlElement("w:r"), OxmlElement(inside)
        text.text = words
        run.append(text)
        change.append(run)
        paragraph._p.append(change)
    paragraph.add_run(" sts.")
    made.save(str(tmp_path / "a.docx"))
    assert text_of(str(tmp_path / "a.docx"))[1] == "Row 1: Sc in next 8 sts.\n"


def test_a_document_that_numbers_its_rows_by_itself_is_read_with_them(tmp_path: Path) -> None:
    """The label of a list may be "Row %1:"."""
    made = docx.Document()
    numbering = made.part.numbering_part.element
    style = (
        made.styles["List Number"]
        .element.find(qn("w:pPr"))
        .find(qn("w:numPr"))
        .find(qn("w:numId"))
        .get(qn("w:val"))
    )
    num = next(n for n in numbering.iter(qn("w:num")) if n.get(qn("w:numId")) == style)
    wanted = num.find(qn("w:abstractNumId")).get(qn("w:val"))
    kind = next(k for k in numbering.iter(qn("w:abstractNum")) if k.get(qn("w:abstractNumId")) == wanted)
    next(kind.iter(qn("w:lvlText"))).set(qn("w:val"), "Row %1:")
    for words in ("Sc in each ch across.", "Ch 1, turn, sc in each st across."):
        made.add_paragraph(words, style="List Number")
    made.save(str(tmp_path / "a.docx"))
    assert text_of(str(tmp_path / "a.docx"))[1].split("\n")[1] == "Row 2: Ch 1, turn, sc in each st across."


def test_a_document_without_a_word_says_so(tmp_path: Path) -> None:
    """A picture pasted into a document is no text."""
    docx.Document().save(str(tmp_path / "a.docx"))
    assert "holds no text" in fault(tmp_path / "a.docx")


# -- web pages

PAGE = """<!DOCTYPE html><html><head><meta charset="utf-8"><title>Cloth - A Blog</title>
<style>p {color: red}</style><script>let row = "Row 9: sc";</script></head>
<body><header class="site-header">My Blog</header><nav><ul><li>Home</li><li>Shop</li></ul></nav>
<main><article><h1>The Saltmarsh Cloth</h1><div class="share-buttons">Pin it!</div>
<p>Ch&nbsp;28.<br>Row 1: <b>Dc</b> in 4th ch from hook, dc in each
 ch across. (26&#32;dc)</p>
<ul><li>Row 2: Ch 1, turn, <i>sc</i> in each st across.<li>Row 3: Ch&nbsp;1, turn, *sc, ch 1; rep from * &times; 3.</ul>
<table><tr><th>Row</th><th>Work</th><th>Sts</th></tr><tr><td>4<td>Ch 1, turn, sc across<td>26</tr></table>
<ol><li>Fasten off.</li><li>Weave in ends.</li></ol>
<p style="display: none">Row 99: hidden</p></article></main>
<section id="comments"><p>Row 1: I love it!</p></section><footer>(c) My Blog</footer></body></html>"""


def test_a_saved_page_gives_its_lines_and_nothing_of_the_site() -> None:
    """Scripts, menus, comments and what is hidden are gone; items, breaks and rows of tables are lines."""
    assert [line for line in lines_of_page(PAGE).replace("\xa0", " ").split("\n") if line] == [
        "The Saltmarsh Cloth",
        "Ch 28.",
        "Row 1: Dc in 4th ch from hook, dc in each ch across. (26 dc)",
        "Row 2: Ch 1, turn, sc in each st across.",
        "Row 3: Ch 1, turn, *sc, ch 1; rep from * × 3.",
        "Row 4: Ch 1, turn, sc across (26)",
        "1. Fasten off.",
        "2. Weave in ends.",
    ]


def test_a_page_says_its_own_encoding(tmp_path: Path) -> None:
    """In its head, as the standard of the web has it."""
    page = '<html><head><meta charset="iso-8859-1"></head><body><p>Caf\xe9: ch 3 \xd7 2</p></body></html>'
    (tmp_path / "a.htm").write_bytes(page.encode("latin-1"))
    assert text_of(str(tmp_path / "a.htm"))[1] == "Café: ch 3 × 2\n"


def test_a_page_saved_as_one_file_is_read(tmp_path: Path) -> None:
    """As browsers write web archives (RFC 2557)."""
    archive = (
        'From: <Saved>\r\nMIME-Version: 1.0\r\nContent-Type: multipart/related; type="text/html"; boundary="B"\r\n\r\n'
        "--B\r\nContent-Type: text/html\r\nContent-Transfer-Encoding: quoted-printable\r\n\r\n"
        "<html><body><p>Row 1: 6 sc in ring. =C3=97 2</p></body></html>\r\n--B--\r\n"
    )
    (tmp_path / "a.mhtml").write_bytes(archive.encode())
    assert text_of(str(tmp_path / "a.mhtml"))[1] == "Row 1: 6 sc in ring. × 2\n"


def test_a_page_however_broken_or_deep_is_read() -> None:
    """Ten thousand elements within each other, none of them closed."""
    assert "Row 1: sc" in lines_of_page("<div><b>" * 10_000 + "Row 1: sc</i></table><td><li")


# -- Markdown


@pytest.mark.parametrize(
    "written, told",
    [
        ("# Cloth\n\n## Body", "Cloth\n\nBody"),
        ("Cloth\n=====\nCh 3.", "Cloth\n\nCh 3."),
        ("- Row 1: sc.\n* Row 2: sc.\n+ [x] Row 3: sc.", "Row 1: sc.\nRow 2: sc.\nRow 3: sc."),
        ("**Row 1:** *sc, ch 1; rep from * across.", "Row 1: *sc, ch 1; rep from * across."),
        ("* sc, ch 1; rep from * across.", "* sc, ch 1; rep from * across."),
        ("*sc**, ch 1; rep from * 3 times, ending at **.", "*sc**, ch 1; rep from * 3 times, ending at **."),
        (
            "**Sc in next, *ch 1; rep from * twice; rep from ** across.",
            "**Sc in next, *ch 1; rep from * twice; rep from ** across.",
        ),
        (
            "**3:** Ch 1, *sc**, ch 1; rep from * twice, ending at **.",
            "3: Ch 1, *sc**, ch 1; rep from * twice, ending at **.",
        ),
        ("\\*sc, ch 1; rep from \\* across.", "*sc, ch 1; rep from * across."),
        ("_Note:_ see [the chart](https://example.org/a_b).", "Note: see the chart."),
        ("| Row | Work | Sts |\n|---|---|---|\n| 1 | sc across | 24 |", "Row 1: sc across (24)"),
        ("| Row | Work |\n|---|---|\n| Next 2 rnds | As Rnd 6 |", "Next 2 rnds: As Rnd 6"),
        ("> Row 1: sc.\n\n***\n\nRow 2: sc.", "Row 1: sc.\n\nRow 2: sc."),
    ],
)
def test_markdown_loses_its_signs_and_keeps_the_stars_of_repeats(written: str, told: str) -> None:
    """A star means a repeat wherever the row goes back to it."""
    assert plain(written) == told
