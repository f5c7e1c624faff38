"""A phrase behind another in one breath: "one single crochet, then two in one stitch".

Steps and their words come in; the words of the second as they follow the first go out.
"""

from tracker.fabric.model import HIDDEN, Step, WorkedRow
from tracker.notation.tree import Group, Work
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
