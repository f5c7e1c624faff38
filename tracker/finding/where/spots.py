"""The spots that fit what a maker sees: the same positions in every row of a run.

An Index and Evidence come in; every Spot that fits comes out, and no other. Nothing raises: what cannot be is answered
by no spot.
"""

import re
from collections.abc import Iterable, Iterator

from tracker.finding.evidence import Evidence, Tally, fits
from tracker.finding.where.index import Index, Look, Run
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Spot:
    """The same positions in every row of a run."""

    run: Run
    look: int | None
    """Of the row on the hook; None when all is done."""
    at: tuple[int, ...]
    """Stitches and spaces done, rising."""


def spots_of(index: Index, evidence: Evidence) -> list[Spot]:
    """Every spot that fits, in working order of its first row."""
    found = _spots(index, evidence, False)
    if not found and any(tally.counts for tally in evidence.top_counts):
        # spaces that were not counted may be there: only when the plain meaning fits nowhere
        found = _spots(index, evidence, True)
    return found


def _spots(index: Index, evidence: Evidence, loose: bool) -> list[Spot]:
    within: dict[int, tuple[int, ...]] = {}
    spots: dict[tuple[int, int, tuple[int, ...]], Spot] = {}
    for run in _rows_on_hook(index, evidence, loose):
        look = index.at(run.start)
        if look is None:
            nothing = not _begun(evidence)
            spots.setdefault((run.start, 1, (0,)), Spot(run, None, (0,))) if nothing else None
            continue
        if look not in within:
            within[look] = positions(index, index.looks[look], evidence)
        at = within[look]
        if (
            evidence.anywhere
            and evidence.side
            and not _begun(evidence)
            and not _faces(index, run, evidence.side)
        ):
            # the row below faces so: of this one nothing is worked yet
            at = at[:1] if at[:1] == (0,) else ()
        if at and at[-1] and at[-1] == len(index.looks[look].text):
            # a full row is the next one with nothing done
            at = at[:-1]
            after = Run(run.start + 1, run.step, run.times)
            # after a row without stitches that start is found for itself
            if evidence.count != 0 or evidence.says_row:
                spots.setdefault((after.start, after.times, (0,)), Spot(after, index.at(after.start), (0,)))
        if at:
            spots.setdefault((run.start, run.times, at), Spot(run, look, at))
    return sorted(spots.values(), key=lambda s: (s.run.start, s.at))


def positions(index: Index, look: Look, evidence: Evidence) -> tuple[int, ...]:
    """Positions within a row at which everything seen of it holds; its start when nothing was."""
    if not evidence.says_within:
        return tuple(range(len(look.text) + 1)) if evidence.anywhere else (0,)
    allowed: Iterable[int] = range(len(look.text) + 1)
    if evidence.count is not None:
        allowed = look.holding(evidence.count)
    if evidence.corners is not None:
        turned = [sum(1 for k in look.corners if k < at) for at in range(len(look.text) + 1)]
        allowed = [at for at in allowed if turned[at] == evidence.corners]
    if evidence.so_far is not None:
        text = index.spelt(evidence.so_far)
        at = len(evidence.so_far)
        allowed = (at,) if text is not None and look.text.startswith(text) and at in allowed else ()
    if evidence.last:
        text = index.spelt(evidence.last)
        if text is None:
            return ()
        ends = _endings(look.text, text)
        if evidence.count is None and evidence.so_far is None and evidence.corners is None:
            return tuple(ends)
        return tuple(at for at in ends if at in allowed)
    return tuple(allowed)


def _endings(text: str, piece: str) -> list[int]:
    """Positions at which a piece ends, pieces that overlap among them."""
    out: list[int] = []
    length = len(piece)
    find = text.find
    at = find(piece)
    while at >= 0:
        out.append(at + length)
        at = find(piece, at + 1)
    return out


def _rows_on_hook(index: Index, evidence: Evidence, loose: bool) -> Iterator[Run]:
    """Rows that may be on the hook by what is known of the finished ones, in runs that are alike all round."""
    back = max(len(evidence.top_counts), 1, evidence.above[0] + 1 if evidence.above else 0) + 1
    if evidence.done is not None:
        rows: Iterable[Run] = (Run(row + 1) for row in rows_done(index, evidence.done))
    elif evidence.top is not None:
        text = index.spelt(evidence.top)
        look = index.by_text.get(text) if text is not None else None
        rows = _after(index, [] if look is None else [look], back)
    elif evidence.top_counts:
        rows = _after(index, _counted(index, evidence.top_counts[-1], loose), back)
    elif evidence.above is None and evidence.says_within:
        rows = _within(index, evidence, back)
    else:
        rows = _after(index, range(len(index.looks)), back)
        if evidence.above is None:
            rows = (Run(1), *rows)
    for run in rows:
        if _stands_on(index, run.start - 1, evidence, loose):
            yield run


_LABEL = re.compile(r"(?:(?:row|rnd|round|r)s?\b\.?\s*|r(?=\d))?(?P<number>\d+)(?:st|nd|rd|th)?$")


def rows_done(index: Index, said: str) -> list[int]:
    """Indices of the rows that an index ("4") or a label ("Row 4", "rnd 4", "edging") names; 0 for none done."""
    text = " ".join(said.lower().split()).rstrip(":.")
    if text.isdecimal():
        row = int(text) if len(text) < 10 else -1
        return [row] if 0 <= row <= index.length else []
    label = _LABEL.match(text)
    number = int(label["number"]) if label and len(label["number"]) < 10 else None
    kind = {"row": "row", "rnd": "round", "rou": "round"}.get(text[:3], "")
    if number is None:
        return index.labelled.get(text, [])
    found = list(index.numbered.get(number, ()))
    for first, stretch in zip(index.fabric.first, index.fabric.stretches, strict=True):
        for within, placed in enumerate(stretch.rows if stretch.times > 1 else ()):
            if placed.number is not None and stretch.step:
                turn, rest = divmod(number - placed.number, stretch.step)
                if not rest and 0 <= turn < stretch.times:
                    found.append((first + within + turn * len(stretch.rows), placed.kind))
    out = [row for row, its in found if kind in ("", its)]
    # "row 4" of a piece worked in rounds is round 4, unless it has a row 4 as well
    return out or [row for row, _ in found] or index.labelled.get(text, [])


def _within(index: Index, evidence: Evidence, back: int) -> Iterator[Run]:
    """Rows to which what was seen of the row on the hook may belong."""
    looks: Iterable[int]
    if evidence.so_far is not None:
        text = index.spelt(evidence.so_far)
        looks = [] if text is None else index.beginning_with(text)
    elif evidence.last:
        text = index.spelt(evidence.last)
        looks = [] if text is None else index.holding(text)
    else:
        most = evidence.count or 0
        looks = [look for stitches, held in index.by_stitches.items() if stitches >= most for look in held]
    for look in looks:
        for span, row in index.homes[look]:
            yield from index.runs(span, row, back, 1)
    if not _begun(evidence):
        yield Run(index.length + 1)


def _after(index: Index, looks: Iterable[int], back: int) -> Iterator[Run]:
    """The rows after those that have one of the looks."""
    for look in looks:
        for span, row in index.homes[look]:
            for run in index.runs(span, row, back, 2):
                yield Run(run.start + 1, run.step, run.times)


def _counted(index: Index, tally: Tally, loose: bool) -> list[int]:
    """Looks that hold what was counted."""
    if tally.stitches is None and not loose:
        return index.by_makes.get(frozenset((n, k) for n, k in tally.counts if k), [])
    if tally.stitches is not None:
        candidates = index.by_stitches.get(tally.stitches, [])
    else:
        candidates = list(range(len(index.looks)))
    return [k for k in candidates if fits(tally, index.looks[k].makes, index.looks[k].stitches, loose)]


def _stands_on(index: Index, top: int, evidence: Evidence, loose: bool) -> bool:
    """True when the finished rows, of which `top` is the last, are as they were seen."""
    if evidence.top is not None:
        look = index.at(top)
        if look is None or index.looks[look].names != evidence.top:
            return False
    for down, tally in enumerate(reversed(evidence.top_counts)):
        look = index.at(top - down)
        if look is None or not fits(tally, index.looks[look].makes, index.looks[look].stitches, loose):
            return False
        if down and index.starts_afresh(top - down + 1):
            return False
    if evidence.side is not None:
        sides = {
            placed.worked.side
            for row in ((top + 1,) if _begun(evidence) else (top, top + 1))
            if (placed := index.placed(row)) is not None
        }
        if sides and None not in sides and evidence.side not in sides:
            return False
    if evidence.fresh and (index.placed(top + 1) is None or not index.starts_afresh(top + 1)):
        return False
    if evidence.part is not None:
        placed = index.placed(top + 1) or index.placed(top)
        if placed is None or (placed.part or "") != evidence.part:
            return False
    if evidence.above is not None:
        rows, like = evidence.above
        if not _looks(index, top - rows, like) or any(_looks(index, top - k, like) for k in range(rows)):
            return False
    return True


def _faces(index: Index, run: Run, side: str) -> bool:
    """True unless the rows of a run are known to show the other side."""
    placed = index.placed(run.start)
    return placed is None or placed.worked.side in (None, side)


def _begun(evidence: Evidence) -> bool:
    return bool(evidence.so_far or evidence.last or evidence.count or evidence.corners)


def _looks(index: Index, row: int, like: str) -> bool:
    """True when a row has a look by that word."""
    number = index.at(row)
    if number is None:
        return False
    look = index.looks[number]
    open_row = any(name.startswith("ch-") for name in look.makes)
    if like in ("open", "solid"):
        return open_row == (like == "open")
    return like in look.makes
