"""Counts and numbers put right.

A row comes in that makes another number than it says, or does not come out even; edits go out, likeliest first.
"""

import re
from collections.abc import Iterator, Sequence

from tracker.fabric.model import SP, Placed
from tracker.load import Loaded
from tracker.mending.kinds.figures import Figure, figures_in
from tracker.notation.pattern import Row, Setup
from tracker.notation.tree import ANY, Group, Repeat, Skip, Travel, Which, Work
from tracker.problems import Fix, Problem, Span
from tracker.trade.stitches import STITCHES, height_of


def stated_counts(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A stated count put right by what the row makes."""
    for placed in dict.fromkeys(reversed(worked(loaded, row))):
        made = placed.worked.makes
        for stated in row.stated:
            figures = list(figures_in(loaded, stated.span))
            for k, (name, number) in enumerate(stated.counts):
                name = name.removeprefix("?")
                if name in ("", ANY):
                    meant = [placed.worked.stitches, placed.worked.total]
                else:
                    meant = [
                        made.get(name, 0),
                        *(n for kind, n in made.items() if kind.endswith(name)),
                        *(_groups(placed) if name not in STITCHES and name not in made else ()),
                        *made.values(),
                    ]
                fitting = [f for f in figures if f.value == number]
                # of "4 ch-2 sps, 4 ch-1 sps" the one that is off
                nth = sum(1 for _, other in stated.counts[:k] if other == number)
                for figure in fitting[nth : nth + 1] or fitting[:1] or figures[k : k + 1]:
                    yield from changed_to(figure, *meant)


def _groups(placed: Placed) -> tuple[int, int]:
    """How many groups a row has, and with the one that its turning chain may begin."""
    many = len({element.group for element in placed.worked.elements if element.group})
    return many, many + 1


def begun_in(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """The chain that a first row begins in, where it is not the one that its stitch is usually worked into."""
    first = next((item for item in row.items if isinstance(item, (Work, Group))), None)
    inside = first.items[0] if isinstance(first, Group) and first.items else first
    if first is None or first.where.which is not Which.FROM_HOOK or not isinstance(inside, Work):
        return
    usual = max(2, height_of(inside.stitch) + 1)
    if usual != first.where.nth:
        for figure in figures_in(loaded, first.where.span):
            if figure.style == "ordinal":
                yield from changed_to(figure, usual)


def other_spaces(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A chain as long as the spaces that the count has more of, in place of one that was made too often."""
    made = next((placed.worked.makes for placed in worked(loaded, row)[:1]), {})
    told = {
        name: number
        for stated in row.stated
        for name, number in stated.counts
        if name.startswith("ch-") and name[3:-3].isdecimal()
    }
    spaces = {name: number for name, number in made.items() if name.startswith("ch-")}
    lacking = [int(name[3:-3]) for name, number in told.items() if spaces.get(name, 0) < number]
    spare = [int(name[3:-3]) for name, number in spaces.items() if told.get(name, 0) < number]
    lead = _lead(row)
    for figure in figures_of(loaded, row):
        if figure.value in spare and figure.span.start >= lead and _of_a_chain(loaded, figure):
            yield from changed_to(figure, *lacking)


def together(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """How many are worked together, one more or fewer: "sc3tog" for "sc2tog"."""
    start = row.label_span.end
    for hit in _TOGETHER.finditer(loaded.source.text[start : row.span.end]):
        for many in (int(hit[2]) - 1, int(hit[2]) + 1):
            if many > 1:
                yield Fix(Span(start + hit.start(), start + hit.end()), f"{hit[1]}{many}tog")


_TOGETHER = re.compile(r"(?<![A-Za-z])((?:[fb]p)?[eh]?(?:sc|dc|tr|htr))(\d)tog\b", re.IGNORECASE)


def spaces_there(loaded: Loaded, row: Row, problem: Problem) -> Iterator[Fix]:
    """The length of a space that is named and is not there, as that of those that are: "in next ch-3 sp"."""
    there = {e.chains for placed in worked(loaded, row)[:1] for e in placed.worked.below if e.kind == SP}
    figures = [f for f in figures_in(loaded, problem.label.span) if _of_a_space(loaded, f)]
    for figure in reversed(figures):
        if figure.value not in there:
            yield from changed_to(figure, *sorted(there, key=lambda n: abs(n - figure.value)))


def _of_a_space(loaded: Loaded, figure: Figure) -> bool:
    """True for "ch-3 sp", "3-ch loop" and "ch 3 space"."""
    before = loaded.source.text[: figure.span.start][-3:].lower()
    behind = loaded.source.text[figure.span.end :][:12].lower()
    return _SPACE_OF.match(f"{before}|{behind}") is not None


_SPACE_OF = re.compile(r".?ch[\s-]?\|[\s-]?(?:sp|lp|loop)|.*\|[\s-]ch(?:ain)?[\s-](?:sp|lp|loop)")


def _lead(row: Row) -> int:
    """Where the turning chain of a row ends: where its first work begins."""
    works = [i.span.start for i in row.items if isinstance(i, (Work, Group, Repeat, Skip, Travel))]
    return works[0] if works else row.label_span.end


_INTO = ("next", "last", "first", "miss", "skip", "sk", "of", "the")
"""What stands before chains that are worked into or passed over."""


def _of_a_chain(loaded: Loaded, figure: Figure) -> bool:
    """True for "ch 3" and "3 ch"."""
    before = loaded.source.text[: figure.span.start][-8:].lower().rstrip()
    behind = loaded.source.text[figure.span.end :][:5].lower()
    made = behind.startswith((" ch,", " ch (", " ch;", " ch)")) and not before.endswith(_INTO)
    return made or before.endswith(("ch", "chain", "ch-"))


def other_numbers(
    loaded: Loaded, row: Row, problem: Problem, far: bool, leading: bool | None = None
) -> Iterator[Fix]:
    """A number of the row, or of the foundation before it, made one more or less; with `far`, by more than that.

    `leading` for that of the turning chain alone, False for all but that one.
    """
    figures = figures_of(loaded, row)
    here = {figure.value for figure in figures}
    at = problem.label.span
    text = loaded.source.text
    differences = list(_differences(loaded, row))
    near = (-1, 1) if problem.code == "C203" else (1, -1)
    steps = dict.fromkeys(
        (*differences, *(-d for d in differences), *(2 * n for n in near), *(3 * n for n in near))
        if far
        else near
    )
    foundation = list(foundation_of(loaded, row))
    lead = _lead(row)
    ranked: list[tuple[tuple[int, ...], Figure, int]] = []
    for k, figure in enumerate((*foundation, *figures)):
        before, behind = text[: figure.span.start][-8:].lower(), text[figure.span.end :][:9].lower()
        often = (
            figure.style == "times"
            or behind.lstrip().startswith(("times", "more", "x"))
            or before.rstrip().endswith(("x", "×"))
        )
        is_chain = _of_a_chain(loaded, figure)
        if leading is not None and leading is not (
            is_chain and k >= len(foundation) and figure.span.start < lead
        ):
            continue
        for n, step in enumerate(steps):
            value = figure.value + step
            if far and is_chain and k >= len(foundation):
                continue
            if not figure.value / 2 - 1 <= value <= 2 * figure.value + 3:
                continue  # no slip of the pen
            rank = (
                # far ones last, and turning chains, which rarely are the slip
                far and n >= 2 * len(differences), is_chain and k >= len(foundation), figure.style == "ordinal",
                # what the error points at, how often a repeat goes, a number that stands in the row already
                not (often or k < len(foundation)), value not in here, not at.start <= figure.span.start < at.end, n, k,
            )  # fmt: skip
            ranked.append((rank, figure, value))
    ranked.sort(key=lambda each: each[0])
    for _, figure, value in ranked:
        yield from changed_to(figure, value)


def figures_of(loaded: Loaded, row: Row) -> list[Figure]:
    """The numbers a row is worked by: all but those of its label and of the counts it states."""
    told = [stated.span for stated in row.stated]
    return [
        figure
        for figure in figures_in(loaded, Span(row.label_span.end, row.span.end))
        if not any(span.start <= figure.span.start < span.end for span in told)
    ]


def counts_of(loaded: Loaded, row: Row) -> Iterator[Figure]:
    """The numbers of the counts that a row states."""
    for stated in row.stated:
        yield from figures_in(loaded, stated.span)


def one_repeat(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """How often a repeat goes, or a number within one, made one more or less.

    Only for a row that is off by several, and not by a slip in the figures of its count: that one pass more makes
    exactly what is stated does not come about by chance.
    """
    wrong = list(_differences(loaded, row))
    if not wrong or slip_of_figures(loaded, row):
        return
    text = loaded.source.text
    inside = [item.span for item in row.items if isinstance(item, Repeat)]
    often: list[Figure] = []
    within: list[Figure] = []
    for figure in figures_of(loaded, row):
        behind = text[figure.span.end :][:9].lower().lstrip()
        before = text[: figure.span.start][-4:].rstrip()
        if (
            figure.style == "times"
            or behind.startswith(("times", "more", "x"))
            or before.endswith(("x", "×"))
        ):
            often.append(figure)
        elif any(span.start <= figure.span.start < span.end for span in inside):
            within.append(figure)
    for figure in (*often, *within):
        yield from changed_to(figure, figure.value + 1, figure.value - 1)


def slip_of_figures(loaded: Loaded, row: Row) -> bool:
    """True where one figure of a stated count is another than of what is made, or two of them changed places."""
    for placed in worked(loaded, row)[:1]:
        for stated in row.stated:
            for name, number in stated.counts:
                made = placed.worked.makes.get(name, placed.worked.stitches if name in ("", ANY) else number)
                one, other = str(made), str(number)
                changed = sum(a != b for a, b in zip(one, other, strict=False))
                if one != other and len(one) == len(other) and (changed == 1 or sorted(one) == sorted(other)):
                    return True
    return False


def foundation_of(loaded: Loaded, row: Row) -> Iterator[Figure]:
    """The numbers of what was set up right before a first row."""
    before: Setup | None = None
    for block in loaded.pattern.blocks:
        if isinstance(block, Setup):
            before = block
        elif block is row and before is not None:
            yield from figures_in(loaded, before.span)
            return
        elif isinstance(block, Row):
            before = None


def row_before(loaded: Loaded, row: Row) -> Row | None:
    before: Row | None = None
    for block in loaded.pattern.blocks:
        if block is row:
            return before
        if isinstance(block, Row):
            before = block
    return None


def changed_to(figure: Figure, *values: int) -> Iterator[Fix]:
    for value in dict.fromkeys(values):
        fix = figure.as_(value)
        if fix is not None:
            yield fix


def _differences(loaded: Loaded, row: Row) -> Iterator[int]:
    for placed in worked(loaded, row)[:1]:
        for stated in row.stated:
            for name, number in stated.counts:
                made = placed.worked.makes.get(name, placed.worked.stitches if name in ("", ANY) else number)
                if 1 < abs(number - made) < 400:
                    yield number - made


def worked(loaded: Loaded, row: Row) -> Sequence[Placed]:
    """The row as it stands in the fabric: the first and the last time it is worked."""
    found = [
        placed
        for stretch in loaded.fabric.stretches
        for placed in stretch.rows
        if placed.label_span.start == row.label_span.start
    ]
    return (found[0], found[-1]) if found else ()
