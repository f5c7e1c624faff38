"""A worked row in its parts: what stands together because it was worked together.

A WorkedRow comes in; parts come out in working order: the turning chain, single stitches, decreases, chain spaces,
and everything that was worked in one place. Mistakes happen to parts.
"""

from collections.abc import Iterator

from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed
from tracker.records import dataclass, replace
from tracker.trade.stitches import parts_of

CORNERS = (3, 4, 5, 6, 8)
"""How many corners a round may have."""


@dataclass(frozen=True, slots=True)
class Part:
    """Elements of a row that belong together."""

    start: int
    """Index of its first element in the row."""
    end: int
    """End of them, excluded."""
    what: str
    """"turning", "stitch", "decrease", "space", "increase" (plain stitches in one stitch), "group" or "corner"."""
    into: tuple[int, ...] = ()
    begins: bool = False
    """True when a turning chain that counts is its first stitch."""
    fills: bool = False
    """True when it was worked into a chain space."""


def parts_of_row(placed: Placed) -> tuple[Part, ...]:
    """The parts of a row."""
    elements = placed.worked.elements
    parts = _in_ring(elements, _merged(elements, _single(elements)))
    below = placed.worked.below
    named = [_named(part, elements, below) for part in parts]
    return tuple(_corners(placed, named))


def _single(elements: tuple[Element, ...]) -> list[Part]:
    out: list[Part] = []
    at = 0
    while at < len(elements):
        element = elements[at]
        end = at + 1
        if element.kind == HIDDEN:
            at += 1
            continue
        if element.turning and element.kind != SP:
            if end < len(elements) and elements[end].turning and elements[end].kind == SP:
                end += 1
            out.append(Part(at, end, "turning", element.into, True))
        elif element.group:
            while end < len(elements) and elements[end].group == element.group:
                end += 1
            into = next((e.into for e in elements[at:end] if e.into), ())
            what = "group" if end > at + 1 else "space" if element.kind == SP else "stitch"
            out.append(Part(at, end, what, into))
        elif element.kind == SP:
            out.append(Part(at, end, "space"))
        elif element.kind == "picot":
            out.append(Part(at, end, "picot"))
        else:
            together = len(element.into) > 1
            out.append(Part(at, end, "decrease" if together else "stitch", element.into))
        at = end
    return out


def _merged(elements: tuple[Element, ...], parts: list[Part]) -> list[Part]:
    """What was worked in the same place by separate words becomes one part, chains between included."""
    out: list[Part] = []
    for part in parts:
        if part.into and part.what in ("stitch", "group") and out:
            before = out[-1]
            between = (
                len(out) > 1 and before.what == "space" and out[-2].into == part.into and len(part.into) == 1
            )
            if (
                before.into == part.into
                and len(part.into) == 1
                and before.what in ("turning", "stitch", "group")
            ):
                out[-1] = replace(before, end=part.end, what="group")
                continue
            if between and out[-2].what in ("stitch", "group", "turning"):
                first = out[-2]
                out[-2:] = [replace(first, end=part.end, what="group")]
                continue
        out.append(part)
    return out


def _in_ring(elements: tuple[Element, ...], parts: list[Part]) -> list[Part]:
    """In a ring every run of stitches between chains is a group, when chains part them."""
    if sum(1 for part in parts if part.what == "space") < 2 or any(e.into for e in elements):
        return parts
    out: list[Part] = []
    for part in parts:
        if (
            part.what == "stitch"
            and out
            and out[-1].what in ("stitch", "group", "turning")
            and out[-1].end == part.start
        ):
            out[-1] = replace(out[-1], end=part.end, what="group")
        else:
            out.append(part)
    return out


def _named(part: Part, elements: tuple[Element, ...], below: tuple[Element, ...]) -> Part:
    """A part with what it was worked into, told as an increase when it is one."""
    at = part.into[0] if part.into else -1
    target = below[at] if 0 <= at < len(below) else None
    fills = target is not None and target.kind == SP
    held = elements[part.start : part.end]
    if part.what == "group" and part.into and not fills and all(e.is_stitch for e in held):
        plain = [e for e in held if not e.turning]
        if len(held) == 2 and len({e.kind for e in plain}) == 1:
            return replace(part, what="increase")
    return replace(part, fills=fills)


def _corners(placed: Placed, parts: list[Part]) -> list[Part]:
    elements, below = placed.worked.elements, placed.worked.below
    groups = [part for part in parts if part.what == "group"]
    single = sum(1 for part in parts if part.what in ("stitch", "increase", "decrease"))
    spaced = [p for p in groups if any(e.kind == SP for e in elements[p.start : p.end])]
    solid = [p for p in groups if p not in spaced]
    found: set[int] = set()
    wide = bool(spaced) and max(_stitches(p, elements) for p in spaced) >= 4
    if placed.kind in ("round", "edging") and len(spaced) in CORNERS:
        if wide or single >= len(spaced):
            found |= {p.start for p in spaced}
    elif placed.kind == "row":
        # the one place of a row that turns: a shawl's point, a mitred square's middle
        turning = [p for p in spaced if _mirrored(elements[p.start : p.end])]
        if len(turning) == 1 and (wide or single >= 4):
            found |= {p.start for p in turning}
    if not spaced and placed.kind in ("round", "edging") and single > len(solid):
        odd = [p for p in solid if _stitches(p, elements) % 2 == 1]
        at_corner = [
            p for p in odd if p.fills or (p.into and p.into[0] < len(below) and below[p.into[0]].corner)
        ]
        if len(at_corner) in CORNERS or len(odd) == 4:
            found |= {p.start for p in at_corner or odd}
    out: list[Part] = []
    for part in parts:
        if part.start in found:
            out.append(replace(part, what="corner"))
        elif (
            part.what == "group"
            and part in solid
            and not part.fills
            and part.into
            and not spaced
            and single > 2 * len(solid)
        ):
            # three in one stitch among single ones is an increase, not a shell
            out.append(replace(part, what="increase"))
        else:
            out.append(part)
    return out


def _mirrored(held: tuple[Element, ...]) -> bool:
    names = [element.name for element in held]
    return names == names[::-1]


def _stitches(part: Part, elements: tuple[Element, ...]) -> int:
    return sum(1 for e in elements[part.start : part.end] if e.is_stitch)


def plain_of(name: str) -> str:
    """The single stitch that a decrease gathers: "sc" of "sc2tog", "fpdc" of "fpdc2tog"."""
    post, base, _ = parts_of(name)
    return post + base


def on_foundation(placed: Placed) -> bool:
    """True for a row worked into a foundation chain."""
    return any(e.kind == CH for e in placed.worked.below)


def row_word(placed: Placed) -> str:
    """ "row" or "round"."""
    return "round" if placed.kind == "round" else "row"


def passes_of(placed: Placed) -> Iterator[tuple[int, int]]:
    """Ranges of elements that one pass of a repeat makes, for every repeat that is worked more than once."""
    ranges: dict[tuple[tuple[int, int, int], ...], tuple[int, int]] = {}
    passes: dict[tuple[tuple[int, int, int], ...], int] = {}
    for step in placed.worked.steps:
        for depth in range(len(step.path)):
            key = step.path[: depth + 1]
            if key in ranges:
                low, high = ranges[key]
                ranges[key] = (min(low, step.made_from), max(high, step.made_to))
            else:
                ranges[key] = (step.made_from, step.made_to)
    for key in ranges:
        number = (*key[:-1], (key[-1][0], -1, -1))
        passes[number] = passes.get(number, 0) + 1
    for key, (low, high) in ranges.items():
        if passes[*key[:-1], (key[-1][0], -1, -1)] > 1 and low < high:
            yield low, high
