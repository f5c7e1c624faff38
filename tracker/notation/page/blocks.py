"""Lines taken one after another into blocks: the stretch that is open, and the section, part and sizes it stands in.

The lines of a text with their labels come in; a Page goes out. Each line is offered to what it may be, in order: the
first that takes it has it.
"""

import re
from collections.abc import Mapping, Sequence

from tracker.expressions import expression
from tracker.notation.definitions.head import head_of
from tracker.notation.page.behind import begins_behind, inside, only_stripes, piece_again, reruns
from tracker.notation.page.below import ROW_BEGUN, heads_first_row, told_below
from tracker.notation.page.block import FURTHER_DEFINITION, Block, Line, Page, ended_by, listed_first, titled
from tracker.notation.page.chained import only_chains
from tracker.notation.page.labelled.labels import Label, label_at
from tracker.notation.page.labelled.row_names import twice_labelled
from tracker.notation.page.labelled.unnumbered import headed
from tracker.notation.page.signs import (
    BEGUN,
    CONTINUES,
    FINISHING,
    LISTS,
    MAKE,
    NAMED_SETUP,
    NOTES,
    RERUN,
    SETUP,
    TELLS_OF_CHAINS,
    WORKING,
    defines,
    heading,
    heading_words,
    many_of,
    named_alone,
    part_told,
    piece_told,
)
from tracker.notation.page.sized.conditions import condition_at, named_for
from tracker.notation.page.sized.leaving import leaves_at, left_behind
from tracker.notation.page.sized.size_names import size_names
from tracker.notation.page.sized.told import names_told
from tracker.notation.page.typed.printed import BETWEEN_PAGES, drawn
from tracker.notation.page.typed.wrapped import HOW_OFTEN, goes_on, names_a_row, whole_line
from tracker.records import replace

_ALL_SIZES = expression(r"\ball\s+sizes\b", re.IGNORECASE, ["sizes"])


class Blocks:
    """The blocks of one text, as they are made."""

    def __init__(
        self,
        text: str,
        lines: Sequence[tuple[int, int]],
        labels: Mapping[tuple[int, int], Label | None],
        sizes: tuple[str, ...],
        bare: bool,
        alone: bool,
    ) -> None:
        """`bare`: numbers alone are labels; `alone`: labels may have a line of their own."""
        self._text = text
        self._labels = labels
        self._sizes = sizes
        self._bare = bare
        self._alone = alone
        self._queue = list(lines)
        self._at = 0
        """Index in the queue of the line that is taken."""
        self._blocks: list[Block] = []
        self._parts: list[tuple[str, int]] = []
        self._title, self._copies = "", 1
        self._part: str | None = None
        self._section = ""
        """"note", "define", "finishing" below such a heading; "" elsewhere."""
        self._only: tuple[str, ...] = ()
        """The sizes that are told of; () for all."""
        self._left: tuple[tuple[str, ...], int] = (), 0
        """Sizes that have gone on elsewhere, and the row from which they are back, 0 for the next part."""
        self._once: tuple[int, tuple[str, ...]] | None = None
        """Where the row stands that alone is for some sizes, and the sizes told of before it."""
        self._blank = True
        """True behind a blank line."""
        self._open: Block | None = None
        self._seen_row = False
        self._kept = -1  # where a line begins that stays for the sizes told of before it

    def page(self, cut: bool, lettered: bool) -> Page:
        """All lines taken; `cut` when the text was longer than is read, `lettered` when rows go by letters."""
        while self._at < len(self._queue):
            self._take(*self._queue[self._at])
            self._at += 1
        return Page(self._blocks, self._title, self._parts, self._sizes, self._copies, cut, lettered)

    def _take(self, start: int, end: int) -> None:
        raw = self._text[start:end]
        line = Line(start, end, raw, raw.strip())
        if set(line.told) <= set("-=_~#. ") or drawn(line.told):
            self._blank = BETWEEN_PAGES not in raw
            return
        if line.told[:1] == ";" and not self._blank and self._open is not None and self._open.job == "row":
            # "; corner: (2 dc, ch 2, 2 dc)", a step of the row
            self._open.end = line.end
            return
        taken = self._row(line) or self._below_label(line) or self._piece(line) or self._condition(line)
        if taken or self._titled(line):
            return
        line.ended = ended_by(self._text, self._open)
        line.setup = (
            SETUP.match(raw) is not None
            and not TELLS_OF_CHAINS.match(raw)
            and not (self._seen_row and BEGUN.match(raw))
            or NAMED_SETUP.match(raw) is not None
        )
        if self._begins_section(line) or self._heads_part(line):
            return
        line.defining = self._may_define(line) and head_of(raw) is not None
        if not line.defining and self._may_define(line) and (cut := start + listed_first(raw)) > start:
            self._queue[self._at : self._at + 1] = ((start, cut), (cut, end))
            self._take(start, cut)
            return
        if self._definition(line) or self._foundation(line) or self._rerun(line) or self._goes_on(line):
            return
        self._begin("note" if not self._seen_row or self._section == "note" else "aside", line)
        self._blank = False

    def _begin(self, job: str, line: Line, sized: bool = True) -> None:
        """Opens a block with this line; `sized`: for the sizes that are told of."""
        only = self._told_for() if sized else ()
        self._open = Block(job, line.start, line.end, part=self._part, sizes=only)
        self._blocks.append(self._open)

    def _told_for(self) -> tuple[str, ...]:
        """The sizes that are told of; () for all."""
        gone = self._left[0]
        return tuple(name for name in self._only or self._sizes if name not in gone) if gone else self._only

    def _row(self, line: Line) -> bool:
        """A row with a label, or more of the stretch whose words go on with this line."""
        start, end, raw, block = line.start, line.end, line.raw, self._open
        label = self._labels.get((start, end))
        if label is None and (self._bare or self._alone or (start, end) not in self._labels):
            label = label_at(raw, bare=self._bare, alone=self._alone)
        first = not self._title and not self._seen_row and self._blank and self._at == 0
        if label is not None and (first and label.numbers == () or only_stripes(label, raw[label.end :])):
            label = None
        if label is not None and label.kind == "edging" and not self._seen_row and self._section == "define":
            # "Edge: sc through both loops" in a list of stitches
            label = None
        so_far = self._text[block.start : block.end] if block is not None and not self._blank else ""
        if label is not None and so_far and names_a_row(so_far, raw):
            label = None
        elif label is None and block is not None and block.job != "title" and goes_on(so_far, raw):
            if begins_behind(self._text, start):
                return False
            block.end = end
            return True
        if label is None and self._seen_row and not self._section and (label := headed(raw)) is not None:
            self._part, self._only, self._left = titled(label.text), (), ((), 0)
            self._parts.append((self._part, 1))
        if label is None:
            return False
        if self._first_in_part() and only_chains(label, raw[label.end :]) and self._row_below():
            self._queue.insert(self._at + 1, (start + label.end, end))
            self._blank, self._section = True, ""
            return True
        if 0 < self._left[1] <= (label.numbers[0] if label.numbers else 0):
            self._left = (), 0
        if (tail := left_behind(raw, self._sizes)) is not None:
            self._queue.insert(self._at + 1, (start + tail, end))
            end = start + tail
        if (again := twice_labelled(raw, label.start, label.end)) > label.end:
            label = replace(label, end=again)
        own, at = named_for(raw[label.start : label.end], self._sizes) or self._told_for(), start + label.end
        self._open = Block("row", start + label.start, end, label, at, self._part, own)
        self._blocks.append(self._open)
        self._seen_row, self._blank, self._section = True, False, ""
        if self._once is not None and self._once[0] == start:
            self._only = self._once[1]
        return True

    def _below_label(self, line: Line) -> bool:
        """The words of a row whose label had a line of its own."""
        block = self._open
        if (
            block is None
            or block.job != "row"
            or self._blank
            or self._text[block.text_start : block.end].strip()
        ):
            return False
        block.end = line.end
        return True

    def _piece(self, line: Line) -> bool:
        """ "Ear (make 2): Ch 5.": the name of a part with what begins it."""
        may = self._section != "define" and (self._blank or ended_by(self._text, self._open))
        if not may or not (self._seen_row or "make" in line.raw.lower()):
            return False
        piece = piece_told(line.raw) or (piece_again(line.raw, self._parts) if self._seen_row else None)
        if piece is None:
            return False
        self._part = titled(piece["name"])
        made = MAKE.search(piece["make"] or "")
        self._parts.append((self._part, many_of(made) if made else 1))
        self._section, self._open, self._blank, self._only, self._left = "", None, True, (), ((), 0)
        self._queue.insert(self._at + 1, (line.start + piece.start("rest"), line.end))
        return True

    def _condition(self, line: Line) -> bool:
        """ "For sizes M and L only:": which sizes are told of from here on."""
        if (gone := leaves_at(line.raw, self._sizes)) is not None and self._seen_row:
            self._left = (*self._left[0], *gone[0]), gone[1]
            self._begin("aside", line, sized=False)
            self._open, self._blank = None, True
            return True
        condition = condition_at(line.raw, self._sizes)
        if condition is not None and not condition[0]:
            self._left = (), 0
        if condition is None or not (condition[0] or {"all", "both"} & set(line.raw.lower().split())):
            return False
        before, self._open = self._only, None
        self._only, length = condition
        rest, start = line.raw[length:], line.start + length
        self._kept = start
        if rest.strip():
            self._queue.insert(self._at + 1, (start, line.end))
        elif line.end < len(self._text) and self._text[line.end] != "\n":
            # the row that is told for them goes on behind it on the same line
            rest, start = self._text[line.end : line.end + 80], line.end
        if self._only and label_at(rest) is not None and _ALL_SIZES.search(self._text, line.end) is None:
            # "L only – R9: …", and nothing says where all sizes go on: of this row alone
            self._once = (start, before)
        self._blank = True
        return True

    def _titled(self, line: Line) -> bool:
        """The first line, where it is none of the pattern's other words."""
        if (
            self._title
            or self._seen_row
            or self._blocks
            or SETUP.match(line.raw)
            and not TELLS_OF_CHAINS.match(line.raw)
            or "=" in line.raw
            and defines(line.raw)
        ):
            return False
        self._title = " ".join(line.told.strip("*_#~= ").split())[:200]
        made = MAKE.search(self._title)
        if made and "make" in made.group().lower():
            self._copies = many_of(made)
        self._blocks.append(Block("title", line.start, line.end))
        self._open, self._blank = None, False
        return True

    def _begins_section(self, line: Line) -> bool:
        """ "Abbreviations", "Instructions", "Finishing": a heading that tells what stands below it."""
        small = self._open is not None and not self._blank and line.told[:1].islower()
        words = "" if small else heading_words(line.told)
        listed = not self._seen_row and LISTS.fullmatch(line.told) is not None
        if words in NOTES or listed:
            self._section, self._open, self._blank = "note", None, True
            if listed or any(word in words for word in ("abbrev", "stitch", "special", "key")):
                self._section = "define"
            return True
        if words in WORKING:
            self._section, self._open, self._blank = "", None, True
            return True
        if words in FINISHING:
            self._section, self._open, self._part = "finishing", None, "Finishing"
            self._blank, self._only = True, ()
            return True
        return False

    def _heads_part(self, line: Line) -> bool:
        """The name of a part with a line of its own, and something below it."""
        raw, told = line.raw, line.told
        below = [self._text[start:end] for start, end in self._queue[self._at + 1 : self._at + 6]]
        small = heads_first_row(told.lstrip(">#~*= "), below)
        if (
            line.setup
            or not (small or heading(told, self._blank, line.ended))
            or RERUN.match(raw)
            or self._sizes
            and self._sizes in (size_names(told), names_told(told, len(self._sizes)))
            or self._section == "define"
            and head_of(raw)
        ):
            return False
        if not any(map(str.strip, below)):
            return False
        words, made = part_told(told), MAKE.search(told)
        name = named_alone(words)
        only_made = made is not None and len(made.group().split()) == 2 and made.end() == len(told)
        if head_of(raw) is not None and name == words and not (only_made or small):
            return False
        self._part = titled(name[:1].upper() + name[1:] if small else name) if name else self._part
        self._parts.append((self._part or "", many_of(made) if made else 1))
        self._only = self._only if self._kept == line.start else named_for(told, self._sizes)
        self._section, self._open, self._blank, self._left = "", None, True, ((), 0)
        return True

    def _may_define(self, line: Line) -> bool:
        """True where a definition may stand."""
        return (
            not self._seen_row
            or self._section == "define"
            or self._blank
            or self._open is None
            or self._open.job in ("define", "note", "aside", "title")
            or line.ended
        )

    def _definition(self, line: Line) -> bool:
        """ "Shell: 5 dc in next st": what a word of the pattern stands for; further ones in the line are cut off."""
        if not line.defining or line.setup:
            return False
        if self._seen_row and (row := ROW_BEGUN.match(line.raw)) is not None and row["lead"]:
            # "Finish: ch 1, sc in each st across."
            return False
        if not (
            self._section == "define"
            or defines(line.raw)
            or defines(whole_line(self._text, self._queue[self._at :], self._labels))
        ):
            return False
        pieces = [hit.start() for hit in FURTHER_DEFINITION.finditer(line.raw)]
        if pieces:
            cuts = [line.start + piece for piece in pieces]
            self._queue[self._at : self._at + 1] = zip((line.start, *cuts), (*cuts, line.end), strict=True)
            line.end = cuts[0]
        self._begin("define", line, sized=False)
        self._blank = False
        return True

    def _foundation(self, line: Line) -> bool:
        """ "Ch 22.": what a part begins with."""
        block = self._open
        inside = block is not None and block.job in ("row", "define") and not self._blank and not line.ended
        if not line.setup or self._section == "finishing" or inside:
            return False
        self._begin("setup", line)
        self._blank, self._section = False, ""
        return True

    def _first_in_part(self) -> bool:
        """True where nothing of the part has been worked yet."""
        return not any(block.job in ("row", "setup") and block.part == self._part for block in self._blocks)

    def _row_below(self) -> bool:
        """True where the next line that says anything is a row with a number."""
        for start, end in self._queue[self._at + 1 : self._at + 4]:
            if self._text[start:end].strip():
                label = label_at(self._text[start:end], bare=self._bare, alone=self._alone)
                return label is not None and bool(label.numbers)
        return False

    def _rerun(self, line: Line) -> bool:
        """ "Rep Rows 2-7 twice more.": rows worked again that have no label."""
        if not self._seen_row or not reruns(line.raw, self._parts):
            return False
        if line.told[:6].lower() in ("finish", "end wi") and self._row_below():
            # "Finish with a rnd of crab st." above "Rnd 6: Ch 1, rev sc …": what is to come, told before it
            return False
        block = self._open
        if block is not None and not (line.ended or self._blank) and inside(self._text, block.end, line):
            return False
        self._open = Block("rerun", line.start, line.end, None, line.start, self._part, self._told_for())
        self._blocks.append(self._open)
        self._blank = False
        return True

    def _goes_on(self, line: Line) -> bool:
        """More of the block that is open, or what stands right below it and is something else."""
        block = self._open
        if block is None:
            return False
        if not self._blank:
            other = told_below(self._text, block, line)
            if other:
                self._begin(other, line, sized=other != "note")
            else:
                block.end = line.end
            return True
        if block.job not in ("row", "rerun"):
            return False
        unended = self._text[block.start : block.end].rstrip()[-1:] not in (".", ")", "]", "}", ":")
        if (
            line.told[:1].islower()
            and unended
            or HOW_OFTEN.match(line.told)
            or CONTINUES.match(line.raw)
            and len(line.told) < 90
        ):
            block.end = line.end
            self._blank = False
            return True
        return False
