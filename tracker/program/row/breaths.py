"""The groups of a worked row, made from its steps.

A worked row comes in; groups go out, in working order, and every element of the row is made by exactly one beat of
one of them. Nothing here raises on a maker's text.
"""

from itertools import groupby

from tracker.fabric.model import HIDDEN, SP, Step, WorkedRow
from tracker.notation.tree import (
    SPACE,
    Chain,
    Edge,
    Group,
    Join,
    Leave,
    Say,
    Skip,
    Travel,
    Turn,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.program.row.groups import (
    Beat,
    Breath,
    Sort,
    begins_in_colour,
    begins_in_loop,
    is_behind_the_end,
    skips_own,
    told_before_its_first,
)
from tracker.program.row.squares import is_edge
from tracker.records import replace

ONE_BREATH = 3
"""A repeat with no more phrases than this in a pass, or with two groups, is told as one; longer ones part by part."""


def breaths_of(worked: WorkedRow, mesh: int | None = None) -> tuple[Breath, ...]:
    """The groups of a row whose words are understood, in working order.

    `mesh` is the number of chains in a window when the row is filet.
    """
    single = _runs(_breaths(worked), worked)
    single = _squares(single, worked, mesh) if mesh else _threes(single)
    return tuple(_repeats(_landed(single, worked)))


# -- breaths: what belongs together


def _breaths(worked: WorkedRow) -> list[Breath]:
    """Chains and skips go with the stitch after them; words that only add ("in each ch across") with the one before."""
    out: list[Breath] = []
    held: list[Step] = []

    def close(sort: Sort = Sort.PIECES) -> None:
        if held:
            out.append(_breath(sort, held))
            held.clear()

    lead = _lead(worked)
    within = _within_others(worked)
    for at, step in enumerate(worked.steps):
        item = step.item
        if at in within:
            continue
        if held and held[-1].path != step.path:
            if lead is not None and any(other is worked.steps[lead] for other in held):
                close(Sort.TURNING)
            _left_over(out, held, close)
        fastened = isinstance(item, Say) and item.kind == "fasten off"
        if isinstance(item, Turn) or fastened or is_behind_the_end(item, worked.row):
            continue  # told at the row's end, after its count
        if _found_none(step):
            continue
        if at == lead:
            held.append(step)
            if not _with_space(worked, step):
                close(Sort.TURNING)
            continue
        if isinstance(item, Join):
            _left_over(out, held, close)
            held.append(step)
            close(Sort.JOIN)
        elif isinstance(item, Work | Group):
            if isinstance(item, Work) and not held and out and out[-1].path == step.path:
                before = out[-1].first.steps
                if item.joined or len(before) == 1 and told_before_its_first(before[0], step, worked):
                    held.extend(out.pop().first.steps)
            held.append(step)
            turning = any(other is worked.steps[lead] for other in held) if lead is not None else False
            close(Sort.TURNING if turning else Sort.PIECES)
        elif skips_own(step) and not held and out and out[-1].sort is Sort.TURNING:
            out[-1] = _breath(Sort.TURNING, [*out[-1].first.steps, step])
        elif (
            isinstance(item, Say | Leave | Edge)
            and out
            and not held
            and out[-1].path == step.path
            and not _opens(item)
        ):
            out[-1] = _breath(out[-1].sort, [*out[-1].first.steps, step])
        else:
            held.append(step)
    _left_over(out, held, close)
    loop = begins_in_loop(worked)
    told = [
        breath
        for breath in out
        if not all(begins_in_colour(step) or step is loop for step in breath.first.steps)
    ]
    return told or out


def _within_others(worked: WorkedRow) -> frozenset[int]:
    """Steps of what a stitch of the pattern's own is made of, where the stitch itself is a step behind them."""
    inner: list[int] = []
    outer: Step | None = None
    for at in range(len(worked.steps) - 1, -1, -1):
        step = worked.steps[at]
        if (
            outer is not None
            and step.made_from >= outer.made_from
            and outer.at <= step.at
            and (step.made_to > outer.made_from or len(step.path) > len(outer.path))
            and step.made_to <= outer.made_to
        ):
            inner.append(at)
        elif isinstance(step.item, Work | Group):
            outer = step
        else:
            outer = None if step.made_to < step.made_from else outer
    return frozenset(inner)


def _found_none(step: Step) -> bool:
    """True for the rest of a row of which nothing was left: "inc in every 2nd st" that comes out even."""
    item = step.item
    each = isinstance(item, Work) and item.where.which is Which.EACH
    return each and step.made_from == step.made_to and step.at == step.after


def _opens(item: Say | Leave | Edge) -> bool:
    """True for words that hold for what comes after them."""
    return isinstance(item, Edge) or isinstance(item, Say) and item.kind in ("colour", "loop", "side")


def _left_over(out: list[Breath], held: list[Step], close: object) -> None:
    """Chains and skips with no stitch after them go with the stitch before, in the same pass."""
    if (
        held
        and out
        and out[-1].path == held[-1].path
        and out[-1].sort is Sort.PIECES
        and all(isinstance(step.item, Chain | Skip | Say) for step in held)
    ):
        out[-1] = _breath(out[-1].sort, [*out[-1].first.steps, *held])
        held.clear()
    elif callable(close):
        close()


def _lead(worked: WorkedRow) -> int | None:
    """The step that is the turning chain, None in a row without."""
    for at, step in enumerate(worked.steps):
        if isinstance(step.item, Chain):
            made = worked.elements[step.made_from : step.made_to]
            if made and step.made_from == 0 and (made[0].turning or made[0].kind == HIDDEN):
                return at
            return None
        if not isinstance(step.item, Say | Turn | Travel | Edge):
            return None
    return None


def _with_space(worked: WorkedRow, step: Step) -> bool:
    """True when the turning chain stands for a stitch and a space that the next stitch closes."""
    return any(element.kind == SP for element in worked.elements[step.made_from : step.made_to])


def _breath(sort: Sort, steps: list[Step]) -> Breath:
    return Breath(sort, (_beat(steps),), steps[0].path)


def _beat(steps: list[Step]) -> Beat:
    done = [step for step in steps if not isinstance(step.item, Say | Turn)] or steps
    start = min(step.item.span.start for step in done)
    end = max(step.item.span.end for step in done)
    return Beat(tuple(steps), steps[0].made_from, max(step.made_to for step in steps), Span(start, end))


# -- runs: stitches of one kind, one in each


def _runs(breaths: list[Breath], worked: WorkedRow) -> list[Breath]:
    """Runs that only differ in how they are worded become one: "dc in next 7 dc, dc in top of ch-3" is eight."""
    out: list[Breath] = []
    for breath in breaths:
        kind = run_of(breath.first, worked)
        if breath.sort is Sort.PIECES and kind is not None:
            if (
                out
                and out[-1].sort is Sort.RUN
                and out[-1].path == breath.path
                and run_of(out[-1].first, worked) == kind
            ):
                out[-1] = replace(
                    _breath(Sort.RUN, [*out[-1].first.steps, *breath.first.steps]), path=breath.path
                )
                continue
            if breath.first.singles > 1 or _plain(breath.first.steps):
                breath = replace(breath, sort=Sort.RUN)
        out.append(breath)
    return out


def _plain(steps: tuple[Step, ...]) -> bool:
    return all(
        isinstance(s.item, Work) and s.item.where.which in (Which.NEXT, Which.EACH, Which.STRAIGHT)
        for s in steps
    )


_SPACES = (SPACE, "corner sp")


def run_of(beat: Beat, worked: WorkedRow) -> tuple[str, str, str] | None:
    """The stitch, the loop and the colour of a beat that is one stitch in each of some; None when it is more."""
    loop = colour = ""
    for step in beat.steps:
        item = step.item
        if not isinstance(item, Work) or item.excepting or item.where.around or item.where.down != 1:
            return None
        if item.count != 1 and item.where.which is not Which.STRAIGHT:
            return None
        if item.where.which in (
            Which.SAME,
            Which.RING,
            Which.BETWEEN,
            Which.EVENLY,
            Which.ROW_END,
            Which.MADE,
            Which.FROM_HOOK,
        ):
            return None
        if item.where.many == 1 and any(kind.name in _SPACES for kind in item.where.kinds):
            return None  # whatever is known of what it goes into
        loop, colour = item.where.loop, item.colour
    made = worked.elements[beat.made_from : beat.made_to]
    if (
        not made
        or len({element.kind for element in made}) > 1
        or not _is_plain(beat, made[0].kind)
        or any(element.group or element.special for element in made)
    ):
        return None
    for element in made:
        if any(at < len(worked.below) and worked.below[at].kind == SP for at in element.into):
            return None
    return made[0].kind, loop, colour


def _joined(one: Breath, other: Breath) -> Breath:
    """Two groups as one."""
    sort = Sort.TURNING if one.sort is Sort.TURNING else Sort.PIECES
    return replace(_breath(sort, [*one.first.steps, *other.first.steps]), path=one.path)


def _squares(breaths: list[Breath], worked: WorkedRow, mesh: int) -> list[Breath]:
    """Groups that leave a square half done go on to its end."""
    out: list[Breath] = []
    for breath in breaths:
        last = out[-1] if out else None
        half = (
            last is not None
            and last.sort in (Sort.PIECES, Sort.RUN)
            and not is_edge(worked.elements[: last.first.made_to], mesh)
        )
        if last is not None and half and last.path == breath.path and breath.sort in (Sort.PIECES, Sort.RUN):
            out[-1] = _joined(last, breath)
        else:
            out.append(breath)
    return out


def _threes(breaths: list[Breath]) -> list[Breath]:
    """Single stitches that stand one after another are told in one breath, up to three of them."""
    out: list[Breath] = []
    held = 0
    for breath in breaths:
        single = (
            breath.sort in (Sort.PIECES, Sort.RUN)
            and len(breath.first.steps) == 1
            and breath.first.singles == 1
        )
        if single and 0 < held < ONE_BREATH and out[-1].path == breath.path:
            out[-1] = _joined(out[-1], breath)
            held += 1
        else:
            out.append(breath)
            held = 1 if single else 0
    return out


def _landed(breaths: list[Breath], worked: WorkedRow) -> list[Breath]:
    """A last stitch with a place of its own, "dc in top of ch-3", belongs to the stitches like it before it."""
    if len(breaths) < 2:
        return breaths
    last, before = breaths[-1], breaths[-2]
    if (
        last.sort not in (Sort.PIECES, Sort.RUN)
        or last.path != before.path
        or before.sort not in (Sort.PIECES, Sort.RUN)
    ):
        return breaths
    if run_of(last.first, worked) is None or last.first.singles != 1 or len(last.first.steps) != 1:
        return breaths
    end = before.first.steps[-1].item
    mine = last.first.steps[0].item
    if not (
        isinstance(end, Work)
        and isinstance(mine, Work)
        and end.stitch == mine.stitch
        and end.where.loop == mine.where.loop
        and end.count == 1
        and end.where.many > 1
    ):
        return breaths
    return [*breaths[:-2], _joined(before, last)]


def _is_plain(beat: Beat, kind: str) -> bool:
    """True when the words name the stitch that is made, and not one of the pattern's own."""
    return all(isinstance(step.item, Work) and step.item.stitch == kind for step in beat.steps)


# -- repeats: passes of a short one are beats


def _repeats(breaths: list[Breath]) -> list[Breath]:
    """Passes of the innermost repeats, where they are short, folded into beats."""
    outer = {number for breath in breaths for number, _, _ in breath.path[:-1]}
    out: list[Breath] = []
    for number, found in groupby(breaths, key=lambda breath: breath.path[-1][0] if breath.path else 0):
        run = list(found)
        passes = [
            list(same) for _, same in groupby(run, key=lambda breath: breath.path[-1] if breath.path else ())
        ]
        if not number or number in outer or not all(map(_short, passes)):
            out.extend(run)
            continue
        beats = [_beat([step for breath in one for step in breath.first.steps]) for one in passes]
        sort = run[0].sort if all(len(one) == 1 for one in passes) else Sort.PIECES
        for _, alike in groupby(beats, key=_words):
            out.append(Breath(sort, tuple(alike), run[0].path[:-1]))
    return out


def _short(one: list[Breath]) -> bool:
    if not all(breath.sort in (Sort.PIECES, Sort.RUN) for breath in one):
        return False
    works = [
        step for breath in one for step in breath.first.steps if isinstance(step.item, Work | Group | Chain)
    ]
    return len(one) <= 2 or len(works) <= ONE_BREATH and all(breath.first.singles <= 2 for breath in one)


def _words(beat: Beat) -> tuple[object, ...]:
    """What makes two passes alike: the same phrases, making as much."""
    return (
        *((step.item.span.start, step.item.span.end) for step in beat.steps),
        beat.made_to - beat.made_from,
    )
