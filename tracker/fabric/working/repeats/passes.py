"""One pass of a repeat, and what stands behind the repeat."""

from collections.abc import Sequence

from tracker.fabric.below.surface import UNLIMITED, Missing
from tracker.fabric.model import Step
from tracker.fabric.working.hook import Hook, Path
from tracker.notation.tree import SPACE, Chain, Group, Item, Mark, Repeat, Say, Skip, Turning, Which, Work
from tracker.records import replace


def one_pass(hook: Hook, items: Sequence[Item], rest: Sequence[Item]) -> None:
    """One pass; a missing target leaves it to the caller."""
    for k, inside in enumerate(items):
        before, at = len(hook.made), hook.below.at
        following = (*items[k + 1 :], *rest)
        hook.one(inside, following)
        if not isinstance(inside, (Repeat, Turning, Mark)) and hook.place is None:
            hook.step(inside, before, at)


def run_rest(hook: Hook, items: Sequence[Item], rest: Sequence[Item]) -> None:
    """Items that end a repeat, worked once behind its last pass; a fault stops none of them."""
    for k, inside in enumerate(items):
        before, at = len(hook.made), hook.below.at
        try:
            hook.one(inside, (*items[k + 1 :], *rest))
        except Missing as missing:
            if hook.limit != UNLIMITED or hook.place is not None:
                raise
            told_missing(hook, inside, missing)
        hook.step(inside, before, at)


def say_passes(hook: Hook, number: int, turns: int, path: Path) -> None:
    """Writes how many passes there were into the steps of a repeat that went on to the end."""
    depth = len(path)
    for k in range(len(hook.steps) - 1, -1, -1):
        step = hook.steps[k]
        if len(step.path) <= depth or step.path[depth][0] != number:
            break
        entry = (number, step.path[depth][1], turns)
        whole = (*step.path[:depth], entry, *step.path[depth + 1 :])
        # built anew rather than replaced: a wide row has thousands of steps
        hook.steps[k] = Step(step.item, step.made_from, step.made_to, step.at, step.after, whole)


def told_missing(hook: Hook, item: Item, missing: Missing) -> None:
    """Reports a target that is not there, at the item that names it."""
    hook.fault(
        missing.code,
        item.span,
        missing.says,
        "here",
        "Name what is there, if that is meant; else count the row below, and the repeats before this."
        if "the one there is" in missing.says or "the next stitch is" in missing.says
        else "Count the row below, and check the repeats before this.",
    )


def stripped(items: Sequence[Item]) -> tuple[Item, ...]:
    """Items without the stars and daggers among them, and without remarks: "5 dc in next sc (shell made)"."""
    return tuple(
        item
        for item in items
        if not isinstance(item, Mark) and not (isinstance(item, Say) and item.kind == "remark")
    )


def body_of(item: Repeat) -> tuple[Item, ...]:
    """What one pass works; in "*ch 1, dc in each sc; rep from *" each is the next: else one pass would be all."""
    body = _below(_picots(stripped(item.items)))
    at = [k for k, inside in enumerate(body) if not isinstance(inside, Chain)]
    only = body[at[0]] if len(at) == 1 and len(body) > 1 else None
    if (
        not isinstance(only, (Work, Group))
        or only.where.which is not Which.EACH
        or only.where.stop is not None
        or len([kind for kind in only.where.kinds if not kind.inside]) > 1
    ):
        return body
    one = replace(only, where=replace(only.where, which=Which.NEXT, many=1))
    return (*body[: at[0]], one, *body[at[0] + 1 :])


def _below(body: tuple[Item, ...]) -> tuple[Item, ...]:
    """ "Ch 3, sk 1 sc, sl st in next sc of Rnd 1": what is skipped is of that round as well."""
    rows = {item.where.down for item in body if isinstance(item, (Work, Group))}
    if len(rows) != 1 or (row := next(iter(rows))) >= 0:
        return body
    return tuple(
        replace(item, where=replace(item.where, down=row))
        if isinstance(item, Skip) and item.where.down == 1
        else item
        for item in body
    )


def _picots(body: tuple[Item, ...]) -> tuple[Item, ...]:
    """ "Ch 3, sl st in last sc": the last that was made, where it is told once a pass."""
    return tuple(
        replace(item, where=replace(item.where, which=Which.MADE))
        if k
        and isinstance(item, Work)
        and item.stitch == "slst"
        and item.where.which is Which.LAST
        and item.where.many == 1
        and isinstance(body[k - 1], Chain)
        and k > 1
        and isinstance(made := body[k - 2], Work)
        and made.stitch in {kind.name for kind in item.where.kinds}
        else item
        for k, item in enumerate(body)
    )


def spaces_in(item: Repeat) -> bool:
    """True when a repeat works into spaces, so that a space left over means another pass."""
    return any(
        isinstance(i, (Work, Group, Skip)) and [kind.name for kind in i.where.kinds] == [SPACE]
        for i in item.items
    )


def inside_groups(item: Repeat) -> bool:
    """True when a repeat works into one stitch of each group: what lies between the groups goes without saying."""
    return any(
        isinstance(i, (Work, Group)) and any(kind.inside for kind in i.where.kinds) for i in item.items
    )
