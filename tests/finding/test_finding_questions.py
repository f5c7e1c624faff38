"""Question by question: whoever answers truly is found, wherever they are."""

import random

import pytest
from finding_cases import pieces

from tracker.finding.evidence import Evidence, Tally
from tracker.finding.where.answers import answered
from tracker.finding.where.index import Index, index_of
from tracker.finding.where.places import Known, Place, Places
from tracker.finding.where.questions import Question, best_question
from tracker.finding.where.spots import spots_of

SOME = 25
"""Places tried of each piece."""
MOST = 8
"""Questions after which patience ends."""


def _truth(index: Index, question: Question, row: int, done: int) -> int | None:
    """What a maker at a place answers, read from the piece itself; None for one who cannot."""
    look = index.at(row)
    names = index.looks[look].names[:done] if look is not None else ()
    below = index.at(row - 1)
    match question.about:
        case "rows":
            first = next(k for k in range(1, row + 1) if _part(index, k) == _part(index, row))
            return row - first
        case "count":
            return sum(not name.startswith("ch-") and name != "picot" for name in names)
        case "corners":
            return sum(k < done for k in index.looks[look].corners) if look is not None else 0
        case "below":
            alone = index.placed(row) is not None and index.starts_afresh(row)
            return 0 if alone or below is None else index.looks[below].stitches
        case "side":
            placed = index.placed(row)
            assert placed is not None
            return question.answers.index(placed.worked.side or "") + 1
        case "part":
            return question.answers.index(_part(index, row)) + 1
        case "last":
            return question.answers.index(names[-1] if names else "") + 1
    top = row - 1
    for rows in range(row):
        if (at := index.at(top - rows)) is not None and _looks(index, at, question.look):
            return rows
    return None


def _part(index: Index, row: int) -> str:
    placed = index.placed(row) or index.placed(row - 1)
    assert placed is not None
    return placed.part or ""


def _looks(index: Index, look: int, like: str) -> bool:
    makes = index.looks[look].makes
    spaces = any(name.startswith("ch-") for name in makes)
    return spaces == (like == "open") if like in ("open", "solid") else like in makes


@pytest.mark.parametrize("name", [name for name, _ in pieces()])
def test_true_answers_lead_to_the_place_in_a_few_questions(name: str) -> None:
    """From any place of a piece, the last known one being another; what is left cannot be told apart by looking."""
    loaded = dict(pieces())[name]
    index = index_of(loaded.fabric)
    every = [
        (p.index, p.elements_done) for p in Places(index, spots_of(index, Evidence(side=None)), False, None)
    ]
    every += [
        (row, done)
        for row in range(1, index.length + 1)
        for done in range(1, len(index.looks[index.at(row) or 0].text))
    ]
    chance = random.Random(3)
    asked_most = 0
    for row, done in chance.sample(every, min(SOME, len(every))):
        known = Known(max(1, row - chance.choice((0, 0, 1, 2))), chance.randrange(9))
        evidence = Evidence(anywhere=True)
        asked: list[str] = []
        while True:
            places = Places(index, spots_of(index, evidence), False, known)
            question = best_question(index, places, False, asked)
            if question is None:
                break
            asked.append(question.key)
            truth = _truth(index, question, row, done)
            if truth is None:
                continue
            more = answered(index, evidence, question, truth)
            assert more is not None, question
            evidence = more
        left = {(p.index, p.elements_done) for p in places}
        assert (row, done) in left, (row, done, evidence)
        assert len(asked) <= MOST, (row, done, asked)
        asked_most = max(asked_most, len(asked))
    assert asked_most > 1


def test_a_number_that_is_no_answer_is_refused() -> None:
    """The third of two sides."""
    loaded = dict(pieces())["pebble-cloth"]
    index = index_of(loaded.fabric)
    question = Question("side", "?", answers=("RS", "WS"))
    assert answered(index, Evidence(), question, 3) is None
    assert answered(index, Evidence(), question, 2) == Evidence(side="WS")
    assert answered(index, Evidence(), Question("count", "?"), 0) == Evidence(so_far=())
    assert answered(index, Evidence(), Question("below", "?"), 20) == Evidence(
        top_counts=(Tally(stitches=20),)
    )


def test_what_could_not_be_answered_is_not_asked_again() -> None:
    """Another question comes in its place."""
    loaded = dict(pieces())["harbour-windows"]
    index = index_of(loaded.fabric)
    places: Places = Places(index, spots_of(index, Evidence(count=5)), False, Known(9, 4))
    asked: list[str] = []
    while (question := best_question(index, places, False, asked)) is not None:
        assert question.key not in asked
        asked.append(question.key)
    assert len(asked) > 2
    assert isinstance(places[0], Place)
