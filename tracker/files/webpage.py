"""A web page as it was saved, as the lines a reader of the page saw.

The text of a page comes in, plain lines go out: paragraphs, headings, list items and rows of tables a line each; what
belongs to the site (scripts, menus, comments, forms) is dropped. Never raises on a page, however broken.
"""

import re
from html.parser import HTMLParser

from tracker.files.cells import lines_of_table
from tracker.files.letters import letters_of

_DROPPED = frozenset(
    (
        "script style nav noscript template svg iframe object button select textarea form footer aside dialog "
        "canvas video audio head math"
    ).split()
)
_VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())
_BLOCKS = frozenset(
    (
        "p div section article main header h1 h2 h3 h4 h5 h6 ul ol li dl dt dd table tr blockquote pre figure "
        "figcaption address details summary center hr fieldset caption"
    ).split()
)
_SPACED = frozenset("p h1 h2 h3 h4 h5 h6 ul ol dl table blockquote pre hr".split())
_OF_THE_SITE = re.compile(
    r"(?:^|[\s_-])(?:comments?|sidebar|related|share|sharing|social|cookie|menu|breadcrumbs?|newsletter|subscribe|advert\w*|ads?|"
    r"popup|pagination|site-?(?:header|footer|nav)|skip-link|screen-reader-text|navigation|widget)(?:$|[\s_-])",
    re.IGNORECASE,
)
_ROW = re.compile(r"^\s*(?:rows?|rnds?|rounds?|r)\.?\s*\d", re.IGNORECASE | re.MULTILINE)
_MARKED = re.compile(r"\s*(?:rows?|rnds?|rounds?|r|\d+)\.?\s*\d*\s*[.:(]", re.IGNORECASE)
DEEPEST = 400
"""Elements within elements that are followed; deeper ones are taken as if they stood at this depth."""


def lines_of_page(text: str) -> str:
    """A page as plain lines; only its main part where the page says which that is and the rows stand in it."""
    whole = _lines(text, main_only=False)
    if re.search(r"<(?:main|article)[\s>]", text, re.IGNORECASE):
        main = _lines(text, main_only=True)
        if len(_ROW.findall(main)) >= len(_ROW.findall(whole)) and main.strip():
            return main
    return whole


def page_in_archive(raw: bytes) -> str | None:
    """The page inside a web archive (.mhtml), None when the bytes are no such thing."""
    head = raw[:3000].lower()
    if b"mime-version:" not in head or b"multipart/related" not in head:
        return None
    import email
    import email.policy

    message = email.message_from_bytes(raw, policy=email.policy.default)
    for part in message.walk():
        if part.get_content_type() == "text/html":
            body = part.get_payload(decode=True)
            if isinstance(body, bytes):
                return letters_of(body, "the page", page=True)
    return None


def _lines(text: str, main_only: bool) -> str:
    reader = _Reader(main_only)
    reader.feed(text)
    reader.close()
    reader.end_line()
    out: list[str] = []
    for line in reader.lines:
        if line or out and out[-1]:
            out.append(line)
    return "\n".join(out).strip("\n") + "\n"


class _Cell:
    """What a cell of a table holds so far."""

    def __init__(self, table: int) -> None:
        self.table = table
        """How many tables were open when it began."""
        self.words: list[str] = []
        self.of_links = 0
        """Letters that stand in links."""

    def add(self, words: str, linked: bool) -> None:
        self.words.append(words)
        self.of_links += len(words.strip()) if linked else 0

    def text(self) -> str:
        """Its lines, without blanks around them."""
        return "\n".join(" ".join(line.split()) for line in "".join(self.words).split("\n"))

    def is_menu(self) -> bool:
        """True when next to all of it are links."""
        letters = sum(len(words.strip()) for words in self.words)
        return letters > 20 and self.of_links > letters * 0.8


_LAID_OUT = 4
"""Line breaks in a cell from which on it lays out the page: what stands in a row of a pattern has fewer."""


class _Reader(HTMLParser):
    def __init__(self, main_only: bool) -> None:
        super().__init__(convert_charrefs=True)
        self.lines: list[str] = []
        self.line: list[str] = []
        self.open: list[tuple[str, bool]] = []
        """Elements that are open, and whether each drops what it holds."""
        self.dropping = 0
        self.main = 0 if main_only else 1
        self.pre = 0
        self.counters: list[int | None] = []
        """For each list that is open: the number of its last item, None when it is not numbered."""
        self.tables: list[list[list[str]]] = []
        self.cells: list[_Cell] = []
        """Cells that are open, one for each table within a table."""

    @property
    def cell(self) -> "_Cell | None":
        """The cell that takes what is read now."""
        return self.cells[-1] if self.cells else None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = {name: value or "" for name, value in attrs}
        if tag == "br" or tag == "hr":
            self.end_line()
        if tag in _VOID:
            return
        if tag in ("li", "p", "tr", "td", "th", "dt", "dd", "option"):
            self._close_left_open(tag)
        drops = tag in _DROPPED or _hidden(said) or self._is_the_sites(tag, said)
        if len(self.open) < DEEPEST:
            self.open.append((tag, drops))
            self.dropping += drops
        if drops or self.dropping:
            return
        if tag in ("main", "article"):
            self.main += 1
        self.begin_block(tag)
        if tag == "pre":
            self.pre += 1
        elif tag in ("ul", "ol"):
            start = said.get("start", "1")
            self.counters.append(
                int(start) - 1 if start.isdigit() and len(start) < 6 else 0
            ) if tag == "ol" else self.counters.append(None)
        elif tag == "li" and self.counters and self.counters[-1] is not None:
            self.counters[-1] += 1
        elif tag == "table":
            self.tables.append([])
        elif tag == "tr" and self.tables:
            self.tables[-1].append([])
        elif tag in ("td", "th") and self.tables and self.tables[-1]:
            self.cells.append(_Cell(len(self.tables)))

    def handle_endtag(self, tag: str) -> None:
        if tag in _VOID or not any(name == tag for name, _ in self.open):
            if tag in ("p", "br"):
                self.end_line()
            return
        while self.open:
            name, drops = self.open.pop()
            if drops:
                self.dropping -= 1
            elif not self.dropping:
                self._ended(name)
            if name == tag:
                return

    def handle_data(self, data: str) -> None:
        if self.dropping or not self.main:
            return
        if self.cell is not None:
            linked = any(name == "a" for name, _ in self.open)
            self.cell.add(data if self.pre else " ".join(data.split("\n")), linked)
        elif self.pre:
            first, *more = data.split("\n")
            self.line.append(first)
            for each in more:
                self.end_line()
                self.line.append(each)
        else:
            self.line.append(data)

    def begin_block(self, tag: str) -> None:
        if tag in _BLOCKS:
            self.end_line()
            if tag in _SPACED and self.cell is None and self.lines and self.lines[-1]:
                self.lines.append("")

    def end_line(self) -> None:
        """What was gathered becomes a line."""
        if self.cell is not None:
            self.cell.add("\n", False)
            return
        words = "".join(self.line)
        self.line = []
        words = words.rstrip() if self.pre else " ".join(words.split())
        if words.strip():
            self.lines.append(words)

    def _ended(self, tag: str) -> None:
        if tag in ("main", "article"):
            self.main -= 1
        elif tag == "pre":
            self.end_line()
            self.pre -= 1
        elif tag == "li" and self.cell is None:
            self._end_item()
        elif tag in ("ul", "ol"):
            self.end_line()
            if self.counters:
                self.counters.pop()
        elif tag in ("td", "th"):
            self._end_cell()
            return
        elif tag == "table" and self.tables:
            self._end_table()
        if tag in _BLOCKS:
            self.end_line()
            if tag in _SPACED and self.cell is None and self.lines and self.lines[-1]:
                self.lines.append("")

    def _end_cell(self) -> None:
        """What a cell holds goes into its table, unless it is a menu."""
        if self.cells and self.cells[-1].table == len(self.tables) and self.tables[-1]:
            cell = self.cells.pop()
            self.tables[-1][-1].append("" if cell.is_menu() else cell.text())

    def _end_table(self) -> None:
        """A table of rows a line each; one that lays out the page cell by cell."""
        rows = self.tables.pop()
        if not self.main:
            return
        lays_out = any(cell.strip().count("\n") >= _LAID_OUT for row in rows for cell in row)
        if lays_out:
            lines = [line for row in rows for cell in row for line in cell.split("\n")]
        else:
            lines = lines_of_table([[" ".join(cell.split()) for cell in row] for row in rows])
        if self.cell is not None:
            self.cell.add("\n" + "\n".join(lines) + "\n", False)
        else:
            self.lines += lines

    def _end_item(self) -> None:
        number = self.counters[-1] if self.counters else None
        words = " ".join("".join(self.line).split())
        if number is not None and words and not _MARKED.match(words):
            self.line.insert(0, f"{number}. ")
        self.end_line()

    def _close_left_open(self, tag: str) -> None:
        """Ends an item, paragraph or cell that the page left open before the next one of its kind."""
        stops = {"li": ("ul", "ol"), "p": ("div", "td", "th", "li", "body", "section", "article", "main", "blockquote"),
                 "dt": ("dl",), "dd": ("dl",)}.get(tag, ("table",))  # fmt: skip
        same = ("td", "th") if tag in ("td", "th") else ("dt", "dd") if tag in ("dt", "dd") else (tag,)
        for name, _ in reversed(self.open):
            if name in same:
                self.handle_endtag(name)
                return
            if name in stops:
                return

    def _is_the_sites(self, tag: str, said: dict[str, str]) -> bool:
        if tag in ("html", "body", "main", "article", "td", "tr", "table", "tbody"):
            return False
        if tag == "header" and not any(name in ("main", "article") for name, _ in self.open):
            return said.get("role") == "banner" or "site" in said.get("class", "")
        return said.get("role") in ("navigation", "complementary", "contentinfo", "search", "dialog") or (
            _OF_THE_SITE.search(f"{said.get('id', '')} {said.get('class', '')}") is not None
        )


def _hidden(said: dict[str, str]) -> bool:
    style = said.get("style", "").replace(" ", "").lower()
    return "hidden" in said or said.get("aria-hidden") == "true" or "display:none" in style
