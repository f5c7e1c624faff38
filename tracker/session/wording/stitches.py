"""One phrase of a row in words: "chain one", "skip one", "two double crochet in the space".

Steps of a worked row come in; words go out, without a capital and without a full stop. A phrase that has no words here
is given as it is written.
"""

import re

from tracker.fabric.model import CH, HIDDEN, SP, Element, Step, WorkedRow
from tracker.notation.tree import (
    SPACE,
    Chain,
    Group,
    Join,
    Leave,
    Say,
    Skip,
    Travel,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.program.row.groups import (
    Beat,
    is_behind_the_end,
    skips_own,
    told_at_the_start,
    told_before_its_first,
)
from tracker.records import replace
from tracker.session.wording.made.beside import way_before, way_behind
from tracker.session.wording.made.chains import first_of_foundation
from tracker.session.wording.made.following import (
    after,
    alone,
    follows_on,
    goes_on,
    skips_together,
    tells_both,
)
from tracker.session.wording.made.into import into_spaces, loop_said, rows_below, where_to
from tracker.session.wording.made.squares import square_said
from tracker.session.wording.made.telling import Telling, capital
from tracker.trade.nouns import a_
from tracker.trade.numbers import spoken_number, spoken_times
from tracker.trade.stitches import STITCHES

_YARN = re.compile(r"(?:yarn|colou?r|shade) \w{1,12}$", re.IGNORECASE)
"""A remark that only names the yarn: "(Yarn A)"."""
_SKIPPED = re.compile(r"(skipped are (?:your first|an? [^,;]+)), (then )?(\w)")
"""What skipped chains stand for, with more behind it."""
_LANDING = re.compile(r"\b(?:last|final)\b.*\b(?:in|into|of)\b", re.IGNORECASE)
"""A remark that tells where the last stitch goes: the landing is told in our own words."""


def doing(beat: Beat, worked: WorkedRow, telling: Telling) -> str:
    """All phrases of one beat.

    Remarks ("do not turn") stand behind a full stop; the rest is one breath. A colour or a loop stands before what is
    worked in it; the colour that the row begins with is told as the row begins.
    """
    if len(beat.steps) == 2 and told_before_its_first(*beat.steps, worked):
        both = [step.item.span for step in beat.steps]
        return telling.words(Span(both[1].start, both[0].end))
    phrases: list[str] = []
    remarks: list[str] = []
    fronts: list[str] = []
    for at, step in enumerate(beat.steps):
        if told_at_the_start(step, worked) or is_behind_the_end(step.item, worked.row):
            continue
        if isinstance(step.item, Say) and beat.steps[at + 1 :] and _told_next(step, beat.steps[at + 1]):
            continue
        if at and _told_by_join(beat.steps[at - 1], step) or _told_as_work(step, worked):
            continue
        if telling.told_before(step.item, worked.row):
            continue
        # After "skip one" the stitch has a number too: nobody hears "skip one, one double crochet" as skipping it.
        counted = bool(phrases) and isinstance(beat.steps[at - 1].item, Chain | Skip)
        words = _phrase(step, worked, telling, counted)
        colour = in_colour(step.item)
        if colour and at and in_colour(beat.steps[at - 1].item) == colour:
            words = words.removeprefix(colour)  # it is still in hand
        if not isinstance(step.item, Say) and phrases:
            before = next(s for s in reversed(beat.steps[:at]) if not isinstance(s.item, Say))
            words = after(before, _phrase(before, worked, telling, False), step, worked, words, telling)
        if ahead := way_before(step, worked, telling):
            phrases.append(ahead)
        leads = isinstance(step.item, Say) and (
            step.item.kind in ("colour", "loop", "side")
            or bool(_YARN.match(words))
            or words.lower().startswith("working ")
        )
        if leads and not phrases:
            fronts.extend(filter(None, (words,)))
        elif isinstance(step.item, Say) and step.item.kind == "piece" and phrases:
            phrases[-1] += f" {words}"
        elif isinstance(step.item, Say):
            if words and not (worked.landing and _LANDING.search(words)):
                if at and phrases and not remarks and follows_on(beat.steps[at - 1], step, telling):
                    phrases[-1] += f" {words}"
                else:
                    remarks.append(capital(words))
        elif words and (how := way_behind(step, worked, telling)):
            phrases.append(f"{words}, {how}")
        elif words and at and phrases and tells_both(beat.steps[at - 1].item, step.item, words, telling):
            phrases[-1] = words
        elif words and at and phrases and (each := goes_on(beat.steps[at - 1], step, phrases[-1], telling)):
            phrases[-1] = each
        elif words:
            if phrases and words[1:2].islower() and isinstance(step.item, Leave | Skip | Travel):
                words = words[:1].lower() + words[1:]  # a sentence of its own in the pattern
            phrases.append(words)
    front = "".join(f"{words}: " for words in fronts)
    if (
        len(phrases) > 1
        and alone(beat.steps)
        and phrases[1].startswith("then ")
        and " in the " not in phrases[0]
    ):
        phrases[0] = f"one {phrases[0]}"
    if not phrases and not fronts and not remarks:
        return telling.written(beat.steps[0].item)
    if not phrases:
        return ". ".join([*map(capital, fronts), *remarks])
    passed = skips_together(phrases)
    parted = len(passed) < len(phrases) or any(words.startswith("with ") for words in passed[1:])
    together = ("; " if parted else ", ").join(passed)
    together = _SKIPPED.sub(lambda hit: f"{hit[1]}. Then {hit[3]}", together)
    if any(isinstance(step.item, Group) for step in beat.steps):
        together = together.replace(", then ", "; then ")
    return ". ".join([f"{front}{together}", *remarks])


def before_the_chain(steps: tuple[Step, ...], worked: WorkedRow, telling: Telling) -> list[str]:
    """What is done before a turning chain, a sentence each: yarn joined, stitches travelled over."""
    out: list[str] = []
    for at, step in enumerate(steps):
        if told_at_the_start(step, worked) or is_of_the_ring(step.item, telling):
            continue
        words = telling.written(step.item).rstrip(".,")
        if isinstance(step.item, Travel) and _BEGINS_WITHIN.match(telling.source.words(step.item.span)):
            # "(sl st, ch 3, 2 dc) in next sp": the rest of the bracket is told where it is worked
            words = telling.read(f"sl st in {telling.source.words(step.item.where[0].span)}")
        if out and follows_on(steps[at - 1], step, telling):
            out[-1] += f" {words}"
        else:
            out.append(words)
    return out


_BEGINS_WITHIN = re.compile(r"[\[({]\s*(?:sl\.? ?st|ss|slip stitch)\b", re.IGNORECASE)
"""A bracket that begins with the slip stitch that leads to its place."""


def is_of_the_ring(item: object, telling: Telling) -> bool:
    """True for "to form ring" as words of their own: they are told with the join that forms it."""
    return isinstance(item, Say) and _RING.match(telling.source.words(item.span)) is not None


_RING = re.compile(r"to (?:form|make) (?:a |the )?ring\b", re.IGNORECASE)


def _told_by_join(before: Step, step: Step) -> bool:
    """True for the stitch that "join to the leg with sc in any st" makes: those words have told it."""
    return (
        isinstance(before.item, Travel) and isinstance(step.item, Work) and before.item.span == step.item.span
    )


def _told_as_work(said: Step, worked: WorkedRow) -> bool:
    """True for "ch 3" kept beside the chain of a round that joins two pieces: that is told as its row begins."""
    chains = (item.span for item in worked.row.items if isinstance(item, Chain))
    return isinstance(said.item, Say) and said.item.span in chains


def _told_next(said: Step, step: Step) -> bool:
    """True for words that the travel behind them is read from: "Join red with sc in any corner"."""
    return isinstance(step.item, Travel) and step.item.span == said.item.span


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


def _is_corner(where: Where) -> bool:
    """True for what is worked into a corner that the words call one."""
    return bool(where.kinds) and where.kinds[0].name in ("corner", "corner sp")


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
        return square_said(item, step, worked, telling)
    if where.which is Which.EVENLY and _is_corner(where) and not item.excepting:
        return f"corner: {spoken_number(len(made))} {telling.stitch(item.stitch, len(made))} in one stitch"
    if (
        item.excepting
        or where.which in (Which.EVENLY, Which.ROW_END, Which.MADE, Which.BETWEEN)
        or where.down < 0
        or where.which is Which.SAME
        and _MORE.search(telling.source.words(item.span))
    ):
        return telling.written(item)
    if where.which is Which.FROM_HOOK:
        return first_of_foundation(item, made, telling)
    stitch = telling.stitch(item.stitch)
    if item.stitch.endswith("tog") and where.nth < 0 and _LEGS.search(telling.source.words(where.span)):
        return f"{stitch}, {telling.words(where.span)}"
    if item.stitch in telling.own and (
        item.stitch not in STITCHES or any(e.kind != item.stitch for e in made)
    ):
        return _of_its_own(item, step, made, worked, telling, counted)
    if item.joined and where.which is Which.EACH:
        return f"then one in each: {spoken_number(len(made))}" if item.count == 1 else telling.written(item)
    if where.which is Which.EACH and item.count == 1 and len(made) > 1 and _mixed(made, worked):
        return f"{stitch} in each stitch and space: {spoken_number(len(made))}"
    places = max(1, len(made) // item.count) if where.which is not Which.STRAIGHT else len(made)
    each = item.count if where.which is not Which.STRAIGHT else 1
    target = where_to(where, step, worked, telling, each, places)
    depth = f" {rows_below(where)}" if where.down > 1 and " below" not in target else ""
    loop = loop_said(where.loop, places * each)
    if each > 1 and places > 1:
        named = bool(where.kinds) and where.kinds[0].name == SPACE
        spaces = " spaces" if named or into_spaces(step, worked) else ""
        return f"{spoken_number(each)} {stitch} in each of {spoken_number(places)}{spaces}{loop}{depth}"
    number = each if places == 1 else places
    if number == 1:
        words = f"one {stitch}" if counted and not item.stitch.endswith("tog") else stitch
        return f"{words}{loop}{depth}{target}"
    if item.stitch.endswith("tog"):
        return f"{stitch}, {spoken_times(number)}{loop}{depth}{target}"
    named = each > 1 and places == 1 and _is_corner(where) and not counted
    corner = "corner: " if named and "corner" not in target else ""
    return f"{corner}{spoken_number(number)} {telling.stitch(item.stitch, number)}{loop}{depth}{target}"


def _mixed(made: list[Element], worked: WorkedRow) -> bool:
    """True for stitches that go into stitches and into spaces."""
    below = [worked.below[e.into[-1]].kind == SP for e in made if e.into and e.into[-1] < len(worked.below)]
    return any(below) and not all(below)


_MORE = re.compile(r"\bmore\b", re.IGNORECASE)
"""In "2 more sc in same sp": those that stand there already are told with the join."""
_LEGS = re.compile(r"\bleg\b", re.IGNORECASE)
"""Where the legs of stitches worked together go, told leg by leg."""


def _of_its_own(
    item: Work, step: Step, made: list[Element], worked: WorkedRow, telling: Telling, counted: bool
) -> str:
    """A stitch the pattern defines: how many of it, whatever each is made of."""
    where = item.where
    if spelled := _spelled_out(item, telling):
        return spelled
    times = (
        len({element.group for element in made if element.group})
        or _passes(step, worked)
        or max(1, where.many)
    )
    if where.which is Which.STRAIGHT:
        times = max(1, item.count)
    name = telling.stitch(item.stitch, times)
    if times > 1 or counted:
        name = f"{spoken_number(times)} {name}"
    if where.which is Which.STRAIGHT and item.stitch in telling.placed:
        return name
    return f"{name}{where_to(where, step, worked, telling, 1, times)}"


def _passes(step: Step, worked: WorkedRow) -> int:
    """How often what a stitch of the pattern's own is made of was worked for it: "Cdc across"; 0 where not known."""
    inside = (
        other.path[-1][2]
        for other in worked.steps
        if len(other.path) > len(step.path) and step.made_from <= other.made_from < step.made_to
    )
    return max(inside, default=0)


def _spelled_out(item: Work, telling: Telling) -> str:
    """A stitch of the pattern's own told in its movements here, "ch 4, holding back …"; "" where it is named."""
    own = telling.source.words(item.span).lower()
    named = item.stitch in own or any(word in own for word in telling.stitch(item.stitch).split())
    if named or len(own) <= _LONG:
        return ""
    chain = _CHAIN_BEFORE.search(telling.source.text[max(0, item.span.start - 12) : item.span.start])
    return (
        f"{telling.read(chain.group().rstrip(' ,'))}, {telling.written(item)}"
        if chain
        else telling.written(item)
    )


_LONG = 40
"""Letters of words that tell how, rather than what."""
_CHAIN_BEFORE = re.compile(r"\b(?:ch(?:ain)? ?\d{1,2}|\d{1,2} ?ch),? $", re.IGNORECASE)


def _group(item: Group, step: Step, worked: WorkedRow, telling: Telling) -> str:
    inside: list[str] = []
    for each in item.items:
        if isinstance(each, Chain):
            inside.append(f"chain {spoken_number(each.count)}")
        elif isinstance(each, Work) and each.where.which is Which.MADE:
            inside.append(telling.written(each))
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
    place = where_to(item.where, step, worked, telling, 2, places).strip()
    if item.where.which is Which.BETWEEN:
        place = telling.words(item.where.span)
    if not place:
        return telling.written(item)
    if item.name:
        return f"{telling.stitch(item.name)} {place}"
    if place.endswith(" space") and _BEGINS_WITHIN.match(telling.source.words(item.span)):
        place = "in the same space"
    corner = "corner, " if _is_corner(item.where) and item.where.which is Which.NEXT else ""
    return f"{corner}{place}: {', '.join(inside)}"


def _join(item: Join, telling: Telling) -> str:
    where = item.where
    stitch = "a slip stitch" if item.stitch == "slst" else a_(telling.stitch(item.stitch))
    if where is None:
        return f"join with {stitch}"
    if where.which is Which.FIRST:
        kind = (
            telling.stitch(where.kinds[0].name)
            if where.kinds and where.kinds[0].name not in (SPACE, CH)
            else "stitch"
        )
        return f"join with {stitch} in the first {kind}"
    words = telling.written(item)
    return "join with a slip stitch" if words == "slip stitch" else words
