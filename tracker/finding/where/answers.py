"""What an answer to a question says of the work: evidence and an answer come in, more evidence goes out."""

from tracker.finding.evidence import Evidence, Tally
from tracker.finding.where.index import Index
from tracker.finding.where.questions import Question
from tracker.records import replace


def answered(index: Index, evidence: Evidence, question: Question, number: int) -> Evidence | None:
    """What is known once a question has this number for an answer; None for a number that is no answer.

    Where the answers are no numbers, it is the number of one of them, from 1.
    """
    if question.answers:
        if not 1 <= number <= len(question.answers):
            return None
        return _chosen(evidence, question.about, question.answers[number - 1])
    match question.about:
        case "rows":
            return replace(evidence, done=str(_first_row(index, question.part) - 1 + number))
        case "count":
            return replace(evidence, count=number) if number else replace(evidence, so_far=())
        case "corners":
            return replace(evidence, corners=number)
        case "below":
            if not number:
                return replace(evidence, fresh=True)
            return replace(evidence, top_counts=(Tally(stitches=number),))
        case "above":
            return replace(evidence, above=(number, question.look))
        case _:
            return None


def _chosen(evidence: Evidence, about: str, answer: str) -> Evidence:
    if about == "side":
        return replace(evidence, side=answer)
    if about == "part":
        return replace(evidence, part=answer)
    return replace(evidence, last=(answer,)) if answer else replace(evidence, so_far=())


def _first_row(index: Index, part: str) -> int:
    """Index of the first row of the part with this name."""
    for stretch, first in zip(index.fabric.stretches, index.fabric.first, strict=True):
        for within, placed in enumerate(stretch.rows):
            if (placed.part or "") == part:
                return first + within
    return 1
