"""A row as one line: its label, its words, its counts.

A Row comes in with the items it holds; a line goes out. Counts told in the middle of a row stand where they stood.
"""

from collections.abc import Mapping, Sequence

from tracker.fabric.model import Placed
from tracker.notation.page.labelled.row_names import called, row_name
from tracker.notation.pattern import Row, Setup
from tracker.notation.tree import ANY, SPACE, Item, Kind, Prose, Rerun, Say, Stated
from tracker.problems import Span
from tracker.trade.spellings import stitch_named
from tracker.writing.phrases import Writer
from tracker.writing.places import kind_words
from tracker.writing.words import Tongue, own_words


def setup_line(writer: Writer, setup: Setup) -> str:
    """What comes before the first row: "Ch 28."."""
    return _sentence(writer.items(setup.items))


def row_line(writer: Writer, row: Row) -> str:
    """A printed row in clean words."""
    writer.around = row.kind == "round"
    if row.rerun is not None:
        reference = rerun_words(row.rerun, row.kind, writer.tongue)
        count = _counts(writer.tongue, row.stated).strip(" ()")
        body = f"{reference}{f': {count}' if count else ''}."
        return f"{label_words(row)} {_joined(writer, row.items, body)}"
    body = _body(writer, row.items, row.stated)
    return f"{label_words(row)} {_sentence(body)}{_counts(writer.tongue, row.stated)}"


def label_words(row: Row) -> str:
    """The label with its colon: "Row 3 (RS):"."""
    side = f" ({row.side})" if row.side else ""
    # "Rnd 1 (hdc):" tells a stitch, which the words of the row tell in the terms that are asked for
    if row.called and row.called not in row_name(row.label) and stitch_named(row.called) is None:
        side = f" ({row.called} row){side}"
    also = f" and all {'odd' if row.numbers[0] % 2 else 'even'} rows" if row.alternate and row.numbers else ""
    return f"{row.label.rstrip(':. ')}{also}{side}:"


def worked_line(writer: Writer, placed: Placed, own: bool = False, last_of: Row | None = None) -> str:
    """A row as it was worked, spelled out with what it makes; `last_of` is the reference that it is the last row of."""
    row, worked = placed.worked.row, placed.worked
    writer.around = placed.kind == "round"
    side = f" ({worked.side})" if worked.side and not own else ""
    label = f"{placed.label.rstrip(':. ')}{side}:"
    again = last_of is not None and last_of.rerun is not None and last_of is not row
    told = (
        [item for item in last_of.items if not isinstance(item, Prose)]
        if last_of is not None and again
        else []
    )
    if own:
        body = own_words(writer.tongue, Span(row.label_span.end, row.span.end))
        return f"{label} {_joined(writer, told, body)}"
    body = _body(
        writer,
        row.items,
        row.stated if not worked.understood else [each for each in row.stated if each.partial],
    )
    made = {name: number for name, number in worked.makes.items() if number}
    if worked.understood and made:
        count = f" ({made_words(writer.tongue, made)})"
    else:
        count = _counts(writer.tongue, row.stated)
    return f"{label} {_sentence(_joined(writer, told, _sentence(body)))}{count}"


def made_words(tongue: Tongue, made: Mapping[str, int]) -> str:
    """Counts as a list: "12 dc, 11 ch-1 sps"."""
    return ", ".join(f"{number} {_thing(tongue, name, number)}" for name, number in made.items())


def rerun_words(rerun: Rerun, kind: str, tongue: Tongue) -> str:
    """ "Rep Rows 2-7 twice more"."""
    word = "rnd" if kind == "round" else "row"
    if rerun.part is not None:
        part = rerun.part.split("(")[0].strip()
        return f"Rep {called(kind, rerun.rows)} of {part}" if rerun.rows else f"Work as for {part}"
    if rerun.called or rerun.every > 1 or rerun.stitches is not None and rerun.last == 1:
        return _shaped_words(rerun, word)
    if rerun.as_set or rerun.until or rerun.then or rerun.total_rows is not None or rerun.up_to is not None:
        return own_words(tongue, rerun.span)
    if rerun.last:
        named = f"last {word}" if rerun.last == 1 else f"last {rerun.last} {word}s"
    else:
        named = called(kind, rerun.rows)
    return f"Rep {named}{_often(rerun)}"


def _often(rerun: Rerun) -> str:
    if rerun.times is None:
        return ""
    if rerun.more:
        return " " + {1: "once more", 2: "twice more"}.get(rerun.times, f"{rerun.times} more times")
    return " " + {1: "once", 2: "twice"}.get(rerun.times, f"{rerun.times} times")


def _shaped_words(rerun: Rerun, word: str) -> str:
    """ "Rep dec row every 4th row until there are 34 sts"."""
    named = f"{rerun.called} {word}" if rerun.called else f"last {word}"
    ordinal = {2: "other", 3: "3rd"}.get(rerun.every, f"{rerun.every}th")
    every = f" every {ordinal} {word}" if rerun.every > 1 else ""
    return f"Rep {named}{every}{_often(rerun)}{' ' if rerun.until else ''}{rerun.until}"


def _body(writer: Writer, items: Sequence[Item], stated: Sequence[Stated]) -> str:
    """Items with the counts of a part of the row among them."""
    inner = [each for each in stated if each.partial]
    runs: list[str] = []
    start = 0
    for each in sorted(inner, key=lambda one: one.span.start):
        cut = next((k for k, item in enumerate(items) if item.span.start >= each.span.start), len(items))
        if cut > start:
            runs.append(_joined(writer, items[start:cut]))
            start = cut
        if runs:
            runs[-1] += f" ({own_words(writer.tongue, each.span).strip('()[]{} .')})"
    runs.append(_joined(writer, items[start:]))
    return ", ".join(run for run in runs if run)


def _joined(writer: Writer, items: Sequence[Item], body: str = "") -> str:
    """Phrases, with what is told beside them as sentences of its own where it stands at the end."""
    last = len(items)
    while last and isinstance(items[last - 1], Say):
        last -= 1
    body = " ".join(piece for piece in (body, writer.items(items[:last])) if piece)
    for item in items[last:]:
        words = writer.item(item)
        if words:
            body = f"{_sentence(body)} {words[:1].upper()}{words[1:]}" if body else words
    return body


def _counts(tongue: Tongue, stated: Sequence[Stated]) -> str:
    out = ""
    for each in stated:
        if each.partial:
            continue
        if each.change:
            out += f" ({own_words(tongue, each.span).strip('()[]{} .=–—-:')})"
            continue
        words = ", ".join(f"{number} {_thing(tongue, name, number)}".strip() for name, number in each.counts)
        out += f" ({words}{', not counting turning ch' if each.without else ''})"
    return out


def _thing(tongue: Tongue, name: str, number: int) -> str:
    name = name.removeprefix("?")
    if name == "":
        return ""
    if name == ANY:
        return kind_words(tongue, Kind(ANY), number)
    if name.startswith("ch-") and name.endswith(" sp"):
        return f"{name}{'' if number == 1 else 's'}"
    if name == "post":
        return "post st" if number == 1 else "post sts"
    if name == SPACE:
        return kind_words(tongue, Kind(SPACE), number)
    return tongue.name(name)


def _sentence(words: str) -> str:
    """Words with a capital before and a stop behind."""
    words = words.strip()
    if not words:
        return ""
    first = next((k for k, letter in enumerate(words) if letter.isalnum()), 0)
    words = words[:first] + words[first].upper() + words[first + 1 :]
    return words if words.endswith((".", "!", "?")) else f"{words}."
