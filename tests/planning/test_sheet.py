"""A pattern on paper: `rowteller sheet`, read back from the files themselves."""

import re
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pdfplumber
import pypdfium2
import pytest

from tracker.cli import main
from tracker.load import Loaded, load
from tracker.paper.cautions import CAUTIONS, cautions_for
from tracker.paper.gather import NoSheet, leaf_of
from tracker.paper.pages import pages
from tracker.samples import samples

FILES = samples()


def loaded(name: str, size: str | None = None) -> Loaded:
    """One of our own patterns, worked."""
    return load(name, FILES[name].read_text(encoding="utf-8"), size)


def sheet(*words: str) -> int:
    """One command line."""
    return main(["sheet", *words])


# -- what it says


@pytest.mark.parametrize("name", FILES)
def test_every_row_has_its_box_and_its_count(name: str) -> None:
    """One entry a row, in working order, with the count that check gives; and every sample prints."""
    piece = loaded(name)
    rows = [entry for chapter in leaf_of(piece).chapters for entry in chapter.entries if entry.label]
    assert [entry.label for entry in rows] == [placed.label for _, placed in piece.fabric.rows()]
    assert all(entry.count and entry.boxes for entry in rows)
    assert pages(leaf_of(piece)).startswith(b"%PDF")


def test_a_row_that_repeats_another_names_it() -> None:
    """Ranges too: the words stand once."""
    (chapter,) = leaf_of(loaded("harbour-windows")).chapters
    words = {entry.label: entry.words for entry in chapter.entries}
    assert words["Row 8"] == ("As Row 2.",)
    (chapter, _) = leaf_of(loaded("hearth-mat")).chapters
    words = {entry.label: entry.words for entry in chapter.entries}
    assert words["Row 3"] == ("As Row 2.",)
    assert "(26 dc)" not in words["Row 2"][0]


def test_row_ends_are_told_one_by_one_at_the_edging() -> None:
    """24 along 15 row ends: nine take two and six take one (common practice, no source); both sides of the mat."""
    edging = leaf_of(loaded("hearth-mat")).chapters[1].entries[0]
    ends = [cue for cue in edging.cues if cue.startswith("Row end")]
    assert len(ends) == 30
    assert sum(": two," in cue for cue in ends) == 18
    assert any("draws the edge in" in cue for cue in edging.cues)


def test_a_sheet_shows_one_size() -> None:
    """Figures of the others are left out, in words and notes."""
    text = " ".join(
        words
        for chapter in leaf_of(loaded("stove-lid-cap", "Adult Small")).chapters
        for entry in chapter.entries
        for words in entry.words
    )
    assert "10 dc in ring" in text
    assert "(10, 11)" not in text


def test_ends_and_blocked_sizes_are_there_to_note() -> None:
    """Two ends for each yarn begun; a line for each square's size."""
    twelve = leaf_of(loaded("crossroads-square"))
    assert len(twelve.measured) == 12
    assert twelve.measured[0] == "Square 1"
    assert any("Ends to weave in: 34 (square 2 × 12, Joining 10)." in entry.words for entry in twelve.after)
    assert any("Ends to weave in: 6." in entry.words for entry in leaf_of(loaded("kettle-square")).after)


# -- cautions


def test_each_caution_is_called_for_by_some_words_and_silenced_by_others() -> None:
    """Every row of the table."""
    for row in CAUTIONS:
        calls = {
            "stuff": "Stuff it.",
            "baby": "A baby blanket.",
            "iron": "Press with an iron.",
            "sew": "Sew it.",
        }
        text = next((words for key, words in calls.items() if key in row.when), "")
        assert row.says in cautions_for(text, True), row.when
    assert not any("Open mesh" in words for words in cautions_for("A baby blanket.", False))


def test_a_toy_warns_of_small_parts_once() -> None:
    """In the pattern's words where it has them, else in ours."""
    own = " ".join(leaf_of(loaded("bramble-hedgehog")).cautions)
    assert own.count("choke") == 1
    assert "For a child under three, or one who" not in own
    bear = load("bear", "BEAR\n\nRnd 1: 6 sc in a magic ring. (6 sc)\n\nStuff firmly.\n")
    assert any("embroider" in words for words in leaf_of(bear).cautions)


# -- large print, by the low-vision checklists (accessiblepatternsindex.com, "accessibility tips";
#    snooptiggercrafts.com, checklist of 2020)


@pytest.fixture(scope="module")
def large() -> "pdfplumber.PDF":
    """A large-print sheet as it was written."""
    return pdfplumber.open(BytesIO(pages(leaf_of(loaded("harbour-windows"), large=True), large=True)))


def test_large_print_is_large_black_and_without_serifs(large: "pdfplumber.PDF") -> None:
    """24 points at least, one sans-serif face that is in the file, never italic, black on white."""
    letters = [letter for page in large.pages for letter in page.chars if letter["text"].strip()]
    assert min(round(letter["size"], 1) for letter in letters) >= 24
    faces = {letter["fontname"].split("+")[-1] for letter in letters}
    assert faces <= {"BitstreamVeraSans-Roman", "BitstreamVeraSans-Bold"}
    assert all("+" in letter["fontname"] for letter in letters), "a face that is not embedded"
    assert {tuple(letter["non_stroking_color"] or (0,)) for letter in letters} <= {(0,), (0, 0, 0)}
    assert all(letter["upright"] for letter in letters)
    assert not [box for page in large.pages for box in page.rects if box["fill"]]


def test_large_print_is_one_column_at_the_left_with_an_inch_around(large: "pdfplumber.PDF") -> None:
    """On A4, and on US Letter, which is 50 points shorter."""
    starts = set()
    for page in large.pages:
        for line in page.extract_text_lines():
            starts.add(round(line["x0"] / 4))
            assert line["x0"] >= 70
            assert line["x1"] <= page.width - 71
            assert line["top"] >= 71
            assert line["bottom"] <= 792 - 71
    assert max(starts) - min(starts) <= 1


def test_large_print_has_nothing_at_the_head_or_foot(large: "pdfplumber.PDF") -> None:
    """No line stands on more pages than the rows put it there for: the title is on the first alone."""
    with_title = [page for page in large.pages if "HARBOUR WINDOWS" in (page.extract_text() or "")]
    assert len(with_title) == 1
    assert not any((page.extract_text() or "").strip().isdigit() for page in large.pages)


def test_large_print_writes_out_every_row_and_repeat(large: "pdfplumber.PDF") -> None:
    """No "rep", no star, no "as row", no abbreviation, no chart."""
    text = " ".join(" ".join((page.extract_text() or "").split()) for page in large.pages)
    rows = text.partition("Rows")[2]
    for number in range(1, 16):
        assert f"Row {number}, " in rows
    for short in ("*", " rep ", " dc", " sk ", " sp ", "As Row", " st "):
        assert short not in rows, short
    assert rows.count("Pass 4 of 4.") >= 8
    assert "Chain 3, which counts as 1 double crochet" in rows
    assert not [curve for page in large.pages for curve in page.curves]


@pytest.mark.parametrize("name", ["bramble-hedgehog", "crossroads-square", "stove-lid-cap"])
def test_large_print_of_toys_squares_and_sizes_keeps_to_the_checklist_too(name: str) -> None:
    """The same page, however the piece is made; its title stands on one page, and no number alone."""
    made = pdfplumber.open(BytesIO(pages(leaf_of(loaded(name), large=True), large=True)))
    test_large_print_is_large_black_and_without_serifs(made)
    test_large_print_is_one_column_at_the_left_with_an_inch_around(made)
    assert not [curve for page in made.pages for curve in page.curves]
    assert not any((page.extract_text() or "").strip().isdigit() for page in made.pages)


@pytest.mark.parametrize("name", sorted(samples()))
def test_large_print_spells_out_every_abbreviation(name: str) -> None:
    """In the rows of each pattern of ours; only a stitch that is the pattern's own keeps its name."""
    leaf = leaf_of(loaded(name), large=True)
    rows = " ".join(
        words
        for chapter in leaf.chapters
        for entry in chapter.entries
        for words in (*entry.words, entry.count, *entry.cues)
    )
    short = (
        r"rep|sk|ch|chs|sc|dc|hdc|htr|tr|sps?|sts?|sl|ss|rnds?|RS|WS|beg|inc|dec|tog|[FBfb]P\w+|[a-z]+\dtog"
        r"|blo|flo|BLO|FLO|PM|cl|bo|pc"
    )
    assert re.findall(rf"\b(?:{short})\b|\*", rows) == []


def test_boxes_to_tick_stand_on_every_page_of_rows(large: "pdfplumber.PDF") -> None:
    """One a row and one for everything between."""
    boxes = sum(len(page.rects) for page in large.pages)
    leaf = leaf_of(loaded("harbour-windows"), large=True)
    assert boxes == sum(len(chapter.entries) for chapter in leaf.chapters) + len(leaf.after)


# -- the plain sheet


def test_the_sheet_has_its_chart_behind_the_rows(tmp_path: Path) -> None:
    """Found again by PDFium, which reads the words of both."""
    out = tmp_path / "sheet.pdf"
    assert sheet(str(FILES["kettle-square"]), "-o", str(out)) == 0
    document = pypdfium2.PdfDocument(out.read_bytes())
    assert len(document) == 2
    assert "Rnd 5, right side:" in document[0].get_textpage().get_text_range()
    assert "every round runs counter-clockwise" in document[1].get_textpage().get_text_range()
    assert sheet(str(FILES["kettle-square"]), "-o", str(out), "--no-chart") == 0
    assert len(pypdfium2.PdfDocument(out.read_bytes())) == 1


class Walk(HTMLParser):
    """What a screen reader steps through: headings by level, list items, table headers, boxes with their names."""

    def __init__(self) -> None:
        super().__init__()
        self.headings: list[tuple[str, str]] = []
        self.tags: list[str] = []
        self.boxes: list[str] = []
        self._open = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        self.tags.append(tag + (f" scope={said['scope']}" if "scope" in said else ""))
        if tag == "input":
            assert self._open == "label", "a box outside its label has no name"
            self.boxes.append("")
        if tag == "label":
            self._open = tag
        if tag in ("h1", "h2", "h3"):
            self._open = tag
            self.headings.append((tag, ""))

    def handle_data(self, data: str) -> None:
        if self._open == "label":
            self.boxes[-1] += data
        elif self._open:
            tag, text = self.headings[-1]
            self.headings[-1] = (tag, text + data)

    def handle_endtag(self, tag: str) -> None:
        if tag == self._open:
            self._open = ""


def test_the_web_page_is_walked_by_row(tmp_path: Path) -> None:
    """One h1, an h2 a section, an h3 a row; rows in one list; boxes with names; a table with real headers; no script."""
    out = tmp_path / "sheet.html"
    assert sheet(str(FILES["harbour-windows"]), "-o", str(out)) == 0
    page = out.read_text(encoding="utf-8")
    walk = Walk()
    walk.feed(page)
    assert [text for tag, text in walk.headings if tag == "h1"] == ["HARBOUR WINDOWS"]
    rows = [text for tag, text in walk.headings if tag == "h3"]
    assert rows[:2] == ["Row 1, right side", "Row 2, wrong side"]
    assert len(rows) == 15
    assert walk.boxes.count("Row 3 done") == 1
    assert all(walk.boxes)
    # The row and its words are read once: no heading and no paragraph says again what the name of a box says.
    assert page.count("Fasten off.") == 1
    assert not any("done" in row for row in rows)
    assert '<ol class="rows" role="list">' in page
    assert walk.tags.count("th scope=row") == 15
    assert "th scope=col" in walk.tags
    assert "caption" in walk.tags
    assert "script" not in walk.tags
    assert "http" not in page.replace("http://www.w3.org/2000/svg", "")
    drawing = page[page.index("<svg") : page.index("</svg>") + 6]
    assert ElementTree.fromstring(drawing).get("role") == "img"


def test_a_title_cannot_break_the_page() -> None:
    """Signs that HTML and PDF paragraphs reserve come out harmless."""
    from tracker.paper.webpage import webpage

    piece = load("x", "A <b> & <script>\nCh 3.\nRow 1: Sc in 2nd ch from hook, sc in next ch. (2 sc)\n")
    leaf = leaf_of(piece)
    assert b"<script>" not in webpage(leaf)
    assert pages(leaf).startswith(b"%PDF")


def test_left_handed_and_lines(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a name it is written as lines, for a braille display or a message."""
    assert sheet(str(FILES["kettle-square"]), "--left-handed") == 0
    out = capsys.readouterr().out
    assert "For the left hand." in out
    assert "[ ] Rnd 1, right side: Ch 3" in out


@pytest.mark.parametrize(
    "words, status, says",
    [
        (["nowhere.txt"], 2, "There is no file nowhere.txt"),
        (["{sample}", "-o", "sheet.doc"], 2, "use one of .pdf, .html, .txt"),
        (["{sample}", "-o", "no/such/folder/sheet.pdf"], 2, "cannot be written"),
        (["{sample}", "--rows", "7-3"], 2, "--rows takes two row numbers"),
        (["{sample}", "--rows", "90-99"], 1, "has 15 rows"),
        (["{sample}", "--size", "XL"], 2, "has no size 'XL'"),
    ],
)
def test_each_slip_is_one_sentence(
    words: list[str], status: int, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is so and what to do, on stderr; stdout stays empty."""
    assert sheet(*(word.format(sample=FILES["harbour-windows"]) for word in words)) == status
    out, err = capsys.readouterr()
    assert says in err
    assert out == ""


def test_what_has_no_rows_or_too_many_is_a_sentence() -> None:
    """Never an empty sheet, never a book."""
    with pytest.raises(NoSheet, match="No row was found"):
        leaf_of(load("letter", "Dear friend, the wool has come.\n"))
    long = "SCARF\nCh 3.\nRow 1: Sc in 2nd ch from hook, sc in next ch. (2 sc)\nRows 2-5000: Ch 1, turn, sc in each st across. (2 sc)\n"
    with pytest.raises(NoSheet, match="--rows 1-600"):
        leaf_of(load("scarf", long))
    assert len(leaf_of(load("scarf", long), rows=(4000, 4003)).chapters[0].entries) == 4


def test_the_chart_of_a_long_piece_shows_its_repeat_and_says_so(tmp_path: Path) -> None:
    """Fifty-nine rows of shells on the sheet, five on its chart."""
    out = tmp_path / "sheet.html"
    assert sheet(str(FILES["orchard-shells"]), "-o", str(out)) == 0
    page = out.read_text(encoding="utf-8")
    assert "The rows after Row 5 repeat these; the sheet says which." in page
    drawing = page[page.index("<svg") :]
    assert 'aria-label="5 RS"' in drawing
    assert 'aria-label="6 WS"' not in drawing
    assert sheet(str(FILES["harbour-windows"]), "-o", str(out)) == 0
    assert 'aria-label="15 RS"' in out.read_text(encoding="utf-8")


def test_a_plain_sheet_has_one_line_for_a_row_that_repeats(capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing below it but what is out of the ordinary."""
    assert sheet(str(FILES["orchard-shells"])) == 0
    lines = capsys.readouterr().out.splitlines()
    at = next(nth for nth, line in enumerate(lines) if line.startswith("[ ] Row 10"))
    assert lines[at + 1].startswith("[ ] Row 11")
