"""A grid as a complete written filet pattern in standard notation, US terms. A Grid comes in, text goes out.

Read again, the text makes the grid it came from; rows that were written before are written as repeats of those.
"""

import re
from dataclasses import dataclass

from tracker.filet.grid import Grid
from tracker.filet.words import counts, first_row, foundation, further_row


@dataclass(frozen=True, slots=True)
class Wish:
    """What a maker asks of the pattern."""

    title: str = "Filet panel"
    mesh: int = 2
    """Chains of an open square, 1 or 2."""
    mirrored: bool = False
    """Rows for a left-handed maker: right-side rows run from the left of the picture."""
    gauge: str = ""
    """Words of the gauge, or nothing."""


def written(grid: Grid, wish: Wish = Wish()) -> str:
    """The whole pattern."""
    rows = in_working_order(grid, wish.mirrored)
    mesh = wish.mesh
    wide, high = _many(grid.width, "square"), _many(grid.height, "row")
    hand = " For left-handed makers." if wish.mirrored else ""
    out = [
        _title(wish.title),
        f"A filet panel in ch-{mesh} mesh, {wide} wide and {high} high. US terms.{hand}",
        "",
    ]
    if wish.gauge:
        out += [wish.gauge, ""]
    out += ["NOTES", f"Worked in ch-{mesh} mesh. Neighbouring squares share a dc.", *_caution(grid, wish), ""]
    out += [f"Ch {foundation(mesh, rows[0])}.", ""]
    out += _rows(rows, mesh)
    out += ["Fasten off. Weave in ends and block."]
    return "\n".join(out) + "\n"


def _many(number: int, name: str) -> str:
    return f"{number} {name}" + ("" if number == 1 else "s")


def _title(words: str) -> str:
    """The title in capitals, on one line; one that could be taken for a row is called a panel first."""
    title = " ".join(letter for letter in words.upper().split() if letter.isprintable()) or "FILET PANEL"
    plain = re.fullmatch(r"[^\W\d_][^\W\d_ '’&!?,-]*(?:[ '’&!?,-]+[^\W\d_]+)*[!?]?", title)
    worked = re.match(
        r"(?:CH|ROWS?|RND|ROUNDS?|R|SC|DC|NOTES?|GAUGE|SIZES?|FASTEN|MATERIALS?|TURN|REP)\b", title
    )
    return title if plain and not worked else f"FILET PANEL: {title}"


def in_working_order(grid: Grid, mirrored: bool = False) -> tuple[str, ...]:
    """The rows as they are worked, Row 1 first: right-side rows from the right, wrong-side rows from the left."""
    out = []
    for nth, line in enumerate(reversed(grid.lines)):
        from_left = (nth % 2 == 1) != mirrored
        out.append(line if from_left else line[::-1])
    return tuple(out)


def reads_backwards(grid: Grid, mirrored: bool) -> str:
    """What to know before beginning when the picture is not its own mirror image; empty when it is."""
    if grid.symmetric:
        return ""
    other = "right" if mirrored else "left"
    return (
        f"Worked with the {other} hand the picture comes out as its mirror "
        "image, and lettering would read backwards."
    )


def _caution(grid: Grid, wish: Wish) -> list[str]:
    told = reads_backwards(grid, wish.mirrored)
    return [told] if told else []


def _rows(rows: tuple[str, ...], mesh: int) -> list[str]:
    """A paragraph for each row that is new, and one for each range of rows that were written before."""
    texts = [first_row(mesh, rows[0])]
    for nth in range(1, len(rows)):
        texts.append(further_row(mesh, rows[nth], rows[nth - 1][::-1], nth + 1))
    out: list[str] = []
    at = 0
    while at < len(texts):
        start, long = _again(texts, at)
        if long:
            out += [_repeat(at + 1, at + long, start + 1, start + long), ""]
            at += long
            continue
        side = " (RS)" if at == 0 else ""
        out += [f"Row {at + 1}{side}: {texts[at]}. ({counts(mesh, rows[at])})", ""]
        at += 1
    return out


def _again(texts: list[str], at: int) -> tuple[int, int]:
    """Where rows with the same words as those from `at` on begin, and how many they are; the longest of them.

    Row 1 is never named, nor a row that comes later: the words are on the page already.
    """
    best = (0, 0)
    for start in range(1, at):
        long = 0
        while at + long < len(texts) and texts[start + long] == texts[at + long]:
            long += 1
        # Whole passes of the rows just worked may go on past where they began.
        span = at - start
        long = long // span * span if long > span else long
        if long > best[1]:
            best = (start, long)
    return best


def _repeat(first: int, last: int, like: int, like_last: int) -> str:
    if first == last:
        return f"Row {first}: Rep Row {like}."
    like_last = min(like_last, first - 1)
    span = like_last - like + 1
    times = (last - first + 1) // span
    more = "" if times == 1 else " twice" if times == 2 else f" {times} times"
    named = f"Row {like}" if span == 1 else f"Rows {like}-{like_last}"
    return f"Rows {first}-{last}: Rep {named}{more}."
