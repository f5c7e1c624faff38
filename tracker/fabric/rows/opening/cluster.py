"""A cluster begun by the turning chain: "ch 3, dc2tog over next 2 dc" where dc3tog is worked ever after.

The chain is the cluster's first leg, not a stitch of its own. The items behind the chain come in; what the chain and
the first of them make together goes out, and is then worked as it is told.
"""

from collections.abc import Iterator, Sequence

from tracker.fabric.model import HIDDEN, Element
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.running import run
from tracker.notation.tree import Chain, Group, Item, Mark, Repeat, Say, Turning, Work
from tracker.records import replace
from tracker.trade.stitches import parts_of

_NAMED = ("cl", "cluster", "puff", "bo", "pop")
"""What a statement may call the whole without saying of how many legs it is."""


def begun_by_chain(hook: Hook, items: Sequence[Item]) -> tuple[int, str] | None:
    """Where the other legs stand in the items behind a turning chain, and what both make; None for no cluster.

    "(counts as dc3tog)" behind the legs says so. Where nothing does, legs with one more are worked later in the row:
    by common practice (no source) the chain is one of them then, and the counts may say otherwise.
    """
    at = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), None)
    begun = None if at is None else items[at]
    inside: tuple[Item, ...] = begun.items if isinstance(begun, Group) else ()
    # "(ch 3, dc2tog, ch 3, dc3tog) in same sp"
    legs = inside[0] if inside else begun
    if at is None or not isinstance(legs, Work) or legs.count != 1:
        return None
    many = parts_of(legs.stitch)[2]
    whole = with_the_chain(legs.stitch)
    later = set(stitches_of((*inside[1:], *items[at + 1 :])))
    says = items[at + 1] if at + 1 < len(items) else None
    if isinstance(says, Turning) and says.counts and says.as_stitch and not says.space:
        if says.as_stitch in _NAMED and legs.stitch not in _NAMED:
            return at, whole if whole in later else says.as_stitch
        return (at, whole) if says.as_stitch in (whole, "dec") else None
    if (
        many > 1
        and whole in later
        and legs.stitch not in later
        and hook.ask("begins a cluster", (True, False))
    ):
        return at, whole
    return None


def work_begun(
    hook: Hook, chain: Chain, items: Sequence[Item], cluster: tuple[int, str], here: int | None
) -> None:
    """Works the chain, which stands at `here` below, and the other legs as one stitch."""
    at, whole = cluster
    below = hook.below
    if here is not None:
        below.here, below.at = here, max(below.at, here + 1)
    hook.make(HIDDEN, (), chain.count)
    hook.step(chain, len(hook.made) - 1, below.at)
    chained = len(hook.made)
    run(hook, items[: at + 1])
    first = next((k for k in range(chained, len(hook.made)) if hook.made[k].is_stitch), None)
    if first is not None:
        legs: Element = hook.made[first]
        into = legs.into if here is None or here in legs.into else (here, *legs.into)
        hook.made[first] = replace(legs, kind=whole, into=into)


def with_the_chain(legs: str) -> str:
    """The name of a cluster of which the chain is one more leg.

    >>> with_the_chain("dc2tog"), with_the_chain("tr")
    ('dc3tog', 'tr2tog')
    """
    post, base, many = parts_of(legs)
    return f"{post}{base}{many + 1}tog"


def stitches_of(items: Sequence[Item]) -> Iterator[str]:
    """The names of all stitches in items, those inside groups and repeats too."""
    for item in items:
        if isinstance(item, Work):
            yield item.stitch
        elif isinstance(item, (Group, Repeat)):
            yield from stitches_of(item.items)
