"""C201 — allow no count that differs from what the words make.

A stated count is the one thing a maker can check in mid-row; when it and the words before it disagree, one of the two
is wrong, and every later row builds on it. A count may honestly mean several things (stitches, stitches and spaces,
shells by name); it is wrong only when it fits none of them.

    Row 2: Ch 1, turn, sc in each st across. (13 sc)     on 12 sc: makes 12 sc, the pattern says 13
    Row 2: Ch 1, turn, sc in each st across. (12 sc)                                        (mended)
"""

from collections import Counter

from tracker.fabric.model import HIDDEN, SP, Element
from tracker.notation.tree import ANY, Stated
from tracker.records import replace
from tracker.trade.begun import begins, elsewhere
from tracker.trade.stitches import STITCHES, parts_of


def tallies(elements: tuple[Element, ...]) -> dict[str, int]:
    """Counts by name, with those that go by other names: specials, "post", "sp"."""
    out: dict[str, int] = {}
    groups: dict[str, set[int]] = {}
    for element in elements:
        if element.kind == HIDDEN:
            continue
        out[element.name] = out.get(element.name, 0) + 1
        if element.special:
            closed = (
                parts_of(element.kind)[2] > 1
                or element.kind in STITCHES
                and STITCHES[element.kind].closes
                or element.kind == element.special
            )
            if element.group and not closed:
                groups.setdefault(element.special, set()).add(element.group)
            elif element.special != element.kind:
                out[element.special] = out.get(element.special, 0) + 1
        if parts_of(element.kind)[0]:
            out["post"] = out.get("post", 0) + 1
        if element.kind == SP:
            out["sp"] = out.get("sp", 0) + 1
            out["ch"] = out.get("ch", 0) + element.chains
            if element.corner:
                out["corner sp"] = out.get("corner sp", 0) + 1
    for special in {e.special for e in elements if begins(e.special)}:
        plain = elsewhere(special)
        if any(e.special == special and e.kind == plain for e in elements):
            continue
        begun = sum(1 for e in elements if e.special == special and not e.group) or len(
            {e.group for e in elements if e.special == special}
        )
        if plain in groups:
            groups[plain] |= {-e.group for e in elements if e.special == special and e.group}
        else:
            out[plain] = out.get(plain, 0) + begun
    if "tile" in out:
        out.setdefault("block", out["tile"])
    for name, numbers in groups.items():
        out[name] = max(len(numbers), out.get(name, 0))
    return out


def total_of(elements: tuple[Element, ...]) -> tuple[int, ...]:
    """Every number that "N sts" may honestly mean: stitches; with spaces; with single chains; with picots."""
    stitches = sum(1 for e in elements if e.is_stitch)
    spaces = sum(1 for e in elements if e.kind == SP)
    chains = sum(e.chains for e in elements if e.kind == SP)
    return (stitches, stitches + spaces, stitches + chains)


def differs(
    stated: Stated, elements: tuple[Element, ...], before: int | None
) -> tuple[tuple[str, int, int], ...]:
    """Names with the number stated and the number worked, where they differ; empty when the count agrees.

    `before` is the number of stitches of the row below, for "6 sts increased".
    """
    if stated.partial:
        return ()
    stated = as_groups(stated, elements)
    have = tallies(elements)
    totals = total_of(elements)
    if stated.change:
        if before is None:
            return ()
        name, number = stated.counts[0]
        if name not in ("", ANY) and len(stated.counts) == 1 and name not in have:
            return ()
        if name == "tile" or name.startswith("?") or name.endswith("sp"):
            # "(1 space added)": squares, and no stitches
            return ()
        change = abs(totals[0] - before)
        return () if number == change or number == totals[0] else ((ANY, number, totals[0]),)
    wrong: list[tuple[str, int, int]] = []
    for name, number in stated.counts:
        if name.rstrip("s") == "?corner" and len(stated.counts) > 1:
            corners = _corners(elements)
            if 0 < abs(number - corners) <= _FEW and corners and number not in have.values():
                wrong.append(("corner sp", number, corners))
        if name.startswith("?") or name == "tile" and name not in have:
            # "5 blocks" of a piece that is worked in stitches
            continue
        if name not in have and _is_its_own(name) and not any(e.special for e in elements):
            # "(1 block)" of a row that tells its stitches one by one
            continue
        if stated.without and name in ("", ANY) and number == totals[0] - _begun(name, elements):
            continue
        if name == "":
            if number not in totals and not _of_one_kind(number, have):
                wrong.append((ANY, number, totals[0]))
        elif name == ANY:
            if number not in totals:
                wrong.append((ANY, number, totals[0]))
        else:
            worked = have.get(name, 0)
            if stated.without and number == worked - _begun(name, elements):
                continue
            if number != worked and not _other_sense(name, number, have, stated, elements):
                wrong.append((name, number, worked))
    return tuple(wrong)


_KIND_OF = {
    **dict.fromkeys(("esc", "fsc", "revsc", "spsc"), "sc"),
    **dict.fromkeys(("ehdc", "fhdc"), "hdc"),
    **dict.fromkeys(("ddc", "edc", "fdc", "ldc", "spdc"), "dc"),
    "ltr": "tr",
}
"""The stitch that another is a manner of working, and is counted as: "reverse sc around. (24 sc)"."""
_SPACES = frozenset(("sp", "space", "loop", "lp", "corner", "hole", "gap"))
"""Names that hold no stitches which could be counted with them."""
_FEW = 2
"""Corners by which a count may be off, and the word still mean what it says."""


def _corners(elements: tuple[Element, ...]) -> int:
    """How many corners a round has, each a space like the others; 0 where they are told otherwise."""
    corners = [e.chains for e in elements if e.corner and e.kind == SP]
    alike = sum(1 for e in elements if e.kind == SP and e.chains == corners[0]) if corners else 0
    return (
        len(corners) if alike == len(corners) and not any(e.corner and e.is_stitch for e in elements) else 0
    )


def _of_one_kind(number: int, have: dict[str, int]) -> bool:
    """True for a bare number that counts one kind of what stands there, and leaves out none of the same stitch."""
    return any(
        many == number and not any(parts_of(other)[1] == name and parts_of(other)[2] > 1 for other in have)
        for name, many in have.items()
    )


def _begun(name: str, elements: tuple[Element, ...]) -> int:
    """1 where the turning chain stands as a stitch of the name."""
    return int(bool(elements) and elements[0].turning and (name in ("", ANY) or elements[0].name == name))


def _other_sense(
    name: str, number: int, have: dict[str, int], stated: Stated, elements: tuple[Element, ...]
) -> bool:
    """True when a name may stand for more than itself, and the number fits that."""
    names = {n for n, _ in stated.counts}
    if (
        name not in STITCHES
        and number == have.get(name, 0) + 1
        and elements
        and elements[0].turning
        and any(e.special == name and e.group for e in elements)
    ):
        # "ch 3, 4 dc in same st (first shell made)": one of them was worked out by hand
        return True
    if (
        number
        and have.get(name, 0) in range(2 * number, 9 * number, number)
        and _in_several_places(name, elements)
    ):
        # "15 crossed dc" of two stitches each
        return True
    marked = {n[1:] for n in names if n.startswith("?") and n[1:] not in _SPACES}
    if marked and any(e.special in marked for e in elements):
        # "10 V, 2 dc" where rows say what a V is: its own stitches are counted as V's
        return number == sum(1 for e in elements if e.name == name and e.special not in marked)
    if marked and _beside_groups(number, have.get(name, 0), stated):
        return True
    post, base, together = parts_of(name)
    if len(names) > 1 and number == sum(
        1 for e in elements if e.name == name and not names & {e.special, elsewhere(e.special)}
    ):
        # "8 V-sts, 2 dc": the stitches of the V's are counted as V's, and those of "beg V-st" with them
        return True
    if elements and elements[0].turning and any(n != name and _is_special(n, elements) for n in names):
        # so are those of the first, which the turning chain begins
        first = next((e.into for e in elements[1:] if e.into), ())
        begun = next((e.group for e in elements[1:] if e.into), 0)
        rest = [
            e
            for e in elements
            if not e.turning
            and e.into != first
            and e.special not in names
            and (not begun or e.group != begun)
        ]
        one_place = begun or elements[0].into == first
        if one_place and number == sum(1 for e in rest if e.name == name):
            return True
    if together == 1 and not post:
        # "24 sc" in a row with decreases, with post stitches or with reverse ones of the kind, counts them in
        family = sum(
            v
            for k, v in have.items()
            if base in (parts_of(k)[1], _KIND_OF.get(parts_of(k)[1], ""))
            and k not in names - {name}
            and not k.startswith("ch-")
        )
        if family == number:
            return True
        alone = {k for k in have if not k.startswith(("ch-", "sp", "ch", "corner", "post"))}
        stitches = total_of(elements)[0]
        if (
            len(stated.counts) == 1
            and number == stitches
            and name in alone
            and all(
                parts_of(k)[2] > 1 or parts_of(k)[0] for k in alone - {name} if not _is_special(k, elements)
            )
        ):
            return True
    if name == "corner sp":
        # in a first round, all of it worked in one ring, the widest spaces will be the corners; in others the last one
        # may be closed by the join
        spaces = [e for e in elements if e.kind == SP]
        widest = max((e.chains for e in spaces if e.corner or name not in have), default=0)
        return number == sum(1 for e in spaces if e.chains == widest)
    if name == "sp" and number == have.get("picot", 0):
        # "ch 60, sl st in last sc made (hanging loop)": each such picot is a loop
        return True
    if name == "sp" and "picot" in names and "picot" not in have:
        # "(sc, ch 4, sc) in loop, ch 6": 16 picots, 16 loops
        picots = sum(n for told, n in stated.counts if told == "picot")
        return number + picots == have.get("sp", 0)
    if name == "picot":
        if "picot" not in have:
            # "*sc, ch 2, sc in same st; …" is called a picot edge: each of its spaces one
            lengths = Counter(e.chains for e in elements if e.kind == SP)
            return number in (sum(lengths.values()), *lengths.values())
        return any(e.special == "picot" for e in elements) and number == have["picot"]
    if name == "cl" or any(e.special == name and _gathered(e) for e in elements):
        # "dc2tog (counts as first cl)", then dc3tog: all of them are clusters
        clustered = sum(map(_gathered, elements))
        # "ch 3, dc in same st" stands for the first of them
        begun = len(elements) > 1 and elements[0].turning and elements[0].into == elements[1].into != ()
        return clustered == number or begun and clustered + 1 == number
    return False


def of_groups(stated: Stated, elements: tuple[Element, ...]) -> tuple[tuple[str, int, int], ...]:
    """What differs of a count by a name that no list holds, "9 petals", where the row has groups that are all alike.

    Only where it is off by a few, and nothing else in the row comes so often: what a petal is, need not be said.
    """
    if len(stated.counts) != 1 or stated.change or stated.partial:
        return ()
    stated = as_groups(stated, elements)
    name, number = stated.counts[0]
    shapes: dict[int, list[tuple[str, int]]] = {}
    for element in elements:
        if element.group:
            shapes.setdefault(element.group, []).append((element.kind, element.chains))
    alike = {tuple(shape) for shape in shapes.values()}
    if not name.startswith("?") or len(alike) != 1 or len(alike.pop()) < 2:
        return ()
    second = next((e for e in elements[1:] if e.is_stitch), None)
    begun = second is not None and elements[0].turning and elements[0].into == second.into != ()
    worked = len(shapes) + (begun and not elements[0].group)
    if number in tallies(elements).values() or number in total_of(elements):
        return ()
    return ((name, number, worked),) if 0 < abs(number - worked) <= max(_A_FEW, worked // 6) else ()


_A_FEW = 2
"""Groups of which a count may be off by a slip; of many, one in six."""


def as_groups(stated: Stated, elements: tuple[Element, ...]) -> Stated:
    """A count of clusters as one of groups, "(8 clusters)", where no stitch gathers others: "3 dc" of a granny."""
    if not any(name == "cl" for name, _ in stated.counts) or any(
        _gathered(e) or e.special == "cl" for e in elements
    ):
        return stated
    return replace(stated, counts=tuple(("?cl" if n == "cl" else n, many) for n, many in stated.counts))


def _beside_groups(number: int, have: int, stated: Stated) -> bool:
    """True where the others are as many in each of what is counted by a name of its own, or these are.

    "7 groups, 4 tr" of 25 tr: 3 in each group; "6 petals of 7 dc each" of 42 dc.
    """
    for name, many in stated.counts:
        if name.startswith("?") and name[1:] not in _SPACES and 0 < number < have:
            inside = have - number
            if number * many == have or inside % many == 0 and (many > 1 or inside > 1):
                return True
    return False


def _is_its_own(name: str) -> bool:
    """True for a name that only the pattern itself can explain: no stitch of the table, no space, no stitch at all."""
    known = (
        name in ("", ANY, "sp", "ch", "cl", "post", "picot") or name.startswith("ch-") or name.endswith(" sp")
    )
    return not known and parts_of(name)[1] not in STITCHES


def _gathered(element: Element) -> bool:
    """True for a stitch that gathers several under one loop."""
    return element.kind == "cl" or element.is_stitch and parts_of(element.kind)[2] > 1


def _is_special(name: str, elements: tuple[Element, ...]) -> bool:
    """True for a name that the pattern itself gives to a stitch of the row."""
    return any(e.special == name for e in elements)


def _in_several_places(name: str, elements: tuple[Element, ...]) -> bool:
    """True for a special whose stitches stand in places of their own, such as a crossed pair."""
    return any(e.special == name and not e.group and e.kind != name for e in elements)
