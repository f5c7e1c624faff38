"""Regular expressions compiled late: each is a right one, and what it says that its matches hold is so."""

import importlib
import pkgutil
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import tracker.fabric
import tracker.notation
import tracker.problems
import tracker.trade
from tracker.expressions import _NOTHING_FOUND, expression

READING = (tracker.problems, tracker.trade, tracker.notation, tracker.fabric)
CORPUS = Path(__file__).resolve().parents[1] / "corpus"


def _expressions() -> dict[str, Any]:
    """Every expression of the reading, by where it stands."""
    found: dict[str, Any] = {}
    for package in READING:
        for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
            for name, value in vars(importlib.import_module(module.name)).items():
                if type(value).__name__ == "_Expression":
                    found[f"{module.name}.{name}"] = value
    return found


ALL = _expressions()


@cache
def _texts() -> list[str]:
    """Every twelfth text of the corpus, whole and line by line, as it is and in capitals, each stretch once."""
    whole = [file.read_text(encoding="utf-8") for file in sorted(CORPUS.rglob("*.txt"))[::12]]
    lines = {line for text in whole for line in text.splitlines()}
    return [*whole, *sorted(lines), *sorted(line.upper() for line in lines)]


def test_every_expression_can_be_compiled() -> None:
    """A faulty one would show only to the maker whose pattern needs it."""
    assert len(ALL) > 70
    for name, late in ALL.items():
        assert isinstance(re.compile(late._source, late._flags), re.Pattern), name


def test_the_reading_compiles_nothing_when_it_is_imported() -> None:
    """An expression that is compiled at once costs every command its millisecond."""
    folders = [Path(package.__path__[0]) for package in READING]
    files = [file for folder in folders for file in folder.rglob("*.py")]
    assert [file.name for file in files if "re.compile(" in file.read_text(encoding="utf-8")] == []


@pytest.mark.parametrize("name", [name for name, late in ALL.items() if late._holds])
def test_what_every_match_holds_is_so(name: str) -> None:
    """No text of the corpus has a match without one of the words."""
    late = ALL[name]
    eager = re.compile(late._source, late._flags)
    assert all(word == word.lower() for word in late._holds)
    passed_over = [text for text in _texts() if text.isascii() and not late._may_match(text)]
    assert [text for text in passed_over if eager.search(text)] == []


@pytest.mark.parametrize("text", ["Row 3: ch 1.", "Ch 1, turn.", "", "Größe: Row 3"])
def test_an_expression_answers_as_a_pattern_does(text: str) -> None:
    """Whatever is asked of it first, and also when that is asked of a part of a text."""
    for pos, end in ((0, len(text)), (1, len(text)), (0, 3), (2, 1)):
        for method in ("search", "match", "fullmatch"):
            late = expression(r"rows?\s(\d+)", re.IGNORECASE, ["row"])
            eager = re.compile(r"rows?\s(\d+)", re.IGNORECASE)
            ours, theirs = getattr(late, method)(text, pos, end), getattr(eager, method)(text, pos, end)
            assert (ours and ours.span()) == (theirs and theirs.span())
    late = expression(r"row", re.IGNORECASE, ["row"])
    assert late.sub("rnd", text) == re.sub("row", "rnd", text, flags=re.IGNORECASE)
    assert expression("row", holds=["row"]).findall(text) == re.findall("row", text)
    assert [hit.span() for hit in expression("Row", holds=["row"]).finditer(text)] == [
        hit.span() for hit in re.finditer("Row", text)
    ]
    assert expression("Row").split(text) == re.split("Row", text)
    assert expression("Row").pattern == "Row"
    assert set(_NOTHING_FOUND) <= set(dir(eager))
