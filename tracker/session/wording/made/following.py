"""A phrase behind another in one breath: "one single crochet, then two in one stitch".

Steps and their words come in; the words of the second as they follow the first go out.
"""

from tracker.fabric.model import HIDDEN, Step, WorkedRow
from tracker.notation.tree import Group, Item, Say, Which, Work
from tracker.session.wording.made.telling import Telling
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import parts_of


def after(
    before: Step, before_words: str, step: Step, worked: WorkedRow, words: str, telling: Telling
) -> str:
    """A phrase behind another: where a bracket is over must be heard, and what was just named need not be again."""
    one, two = before.item, step.item
    if isinstance(one, Group) and len(one.items) > 1 and not one.name:
        number = "one " if isinstance(two, Work) and words == telling.stitch(two.stitch) else ""
        return f"then {number}{words}"
    if isinstance(two, Group) and words.startswith("in "):
        return f"then {words}"  # or "three double crochet, in the space" would be heard as one thing
    if not (isinstance(one, Work) and isinstance(two, Work)) or {one.stitch, two.stitch} & telling.own.keys():
        return words
    if any(w.where.loop or w.colour or w.where.around or w.where.down != 1 for w in (one, two)):
        return words
    post, base, together = parts_of(two.stitch)
    if together > 1 and one.stitch == post + base and words == telling.stitch(two.stitch):
        return f"then {spoken_number(together)} together"
    if one.stitch != two.stitch:
        return words
    first = before_words.endswith(" in the first stitch")
    if words == telling.stitch(two.stitch) and one.count == 1 and first:
        return "then one in the next"
    made = sum(1 for e in worked.elements[step.made_from : step.made_to] if e.kind != HIDDEN)
    if words == f"{spoken_number(two.count)} {telling.stitch(two.stitch, two.count)} in one stitch":
        return f"then {spoken_number(two.count)} in one stitch"
    stitch = telling.stitch(two.stitch)
    if words == f"{stitch} in the space" and not before_words.startswith((stitch, "one ")):
        return "then one in the space"
    in_one = one.count > 1 and before_words.endswith((" in one stitch", " space"))
    if in_one and words in (telling.stitch(two.stitch), f"one {telling.stitch(two.stitch)}"):
        return "then one in the next"
    if in_one and words == f"{spoken_number(made)} {telling.stitch(two.stitch, made)}":
        return f"then one in each of {spoken_number(made)}"
    return words


def alone(steps: tuple[Step, ...]) -> bool:
    """True for a single stitch: "one single crochet, then two in one stitch" has its number."""
    item = steps[0].item
    return isinstance(item, Work) and item.count == 1 and steps[0].made_to - steps[0].made_from == 1


def follows_on(before: Step, step: Step, telling: Telling) -> bool:
    """True for words that go on behind a phrase with no mark between: "sl st in top of ch-3 to join"."""
    text, starts = telling.source.text, step.item.span.start
    return (
        isinstance(step.item, Say)
        and step.item.kind not in ("colour", "loop", "side")
        and before.item.span.end <= starts
        and text[before.item.span.end : starts].strip(" \t") == ""
        and text[starts : starts + 1].islower()
    )


def goes_on(before: Step, step: Step, said: str, telling: Telling) -> str:
    """ "double crochet in each: twenty-five" for "dc in next dc and in each dc across"; "" for anything else."""
    one, two = before.item, step.item
    if not (isinstance(one, Work) and isinstance(two, Work) and two.joined and one.stitch == two.stitch):
        return ""
    stitch, made = telling.stitch(two.stitch), step.made_to - step.made_from
    whole = (
        two.where.which is Which.EACH
        and two.count == 1
        and made > 1
        and one.where.which is Which.NEXT
        and not (one.colour or two.colour or two.excepting)
        and said in (stitch, f"one {stitch}")
    )
    return f"{stitch} in each: {spoken_number(made + 1)}" if whole else ""


def tells_both(one: Item, two: Item, words: str, telling: Telling) -> bool:
    """True for words of the pattern's own that hold the phrase before: "sc in same st and in each sc around"."""
    joined = isinstance(one, Work) and isinstance(two, Work) and two.joined
    return joined and one.span.start == two.span.start and words == telling.written(two)


def skips_together(phrases: list[str]) -> list[str]:
    """ "skip the space, one stitch and the space": what is passed over at one go, with its verb once."""
    out: list[str] = []
    runs: list[list[str]] = []
    for words in phrases:
        verb, _, passed = words.partition(" ")
        if verb not in ("skip", "miss"):
            runs = []
            out.append(words)
        elif not runs:
            runs = [[verb, passed]]
            out.append(words)
        else:
            runs.append([verb, passed])
            named = [
                f"{one} stitch{'' if one == 'one' else 'es'}" if one.isalpha() else one for _, one in runs
            ]
            out[-1] = f"{verb} {', '.join(named[:-1])} and {named[-1]}"
    return out
