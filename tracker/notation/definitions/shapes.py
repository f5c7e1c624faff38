"""Stitches told in other stitches: what they use up and what they make."""

import re

from tracker.notation.pattern import Special
from tracker.notation.tree import SPACE, Chain, Group, Item, Join, Kind, Repeat, Skip, Where, Which, Work
from tracker.problems import Span
from tracker.trade.begun import BEGINS
from tracker.trade.stitches import STITCHES, by_chains, height_of, parts_of


def _stood_for(chain: Chain, others: list[Item]) -> list[Item]:
    """What the chain in front of a beginning shell stands for: a stitch like its others, and a space beyond it."""
    inside = [x for item in others for x in (item.items if isinstance(item, Group) else (item,))]
    like = next((x.stitch for x in inside if isinstance(x, Work)), "dc")
    over = chain.count - height_of(like)
    where = Where(Which.STRAIGHT, chain.span)
    if over > 0 and inside and isinstance(inside[0], Work) and height_of(like) >= 2:
        return [Work(like, 1, where, chain.span), Chain(over, chain.span)]
    return [Work(by_chains(chain.count, "dc"), 1, where, chain.span)]


def _there(where: Where, text: str) -> bool:
    """True for the place in which a beginning shell stands: "in same sp", and "in one sp", but not "in next sp"."""
    one = where.which is Which.NEXT and where.many == 1 and not re.search(r"\bnext\b", text, re.IGNORECASE)
    return where.which is Which.SAME or one


def _space_named(where: Where, text: str) -> Kind | None:
    """The space of "in the corner sp", "in next ch-2 sp"; None for a stitch, and for any space, "in one sp"."""
    kind = where.kinds[0] if len(where.kinds) == 1 and where.which is Which.NEXT and where.many == 1 else None
    if kind is None or kind.name not in (SPACE, "corner", "corner sp"):
        return None
    told = kind.name != SPACE or kind.chains is not None or re.search(r"\bnext\b", text, re.IGNORECASE)
    return kind if told else None


def _uncovered(items: list[Item], text: str) -> list[Item]:
    """A cable without the words that skip what lies behind it, where its own stitches are all that lies there."""
    last = items[-1]
    if not isinstance(last, Skip) or len(items) < 3 or "behind" not in text.lower():
        return items
    covered = sum(
        item.where.many
        for item in items[:-1]
        if isinstance(item, Skip) or isinstance(item, Work) and item.where.down > 1
    )
    return items[:-1] if covered == last.where.many else items


def shape(short: str, counted: str, trade_name: str, items: list[Item], span: Span, text: str) -> Special:
    """What a definition told in stitches uses up and makes."""
    items = _uncovered(items, text)
    if len(items) == 1 and isinstance(bracket := items[0], Repeat) and bracket.times == 1:
        # "Beginning shell = (ch 3, 2 dc, ch 2, 3 dc)": a bracket, and no place
        items = list(bracket.items)
    first = items[0]
    worked = [i for i in items if isinstance(i, Work)]
    if (
        worked
        and len(worked) == worked[0].where.many == 1
        and not any(isinstance(i, (Chain, Group, Repeat)) for i in items)
        and worked[0].count == 1
        and (worked[0].where.down != 1 or worked[0].where.loop.startswith("free"))
    ):
        # a stitch worked rows below: it closes into one, and goes by its own name
        # "Fdc" for a front dc is no foundation stitch
        own = trade_name in ("fsc", "fhdc", "fdc", "ftr")
        return Special(short, (worked[0],), 1, short if own else trade_name or counted, True, span, text)
    begins = short.startswith(BEGINS)
    if begins and len(items) == 1 and isinstance(first, Group) and isinstance(first.items[0], Chain):
        # "beg shell: (ch 3, dc, ch 2, 2 dc) in same sp"
        items = list(first.items)
        first = items[0]
    if isinstance(first, Chain) and begins and len(items) == 2 and isinstance(legs := items[1], Work):
        post, base, many = parts_of(legs.stitch)
        if many > 1:
            # "beg cl: ch 2, dc2tog in same sp": the chain is its first leg
            return Special(short, (), 1, f"{post}{base}{many + 1}tog", True, span, text)
    if isinstance(first, Chain) and first.count >= 2 and begins:
        items = [*_stood_for(first, items[1:]), *items[1:]]
        inner: list[Item] = []
        for item in items:
            inner.extend(item.items if isinstance(item, Group) and _there(item.where, text) else [item])
        items = inner
        first = items[0]
    if counted == "picot" or (
        isinstance(first, Chain)
        and len(items) <= 2
        and any(isinstance(i, (Work, Join)) and "slst" in i.stitch for i in items[1:])
    ):
        return Special(short, tuple(items), 0, "picot", True, span, text)
    if len(items) == 1 and isinstance(first, Group):
        return Special(short, first.items, 0, "", True, span, text, into=_space_named(first.where, text))
    if len(items) == 1 and isinstance(first, Work):
        together = parts_of(first.stitch)[2]
        closing = STITCHES.get(trade_name)
        if together > 1:
            one = first.where.which is Which.SAME or (
                first.where.many == 1
                and first.where.which is Which.NEXT
                and first.count == 1
                and " one " in f" {text} "
            )
            in_one = (
                one
                or bool(
                    re.search(r"\b(?:same|one|in next|in a|in st\b|in sp|indicated)\b", text, re.IGNORECASE)
                )
                and "over" not in text
            )
            if closing is not None and closing.closes and closing.name != "cl":
                return Special(short, (), 1, closing.name, True, span, text)
            return Special(short, (), 1 if in_one else together, first.stitch, in_one, span, text)
        if closing is not None and closing.closes and re.search(r"\btog(?:ether)?\b", text, re.IGNORECASE):
            return Special(short, (), 1, closing.name, True, span, text)
        inside = Work(first.stitch, first.count, Where(Which.STRAIGHT, first.span), first.span)
        if first.where.many > 1 and first.count == 1 and first.where.which is Which.NEXT:
            return Special(short, tuple(items), 0, "", False, span, text)
        return Special(short, (inside,), 0, "", True, span, text)
    placed = [
        item
        for item in items
        if isinstance(item, (Work, Group)) and item.where.which not in (Which.STRAIGHT, Which.SAME)
    ]
    skips = any(isinstance(item, Skip) for item in items)
    if not placed and not skips:
        return Special(short, tuple(items), 0, "", True, span, text)
    return Special(short, tuple(items), 0, "", False, span, text)
