"""A worked pattern as a sheet: what a maker needs on the table, in working order. A Loaded comes in, a Leaf goes out.

In large print every row is written out, those that repeat others too, and every pass of every repeat is a line of its
own with no abbreviation in it, so that nobody has to find their place again in small marks. NoSheet, with one
sentence, for what cannot be printed.
"""

import re

from tracker.charts.signs.key import abbreviated, name_of
from tracker.fabric.model import HIDDEN, SP, Placed
from tracker.load import Loaded
from tracker.notation.pattern import Setup
from tracker.paper.cautions import cautions_for, is_caution
from tracker.paper.finishing import finishing_of, layout_told
from tracker.paper.leaf import Chapter, Entry, Leaf
from tracker.planning.edging import along_in, summed, told, verdict
from tracker.program.cues import breaks_the_run, changed_to, colours, copy_at, endings, turn_before
from tracker.program.places import Place, Program
from tracker.program.row.groups import Beat, Sort
from tracker.program.row.written import written_of
from tracker.session.wording.spelled import sized, spelled_out
from tracker.trade.said.speech import Speech, mirrored

MOST_ROWS = 600
"""Rows on one sheet; of more, a part has to be chosen."""
MOST_BOXES = 8
"""Copies that have a box each behind every row."""
_HEADS = re.compile(
    r"\s*\b(?=(?:Materials?|Supplies|Yarn|Hook|Gauge|Tension|Finished size|Measurements?|Sizes?)\s*:)",
    re.IGNORECASE,
)
_SIDES = {"RS": "right side", "WS": "wrong side"}


class NoSheet(Exception):
    """A pattern that cannot be printed; the message says why and what to do."""


def leaf_of(
    loaded: Loaded, large: bool = False, left_handed: bool = False, rows: tuple[int, int] | None = None
) -> Leaf:
    """The sheet of a pattern; `rows` are the first and last index to print, None for all."""
    fabric, pattern = loaded.fabric, loaded.pattern
    if not fabric.length:
        raise NoSheet(
            "No row was found in this text, so there is nothing to print; check says what it lacks."
        )
    first, last = rows or (1, fabric.length)
    last = min(last, fabric.length)
    if first > last:
        raise NoSheet(f"The pattern has {fabric.length} rows; choose some of those with --rows.")
    if last - first >= MOST_ROWS:
        raise NoSheet(
            f"The pattern has {fabric.length} rows, more than one sheet can hold; "
            f"choose some with --rows 1-{MOST_ROWS}."
        )
    program = Program(loaded.source, pattern, fabric, loaded.problems, Speech(left_handed=left_handed))
    writer = _Writer(program, large)
    chapters = tuple(
        Chapter(_heading(program, at), writer.entries(at, first, last))
        for at, part in enumerate(program.parts)
        if part.first <= last and part.last >= first
    )
    spaces = any(element.kind == SP for stretch in fabric.stretches for placed in stretch.rows
                 for element in placed.worked.elements)  # fmt: skip
    notes = [piece.strip() for note in pattern.notes for piece in _HEADS.split(note) if piece.strip()]
    lead = [notes.pop(0)] if notes and not _HEADS.match(f" {notes[0]}") else []
    after, measured = finishing_of(program, writer.plain) if last == fabric.length else ((), ())
    said = tuple(line for note in notes for line in _sentences(note) if is_caution(line))
    return Leaf(
        pattern.title,
        tuple(writer.plain(line) for line in [*lead, *([f"Size: {pattern.size}."] if pattern.size else [])])
        + (("For the left hand.",) if left_handed else ()),
        (*map(writer.plain, said), *cautions_for(loaded.source.text, spaces)),
        _before(writer, notes),
        chapters,
        after,
        tuple(map(writer.plain, layout_told(program))) if after else (),
        measured,
    )


def _heading(program: Program, at: int) -> str:
    part = program.parts[at]
    name = part.name or ("Rounds" if program.fabric.row(max(1, part.first)).kind == "round" else "Rows")
    return f"{name} (make {part.copies})" if part.copies > 1 else name


def _sentences(note: str) -> list[str]:
    return [piece.strip() for piece in re.split(r"(?<=[.!?])\s+(?=[A-Z])", note) if piece.strip()]


def _before(writer: "_Writer", notes: list[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Materials and the rest under their own headings, then the abbreviations the rows use."""
    out: dict[str, list[str]] = {}
    for note in notes:
        head, mark, rest = note.partition(":")
        if mark and _HEADS.match(f" {note}"):
            line = writer.plain(rest.strip())
            out.setdefault(head.strip().capitalize(), []).append(line[:1].upper() + line[1:])
        else:
            kept = [line for line in _sentences(note) if not is_caution(line)]
            if kept:
                out.setdefault("Notes", []).append(writer.plain(" ".join(kept)))
    sections = [(head, tuple(lines)) for head, lines in out.items()]
    if not writer.large:
        sections.append(("Abbreviations", writer.abbreviations()))
    return tuple(sections)


class _Writer:
    """Writes rows, short or spelled out."""

    def __init__(self, program: Program, large: bool) -> None:
        self.program = program
        self.large = large
        self.uk = program.pattern.uk
        self.written: dict[int, str] = {}
        """Rows whose words are on the sheet, by the row as printed: rows of a range have their words once."""
        listed = program.fabric.length <= MOST_ROWS
        self.along = along_in(program.fabric) if listed else {}
        """Edgings along row ends, by index of the row that works them."""

    def plain(self, words: str) -> str:
        """Words as this sheet prints them: in large print with no abbreviation; directions for the maker's hand."""
        words = sized(self.program, words)
        own = frozenset(special.name for special in self.program.pattern.specials)
        words = spelled_out(words, self.uk, own, figures=True) if self.large else " ".join(words.split())
        return mirrored(words) if self.program.speech.left_handed else words

    def entries(self, at: int, first: int, last: int) -> tuple[Entry, ...]:
        """Everything to be done in a part, in order."""
        program, part = self.program, self.program.parts[at]
        boxes = part.copies if part.copies <= MOST_BOXES else 1
        out: list[Entry] = []
        for row in range(max(part.first, first), min(part.last, last) + 1):
            out += [self._doing(place, boxes) for place in self._asides(at, row)]
            out.append(self._row(at, row, boxes))
        if part.last <= last and at < len(program.parts) - 1:
            out += [self._doing(place, boxes) for place in self._asides(at, part.last + 1)]
        return tuple(out)

    def _asides(self, at: int, row: int) -> list[Place]:
        many = len(self.program.asides(at, row))
        return [(at, 1, row, nth - many, 0, 0, 0) for nth in range(many)]

    def _doing(self, place: Place, boxes: int) -> Entry:
        aside = self.program.aside(place)
        assert aside is not None
        words = self.program.source.words(aside.span) if isinstance(aside, Setup) else aside.text
        lines = tuple(self._capital(self.plain(line)) for line in _sentences(" ".join(words.split())))
        return Entry("", "", lines if self.large else (" ".join(lines),), boxes=boxes)

    def _row(self, at: int, row: int, boxes: int) -> Entry:
        program = self.program
        placed = program.fabric.row(row)
        copy = copy_at(program, row)
        if self.large:
            words = self._spelled(row)
        elif copy is not None:
            words = (f"As {'Rnd' if placed.kind == 'round' else 'Row'} {copy.of}.",)
        elif (earlier := self.written.get(id(placed.worked.row), placed.label)) != placed.label:
            words = (f"As {earlier}.",)
        else:
            words = (self.plain(self._words(placed)),)
            self.written[id(placed.worked.row)] = placed.label
        return Entry(
            self._name(placed),
            _SIDES.get(placed.worked.side or "", ""),
            words,
            self._count(placed),
            self._cues(at, row),
            boxes,
        )

    def _name(self, placed: Placed) -> str:
        if self.large and placed.number is not None:
            return f"{'Round' if placed.kind == 'round' else 'Row'} {placed.number}"
        return placed.label

    def _words(self, placed: Placed) -> str:
        """The row's own words, its label and its stated count left out: the count stands in its own place."""
        row = placed.worked.row
        text = list(self.program.source.text[row.label_span.end : row.span.end])
        if placed.worked.understood:
            for one in row.stated:
                for nth in range(one.span.start, one.span.end):
                    if 0 <= nth - row.label_span.end < len(text):
                        text[nth - row.label_span.end] = " "
        left = "".join(text)
        if re.search(r"[(\[{]\s*[–—,;:=-]", left):
            # more than a count stands in those brackets: all of it stays
            left = self.program.source.text[row.label_span.end : row.span.end]
        words = re.sub(r"[(\[{]\s*[)\]}]", " ", " ".join(left.split()))
        words = re.sub(r"\s*[:=–—-]\s*$", ".", " ".join(words.split()))
        return (
            re.sub(r"^\((?:RS|WS)[^)]*\)", "", words.lstrip(":.- ")).lstrip(":.- ").replace(" .", ".").strip()
        )

    def _count(self, placed: Placed) -> str:
        """What stands on the row, or what the pattern says where its words were not understood."""
        if not placed.worked.understood:
            stated = [
                self.program.source.words(one.span).strip("()[]{} .") for one in placed.worked.row.stated
            ]
            return self.plain(f"the pattern says {'; '.join(stated)}") if stated else ""
        made = placed.worked.makes
        counted = [
            f"{many} {abbreviated(name, self.uk)}" + ("s" if name.endswith(" sp") and many > 1 else "")
            for name, many in made.items()
        ]
        if len([name for name in made if not name.endswith(" sp")]) > 1:
            counted.insert(0, f"{placed.worked.stitches} stitches in all")
        return self.plain(": ".join([counted[0], ", ".join(counted[1:])]) if counted[0:1] and "in all" in counted[0]
                          else ", ".join(counted))  # fmt: skip

    def _cues(self, at: int, row: int) -> tuple[str, ...]:
        program = self.program
        placed = program.fabric.row(row)
        out = {
            "open": ["Careful: not like the last row. It starts open."],
            "closed": ["Careful: not like the last row. It starts with a block."],
            "new": ["Careful: the repeat is over."],
        }.get(breaks_the_run(program, row), [])
        copy = copy_at(program, row)
        if self.large and copy is not None:
            out.append(f"The same as {'round' if placed.kind == 'round' else 'row'} {copy.of}.")
        if copy is not None or self.large:
            out += [f"{self._capital(self.plain(words))}." for words in colours(program, row)]
        sides = self.along.get(row, ())
        for nth, edge in enumerate(sides, 1):
            lead = f"Side {nth} of the row ends: " if len(sides) > 1 else "The row ends: "
            out += [lead + summed(edge), verdict(edge), *told(edge, self.uk)]
        if copy is not None or self.large:
            behind = (*changed_to(program, row), *endings(program, row))
            out += [f"{self._capital(self.plain(words))}." for words in behind]
        if row < program.parts[at].last and turn_before(program, row + 1) == "turn" and self.large:
            out.append("Turn.")
        return tuple(out)

    @staticmethod
    def _capital(words: str) -> str:
        return words[:1].upper() + words[1:]

    def _spelled(self, row: int) -> tuple[str, ...]:
        """A line for every group, and for every pass of a repeat, each with no abbreviation."""
        out: list[str] = []
        for breath in self.program.breaths(row):
            for nth, beat in enumerate(breath.beats, 1):
                passes = f" Pass {nth} of {len(breath.beats)}." if len(breath.beats) > 1 else ""
                around = [f"Repeat {turn + 1} of {many}: " for _, turn, many in breath.path[:1] if many > 1]
                if breath.sort is Sort.ENDS:
                    if nth == 1:
                        out.append(
                            f"{self._capital(self._phrase(row, beat))}. The row ends are listed below."
                        )
                    continue
                words = self._phrase(row, beat) + self._standing(row, beat, breath.sort)
                if breath.sort is Sort.RUN and not re.search(r"\d", words) and beat.singles > 1:
                    words += f", {beat.singles} in all"
                out.append(f"{around[0] if around else ''}{self._capital(words)}.{passes}")
        return tuple(out)

    def _standing(self, row: int, beat: Beat, sort: Sort) -> str:
        """What a turning chain counts as, which the words may have said rows ago."""
        if sort is not Sort.TURNING:
            return ""
        made = self.program.fabric.row(row).worked.elements[beat.made_from : beat.made_to]
        if not made or not made[0].turning:
            return ", which does not count as a stitch" if made and made[0].kind == HIDDEN else ""
        space = next((element.chains for element in made if element.turning and element.kind == SP), 0)
        stitch = self.plain(f"1 {abbreviated(made[0].kind, self.uk)}")
        return f", which counts as {stitch}" + (f" and a chain-{space} space" if space else "")

    def _phrase(self, row: int, beat: Beat) -> str:
        """A group's words without a bracket that is open at one end."""
        words = self.plain(written_of(self.program, row, beat)).strip(" ,;:.*")
        for left, right in ("()", "[]", "{}"):
            if words.count(left) > words.count(right):
                words = words.replace(left, "", words.count(left) - words.count(right))
            while words.count(right) > words.count(left):
                cut = words.rindex(right)
                words = words[:cut] + words[cut + 1 :]
        return words.strip(" ,;:.*")

    def abbreviations(self) -> tuple[str, ...]:
        """Every stitch the rows use, in its terms, and the common words."""
        kinds: dict[str, None] = {}
        for stretch in self.program.fabric.stretches:
            for placed in stretch.rows:
                kinds |= dict.fromkeys(e.kind for e in placed.worked.elements if e.kind not in (SP, HIDDEN))
        text = self.program.source.text
        common = {
            "sk": "skip", "sp": "space", "st": "stitch", "RS": "right side", "WS": "wrong side", "rep": "repeat",
            "rnd": "round", "blo": "back loop only", "flo": "front loop only", "yo": "yarn over",
        }  # fmt: skip
        return (
            f"{'US' if not self.uk else 'UK'} terms",
            "ch: chain",
            *sorted(name_of(kind, self.uk) for kind in kinds if kind != "ch"),
            *(f"{short}: {long}" for short, long in common.items()
              if re.search(rf"\b{short}s?\b", text, 0 if short.isupper() else re.IGNORECASE)),
        )  # fmt: skip
