"""Gaps between stitches of a row, the spaces of work that stands in groups without chains between them."""

from collections import Counter
from collections.abc import Sequence

from tracker.fabric.below.surface import Surface
from tracker.fabric.model import HIDDEN, SP, Element
from tracker.notation.tree import Kind, Where


def stands_in_gaps(below: Surface) -> bool:
    """True for a row that stands in groups and has no chain space, save the one of its turning chain."""
    spaced = below.has_spaces() and any(e.kind == SP and not e.turning for e in below.elements)
    return not spaced and any(e.group for e in below.elements)


def stands_between(below: Surface, where: Where) -> Kind | None:
    """The stitch of "sl st between petals", where such stand outside of the petals; None where none does."""
    kind = where.kinds[2] if len(where.kinds) > 2 else None
    lone = kind is not None and any(below.matches(e, kind) and not e.group for e in below.elements)
    return kind if lone else None


def last_gaps(below: Surface, many: int) -> int | None:
    """Index of the first of the last `many` gaps; None where there are not so many."""
    elements = shown(below.elements)
    gaps = [i for i in range(1, len(elements)) if is_gap(elements, i)]
    return gaps[-many] if 0 < many <= len(gaps) else None


def shown(elements: tuple[Element, ...]) -> tuple[Element, ...]:
    """The elements without the chain at their end that counts for nothing: no gap lies before it."""
    return elements[:-1] if len(elements) > 1 and elements[-1].kind == HIDDEN else elements


def is_gap(elements: tuple[Element, ...], i: int) -> bool:
    """True where two neighbours leave a gap between them."""
    before = _before(elements, i)
    if elements[before].kind == SP:
        return False  # a chain space, that of a turning chain too, is one with the gap before it
    return elements[i].kind != HIDDEN and not one_place(elements[before], elements[i])


def between_groups(elements: tuple[Element, ...], i: int) -> bool:
    """True for a gap with a group at either side of it."""
    return (
        elements[i].kind != HIDDEN
        and not one_place(elements[_before(elements, i)], elements[i])
        and _grouped_before(elements, i)
        and _grouped_after(elements, i)
    )


def _before(elements: tuple[Element, ...], i: int) -> int:
    """Index of what stands before an index; a chain that counts for nothing, where a round began, is passed over."""
    return i - 2 if i > 1 and elements[i - 1].kind == HIDDEN else i - 1


def _grouped_before(elements: tuple[Element, ...], i: int) -> bool:
    """True when a group, or the edge with two stitches or more, ends before an index."""
    if i == 0:
        # the gap in which a round begins
        return one_place(elements[-2], elements[-1])
    last = _before(elements, i)
    return last >= 1 and one_place(elements[last - 1], elements[last]) or last == 1 and elements[1].is_stitch


def _grouped_after(elements: tuple[Element, ...], i: int) -> bool:
    """True when a group, or the edge with two stitches or more, begins at an index."""
    edge = i == len(elements) - 2 and elements[i].is_stitch
    return i + 1 < len(elements) and (one_place(elements[i], elements[i + 1]) or edge)


def one_place(a: Element, b: Element) -> bool:
    """True when two neighbours were worked in one place, so that there is no gap between them."""
    return bool(a.group and a.group == b.group) or bool(
        a.into and a.into == b.into and a.between == b.between
    )


def split_shell(elements: Sequence[Element]) -> int:
    """Index where the half of a shell begins that completes, at a round's end, the half which its chain began.

    As many as there are elements where a round does not end so.
    """
    first = next((e for e in elements if e.kind != HIDDEN), None)
    n = len(elements)
    if first is None or not first.turning or not first.into or not elements[-1].group:
        return n
    begins = n - 1
    while begins and elements[begins - 1].group == elements[-1].group:
        begins -= 1
    groups = Counter(e.group for e in elements if e.group and e.is_stitch)
    half = elements[-1].into == first.into and groups[elements[-1].group] < max(groups.values())
    return begins if half else n


def space_beside(elements: Sequence[Element], i: int) -> int:
    """Chains of the space that a turning chain makes beside the stitch it counts as; very many for a plain stitch."""
    return sum(
        elements[j].chains
        for j in (i - 1, i + 1)
        if 0 <= j < len(elements) and elements[j].kind == SP and elements[j].turning
    ) + (99 if not elements[i].turning else 0)
