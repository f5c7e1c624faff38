"""Words for what comes next: a place of a worked row comes in, a short phrase in the pattern's terms comes out."""

from itertools import groupby

from tracker.fabric.model import CH, HIDDEN, SP, Element, WorkedRow
from tracker.notation.tree import Skip
from tracker.trade.stitches import parts_of, written


def called(name: str, uk: bool, many: int = 1) -> str:
    """A stitch or space with its number, as written: "3 dc", "ch-2 sp".

    >>> called("dc", True, 3), called("ch-2 sp", False), called("ch-1 sp", False, 2)
    ('3 tr', 'ch-2 sp', '2 ch-1 sps')
    """
    plural = "s" if many > 1 and name.endswith(" sp") else ""
    return f"{many} {written(name, uk)}{plural}" if many > 1 else written(name, uk)


def next_words(worked: WorkedRow, done: int, uk: bool) -> str:
    """What comes after so many stitches and spaces: to the next stitch, or to the end of what goes in its place."""
    elements = worked.elements
    shown = [k for k, e in enumerate(elements) if e.counts]
    if done >= len(shown):
        return "the end of the row"
    at = shown[done]
    element = elements[at]
    if element.turning and element.kind != SP:
        space = elements[at + 1] if at + 1 < len(elements) and elements[at + 1].turning else None
        if space is not None and space.kind == SP:
            counts = f"{written(element.kind, uk)} and ch-{space.chains} sp"
            return f"ch {element.chains + space.chains} (counts as {counts})"
        return f"ch {element.chains} (counts as {written(element.kind, uk)})"
    words: list[str] = []
    while (
        at < len(elements)
        and elements[at].kind == SP
        and not (elements[at].group and at and _together(elements, at))
    ):
        words.append(f"ch {elements[at].chains}")
        at += 1
    skipped = _skipped(worked, at)
    if skipped:
        words.append(f"skip {skipped}")
    if at < len(elements):
        words.append(_stitches(worked, at, uk))
    return ", ".join(words)


def _together(elements: tuple[Element, ...], at: int) -> bool:
    """True when a space stands in the middle of what is worked in one place."""
    group = elements[at].group
    return elements[at - 1].group == group and at + 1 < len(elements) and elements[at + 1].group == group


def _skipped(worked: WorkedRow, at: int) -> str:
    """What is passed over just before the stitch at an index; nothing when nothing is."""
    passed = [
        worked.below[k]
        for step in worked.steps
        if isinstance(step.item, Skip) and step.made_from == step.made_to == at
        for k in range(step.at, min(step.after, len(worked.below)))
    ]
    if passed and all(e.kind == SP for e in passed):
        return called(passed[0].name, False, len(passed))
    return str(len(passed)) if passed else ""


def _stitches(worked: WorkedRow, at: int, uk: bool) -> str:
    elements = worked.elements
    element = elements[at]
    end = at + 1
    if element.group:
        while end < len(elements) and elements[end].group == element.group:
            end += 1
        parts = [
            f"ch {first.chains}" if first.kind == SP else called(first.kind, uk, len(run))
            for run in (list(same) for _, same in groupby(elements[at:end], key=lambda e: (e.kind, e.chains)))
            for first in run[:1]
        ]
        what = f"({', '.join(parts)})" if len(parts) > 1 else parts[0]
        begun = at > 0 and elements[at - 1].group == element.group
        return f"{what} in {'the same place' if begun else _place(worked, element)}"
    while end < len(elements) and _goes_on(elements[end], element):
        end += 1
    if end - at > 1:
        each = f"the next {end - at}"
        if not element.into:
            return called(element.kind, uk, end - at)
        return f"{written(element.kind, uk)} {'around' if parts_of(element.kind)[0] else 'in'} {each}"
    if not element.into:
        return written(element.kind, uk)
    if len(element.into) > 1:
        return f"{written(element.kind, uk)} over the next {len(element.into)}"
    return f"{written(element.kind, uk)} {'around' if parts_of(element.kind)[0] else 'in'} {_place(worked, element)}"


def _goes_on(other: Element, first: Element) -> bool:
    return (
        other.kind == first.kind
        and not other.group
        and not other.turning
        and len(other.into) == len(first.into) < 2
    )


def _place(worked: WorkedRow, element: Element) -> str:
    """What a stitch goes into."""
    if not element.into:
        return "the ring" if not worked.below else "one place"
    at = element.into[0]
    if not 0 <= at < len(worked.below):
        return "the next"
    target = worked.below[at]
    if target.kind == SP:
        return f"the next ch-{target.chains} sp"
    if target.turning or target.kind == HIDDEN:
        return "the top of the turning chain"
    return "the next ch" if target.kind == CH else "the next"


__all__ = ["called", "next_words"]
