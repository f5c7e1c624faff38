"""Gaps between stitches of a row, the spaces of work that stands in groups without chains between them."""

from tracker.fabric.below.surface import Surface
from tracker.fabric.model import SP, Element


def stands_in_gaps(below: Surface) -> bool:
    """True for a row that stands in groups and has no chain space, save the one of its turning chain."""
    spaced = below.has_spaces() and any(e.kind == SP and not e.turning for e in below.elements)
    return not spaced and any(e.group for e in below.elements)


def last_gaps(below: Surface, many: int) -> int | None:
    """Index of the first of the last `many` gaps; None where there are not so many."""
    gaps = [i for i in range(1, below.n) if is_gap(below.elements, i)]
    return gaps[-many] if 0 < many <= len(gaps) else None


def is_gap(elements: tuple[Element, ...], i: int) -> bool:
    """True where two neighbours leave a gap between them."""
    if elements[i - 1].kind == SP and elements[i - 1].turning:
        return False  # the space of a turning chain is one with the gap before it
    return not one_place(elements[i - 1], elements[i])


def between_groups(elements: tuple[Element, ...], i: int) -> bool:
    """True for a gap with a group at either side of it."""
    return (
        not one_place(elements[i - 1], elements[i])
        and _grouped_before(elements, i)
        and _grouped_after(elements, i)
    )


def _grouped_before(elements: tuple[Element, ...], i: int) -> bool:
    """True when a group, or the edge with two stitches or more, ends before an index."""
    if i == 0:
        # the gap in which a round begins
        return one_place(elements[-2], elements[-1])
    return i >= 2 and one_place(elements[i - 2], elements[i - 1]) or i == 2


def _grouped_after(elements: tuple[Element, ...], i: int) -> bool:
    """True when a group, or the edge with two stitches or more, begins at an index."""
    return i + 1 < len(elements) and (one_place(elements[i], elements[i + 1]) or i == len(elements) - 2)


def one_place(a: Element, b: Element) -> bool:
    """True when two neighbours were worked in one place, so that there is no gap between them."""
    return bool(a.group and a.group == b.group) or bool(
        a.into and a.into == b.into and a.between == b.between
    )
