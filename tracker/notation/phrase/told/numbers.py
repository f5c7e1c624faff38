"""The rows that a reference names: "Rows 2-7", "Row 3", "rnds 2, 3 and 4", "3rd-6th rows".

The cursor stands on the word or the first number; the numbers come out and the cursor moves past them, or None with the
cursor where it was.
"""

from collections.abc import Sequence

from tracker.notation.page.labelled.row_names import range_of
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.until import ROWS, measured
from tracker.notation.scan import T


def numbers_here(c: Cursor) -> Sequence[int] | None:
    """ "Rows 2-7", "Row 3", "rnds 2, 3 and 4", "R2-R5": the rows named."""
    start = c.i
    if c.kind() is T.ORDINAL:
        return _ordinals(c)
    if c.text() not in ROWS:
        return None
    several = c.text().endswith("s") or c.text() == "r"
    c.i += 1
    if c.kind() is T.PERIOD:
        c.i += 1
    if c.text() in ("#", "no", "number") and c.value(2 if c.kind(1) is T.PERIOD else 1) is not None:
        c.i += 2 if c.kind(1) is T.PERIOD else 1
    words: list[str] = []
    if c.context.lettered and (by_letter := _letters(c)):
        return by_letter
    if c.value() is None:
        c.i = start
        return None
    while True:
        value = c.value()
        if value is not None and not (words and words[-1].isdigit()):
            if words and c.text(1) in ("times", "more", "x", "rows", "rnds", "rounds") and words[-1] != "-":
                break
            words.append(str(value))
            c.i += 1
            continue
        if words and words[-1].isdigit() and c.kind() is T.COMMA and _row_named(c, 1):
            # "As Row 2, Row 3 and Row 2": one after another
            words.append(",")
            c.i += 1
            continue
        if (
            words
            and words[-1].isdigit()
            and not several
            and c.kind() in (T.DASH, T.COMMA)
            and not (c.kind() is T.DASH and _to_the_last(c, int(words[-1])))
        ):
            # "Rep Row 2 – 26 sc": one row is named, what follows is its count
            break
        if words and words[-1].isdigit():
            if "-" in words and c.text() in ("to", "through", "thru") and c.text(1) in ROWS:
                break  # "Rep Rows 2-3 through Row 21": how far, not which
            if c.text() == "to" and measured(c, 1):
                break  # "Rep Rows 3 and 4 to 20 inches"
            if (
                c.kind() is T.HYPHEN
                or c.text() in ("to", "through", "thru")
                or (
                    c.kind() is T.DASH
                    and c.value(1) is not None
                    and not _is_count(c, 1)
                    and "-" not in words[-2:]
                )
            ):
                words.append("-")
                c.i += 1
                continue
            if c.text() in ("and", "&", "+") and (
                c.value(1) is not None or c.text(1) in ROWS and c.value(2) is not None
            ):
                words.append("&")
                c.i += 1
                continue
            if c.kind() is T.COMMA and c.value(1) is not None and c.text(2) not in ("times", "more"):
                words.append(",")
                c.i += 1
                continue
        if c.text() in ROWS and c.value(1) is not None and words and not words[-1].isdigit():
            c.i += 1
            continue
        break
    while words and not words[-1].isdigit():
        words.pop()
        c.i -= 1
    found = range_of(" ".join(words).replace(" - ", "-"))
    if len(words) > 1:
        c.take_any("inclusive", "incl")
    return found or None


def _row_named(c: Cursor, ahead: int) -> bool:
    """True where "Row 3" stands so many words ahead, with a sign or "and" behind it."""
    return (
        c.text(ahead) in ROWS
        and c.value(ahead + 1) is not None
        and (c.text(ahead + 2) in ("and", "&") or c.kind(ahead + 2) in (T.COMMA, T.PERIOD, T.END, T.OPEN))
    )


def _further_ordinal(c: Cursor) -> int:
    """How many words lie before the next ordinal of "2nd row, 3rd row and 2nd row"; 0 for other words."""
    ahead = 1
    ahead += c.kind(ahead) is T.COMMA
    ahead += c.text(ahead) in ("and", "&")
    ahead += c.text(ahead) == "the" and ahead > 1
    told = ahead > 1 and c.kind(ahead) is T.ORDINAL and c.text(ahead + 1) in ROWS
    return ahead if told else 0


def _to_the_last(c: Cursor, first: int) -> bool:
    """True for "- 6" behind "rnd 1" that names further rounds: "rnd 1 - 6 of the head", or as the row's own label has
    them."""
    last = c.value(1)
    if last is None or last <= first:
        return False
    return c.text(2) in ("of", "from", "for", "again", "above") or (c.context.row or "").endswith(
        f" {first}-{last}"
    )


def _letters(c: Cursor) -> tuple[int, ...]:
    """ "A and B", "A-D" behind "Rows", where rows go by letters: the numbers they stand for."""
    found: list[int] = []
    through = False
    while len(c.text()) == 1 and "a" <= c.text() <= "h" and c.kind() is T.WORD:
        number = ord(c.text()) - ord("a") + 1
        found.extend(range(found[-1] + 1, number) if through and found else ())
        found.append(number)
        c.i += 1
        through = c.kind() is T.HYPHEN or c.text() in ("to", "through")
        joined = through or c.kind() is T.COMMA or c.text() in ("and", "&")
        ahead = 2 if c.text(1) in ROWS else 1
        if not joined or len(c.text(ahead)) != 1 or not "a" <= c.text(ahead) <= "h":
            break
        c.i += ahead
    return tuple(found)


def _is_count(c: Cursor, ahead: int) -> bool:
    """True when the number there counts stitches: "Rep R2 – 30 hdc"."""
    word = c.text(ahead + 1)
    return word in ("st", "sts", "stitches") or stitch_here(c, ahead + 1) is not None


def _ordinals(c: Cursor) -> Sequence[int] | None:
    """ "3rd-6th rows", "2nd and 3rd rows", "3rd row", "3rd" after such."""
    start = c.i
    words: list[str] = []
    while c.kind() is T.ORDINAL:
        words.append(str(c.token().value))
        c.i += 1
        if c.text() in ROWS and c.text(1) in ("to", "through") and T.ORDINAL in (c.kind(2), c.kind(3)):
            # "from the 2nd row to the 5th row"
            words.append("-")
            c.i += 3 if c.kind(3) is T.ORDINAL else 2
            continue
        if c.kind(1) is T.ORDINAL and (
            c.kind() in (T.HYPHEN, T.DASH, T.COMMA) or c.text() in ("to", "and", "&", "through")
        ):
            words.append("-" if c.kind() in (T.HYPHEN, T.DASH) or c.text() in ("to", "through") else "&")
            c.i += 1
        elif c.text() in ("to", "and", "through") and c.text(1) == "the" and c.kind(2) is T.ORDINAL:
            # "the 2nd to the 7th rows"
            words.append("&" if c.text() == "and" else "-")
            c.i += 2
        elif c.text() in ROWS and (more := _further_ordinal(c)):
            # "as 2nd row, 3rd row and 2nd row"
            words.append("&")
            c.i += more
    if (
        not c.take_any(*ROWS)
        and c.kind() not in (T.END, T.PERIOD, T.COMMA)
        and c.text() not in ("once", "twice")
    ):
        c.i = start
        return None
    if len(words) > 1:
        c.take_any("inclusive", "incl")
    return range_of(" ".join(words).replace(" - ", "-")) or None
