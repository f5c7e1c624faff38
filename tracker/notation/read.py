"""A text into a Pattern.

Any text comes in; a Pattern comes out with the problems of reading it. What is not read is kept word for word;
nothing raises, and nothing is lost.
"""

from tracker.expressions import expression
from tracker.notation.definitions.filet.edges import edge_stitches, edges_of
from tracker.notation.definitions.filet.squares import settled, squares_told, undefined_tile
from tracker.notation.definitions.head import begins, keys_of, said
from tracker.notation.definitions.inline import defined_in_rows
from tracker.notation.definitions.numbers import bare_numbers, unwritten_border
from tracker.notation.definitions.specials import define
from tracker.notation.habits import colours_of, habits_of, named_in, unnamed_sizes
from tracker.notation.page.block import Page
from tracker.notation.page.layout import lay_out
from tracker.notation.page.signs import copies_noted
from tracker.notation.page.sized.asked import place_of
from tracker.notation.page.sized.conditions import restrictions_bracketed
from tracker.notation.page.typed.clean import clean
from tracker.notation.pattern import Pattern
from tracker.notation.phrase.cursor import Context, key_of
from tracker.notation.rows.reader import RowReader
from tracker.problems import Label, Problem, Severity, Source, Span
from tracker.trade.terms import Terms, terms_of

_TWICE = expression(r"(\([^()]{1,40}\))(?:\s*\1)+")
"""What stands in brackets twice: "Poncho (US terms) (US terms)"."""
MAX_TEXT = 500_000
"""Characters that are read; a pattern is a few thousand."""


def source_of(name: str, text: str) -> Source:
    """A source as everything else expects it: cleaned, and no longer than is read."""
    return Source(name, restrictions_bracketed(clean(text[:MAX_TEXT])))


def read(source: Source, size: str | None = None) -> tuple[Pattern, tuple[Problem, ...]]:
    """The pattern in a source made by `source_of`, for one of its sizes (the first when None)."""
    page = lay_out(source.text)
    terms = terms_of(source.text)
    context = Context(uk=terms.uk, colours=colours_of(source.text))
    sizes = page.sizes
    if not sizes:
        sizes = unnamed_sizes(source.text) if page.blocks else ()
    index = place_of(size, sizes) or 0 if size is not None else 0
    if terms.against:
        context.problems.append(_mixed(source, terms, page))
    defining = [block for block in page.blocks if block.job == "define"]
    # what a beginning stitch stands in for may be told behind it
    for last in (False, True):
        for block in defining:
            text = source.text[block.start : block.end].replace("\n", " ")
            if begins(text) is not last:
                continue
            for special in define(text, block.start, context, source):
                for key in keys_of(text):
                    context.specials.setdefault(key, special)
    for text, offset in said(source.text[:20_000]):
        for special in define(text, offset, context, source):
            for key in keys_of(text):
                context.specials.setdefault(key, special)
    # a letter that stands for a stitch is no colour: "D = drop stitch: dc in front loop 2 rows below"
    context.colours -= {key for key, special in context.specials.items() if special.items or special.closes}
    for special in squares_told(source.text):
        context.specials.setdefault(key_of(special.name), special)
    context.specials.update(settled(context.specials))
    for special in edge_stitches(source.text, terms.uk):
        context.specials.setdefault(key_of(special.name), special)
    inline = defined_in_rows(source, context)
    for special in inline:
        context.specials.setdefault(key_of(special.name), special)
    context.inline = frozenset(special.name for special in inline)
    if not any(special.base == "tile" for special in context.specials.values()):
        tile = undefined_tile(source.text)
        if tile is not None:
            for key in ("tile", "square", "block"):
                context.specials.setdefault(key, tile)
    context.plain = bare_numbers(source.text[:20_000], terms.uk)
    context.border = unwritten_border(source.text[:20_000], terms.uk, context.plain)
    context.named = named_in(source.text, page)
    context.edges = edges_of(source.text)
    context.parts = tuple(dict.fromkeys(name for name, _ in page.parts if name))
    context.lettered = page.lettered
    habits = habits_of(source, page, context)
    reader = RowReader(source, context, sizes, index)
    blocks = reader.blocks(page)
    if page.cut:
        context.problems.append(
            Problem(
                "T107",
                Severity.WARNING,
                "The text is longer than a pattern can be; the rest was not read",
                Label(Span(0, 1)),
                help="Split it into its parts.",
            )
        )
    notes = tuple(source.words(Span(b.start, b.end)) for b in page.blocks if b.job in ("note", "define"))
    specials = tuple(dict.fromkeys(context.specials.values()))
    pattern = Pattern(
        _TWICE.sub(r"\1", page.title) or source.name,
        terms.uk,
        terms.stated,
        sizes,
        sizes[index] if sizes else None,
        tuple(blocks),
        specials,
        habits,
        notes,
        tuple(dict.fromkeys(page.parts)),
        page.copies if page.copies > 1 or page.parts else copies_noted(_before_rows(source, page)),
    )
    return pattern, tuple(context.problems)


def _before_rows(source: Source, page: Page) -> tuple[str, ...]:
    """The notes before the first row."""
    first = next((b.start for b in page.blocks if b.label is not None), len(source.text))
    return tuple(
        source.words(Span(b.start, b.end)) for b in page.blocks if b.job == "note" and b.end <= first
    )


def _mixed(source: Source, terms: Terms, page: Page) -> Problem:
    """What is wrong with a name that belongs to the other terms (T105)."""
    start, end, word = terms.against[0]
    rows = [b for b in page.blocks if b.job in ("row", "rerun") and b.start <= start < b.end]
    label = next((b.label.text if b.label else source.words(Span(b.start, b.end))[:60] for b in rows), None)
    other, own = ("US", "UK") if terms.uk else ("UK", "US")
    return Problem(
        "T105",
        Severity.ERROR,
        f"“{word}” is a {other} name in a pattern in {own} terms",
        Label(Span(start, end), "the other terms"),
        label,
        None,
        None,
        "Find out which terms the designer used, and write every stitch in them.",
    )
