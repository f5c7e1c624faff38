"""Right patterns in a mixture of other designers' words: nothing in them is called wrong, and hardly anything odd."""

import hashlib

import pytest
from corpus_cases import RIGHT, Case, cases, reading
from rewordings import REWORDINGS, wholly_right

from tracker.load import load
from tracker.problems import Problem, Severity

PATTERNS = 90
"""So many patterns are reworded."""
MIXED = 3
"""Rewordings that are put to one pattern, one after the other."""
WARNED = {"practice": 0, "flat": 2, "rounds": 0}
"""At most so many warnings are told in the right patterns of a folder."""
MOST_WARNED = 2
"""At most so many in all the reworded ones."""


@pytest.mark.parametrize("folder", RIGHT)
def test_hardly_a_warning_in_right_patterns(folder: str) -> None:
    """A warning that is not justified costs as much trust as it is worth."""
    told = {
        case.name: words
        for case in cases(folder)
        if (words := of(reading(folder, case.name).problems, Severity.WARNING))
    }
    assert sum(map(len, told.values())) <= WARNED[folder], told


def test_a_mixture_of_other_words_is_no_error() -> None:
    """Several rewordings at once, as no designer's table has them."""
    warned: dict[str, list[str]] = {}
    wrong: dict[str, list[str]] = {}
    for case in some_patterns():
        text, names = mixed(case)
        problems = load(f"{case.name}.txt", text, case.truth.get("size")).problems
        if told := of(problems, Severity.ERROR):
            wrong[f"{case.name}: {', '.join(names)}"] = told
        if told := of(problems, Severity.WARNING):
            warned[f"{case.name}: {', '.join(names)}"] = told
    assert not wrong
    assert len(warned) <= MOST_WARNED, warned


def some_patterns() -> list[Case]:
    """Always the same ones, from all over the corpora."""
    return sorted(
        wholly_right(), key=lambda case: hashlib.sha256(f"{case.name} false alarm".encode()).digest()
    )[:PATTERNS]


def mixed(case: Case) -> tuple[str, list[str]]:
    """The text of a pattern in other words, and the names of the rewordings."""
    text = case.text
    names: list[str] = []
    for rewording in sorted(
        REWORDINGS, key=lambda each: hashlib.sha256(f"{case.name} {each.name}".encode()).digest()
    ):
        if case.name in rewording.but_not.split():
            continue
        again = rewording.of(text)
        if again != text:
            text = again
            names.append(rewording.name)
        if len(names) == MIXED:
            break
    return text, names


def of(problems: tuple[Problem, ...], severity: Severity) -> list[str]:
    """The headlines of one severity."""
    return [problem.headline for problem in problems if problem.severity is severity]
