"""What chains stand for: those skipped in a first row, and turning chains.

The options of a doubt come likeliest first, by common practice (no source).
"""

from collections.abc import Sequence

from tracker.fabric.model import HIDDEN, SP
from tracker.fabric.working.hook import Choice, Hook
from tracker.notation.pattern import Special
from tracker.notation.tree import Chain, Group, Item, Repeat, Skip, Turning, Where, Work
from tracker.trade.stitches import STITCHES, by_chains, parts_of


def foundation_start(hook: Hook, item: Work, where: Where, rest: Sequence[Item]) -> None:
    """What the skipped chains of a first row stand for."""
    skipped = where.nth - 1
    height = height_in_row(item.stitch)
    says = next((i for i in rest[:3] if isinstance(i, Turning)), None)
    if any(e.kind != HIDDEN for e in hook.made):
        return
    name = item.stitch if item.stitch in STITCHES else "dc"
    if says is not None:
        if says.counts:
            if height == 1 and says.as_stitch is None and says.space:
                # "sc in 4th ch from hook (skipped chs count as ch-2 sp)": what is left of them lies under it
                hook.make(SP, (), says.space, True)
                return
            beside = 0 if says.space else _space_beside(skipped, height, rest)
            if beside and hook.ask(("first space", skipped), (0, beside)):
                # "(34 tr, counting the ch at the beginning as 1 tr)": its space is not spoken of
                stand(hook, says.as_stitch or by_chains(skipped - beside, name), beside, skipped, ())
                return
            space = says.space
            if space == 1 and skipped == height:
                # "ch 4 (counts as dc and ch 1), 11 dc in 4th ch from hook": the one that they all go into, or a space
                spaced = (True, False) if item.count == 1 else (False, True)
                space = 1 if hook.ask(("chain or space", skipped), spaced) else 0
            stand(hook, says.as_stitch or by_chains(skipped - space, name), space, skipped, ())
        else:
            hook.make(HIDDEN, (), skipped)
        return
    options = first_row_options(skipped, height, name)
    if height == 1 and (arch := _arch_skipped(skipped, rest)) is not None:
        chains, over = arch
        as_arch: Choice = ("arch", chains)
        options = (as_arch, ("none",)) if skipped == chains + over + 1 else (("none",), as_arch)
    if len(options) == 1:
        choice: Choice = options[0]
    else:
        choice = hook.ask(("first row", skipped, height), options)
        if choice != options[0] and unusual(skipped, height, name):
            hook.fault("C207", where.span, *_TAKEN_OTHERWISE[choice == ("none",)], weight=3)
    apply_turning(hook, choice, skipped)


def _space_beside(skipped: int, height: int, rest: Sequence[Item]) -> int:
    """Chains of the space that a first mesh has beside its stitch: the others have as many, and miss as many; or 0."""
    repeat = next((item for item in rest if isinstance(item, Repeat)), None)
    first = repeat.items[0] if repeat is not None and repeat.items else None
    return first.count if isinstance(first, Chain) and skipped == height + 2 * first.count else 0


def _arch_skipped(skipped: int, rest: Sequence[Item]) -> tuple[int, int] | None:
    """Chains of the arches that a first row of them makes and what each misses, where one more is skipped at its
    beginning: "sc in 9th ch, *ch 5, sk 2 ch, sc in next ch"; None where it makes none or too few are skipped.

    Where no more are skipped than an arch has, they may be one all the same: a later count tells.
    """
    repeat = next((item for item in rest if isinstance(item, Repeat)), None)
    if repeat is None or not repeat.items or not isinstance(repeat.items[0], Chain):
        return None
    chains = repeat.items[0].count
    missed = next((item.where.many for item in repeat.items if isinstance(item, Skip)), 0)
    return (chains, missed) if 3 <= chains <= skipped else None


_TAKEN_OTHERWISE = {
    True: (
        "comes out only if the chains skipped do not count, and usually they do",
        "the chains skipped",
        "Say that they do not count, or put the foundation or the count right.",
    ),
    False: (
        "comes out only if the chains skipped count as a stitch, and usually they do not",
        "the chains skipped",
        "Say what they count as, or begin in the chain before.",
    ),
}
"""What is told of chains taken against common practice, by whether they are taken not to count."""


def unusual(skipped: int, height: int, name: str) -> bool:
    """True where common practice knows what skipped chains stand for: as many as a tall stitch, or two before sc."""
    return skipped == 2 if height == 1 else height >= 3 and skipped == height and name in STITCHES


def stand(hook: Hook, name: str, space: int, chains: int, into: tuple[int, ...]) -> None:
    """Stands chains there as a stitch, with a space of `space` of them beside it."""
    own = max(1, chains - space)
    hook.make(name, into, own, True)
    if space:
        hook.make(SP, (), space, True)


def apply_turning(hook: Hook, choice: Choice, chains: int, into: tuple[int, ...] = ()) -> None:
    """Makes what a turning chain was decided to stand for; `into` is the place under it."""
    assert isinstance(choice, tuple)
    if choice[0] == "none":
        hook.make(HIDDEN, (), chains)
    elif choice[0] == "space":
        hook.make(SP, (), chains, True)
    elif choice[0] == "arch":
        assert isinstance(choice[1], int)
        hook.make(SP, (), choice[1], True)
    else:
        space = choice[2]
        assert isinstance(space, int)
        stand(hook, str(choice[1]), space, chains, into)


def first_row_options(skipped: int, height: int, name: str) -> tuple[Choice, ...]:
    """What the chains skipped in a first row can stand for, the likeliest by common practice first."""
    none: Choice = ("none",)
    if name == "slst" or height <= 0:
        return (none,)
    if height == 1:
        return (none,) if skipped <= 1 else (none, ("st", "sc", 0))
    if height == 2 and name == "hdc":
        if skipped == 1:
            return (none,)
        if skipped == 2:
            return (("st", "hdc", 0), none)
        return (("st", "hdc", 0), ("st", "hdc", (skipped - 2) // 2), none)
    if skipped < height:
        return (none, ("st", name, 0)) if skipped == height - 1 else (none,)
    extra = skipped - height
    if extra == 0:
        return (("st", name, 0), none)
    options: list[Choice] = []
    if extra >= 2:
        options.append(("st", name, extra // 2))
    options.append(("st", name, 0))
    if extra == 1:
        options.append(("st", name, 1))
    options.append(none)
    return tuple(options)


def turning_options(chains: int, first: str, height: int) -> tuple[Choice, ...]:
    """What a turning chain can stand for, the likeliest by common practice first."""
    none: Choice = ("none",)
    plain = first if first in STITCHES and STITCHES[first].height >= 2 and not STITCHES[first].closes else ""
    if chains == 1:
        return (none, ("st", first, 0)) if first in ("sc", "hdc") else (none,)
    if height <= 1:
        if chains == 2:
            return (none, ("st", "hdc", 0), ("st", "sc", 1), ("space",))
        options: list[Choice] = []
        if chains >= 5:
            options = [("st", "dc", chains - 3), ("space",)]
        elif chains == 3:
            options = [("st", "dc", 0), ("st", "hdc", 1), ("space",)]
        else:
            options = [("st", "dc", 1), ("st", "sc", chains - 1), ("space",)]
        return (*options, ("st", "sc", chains - 1), none)
    if chains == 2:
        if height == 2:
            return (none, ("st", "hdc", 0))
        return (none, ("st", plain or "dc", 0), ("st", "hdc", 0))
    if chains < height:
        return (
            (("st", plain or "dc", 0), none)
            if chains == 3 and height == 4
            else (none, ("st", plain or "dc", 0))
        )
    if chains == height:
        return (("st", plain or by_chains(chains, "dc"), 0), none)
    extra = chains - height
    out: list[Choice] = [("st", plain or "dc", extra)]
    if chains == 4 and height == 3:
        out += [("st", "tr", 0)]
    if chains == 5 and height == 3:
        out += [("st", "dtr", 0)]
    if height == 2 and chains == 3:
        out += [("st", "dc", 0)]
    if height == 2:
        out += [("st", "dc", chains - 3)]
    if height == 4 and chains >= 5:
        out += [("st", "dc", chains - 3)]
    return (*out, none, ("space",))


def first_stitch(items: Sequence[Item], specials: dict[str, Special]) -> str | None:
    """The first stitch that items work, looked for inside groups and repeats."""
    for item in items:
        if isinstance(item, Work):
            special = specials.get(item.stitch)
            if special is not None and special.items:
                inside = first_stitch(special.items, specials)
                if inside:
                    return inside
                continue
            if special is not None and special.base in STITCHES:
                return special.base
            if item.stitch in ("picot", "slst"):
                continue
            return parts_of(item.stitch)[1]
        if isinstance(item, (Group, Repeat)):
            inside = first_stitch(item.items, specials)
            if inside:
                return inside
    return None


def height_in_row(name: str) -> int:
    """The usual turning chain of a stitch, in chains; 3 for one of the pattern's own."""
    row = STITCHES.get(parts_of(name)[1])
    return row.height if row else 3
