"""A piece in hand is chosen by ear, renamed and put away: through the command line as a maker has it."""

import io
from pathlib import Path

import pytest
from test_eyes_free import heard_in, spoken_to_file

from tracker.cli import main

CLOTH = """LITTLE CLOTH

Ch 7.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc)
Row 2: Ch 1, turn, sc in each sc across. (6 sc)
"""


@pytest.fixture
def three_in_hand(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Path:
    """Red was worked last, then blue, then green."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))
    for name in ("green", "blue", "red"):
        (tmp_path / f"{name}.txt").write_text(CLOTH.replace("LITTLE", name.upper()))
        monkeypatch.setattr("sys.stdin", io.StringIO("next\nstop\n"))
        assert main(["work", str(tmp_path / f"{name}.txt"), "--plain", "--quiet"]) == 0
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    capsys.readouterr()
    return tmp_path


def listed(capsys: pytest.CaptureFixture[str]) -> list[str]:
    """The names that `pieces` lists, latest first."""
    assert main(["pieces"]) == 0
    return [line[4:].split("  ")[0] for line in capsys.readouterr().out.splitlines()]


@pytest.mark.parametrize(
    "words, title",
    [
        (["move along", "yes", "where am i"], "BLUE CLOTH"),
        (["no", "no", "say again", "yes", "where am i"], "GREEN CLOTH"),
        (["three", "where am i"], "GREEN CLOTH"),
        (["where am i"], "RED CLOTH"),
    ],
)
def test_a_recording_chooses_and_what_is_left_of_it_works_the_piece(
    three_in_hand: Path, capsys: pytest.CaptureFixture[str], words: list[str], title: str
) -> None:
    """Latest first; next and no look on, a number or yes takes, any other word takes the one offered and is done."""
    pytest.importorskip("onnxruntime")
    recording = spoken_to_file(three_in_hand / "maker.wav", [*words, "rest now"])
    assert main(["work", "--plain", "--quiet", "--hear", str(recording)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.partition(",")[0] for line in lines[:3]] == ["1. Red", "2. Blue", "3. Green"]
    assert f"{title}: 2 rows." in lines
    asked_twice = [] if words[1:] else words  # heard as it takes the piece, and again in it
    assert heard_in(lines) == [*asked_twice, *words, "rest now"]
    assert any(line.startswith("place: Row 1") for line in lines)
    assert lines[-1] == "Resting. Your place is kept."


def test_two_pieces_cannot_have_one_name(three_in_hand: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nobody could say which is meant; capitals make no other name, and one's own is no other's."""
    assert main(["pieces", "blue", "--rename", "Red"]) == 2
    assert capsys.readouterr().err == "Another piece is called Red already; choose another name.\n"
    assert main(["pieces", "blue", "--rename", "Blue"]) == 0
    assert main(["pieces", "Blue", "--rename", "for the kitchen"]) == 0
    capsys.readouterr()
    assert sorted(listed(capsys)) == ["for the kitchen", "green", "red"]


def test_a_piece_goes_only_when_that_is_wanted_and_comes_back_with_its_place(
    three_in_hand: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Asked first; put into a folder that is named; nothing is deleted."""
    monkeypatch.setattr("sys.stdin", io.StringIO("perhaps\nno\n"))
    assert main(["pieces", "blue", "--remove"]) == 0
    said = capsys.readouterr().out
    assert "Nothing is deleted. yes or no" in said
    assert said.endswith("Answer yes or no.\nblue stays.\n")
    monkeypatch.setattr("sys.stdin", io.StringIO("yes\n"))
    assert main(["pieces", "blue", "--remove"]) == 0
    folder = three_in_hand / "home" / "removed"
    (away,) = folder.iterdir()
    assert str(away) in capsys.readouterr().out
    assert sorted(listed(capsys)) == ["green", "red"]
    assert main(["pieces", "--import", str(away)]) == 0
    capsys.readouterr()
    assert main(["pieces", "blue"]) == 0
    assert "place: Row 1" in capsys.readouterr().out
