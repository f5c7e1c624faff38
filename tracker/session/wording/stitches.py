"""One phrase of a row in words: "chain one", "skip one", "two double crochet in the space".

Steps of a worked row come in; words go out, without a capital and without a full stop. A phrase that has no words here
is given as it is written.
"""

import re

from tracker.fabric.model import CH, HIDDEN, SP, Element, Step, WorkedRow
from tracker.notation.tree import (
    ANY,
    LAYERS,
    SPACE,
    Chain,
    Group,
    Item,
    Join,
    Say,
    Skip,
    Travel,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.program.groups import Beat, begins_in_colour, skips_own
from tracker.program.places import Program
from tracker.records import replace
from tracker.session.wording.spelled import SQUARES, own_names, told
from tracker.trade.numbers import spoken_number, spoken_ordinal
from tracker.trade.stitches import STITCHES, parts_of, said


class Telling:
    """What a sentence needs to know of the pattern it is about."""

    __slots__ = ("_program", "mesh", "own", "source", "squares", "uk")

    def __init__(self, program: Program, mesh: int | None) -> None:
        self._program = program
        self.source = program.source
        self.own = own_names(program)
        """The stitches that the pattern defines, by what its rows call them, as they are said."""
        self.squares = {s.name: s for s in program.pattern.specials if s.base in SQUARES}
        """Those that are squares of filet or tiles."""
        self.uk = program.told_uk
        self.mesh = mesh
        """Chains of a window in a filet row; None in any other."""

    def stitch(self, name: str, number: int = 1) -> str:
        """A stitch as it is said; those that are things rather than doings take a plural."""
        words = self.own.get(name) or (said(name, self.uk) if name != ANY else "stitch")
        if (
            number == 1
            or words.endswith(("crochet", "treble", "together", "front", "back"))
            or words[-1].isupper()
            or " into " in words
        ):
            return words
        return f"{words}es" if words.endswith("stitch") else f"{words}s"

    def written(self, item: Item) -> str:
        """An item's own words, read out."""
        return self.words(item.span)

    def words(self, span: Span) -> str:
        """A stretch of the pattern's own words, read out."""
        words = self.source.words(span).strip("()[] ")
        return told(self._program, words.lower() if words.isupper() and " " in words else words, self.own)


_LANDING = re.compile(r"\b(?:last|final)\b.*\b(?:in|into|of)\b", re.IGNORECASE)
"""A remark that tells where the last stitch goes: the landing is told in our own words."""


_MAGIC = re.compile(r"\b(?:magic|adjustable|sliding|mr|mc|amr)\b", re.IGNORECASE)
"""Words and letters for a ring that is made as the first stitches go into it (common practice, no source)."""


def doing(beat: Beat, worked: WorkedRow, telling: Telling) -> str:
    """All phrases of one beat.

    Remarks ("do not turn") stand behind a full stop; the rest is one breath. A colour or a loop stands before what is
    worked in it; the colour that the row begins with is told as the row begins.
    """
    phrases: list[str] = []
    remarks: list[str] = []
    fronts: list[str] = []
    for at, step in enumerate(beat.steps):
        if begins_in_colour(step) or at and _told_by_join(beat.steps[at - 1], step):
            continue
        # After "skip one" the stitch has a number too: nobody hears "skip one, one double crochet" as skipping it.
        counted = bool(phrases) and isinstance(beat.steps[at - 1].item, Chain | Skip)
        words = _phrase(step, worked, telling, counted)
        if not isinstance(step.item, Say) and phrases:
            before = next(s for s in reversed(beat.steps[:at]) if not isinstance(s.item, Say))
            words = _after(before, step, worked, words, telling)
        leads = isinstance(step.item, Say) and (
            step.item.kind in ("colour", "loop", "side") or bool(_YARN.match(words))
        )
        if leads and not phrases:
            fronts.extend(filter(None, (words,)))
        elif isinstance(step.item, Say) and step.item.kind == "piece" and phrases:
            phrases[-1] += f" {words}"
        elif isinstance(step.item, Say):
            if words and not (worked.landing and _LANDING.search(words)):
                remarks.append(capital(words))
        elif words:
            phrases.append(words)
    front = "".join(f"{words}: " for words in fronts)
    if (
        len(phrases) > 1
        and _alone(beat.steps)
        and phrases[1].startswith("then ")
        and " in the " not in phrases[0]
    ):
        phrases[0] = f"one {phrases[0]}"
    if not phrases:
        return ". ".join([*map(capital, fronts), *remarks])
    together = ", ".join(phrases)
    if any(isinstance(step.item, Group) for step in beat.steps):
        together = together.replace(", then ", "; then ")
    return ". ".join([f"{front}{together}", *remarks])


_YARN = re.compile(r"(?:yarn|colou?r|shade) \w{1,12}$", re.IGNORECASE)
"""A remark that only names the yarn: "(Yarn A)"."""


def _after(before: Step, step: Step, worked: WorkedRow, words: str, telling: Telling) -> str:
    """A phrase behind another: where a bracket is over must be heard, and what was just named need not be again."""
    one, two = before.item, step.item
    if isinstance(one, Group) and len(one.items) > 1 and not one.name:
        number = "one " if isinstance(two, Work) and words == telling.stitch(two.stitch) else ""
        return f"then {number}{words}"
    if not (isinstance(one, Work) and isinstance(two, Work)) or {one.stitch, two.stitch} & telling.own.keys():
        return words
    if any(w.where.loop or w.colour or w.where.around or w.where.down != 1 for w in (one, two)):
        return words
    post, base, together = parts_of(two.stitch)
    if together > 1 and one.stitch == post + base and words == telling.stitch(two.stitch):
        return f"then {spoken_number(together)} together"
    if one.stitch != two.stitch:
        return words
    first = _phrase(before, worked, telling, False).endswith(" in the first stitch")
    if words == telling.stitch(two.stitch) and one.count == 1 and first:
        return "then one in the next"
    made = sum(1 for e in worked.elements[step.made_from : step.made_to] if e.kind != HIDDEN)
    if words == f"{spoken_number(two.count)} {telling.stitch(two.stitch, two.count)} in one stitch":
        return f"then {spoken_number(two.count)} in one stitch"
    in_one = one.count > 1 and _phrase(before, worked, telling, False).endswith(" in one stitch")
    if in_one and words in (telling.stitch(two.stitch), f"one {telling.stitch(two.stitch)}"):
        return "then one in the next"
    if in_one and words == f"{spoken_number(made)} {telling.stitch(two.stitch, made)}":
        return f"then one in each of {spoken_number(made)}"
    return words


def _alone(steps: tuple[Step, ...]) -> bool:
    """True for a single stitch: "one single crochet, then two in one stitch" has its number."""
    item = steps[0].item
    return isinstance(item, Work) and item.count == 1 and steps[0].made_to - steps[0].made_from == 1


def _told_by_join(before: Step, step: Step) -> bool:
    """True for the stitch that "join to the leg with sc in any st" makes: those words have told it."""
    return (
        isinstance(before.item, Travel) and isinstance(step.item, Work) and before.item.span == step.item.span
    )


def on_piece(beat: Beat, telling: Telling) -> str:
    """ " of first leg", " along leg two": on which piece the stitches of a beat lie; "" where it is not said."""
    said = [step.item for step in beat.steps if isinstance(step.item, Say) and step.item.kind == "piece"]
    return "".join(f" {telling.written(item)}" for item in said)


def _phrase(step: Step, worked: WorkedRow, telling: Telling, counted: bool) -> str:
    item = step.item
    if isinstance(item, Chain):
        return f"chain {spoken_number(item.count)}"
    if isinstance(item, Skip):
        return _skip(item, step, worked, telling)
    if isinstance(item, Work):
        return in_colour(item) + _work(item, step, worked, telling, counted)
    if isinstance(item, Group):
        return _group(item, step, worked, telling)
    if isinstance(item, Join):
        return _join(item, telling)
    if isinstance(item, Say) and item.kind == "loop" and any(map(_names_loop, worked.steps)):
        return ""
    return telling.written(item).rstrip(".")


def _names_loop(step: Step) -> bool:
    """True for stitches that are told with the loop they go into."""
    return isinstance(step.item, Work) and bool(step.item.where.loop)


def in_colour(item: object) -> str:
    """ "with A, " before stitches that are counted in a colour; "" before others."""
    return f"with {item.colour}, " if isinstance(item, Work) and item.colour else ""


def _skip(item: Skip, step: Step, worked: WorkedRow, telling: Telling) -> str:
    passed = [element for element in worked.below[step.at : step.after] if element.kind != HIDDEN]
    spaces = sum(1 for element in passed if element.kind == SP)
    skip = "miss" if telling.uk else "skip"
    if passed and spaces == len(passed):
        return f"{skip} the space" if spaces == 1 else f"{skip} {spoken_number(spaces)} spaces"
    if passed and spaces == 0:
        return f"{skip} {spoken_number(len(passed))}"
    if skips_own(step):
        return ""
    return telling.written(item)


def _work(item: Work, step: Step, worked: WorkedRow, telling: Telling, counted: bool) -> str:
    where = item.where
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.kind != HIDDEN]
    if item.stitch == "even" and made:
        if any(e.kind != made[0].kind for e in made):
            return f"one of its own kind in each: {spoken_number(len(made))}"
        item = replace(item, stitch=made[0].kind)
    if item.stitch in telling.squares:
        return _square(item, step, worked, telling)
    if (
        item.excepting
        or where.which in (Which.EVENLY, Which.ROW_END, Which.MADE, Which.BETWEEN)
        or where.down < 0
    ):
        return telling.written(item)
    if where.which is Which.FROM_HOOK:
        return _first_of_foundation(item, made, telling)
    stitch = telling.stitch(item.stitch)
    if item.stitch.endswith("tog") and where.nth < 0 and _LEGS.search(telling.source.words(where.span)):
        return f"{stitch}, {telling.words(where.span)}"
    if item.stitch in telling.own and (
        item.stitch not in STITCHES or any(e.kind != item.stitch for e in made)
    ):
        return _of_its_own(item, step, made, worked, telling, counted)
    if item.joined and where.which is Which.EACH:
        return f"then one in each: {spoken_number(len(made))}" if item.count == 1 else telling.written(item)
    places = max(1, len(made) // item.count) if where.which is not Which.STRAIGHT else len(made)
    each = item.count if where.which is not Which.STRAIGHT else 1
    target = _target(where, step, worked, telling, each, places)
    depth = f" {spoken_number(where.down)} rows below" if where.down > 1 else ""
    loop = loop_said(where.loop, places * each)
    if each > 1 and places > 1:
        return f"{spoken_number(each)} {stitch} in each of {spoken_number(places)}{loop}{depth}"
    number = each if places == 1 else places
    if number == 1:
        words = f"one {stitch}" if counted and not item.stitch.endswith("tog") else stitch
        return f"{words}{loop}{depth}{target}"
    if item.stitch.endswith("tog"):
        return f"{stitch}, {spoken_number(number)} times{loop}{depth}{target}"
    return f"{spoken_number(number)} {telling.stitch(item.stitch, number)}{loop}{depth}{target}"


def _square(item: Work, step: Step, worked: WorkedRow, telling: Telling) -> str:
    """Squares of filet, and tiles, in the stitches that make them: rows call them by letters that nobody says."""
    special = telling.squares[item.stitch]
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.kind != HIDDEN]
    if special.base.endswith("tile"):
        many = len(made)
        own_words = telling.source.words(item.span).lower()
        if special.name in own_words or not re.search(r"\bch\b|\bchain", own_words):
            return f"{spoken_number(many)} {telling.stitch('tile', many)}" if many > 1 else "tile"
        return telling.written(item)
    posts = [e for e in made if e.is_stitch]
    stitch = telling.stitch(posts[0].kind) if posts else "stitch"
    if special.base.startswith("beg") and made[0].turning:
        front = turning_words(step, worked, telling, made)
        rest = len(posts) - 1
        return f"{front}, then {spoken_number(rest)} {telling.stitch(posts[0].kind, rest)}"
    windows = [e for e in made if e.kind == SP]
    over = _over(worked, step.made_from, step.made_to)
    begun = item.where.which is Which.MADE
    if not windows and not begun:
        words = f"{spoken_number(len(posts))} {telling.stitch(posts[0].kind, len(posts))}"
        if SP in over and len(posts) == special.closes + 1:
            filled = telling.stitch(posts[0].kind, special.closes)
            return f"{spoken_number(special.closes)} {filled} in the space, one in the next"
        return f"{words}, {spoken_number(special.closes)} in each space" if SP in over else words
    skip = "miss" if telling.uk else "skip"
    many_skipped = f"{skip} {spoken_number(special.closes)}"
    passed = (
        f"{skip} the space"
        if over == {SP}
        else f"{many_skipped} or the space"
        if SP in over
        else many_skipped
    )
    if begun:
        return f"{passed}, one {stitch}"
    many = len(windows)
    times = f", {'twice' if many == 2 else f'{spoken_number(many)} times'}" if many > 1 else ""
    return f"chain {spoken_number(windows[0].chains)}, {passed}, one {stitch}{times}"


def _over(worked: WorkedRow, start: int, end: int) -> set[str]:
    """What the fillings of squares lie over: spaces, stitches or both."""
    below = worked.below
    out: set[str] = set()
    before = next((e.into[-1] for e in reversed(worked.elements[:start]) if e.into), -1)
    for element in worked.elements[start:end]:
        if not element.into:
            continue
        out |= {SP if e.kind == SP else "stitch" for e in below[before + 1 : element.into[0]]}
        if below[element.into[0]].kind == SP:
            out.add(SP)
        before = element.into[-1]
    return out


_LEGS = re.compile(r"\bleg\b", re.IGNORECASE)
"""Where the legs of stitches worked together go, told leg by leg."""


def loop_said(loop: str, many: int) -> str:
    """ " in the back loops", " through both layers"; "" where nothing is said of loops."""
    if loop == LAYERS:
        return " through both layers"
    return f" in the {loop} loop{'s' if many > 1 else ''}" if loop in ("back", "front", "third") else ""


def _of_its_own(
    item: Work, step: Step, made: list[Element], worked: WorkedRow, telling: Telling, counted: bool
) -> str:
    """A stitch the pattern defines: how many of it, whatever each is made of."""
    where = item.where
    times = len({element.group for element in made if element.group}) or max(1, where.many)
    if where.which is Which.STRAIGHT:
        times = max(1, item.count)
    name = telling.stitch(item.stitch, times)
    if times > 1 or counted:
        name = f"{spoken_number(times)} {name}"
    return f"{name}{_target(where, step, worked, telling, 1, times)}"


def _first_of_foundation(item: Work, made: list[Element], telling: Telling) -> str:
    words = f"{telling.stitch(item.stitch)} in the {spoken_ordinal(item.where.nth)} chain"
    if item.count > 1:
        words = f"{spoken_number(item.count)} {words}"
    turning = [element for element in made if element.turning]
    if not turning:
        return words
    skipped = spoken_number(item.where.nth - 1)
    if any(element.kind == SP for element in turning):
        stands_for = f"{_a(telling.stitch(turning[0].kind))} and its {_space(turning[-1], telling)}"
        return f"{words}; the {skipped} skipped are {stands_for}"
    return f"{words}; the {skipped} skipped are your first"


def _target(where: Where, step: Step, worked: WorkedRow, telling: Telling, each: int, places: int) -> str:
    """Where it goes, with a blank before it; "" where that is a matter of course."""
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.into]
    below = [worked.below[e.into[-1]] for e in made if e.into[-1] < len(worked.below)]
    spaces = bool(below) and all(element.kind == SP for element in below)
    if where.which is Which.RING:
        told_of = any(isinstance(item, Join) and item.stitch == "magic" for item in worked.row.items)
        makes_it = step.made_from == 0 and not told_of and _MAGIC.search(telling.source.words(where.span))
        return " in a magic ring" if makes_it else " in the ring"
    if where.which is Which.SAME:
        return (
            " in the same space"
            if spaces or where.kinds and where.kinds[0].name == SPACE
            else " in the same stitch"
        )
    if (
        where.which is Which.TOP
        or where.which is Which.NTH
        and where.kinds
        and where.kinds[0].name in (CH, "tch")
    ):
        found = chain_landing(worked, below[-1]) if below else ""
        return f" in {found}" if found else f" in the {spoken_ordinal(where.nth)} chain" if where.nth else ""
    if where.which is Which.NTH:
        return f" in the {spoken_ordinal(where.nth)} stitch"
    if spaces:
        if places > 1:
            return f" in each of {spoken_number(places)} spaces"
        edge = {Which.FIRST: "first ", Which.LAST: "last "}.get(where.which, "")
        wide = "" if telling.mesh or below[0].chains == 1 else f"chain-{spoken_number(below[0].chains)} "
        return f" in the {edge}{wide}space"
    chain = bool(below) and below[-1].kind == CH or bool(where.kinds) and where.kinds[0].name == CH
    thing = "chain" if chain else "stitch"
    if where.which is Which.FIRST and places == 1:
        return f" in the first {thing}"
    if where.which is Which.LAST and places == 1:
        return f" in the last {thing}"
    return f" in one {thing}" if each > 1 and places == 1 else ""


def _group(item: Group, step: Step, worked: WorkedRow, telling: Telling) -> str:
    inside: list[str] = []
    for each in item.items:
        if isinstance(each, Chain):
            inside.append(f"chain {spoken_number(each.count)}")
        elif isinstance(each, Work):
            number = each.count
            inside.append(
                f"{spoken_number(number)} {telling.stitch(each.stitch, number)}"
                if number > 1
                else telling.stitch(each.stitch)
            )
        else:
            return telling.written(item)
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.into and e.kind != HIDDEN]
    places = len(dict.fromkeys(e.into for e in made)) if item.where.which is Which.EACH else 1
    place = _target(item.where, step, worked, telling, 2, places).strip()
    if not place:
        return telling.written(item)
    return f"{telling.stitch(item.name)} {place}" if item.name else f"{place}: {', '.join(inside)}"


def _join(item: Join, telling: Telling) -> str:
    where = item.where
    stitch = "a slip stitch" if item.stitch == "slst" else _a(telling.stitch(item.stitch))
    if where is None:
        return f"join with {stitch}"
    if where.which is Which.FIRST:
        kind = (
            telling.stitch(where.kinds[0].name)
            if where.kinds and where.kinds[0].name not in (SPACE, CH)
            else "stitch"
        )
        return f"join with {stitch} in the first {kind}"
    return telling.written(item)


def turning_words(
    step: Step, worked: WorkedRow, telling: Telling, square: list[Element] | None = None
) -> str:
    """The turning chain, and what it stands for; `square`: elements of a square that begins with one."""
    item = step.item
    if not isinstance(item, Chain) and square is None:
        return telling.written(item)
    made = worked.elements[step.made_from : step.made_to] if square is None else tuple(square)
    turned = sum(e.chains for e in made if e.turning)
    words = f"chain {spoken_number(item.count if isinstance(item, Chain) else turned)}"
    if made and made[0].kind == HIDDEN:
        return f"{words}; it is no stitch"
    space = next((element for element in made if element.kind == SP), None)
    if space is not None:
        return f"{words}: {_a(telling.stitch(made[0].kind))} and its {_space(space, telling)}"
    return f"{words}: your first {telling.stitch(made[0].kind)}" if made else words


def chain_landing(worked: WorkedRow, target: Element) -> str:
    """Where the last stitch goes, when that is a chain: "the top of the chain three"."""
    where, _, chains = worked.landing.partition("/")
    if chains.isdigit() and where == "top":
        return f"the top of the chain {spoken_number(int(chains))}"
    if chains.isdigit() and where.isdigit():
        return f"the {spoken_ordinal(int(where))} chain of the chain {spoken_number(int(chains))}"
    return f"the top of the chain {spoken_number(target.chains)}" if target.chains else ""


def landing(worked: WorkedRow) -> str:
    """The same for the row as a whole; "" when its last stitch is one like the others."""
    return chain_landing(worked, Element(CH)) if worked.landing else ""


def _space(space: Element, telling: Telling) -> str:
    return "window" if telling.mesh else f"chain-{spoken_number(space.chains)} space"


def _a(words: str) -> str:
    return f"an {words}" if words[:1] in "aeiou" else f"a {words}"


def capital(words: str) -> str:
    """The words as they begin a sentence."""
    return words[:1].upper() + words[1:]
