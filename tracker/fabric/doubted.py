"""Rows that are not accused, since not all the words they were made by were taken.

Words that were passed over, taken for a remark or for nothing at all, may have told of stitches. Where their row, or
one worked onto it, then comes out otherwise than it says, what is amiss may lie in them. So nothing is called wrong
there, up to the first row that makes the count it states; and the row that holds the words is not understood.

    Row 3: Chain up 2, turn, hdc in each st across. (24 hdc)     Row 3 has words that could not be read: “Chain up 2”
    Row 3: Ch 2, turn, hdc in each st across. (24 hdc)                                                   (mended)

A pattern, its fabric and the problems of working come in; both go out as far as the words bear them. Looked at only
where something is wrong.
"""

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence

from tracker.expressions import expression
from tracker.fabric.model import CH, Fabric, Placed, Stretch, Unread
from tracker.fabric.stated import agrees, covers, names_rows, uses_ends
from tracker.notation.tree import (
    ANY,
    Group,
    Item,
    Join,
    Pattern,
    Prose,
    Repeat,
    Row,
    Say,
    Setup,
    Skip,
    Travel,
    Turning,
    Which,
    Work,
)
from tracker.problems import Problem, Severity, Source, Span
from tracker.records import replace

_PHRASE = expression(r"\w[\w'’-]*(?:[ \t]+\w[\w'’-]*)*")
"""Words with nothing but blanks between them."""
_TELLING = expression(
    r"\d|\b(?:ch|chs|chains?|links?|sts?|sps?|stitch(?:es)?|h?dc|sc|h?tr|count\w*|reckon\w*|sk|skip\w*|miss\w*|ignor\w*|next|each|"
    r"every|rep|repeat\w*|again|times|twice|goes|until|till?|inc\w*|dec\w*|two|three|four|five|six|seven|eight|nine|ten|"
    r"pair|double|another|short|less|fewer|more)\b"
)
"""What words say that may be worked."""
_BESIDE = (
    *(
        "(",
        "[",
        "{",
        "being",
        "making sure",
        "taking care",
        "careful",
        "working in",
        "working behind",
        "working last",
    ),
    *("last dc in", "last sc in", "last tr in", "sl st in", "to join", "do not", "don't"),
    *(
        "thread",
        "sew",
        "stuff",
        "pull",
        "fold",
        "mark",
        "place marker",
        "weave",
        "short ends",
        "between corners",
    ),
)
"""What begins words that are told beside the work."""
_PLAIN_REMARK = frozenset(
    "to join around even top next corner end of rnd row round the a b c in as before for invisible foundation panel "
    "both loops now color colour at from on sew everything side tip any petal short long other up right left front "
    "back edge form make magic ring beg sp".split()
)
"""Words of remarks that are often heard and change nothing."""
_OFTEN = frozenset(
    "times time x twice once thrice rep reps repeat repeated repeating from to end across around the last next st sts "
    "sc dc hdc tr ch chs sp sps more further in all total each stitch stitches and until remain remains left row round "
    "rnd rounds of corner again two three four five six seven eight nine ten for work do this along into ring".split()
)
"""Words that say how often."""
_HOW_OFTEN = frozenset(("times", "x", "twice", "more", *map(str, range(100))))
_REPEATS = expression(
    r"\W*(?:and\s+)?(?:rep|reps|repeat|repeating)\b(?!.*\bin(?:to)?\b)", re.IGNORECASE | re.DOTALL
)
_REFERENCES = ("R304",)
_WORD = expression(r"[a-z']+")
_OF_CHAINS = frozenset(
    "counts count counted counting as a an the is are equals your first st sts stitch dc tr htr hdc sc dtr trtr here "
    "and now throughout ch chs chain chains sp sps space spaces turning beg beginning does do doesn't don't not this "
    "will always for of in each row rows rnd rnds round rounds made stands it that which also both starting skipped "
    "missed anywhere half double treble single crochet rest pattern or on one unworked base to stand".split()
)
"""Words that say what a turning chain stands for."""
_WORKED = expression(r"\b(?:h?dc|sc|h?tr|dtr)\d?(?:tog)?\s+(?:in|into)\b")
_PLAIN = ("sc", "hdc", "dc", "tr", "dtr", "tch", "even")
_LIGHT = frozenset(
    "and then now & the a an of to in at with on it this so also you your work working w turn row round rnd".split()
)
"""Words that say nothing of their own."""


def as_far_as_read(
    pattern: Pattern, fabric: Fabric, problems: tuple[Problem, ...], source: Source
) -> tuple[Fabric, tuple[Problem, ...]]:
    """The fabric with rows not understood whose words may have been misread, and the problems that are left."""
    wrong = {
        problem.index
        for problem in problems
        if problem.index is not None
        and problem.code.startswith("C")
        and problem.severity is not Severity.NOTE
    }
    astray = any(problem.code in _REFERENCES and problem.severity is Severity.ERROR for problem in problems)
    if not wrong and not astray:
        return fabric, problems
    looked = _Looked(pattern, source)
    if astray:
        problems = tuple(map(looked.as_referred, problems))
    excused: set[int] = set()
    unread: dict[int, tuple[Unread, ...]] = {}
    doubt: tuple[int, tuple[Unread, ...]] | None = None
    shape, ever = doubt, doubt
    part: str | None = None
    for index, placed in _once(fabric):
        below = placed.worked.below
        if all(element.kind == CH for element in below):
            founded = looked.foundation_of(placed)
            doubt = (index, founded) if founded else None
        if placed.part != part:
            part, shape = placed.part, None
        shape, ever = doubt or shape, doubt or ever
        row = placed.worked.row
        edges, spaces = _along_edges(row), _into_spaces(row.items)
        words = looked.passed_over(placed)
        if index in wrong:
            if words:
                doubt = (index, words)
            why = doubt or (ever if edges else shape if spaces else None)
            if why is not None:
                excused.add(index)
                unread.setdefault(*why)
        elif placed.worked.unread:
            doubt = (index, ())
        elif _proved(placed, looked.printed(placed)):
            doubt = None
            shape = None if spaces else shape
        elif words:
            doubt = (index, words)
    if not excused:
        return fabric, problems
    left = tuple(
        problem for problem in problems if problem.index not in excused or not problem.code.startswith("C")
    )
    return _not_understood(fabric, {index: words for index, words in unread.items() if words}), left


class _Looked:
    """The words of a pattern that nothing was made of."""

    def __init__(self, pattern: Pattern, source: Source) -> None:
        self.text = source.text
        self.rows: dict[int, Row] = {}
        self.setups: dict[int, Setup] = {}
        """By where the label of the row behind them begins."""
        taken: list[Span] = []
        before: Setup | None = None
        for block in pattern.blocks:
            if isinstance(block, Row):
                self.rows[block.label_span.start] = block
                if before is not None:
                    self.setups[block.label_span.start] = before
                taken += [stated.span for stated in block.stated]
                if block.rerun is not None:
                    taken.append(block.rerun.span)
            before = block if isinstance(block, Setup) else None
            if isinstance(block, (Row, Setup)):
                taken += _taken(block.items, self.text)
        self.starts: list[int] = []
        self.ends: list[int] = []
        for span in sorted(taken, key=lambda span: span.start):
            if self.ends and span.start <= self.ends[-1]:
                self.ends[-1] = max(self.ends[-1], span.end)
            else:
                self.starts.append(span.start)
                self.ends.append(span.end)

    def as_referred(self, problem: Problem) -> Problem:
        """A problem of numbers and references, as a note where the row, or the one before it, may say more."""
        if problem.code not in _REFERENCES or problem.severity is not Severity.ERROR:
            return problem
        at = problem.label.span.start
        near = [row for row in self.rows.values() if row.label_span.start <= at][-2:]
        if any(True for row in near for _ in self._of(row.items, self._body(row))):
            return replace(problem, severity=Severity.NOTE)
        return problem

    def printed(self, placed: Placed) -> Row:
        """The row as it is printed, which may only refer to the one that is worked."""
        return self.rows.get(placed.label_span.start, placed.worked.row)

    def passed_over(self, placed: Placed) -> tuple[Unread, ...]:
        """Words of a row, and of the one it repeats, that may tell of stitches."""
        rows = dict.fromkeys((self.printed(placed), placed.worked.row))
        return tuple(
            dict.fromkeys(Unread(span) for row in rows for span in self._of(row.items, self._body(row)))
        )

    def foundation_of(self, placed: Placed) -> tuple[Unread, ...]:
        """Such words of what was set up before a row."""
        setup = self.setups.get(placed.label_span.start)
        if setup is None:
            return ()
        # much is said there of yarn and hooks
        found = self._of(setup.items, setup.span)
        return tuple(
            Unread(span) for span in found if _TELLING.search(self.text[span.start : span.end].lower())
        )

    def _body(self, row: Row) -> Span:
        """A row without its label."""
        label = row.label_span
        return Span(label.end, row.span.end) if label.end < row.span.end else row.span

    def _of(self, items: Sequence[Item], body: Span) -> Iterator[Span]:
        yield from self._said(items)
        for start, end in self._gaps(body):
            for hit in _PHRASE.finditer(self.text, start, end):
                words = hit.group().lower()
                beside = (
                    self.text[hit.start() - 1 : hit.start()] in "([{" and self.text[hit.end() :][:1] in ")]}"
                )
                told = [word for word in words.split() if word not in _LIGHT]
                often = (
                    self.text[max(0, hit.start() - 3) : hit.start()].rstrip()[-1:] in tuple(")]}")
                    and set(words.split()) <= _HOW_OFTEN
                )
                if not beside and not often and (len(told) > 1 or words.isdecimal()) and _tells(words):
                    yield Span(hit.start(), hit.end())

    def _said(self, items: Sequence[Item]) -> Iterator[Span]:
        """Words kept for a remark, and such as one thing was read from that seem to tell of more."""
        end = 0
        for item in items:
            runs_on = end and isinstance(item, Work) and not self.text[end : item.span.start].strip()
            if runs_on and self.text.startswith(("a ", "an "), item.span.start):
                yield item.span  # "3 pop a dc in the next st"
            end = item.span.end
            if isinstance(item, Say):
                words = self.text[item.span.start : item.span.end].lower()
                known = set(_WORD.findall(words)) <= _PLAIN_REMARK or item.kind not in ("words", "unsure")
                if item.kind in ("words", "unsure", "remark") and _tells(words, not known):
                    yield item.span
            elif isinstance(item, Prose) or self._strange(item):
                yield item.span
            elif isinstance(item, (Group, Repeat)):
                yield from self._said(item.items)

    def _strange(self, item: Item) -> bool:
        """True for words that one thing was read from and that seem to tell of more."""
        words = self.text[item.span.start : item.span.end].lower()
        if isinstance(item, Turning):
            return bool(set(_WORD.findall(words)) - _OF_CHAINS) and not words.endswith("made")
        if isinstance(item, (Group, Repeat, Say)):
            return False
        allowed = 2 if isinstance(item, Work) else isinstance(item, (Join, Travel))
        return len(_WORKED.findall(words)) > allowed

    def _gaps(self, body: Span) -> Iterator[tuple[int, int]]:
        """What lies between the words that were taken."""
        at = body.start
        k = max(0, bisect_right(self.starts, at) - 1)
        while k < len(self.starts) and self.starts[k] < body.end:
            if self.starts[k] > at:
                yield at, self.starts[k]
            at = max(at, self.ends[k])
            k += 1
        if at < body.end:
            yield at, body.end


def _taken(items: Iterable[Item], text: str) -> Iterator[Span]:
    """The words that items were read from; of a repeat or a group those inside, where it goes, and how often."""
    for item in items:
        if isinstance(item, (Group, Repeat)):
            yield from _taken(item.items, text)
        if isinstance(item, Group):
            yield item.where.span
        elif not isinstance(item, Repeat):
            yield item.span
        else:
            if item.ending is not None:
                yield item.ending.span
            inside = [span.end for span in _taken(item.items, text)]
            often = Span(max([item.span.start, *inside]), item.span.end)
            for told in (often, *([item.told_at] if item.told_at is not None else ())):
                words = text[told.start : told.end]
                if _REPEATS.match(words) or set(_WORD.findall(words.lower())) <= _OFTEN:
                    yield told


def _tells(words: str, strange: bool = False) -> bool:
    """True for words that may tell of stitches, as `strange` ones may whatever they say."""
    if words.startswith(_BESIDE) or words.endswith(" made"):
        return False
    return strange or _TELLING.search(words) is not None


def _along_edges(row: Row) -> bool:
    """True for a row that goes along edges, into the foundation, or into rows before the last."""
    return uses_ends(row.items) or names_rows(row.items) or any(map(_into_foundation, row.items))


def _into_foundation(item: Item) -> bool:
    if isinstance(item, (Group, Repeat)) and any(map(_into_foundation, item.items)):
        return True
    if not isinstance(item, (Work, Group, Skip)):
        return False
    where = item.where
    return where.loop == "base" or where.which is Which.EVENLY or any(kind.name == CH for kind in where.kinds)


def _into_spaces(items: Sequence[Item]) -> bool:
    """True for items that need more of the row below than its number of stitches: spaces, groups, corners."""
    for item in items:
        if isinstance(item, (Group, Repeat)) and _into_spaces(item.items):
            return True
        if isinstance(item, (Work, Group, Skip)):
            where = item.where
            stops = where.stop.kinds if where.stop is not None else ()
            if where.which is Which.BETWEEN or {k.name for k in (*where.kinds, *stops)} - {ANY, *_PLAIN}:
                return True
    return False


def _proved(placed: Placed, printed: Row) -> bool:
    """True for a row that makes all of what it states."""
    worked = placed.worked
    stated = printed.stated or worked.row.stated
    return worked.understood and agrees(stated, worked.elements) and covers(stated, worked.elements)


def _once(fabric: Fabric) -> Iterator[tuple[int, Placed]]:
    """The rows with their indices, those worked over and over only the first time."""
    for stretch, first in zip(fabric.stretches, fabric.first, strict=True):
        for at, placed in enumerate(stretch.rows):
            yield first + at, placed


def _not_understood(fabric: Fabric, unread: dict[int, tuple[Unread, ...]]) -> Fabric:
    """The fabric with some of its rows not understood, for the words beside their indices."""
    stretches = []
    for stretch, first in zip(fabric.stretches, fabric.first, strict=True):
        rows = tuple(
            replace(
                placed,
                worked=replace(placed.worked, understood=False, unread=unread[first + at]),
            )
            if first + at in unread
            else placed
            for at, placed in enumerate(stretch.rows)
        )
        stretches.append(Stretch(rows, stretch.times, stretch.step))
    return Fabric(tuple(stretches), fabric.open_ended)
