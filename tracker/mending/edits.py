"""Single edits that may mend an error, likeliest first.

A loaded pattern and one of its errors come in; fixes come out, for as long as someone asks. None of them is tried
here, and none changes more than one place.
"""

import re
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from itertools import chain, pairwise

from tracker.fabric.model import Placed
from tracker.load import Loaded
from tracker.mending.figures import Figure, figures_in
from tracker.notation.phrase.cursor import Context, partners
from tracker.notation.phrase.spelling import nearest
from tracker.notation.scan import T, scan
from tracker.notation.tree import ANY, Row, Setup, Turning
from tracker.problems import Fix, Problem, Severity, Span
from tracker.trade.stitches import STITCHES, height_of, written

_STRUCTURAL = frozenset(("C202", "C203", "C204", "C205", "C206", "C207", "C208", "C210"))
_CLOSED = {"(": ")", "[": "]", "{": "}"}
_OPENED = {closed: opened for opened, closed in _CLOSED.items()}
_COUNTS = re.compile(
    r"(?:\b(?:does |do )?not\s+)?\bcounts?(?:ed)?\s+(?:as\s+)?(?:a\s+|an\s+|1\s+|first\s+)?\w+(?:\s+and\s+ch-\d\s+sp)?",
    re.IGNORECASE,
)
_NEGATIVE = re.compile(
    r"\b(?:does|do)\s+not\s+count(?:\s+as\s+(?:a\s+)?\w+)?|\bnot\s+counted\b|\bnot a st\b", re.IGNORECASE
)


def edits_for(loaded: Loaded, problem: Problem) -> Iterator[Fix]:
    """Edits that may mend one error."""
    row = row_of(loaded, problem)
    others = {p.code for p in loaded.problems if p.severity is Severity.ERROR and p.row == problem.row}
    code = problem.code
    if code == "T102":
        yield from _brackets(loaded, row, problem)
    elif code == "T103":
        yield from _stars(loaded, row, problem)
    elif code in ("T104", "T105"):
        yield from _names(loaded, problem)
    elif code in ("R301", "R302", "R303", "R304"):
        yield from _references(loaded, row, problem)
    elif code == "C211":
        yield from _sizes(loaded, row, problem)
    if row is None:
        return
    if code == "C209":
        yield from _statements(loaded, row)
        return
    if code == "C201" and not others & _STRUCTURAL:
        # a first row that disagrees may lack a chain: the rows after it tell which
        foundation = _foundation(loaded, row)
        yield from chain.from_iterable(
            _as(figure, figure.value + 1, figure.value - 1) for figure in foundation
        )
        yield from _stated(loaded, row)
    yield from _numbers(loaded, row, problem)
    yield from _statements(loaded, row)
    yield from _words(loaded, row)
    yield from _dropped_signs(loaded, row)
    if code == "C201" and others & _STRUCTURAL:
        yield from _stated(loaded, row)
    before = _row_before(loaded, row)
    if before is not None and code in _STRUCTURAL:
        for figure in _figures_of(loaded, before):
            yield from _as(figure, figure.value + 1, figure.value - 1)


def row_of(loaded: Loaded, problem: Problem) -> Row | None:
    """The printed row an error lies in."""
    at = problem.label.span.start
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row)]
    inside = next((row for row in rows if row.span.start <= at < max(row.span.end, row.span.start + 1)), None)
    named = next((row for row in rows if row.label == problem.row), None)
    return (
        named
        if inside is None
        or (named is not None and named.part == problem.part and inside.label != problem.row)
        else inside
    )


def _worked(loaded: Loaded, row: Row) -> Sequence[Placed]:
    """The row as it stands in the fabric: the first and the last time it is worked."""
    found = [
        placed
        for stretch in loaded.fabric.stretches
        for placed in stretch.rows
        if placed.label_span.start == row.label_span.start
    ]
    return (found[0], found[-1]) if found else ()


# -- counts


def _stated(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A stated count put right by what the row makes."""
    for placed in dict.fromkeys(reversed(_worked(loaded, row))):
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
                        *made.values(),
                    ]
                fitting = [f for f in figures if f.value == number]
                for figure in fitting[:1] or figures[k : k + 1]:
                    yield from _as(figure, *meant)


def _as(figure: Figure, *values: int) -> Iterator[Fix]:
    for value in dict.fromkeys(values):
        fix = figure.as_(value)
        if fix is not None:
            yield fix


def _numbers(loaded: Loaded, row: Row, problem: Problem) -> Iterator[Fix]:
    """A number of the row, or of the foundation before it, made a little more or less."""
    figures = _figures_of(loaded, row)
    here = {figure.value for figure in figures}
    at = problem.label.span
    text = loaded.source.text
    differences = list(_differences(loaded, row))
    near = (-1, 1) if problem.code == "C203" else (1, -1)
    steps = dict.fromkeys(
        (*near, *differences, *(-d for d in differences), *(2 * n for n in near), *(3 * n for n in near))
    )
    foundation = list(_foundation(loaded, row))
    ranked: list[tuple[tuple[int, ...], Figure, int]] = []
    for k, figure in enumerate((*foundation, *figures)):
        before, behind = text[: figure.span.start][-8:].lower(), text[figure.span.end :][:9].lower()
        often = (
            figure.style == "times"
            or behind.lstrip().startswith(("times", "more", "x"))
            or before.rstrip().endswith(("x", "×"))
        )
        is_chain = before.rstrip().endswith(("ch", "chain", "ch-"))
        for n, step in enumerate(steps):
            value = figure.value + step
            if not figure.value / 2 - 1 <= value <= 2 * figure.value + 3:
                continue  # no slip of the pen
            rank = (
                # far ones last, and turning chains, which rarely are the slip
                n >= 2 + 2 * len(differences), is_chain and k >= len(foundation), figure.style == "ordinal",
                # what the error points at, how often a repeat goes, a number that stands in the row already
                not (often or k < len(foundation)), value not in here, not at.start <= figure.span.start < at.end, n, k,
            )  # fmt: skip
            ranked.append((rank, figure, value))
    ranked.sort(key=lambda each: each[0])
    for _, figure, value in ranked:
        yield from _as(figure, value)


def _figures_of(loaded: Loaded, row: Row) -> list[Figure]:
    """The numbers a row is worked by: all but those of its label and of the counts it states."""
    told = [stated.span for stated in row.stated]
    return [
        figure
        for figure in figures_in(loaded, Span(row.label_span.end, row.span.end))
        if not any(span.start <= figure.span.start < span.end for span in told)
    ]


def _row_before(loaded: Loaded, row: Row) -> Row | None:
    before: Row | None = None
    for block in loaded.pattern.blocks:
        if block is row:
            return before
        if isinstance(block, Row):
            before = block
    return None


def _words(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A place of another kind, or a decrease that was to be worked twice."""
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    for hit in re.finditer(r"\b(?:same|next)(?=\s+(?:st|sc|dc|hdc|tr|htr)\b)", text):
        yield Fix(Span(start + hit.start(), start + hit.end()), "next" if hit.group() == "same" else "same")
    for hit in re.finditer(r"(?<=,\s)\w+\d?tog(?=,)", text):
        yield Fix(Span(start + hit.start(), start + hit.end()), f"({hit.group()}) twice")


def _differences(loaded: Loaded, row: Row) -> Iterator[int]:
    for placed in _worked(loaded, row)[:1]:
        for stated in row.stated:
            for name, number in stated.counts:
                made = placed.worked.makes.get(name, placed.worked.stitches if name in ("", ANY) else number)
                if 1 < abs(number - made) < 400:
                    yield number - made


def _foundation(loaded: Loaded, row: Row) -> Iterator[Figure]:
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


# -- turning chains


def _statements(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A turning chain said to count that does not, or the other way about."""
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    uk = loaded.pattern.uk
    taken_out = [
        Fix(Span(start + hit.start(), start + hit.end()), "")
        for hit in re.finditer(r"\s*\([^()]*\b(?:counts?|counted|not a st)\b[^()]*\)", text)
    ]
    settled = bool(loaded.pattern.habits.turning) or any(
        isinstance(item, Turning) and item.throughout
        for block in loaded.pattern.blocks
        if isinstance(block, Row) and block is not row
        for item in block.items
    )
    if settled:
        yield from taken_out
    for hit in _NEGATIVE.finditer(text):
        for name in _names_used(loaded)[:3]:
            yield Fix(Span(start + hit.start(), start + hit.end()), f"counts as {written(name, uk)}")
            chains = re.search(r"\bch\s?(\d)\W*$|\b(\d)\s?ch\W*$", text[: hit.start()], re.IGNORECASE)
            more = int(chains[1] or chains[2]) - height_of(name) if chains else 0
            if more > 0:
                space = f"{more}-ch sp" if uk else f"ch-{more} sp"
                yield Fix(
                    Span(start + hit.start(), start + hit.end()), f"counts as {written(name, uk)} and {space}"
                )
    for hit in _COUNTS.finditer(text):
        if "not" not in text[max(0, hit.start() - 10) : hit.end()].lower():
            yield Fix(Span(start + hit.start(), start + hit.end()), "does not count as a st")
    yield from taken_out


def _names_used(loaded: Loaded) -> list[str]:
    """Names of stitches that the pattern makes, the commonest first."""
    many: dict[str, int] = {}
    for stretch in loaded.fabric.stretches:
        for placed in stretch.rows:
            for name, number in placed.worked.makes.items():
                if name in STITCHES and name != "slst":
                    many[name] = many.get(name, 0) + number
    # the plain ones of the ladder before those that close into one top
    return sorted(many, key=lambda name: (not STITCHES[name].height or STITCHES[name].closes, -many[name]))


# -- signs


def _brackets(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """A bracket put where its partner lacks it, or taken out."""
    text = loaded.source.text
    span = row.span if row is not None else problem.label.span
    tokens = scan(text, span.start, span.end)
    paired = partners(tokens)
    for k, token in enumerate(tokens):
        if k in paired or token.kind not in (T.OPEN, T.CLOSE):
            continue
        if token.kind is T.OPEN:
            closed = _CLOSED[token.text]
            ends = [
                t.start
                for t in tokens[k + 1 :]
                if t.kind in (T.COMMA, T.SEMICOLON, T.PERIOD, T.CLOSE, T.END, T.DASH)
            ]
            places = [
                t.start
                for t in tokens[k + 1 :]
                if t.text in ("in", "into", "x", "×", "times", "twice", "all") or t.kind is T.TIMES
            ]
            places += [
                one.start
                for one, two in pairwise(tokens[k + 1 :])
                if two.text in ("times", "x") and one.kind is T.NUMBER
            ]
            for place in (*sorted(places), *ends):
                at = len(text[:place].rstrip())
                yield Fix(Span(at, at), closed)
            yield Fix(Span(token.start, token.end), "*")
        else:
            opened = _OPENED[token.text]
            starts = [
                t.start
                for before, t in pairwise(tokens[:k])
                if before.kind in (T.COMMA, T.SEMICOLON, T.COLON, T.STAR, T.OPEN, T.PERIOD)
            ]
            for place in reversed(starts):
                yield Fix(Span(place, place), opened)
        yield Fix(Span(token.start, token.end), "")


def _stars(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """The star that a repeat goes back to, put before each phrase in turn; or the sign it names put right."""
    if row is None:
        return
    text = loaded.source.text
    at = problem.label.span
    signs = re.findall(r"\*+|†|‡", text[at.start : at.end])
    sign = signs[-1] if signs else "*"
    for other in dict.fromkeys(re.findall(r"\*+|†|‡", text[row.span.start : at.start])):
        for hit in re.finditer(re.escape(sign), text[at.start : at.end]):
            yield Fix(Span(at.start + hit.start(), at.start + hit.end()), other)
    tokens = scan(text, row.label_span.end, at.start)
    places = [tokens[0].start] if tokens else []
    places += [
        t.start for before, t in pairwise(tokens) if before.kind in (T.COMMA, T.SEMICOLON, T.PERIOD, T.COLON)
    ]
    for place in reversed(places):
        yield Fix(Span(place, place), sign)


def _dropped_signs(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A mark that an ending names and that stands nowhere: "ending last rep at **"."""
    text = loaded.source.text[row.span.start : row.span.end]
    hit = re.search(r"\b(?:ending|end)\s+last\s+rep(?:eat)?\s+at\s+(\*\*|†)", text)
    if hit is None or text.count(hit[1]) > 1:
        return
    tokens = scan(loaded.source.text, row.label_span.end, row.span.start + hit.start())
    for token in reversed(tokens):
        if token.kind in (T.COMMA, T.SEMICOLON):
            yield Fix(Span(token.start, token.start), hit[1])


# -- names


def _names(loaded: Loaded, problem: Problem) -> Iterator[Fix]:
    """Another name in place of the one that is not known, or that belongs to the other terms."""
    span = problem.label.span
    word = loaded.source.text[span.start : span.end]
    uk = loaded.pattern.uk
    context = Context(uk=uk)
    own = {special.name for special in loaded.pattern.specials}
    words = sorted(
        {w.lower() for w in re.findall(r"[A-Za-z][A-Za-z-]{1,12}", loaded.source.text[:100_000])}
        - {word.lower()}
    )
    used = [written(name, uk) for name in _names_used(loaded)]
    found: list[str] = []
    if problem.code == "T105":
        other = next((row for row in STITCHES.values() if word.lower() in (row.name, row.uk)), None)
        if other is not None:
            found.append(other.uk if uk else other.name)
        found += used
    else:
        found += get_close_matches(word.lower(), sorted(own), n=3, cutoff=0.6)
        close = nearest(word.lower(), context)
        found += [close] if close else []
        found += get_close_matches(word.lower(), [*used, *own], n=3, cutoff=0.5)
        found += get_close_matches(word.lower(), words, n=4, cutoff=0.6)
        found += used[:4]
    for name in dict.fromkeys(found):
        if name.lower() != word.lower():
            yield Fix(span, name.upper() if word.isupper() and len(word) > 1 else name)


# -- rows and references


def _references(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """A number of a reference, of the row's own label, or of the label before it, put right."""
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row)]
    k = next((at for at, one in enumerate(rows) if one is row), None)
    known = sorted({number for one in rows for number in one.numbers[:400]}, reverse=True)
    label = list(figures_in(loaded, row.label_span)) if row is not None else []
    named = list(figures_in(loaded, problem.label.span))
    inside = list(figures_in(loaded, row.rerun.span)) if row is not None and row.rerun is not None else []
    figures = [f for f in dict.fromkeys((*named, *inside)) if f not in label]
    own = max(row.numbers, default=10**6) if row is not None else 10**6
    if problem.code == "R301":
        for one, other in pairwise(figures):
            between = loaded.source.text[one.span.end : other.span.start].strip()
            if between in ("-", "–", "to") and one.value > 10 and other.value > 10:
                yield Fix(
                    Span(one.span.start, other.span.end), f"{one.value - 10}{between}{other.value - 10}"
                )
        for figure in figures:
            digits = str(figure.value)
            shorter = [int(digits[:n] + digits[n + 1 :]) for n in range(len(digits)) if len(digits) > 1]
            if figure.value not in known or figure.value >= own:
                earlier = [n for n in known if n < own]
                yield from _as(figure, *(n for n in earlier if figure.value - n == 10))
                yield from _as(figure, *(n for n in shorter if n in earlier))
                yield from _as(figure, *(n for n in earlier if abs(n - figure.value) == 10))
                yield from _as(figure, *sorted(earlier, key=lambda n: abs(n - figure.value))[:12])
    if problem.code in ("R303", "R304"):
        before = list(figures_in(loaded, rows[k - 1].label_span)) if k else []
        for figure in (*label[-1:], *label[:1]) if problem.code == "R303" else (*before[-1:], *label[:1]):
            yield from _as(figure, figure.value + 1, figure.value - 1, figure.value + 2, figure.value - 2)
        for figure in (*label, *before):
            yield from _as(figure, figure.value + 1, figure.value - 1)
    else:
        times = max(1, len(row.rerun.rows) if row is not None and row.rerun is not None else 1)
        for figure in label[-1:]:
            yield from _as(figure, *(figure.value + step for step in (-1, 1, -2, 2, times, -times)))
        figures.sort(key=lambda f: f.style not in ("times", "word"))
        for figure in figures:
            yield from _as(figure, figure.value - 1, figure.value + 1, figure.value - 2, figure.value + 2)


def _sizes(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """A figure added to a list that lacks one, or one taken out of a list that has too many."""
    span = problem.label.span
    text = loaded.source.text[span.start : span.end]
    hits = list(re.finditer(r"\d+", text))
    wanted = len(loaded.pattern.sizes)
    if len(hits) == wanted + 1:
        for hit in reversed(hits):
            cut = re.compile(r"\s*,\s*").match(text[: hit.start()][::-1])
            begin = hit.start() - (cut.end() if cut else 0)
            yield Fix(Span(span.start + begin, span.start + hit.end()), "")
    elif len(hits) == wanted - 1 and len(hits) > 1:
        values = [int(hit.group()) for hit in hits]
        step = values[-1] - values[-2]
        for value in dict.fromkeys(
            (values[-1] + step, *_made_in_last_size(loaded, row), *range(values[-1] + 1, values[-1] + 13))
        ):
            at = span.start + hits[-1].end()
            joined = (
                ") ("
                if re.search(r"\)\s*\(|\]\s*\[", loaded.source.text[row.span.start if row else 0 : span.end])
                else ", "
            )
            yield Fix(Span(at, at), f"{joined}{value}")


def _made_in_last_size(loaded: Loaded, row: Row | None) -> Iterator[int]:
    from tracker.load import load

    if row is None:
        return
    other = load(loaded.source.name, loaded.source.text, loaded.pattern.sizes[-1])
    for stretch in other.fabric.stretches:
        for placed in stretch.rows:
            if placed.label_span.start == row.label_span.start:
                yield placed.worked.stitches
                return
