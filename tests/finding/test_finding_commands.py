"""`find` and `miscount` on the command line: answers, their agreed form, and what is said when they cannot be given."""

import json
from pathlib import Path

import pytest
from corpus_cases import CORPUS

from tracker.commands.find import main

SQUARE = str(CORPUS / "practice" / "granny_square.txt")
SWATCH = str(CORPUS / "practice" / "dc_swatch.txt")


def test_find_answers_in_the_agreed_form(capsys: pytest.CaptureFixture[str]) -> None:
    """Places with their likelihood, the question, and no difference."""
    assert main(["find", SQUARE, "--done", "3", "--last", "3 dc, ch-2 sp, 3 dc", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert list(answer) == ["places", "ask", "differs"]
    assert [(p["index"], p["elements_done"], p["stitches_done"]) for p in answer["places"]] == [
        (4, 7, 6), (4, 23, 18), (4, 39, 30), (4, 55, 42),
    ]  # fmt: skip
    assert answer["places"][0]["row"] == "Rnd 4"
    assert answer["places"][0]["next"] == "ch 1, 3 dc in the next ch-1 sp"
    assert answer["ask"].endswith("?")
    assert answer["differs"] is None


def test_work_that_fits_nowhere_is_an_answer_with_status_one(capsys: pytest.CaptureFixture[str]) -> None:
    """The JSON is still printed."""
    assert main(["find", SQUARE, "--done", "3", "--so-far", "3 dc, ch-1 sp", "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer == {
        "places": [], "ask": None, "differs": {"index": 4, "element": 4, "expected": "ch-2 sp", "seen": "ch-1 sp"},
    }  # fmt: skip


def test_after_the_last_row_there_is_no_row(capsys: pytest.CaptureFixture[str]) -> None:
    """The place is one past it."""
    assert main(["find", SQUARE, "--done", "5", "--json"]) == 0
    (place,) = json.loads(capsys.readouterr().out)["places"]
    assert (place["index"], place["row"], place["elements_done"]) == (6, None, 0)


def test_find_in_words_tells_the_mistake_behind_work_that_fits_nowhere(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Half a corner was made."""
    assert main(["find", SQUARE, "--done", "3", "--so-far", "3 dc, ch-1 sp, 3 dc"]) == 1
    said = capsys.readouterr().out
    assert "the pattern has ch-2 sp, you have ch-1 sp" in said
    assert "One corner has only half" in said


def test_miscount_answers_in_the_agreed_form(capsys: pytest.CaptureFixture[str]) -> None:
    """The row by its own name, what it should have, and the causes."""
    assert main(["miscount", SWATCH, "--row", "4", "--have", "20", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["row"] == "Row 4"
    assert answer["expected"] == {"dc": 21}
    assert answer["have"] == {"stitches": 20}
    assert answer["causes"][0]["cause"] == "missed_turning_chain"
    assert set(answer["causes"][0]) == {"cause", "headline", "look", "feel", "likelihood"}


def test_miscount_in_words_says_what_to_feel_for(capsys: pytest.CaptureFixture[str]) -> None:
    """Before the work is turned."""
    assert main(["miscount", SWATCH, "--row", "4", "--have", "20"]) == 0
    assert "Feel under your hook: is the chain three bare?" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words, says",
    [
        (["find", "no such file.txt"], "cannot be read"),
        (["find", SQUARE, "--last", "bananas"], "“bananas” is not a stitch or space I know"),
        (["find", SQUARE, "--count", "-3"], "fewer than 0"),
        (["find", SQUARE, "--size", "XXL"], "no size XXL"),
        (["miscount", SQUARE, "--row", "9", "--have", "20"], "There is no row 9: the pattern has 5 rows"),
        (["miscount", SQUARE, "--row", "0", "--have", "20"], "There is no row 0"),
        (["miscount", SQUARE, "--row", "3", "--have", "a few"], "is not a stitch or space I know"),
        (["miscount", SQUARE, "--row", "3", "--have", ""], "There is no count here"),
    ],
)
def test_wrong_use_is_told_in_a_sentence(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, nothing on standard output."""
    assert main(words) == 2
    heard = capsys.readouterr()
    assert says in heard.err
    assert heard.err.count("\n") == 1
    assert heard.out == ""


def test_a_text_without_rows_has_no_place(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """JSON all the same, and status 1."""
    file = tmp_path / "letter.txt"
    file.write_text("Dear Ann, the yarn has come.", encoding="utf-8")
    assert main(["find", str(file), "--count", "3", "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["places"] == []
