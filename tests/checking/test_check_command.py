"""`rowteller check`: what each row makes and what is wrong, for people, for other programs, and by its exit status."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from on_the_hook import PATTERNS, SWATCH

from tracker.cli import main

WRONG = SWATCH.replace("dc in top of ch-3. (10 dc)\nRow 3", "dc in top of ch-3. (11 dc)\nRow 3")
UK = """SQUARE (UK terms)

12 ch.
Row 1: 1 tr into 4th ch from hook (3 missed ch count as 1 tr), 1 tr into each ch to end. (10 tr)
"""
SIZED = """CUFF
Sizes: Small (Medium, Large)

Ch 13 (17, 21).
Row 1: Sc in 2nd ch from hook and in each ch across. (12 (16, 20) sc)
"""


@pytest.fixture
def checked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """Runs check on a text; gives the status, the JSON or the lines, and what went to stderr."""

    def run(text: str, *words: str) -> tuple[int, Any, str]:
        file = tmp_path / "pattern.txt"
        file.write_text(text, encoding="utf-8")
        status = main(["check", str(file), *words])
        out, err = capsys.readouterr()
        return status, json.loads(out) if "--json" in words and out else out, err

    return run


def test_each_row_is_listed_with_what_it_makes(checked: Any) -> None:
    """Every field of the first row, as other programs count on it."""
    status, answer, err = checked(SWATCH, "--json")
    assert (status, err) == (0, "")
    assert {key: answer[key] for key in answer if key != "rows"} == {
        "title": "SWATCH",
        "terms": "US",
        "sizes": [],
        "size": None,
        "open_ended": False,
        "rows_left_out": 0,
        "problems": [],
    }
    assert answer["rows"][0] == {
        "index": 1,
        "label": "Row 1",
        "kind": "row",
        "part": None,
        "as": None,
        "line": 4,
        "side": "RS",
        "understood": True,
        "makes": {"dc": 10},
        "stitches": 10,
        "total": 10,
        "states": {"dc": 10},
    }
    assert [row["side"] for row in answer["rows"]] == ["RS", "WS", "RS"]


def test_spaces_are_in_the_total_and_not_among_the_stitches(checked: Any) -> None:
    """25 double crochet and 8 windows."""
    _, answer, _ = checked((PATTERNS / "harbour-windows.txt").read_text(), "--json")
    row = answer["rows"][1]
    assert (row["makes"], row["stitches"], row["total"]) == ({"dc": 25, "ch-1 sp": 8}, 25, 33)
    assert [(row["label"], row["as"]) for row in answer["rows"][7:9]] == [
        ("Row 8", "Row 2"),
        ("Row 9", "Row 3"),
    ]


def test_a_wrong_count_is_an_error_with_its_words_underlined(checked: Any) -> None:
    """Status 1, in JSON and in lines alike; the JSON is whole all the same."""
    status, answer, _ = checked(WRONG, "--json")
    (problem,) = [one for one in answer["problems"] if one["severity"] == "error"]
    assert status == 1
    assert (problem["row"], problem["index"], problem["line"]) == ("Row 2", 2, 5)
    line = WRONG.splitlines()[4]
    assert "11 dc" in line[problem["column"] - 1 : problem["end_column"] - 1]
    status, out, _ = checked(WRONG)
    assert status == 1
    assert problem["headline"] in out
    assert "^^^" in out


def test_the_stitches_of_a_uk_pattern_are_told_in_uk_names(checked: Any) -> None:
    """As the pattern calls them."""
    _, answer, _ = checked(UK, "--json")
    assert answer["terms"] == "UK"
    assert answer["rows"][0]["makes"] == answer["rows"][0]["states"] == {"tr": 10}


def test_one_size_is_worked_and_named(checked: Any) -> None:
    """The first when none is said, whatever its capitals."""
    _, answer, _ = checked(SIZED, "--json")
    assert (answer["sizes"], answer["size"], answer["rows"][0]["stitches"]) == (
        ["Small", "Medium", "Large"],
        "Small",
        12,
    )
    _, answer, _ = checked(SIZED, "--json", "--size", "large")
    assert (answer["size"], answer["rows"][0]["stitches"]) == ("Large", 20)


def test_a_size_that_is_not_there_is_refused_with_those_that_are(checked: Any) -> None:
    """Status 2 and one sentence."""
    status, _, err = checked(SIZED, "--size", "XL")
    assert status == 2
    assert err.splitlines() == ["pattern.txt has no size 'XL'; it has Small, Medium, Large."]


def test_a_long_piece_is_listed_by_its_ends(checked: Any) -> None:
    """Its first and last thousand rows, and how many were left out; any of the others on asking."""
    long = SWATCH + "Rows 4-30003: Rep Rows 2 and 3.\n"
    status, answer, _ = checked(long, "--json")
    assert status == 0
    assert answer["rows_left_out"] == 30_003 - 2_000
    assert [answer["rows"][at]["index"] for at in (0, 999, 1000, -1)] == [1, 1000, 29_004, 30_003]
    assert answer["rows"][-1]["label"] == "Row 30003"
    _, answer, _ = checked(long, "--json", "--rows", "20000-20001")
    assert [(row["label"], row["as"]) for row in answer["rows"]] == [
        ("Row 20000", "Row 2"),
        ("Row 20001", "Row 3"),
    ]
    assert answer["rows_left_out"] == 0


@pytest.mark.parametrize("rows", ["0", "5-3", "a-b", "-4", "1-"])
def test_rows_that_cannot_be_asked_for_are_refused(checked: Any, rows: str) -> None:
    """One sentence and status 2."""
    status, _, err = checked(SWATCH, f"--rows={rows}")
    assert status == 2
    assert len(err.splitlines()) == 1


def test_a_row_until_it_measures_is_listed_once_and_leaves_the_end_open(checked: Any) -> None:
    """The number of rows is the maker's."""
    _, answer, _ = checked(SWATCH + "Rep Rows 2 and 3 until piece measures 10 in.\n", "--json")
    assert answer["open_ended"] is True


def test_a_row_that_cannot_be_read_is_not_claimed(checked: Any) -> None:
    """Followed as written; its words are pointed at."""
    _, answer, _ = checked(
        SWATCH.replace(
            "dc in next 8 dc, dc in top of ch-3. (10 dc)\nRow 3", "frobnicate 8 dc. (10 dc)\nRow 3"
        ),
        "--json",
    )
    assert answer["rows"][1]["understood"] is False


@pytest.mark.parametrize("text", ["", "Just some words about wool.\n"])
def test_a_text_with_no_row_is_a_fault_and_still_answers(checked: Any, text: str) -> None:
    """Status 1, and JSON that says so by its empty list."""
    status, answer, _ = checked(text, "--json")
    assert (status, answer["rows"]) == (1, [])


@pytest.mark.parametrize(
    "make, sentence",
    [
        (lambda path: None, "There is no file"),
        (lambda path: path.mkdir(), "is a folder"),
        (lambda path: path.write_bytes(b"%PDF-1.7\n"), "PDF"),
        (lambda path: path.write_bytes(b"abc\x00def"), "is no text"),
    ],
)
def test_a_file_that_cannot_be_read_is_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], make: Any, sentence: str
) -> None:
    """What is so and what to do; status 2, nothing on stdout."""
    path = tmp_path / "pattern.txt"
    make(path)
    assert main(["check", str(path), "--json"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert sentence in err
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_text_is_read_in_the_encodings_it_comes_in(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], encoding: str
) -> None:
    """With a sign that each of them writes otherwise."""
    path = tmp_path / "pattern.txt"
    path.write_bytes(SWATCH.replace("SWATCH", "CAFÉ SWATCH").encode(encoding))
    assert main(["check", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "CAFÉ SWATCH"


def test_a_pattern_may_come_from_standard_input() -> None:
    """As a process of its own, the way other programs call it."""
    done = subprocess.run(
        [sys.executable, "-m", "tracker", "check", "-", "--json"], input=SWATCH.encode(), capture_output=True
    )
    assert done.returncode == 0
    assert json.loads(done.stdout)["title"] == "SWATCH"


@pytest.mark.parametrize("file", sorted(PATTERNS.glob("*.txt")), ids=lambda file: file.stem)
def test_our_own_patterns_check_clean_with_every_count_stated(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """No problem of any kind, every row understood, and what it states is what it makes."""
    assert main(["check", str(file), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["problems"] == []
    assert all(row["understood"] and row["states"] == row["makes"] for row in answer["rows"])


@pytest.mark.parametrize("words", [["check"], ["check", "--frob", "x"], ["frob"], ["check", "a", "b"]])
def test_wrong_use_is_status_two(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """With a sentence on stderr, and where to read how it is written."""
    assert main(words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert any(
        told in err for told in ("rowteller check --help", "rowteller --help", "usage: rowteller check")
    )


def test_rows_that_are_not_there_are_told_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """And nothing is called right that nobody looked at."""
    file = tmp_path / "mat.txt"
    file.write_text(
        "Mat\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n", encoding="utf-8"
    )
    assert main(["check", str(file), "--rows", "90-95"]) == 2
    out, err = capsys.readouterr()
    assert (out, err) == ("", "mat.txt has 1 row, and none of them is 90; --rows counts from 1.\n")


def test_a_mended_text_goes_into_a_new_file_and_never_over_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Both ways of naming; the pattern's own file stays as it was."""
    file, new = tmp_path / "pattern.txt", tmp_path / "new.txt"
    file.write_text(WRONG, encoding="utf-8")
    assert main(["check", "--mend", str(file)]) == 0
    said = capsys.readouterr()
    assert "to “10”, and the whole pattern agrees." in said.out
    assert str(tmp_path / "pattern-mended.txt") in said.err
    assert (tmp_path / "pattern-mended.txt").read_text(encoding="utf-8") == SWATCH
    assert main(["check", str(file), "--mend", str(new)]) == 0
    assert new.read_text(encoding="utf-8") == SWATCH
    assert main(["check", str(file), "--mend", str(new)]) == 2
    assert "is left as it is" in capsys.readouterr().err
    assert main(["check", str(new), "--mend"]) == 0
    assert "Nothing has to be mended" in capsys.readouterr().err
    assert file.read_text(encoding="utf-8") == WRONG


@pytest.mark.parametrize("told", ["Rep Row 2. (11 sc)", "Rep Row 2 (11 sc).", "As Row 2. [11]"])
def test_the_count_stated_behind_a_reference_is_checked(checked: Any, told: str) -> None:
    """The rows named make ten."""
    status, answer, _ = checked(
        "Cloth\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        f"Row 2: Ch 1, turn, sc in each st across. (10 sc)\nRow 3: {told}\n",
        "--json",
    )
    assert status == 1
    assert [(problem["code"], problem["row"]) for problem in answer["problems"]] == [("C201", "Row 3")]


@pytest.mark.parametrize(
    "row, said",
    [
        ("Rows 2-5: Ch 1, sc in each sc across. Turn. (11 sc)", "Rows 2-5 make 10 sc, the pattern says 11"),
        ("Row 2: Ch 1, sc in next 12 sc. Turn. (12 sc)", "Row 2: there is no stitch left to work into"),
    ],
)
def test_several_rows_take_a_verb_for_several(
    row: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Rows 2-5 make; a sentence of its own stands behind a colon."""
    file = tmp_path / "strip.txt"
    first = "Ch 11.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (10 sc)\n"
    file.write_text(f"STRIP\nUS terms.\n{first}{row}\n", encoding="utf-8")
    assert main(["check", str(file)]) == 1
    assert said in capsys.readouterr().out


SLEEVE = (
    SIZED
    + "Row 2: Ch 1, turn, sc in each sc across. 12 (16, 20) sc\n"
    + "Row 3: Ch 1, turn, sc in next 3 (4, 5) sc, dc in each sc across. 3 (4, 5) sc, 9 (12, 15) dc\n"
)


@pytest.mark.parametrize(
    "old, new, size",
    [
        ("12 (16, 20) sc\nRow 3", "12 (16, 21) sc\nRow 3", "Large"),
        ("12 (16, 20) sc\nRow 3", "12 (61, 20) sc\nRow 3", "Medium"),
        ("9 (12, 15) dc", "9 (12, 14) dc", "Large"),
    ],
)
def test_what_is_wrong_in_another_size_is_told_and_mended(
    checked: Any, old: str, new: str, size: str
) -> None:
    """As a warning that names it, when no size was asked for; the size itself has it as an error."""
    assert checked(SLEEVE, "--json")[1]["problems"] == []
    wrong = SLEEVE.replace(old, new)
    assert wrong != SLEEVE
    status, told, _ = checked(wrong, "--json")
    assert status == 0
    assert [(p["code"], p["severity"]) for p in told["problems"]] == [("C201", "warning")]
    assert told["problems"][0]["headline"].startswith(f"In size {size} Row ")
    assert "and the whole pattern agrees" in told["problems"][0]["help"]
    assert checked(wrong, "--size", "Small", "--json")[1]["problems"] == []
    status, told, _ = checked(wrong, "--size", size, "--json")
    assert status == 1
    assert [(p["code"], p["severity"]) for p in told["problems"]] == [("C201", "error")]


def test_the_other_sizes_are_mended_into_the_new_file(checked: Any, tmp_path: Path) -> None:
    """To the letter."""
    wrong = SLEEVE.replace("9 (12, 15) dc", "9 (12, 14) dc")
    checked(wrong, "--mend", str(tmp_path / "new.txt"))
    assert (tmp_path / "new.txt").read_text(encoding="utf-8") == SLEEVE
