"""`rowteller demo` and the command line around it: all of it on a pattern of ours, nothing of the maker's touched."""

from pathlib import Path

import pytest

from tracker import __version__
from tracker.cli import COMMANDS, main


def test_the_demo_shows_checking_following_resting_and_a_miscount(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """In that order, with no terminal; the home folder stays empty."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    assert main(["demo"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    shown = [
        "15 rows: nothing wrong.",
        "Row 2 makes 25 dc, the pattern says 26",
        "^^^ this count",
        "Window: chain one, skip one, one double crochet. Four of these.",
        "Last one. Then eight double crochet.",
        "Row eight is row two. Two to seven, second time.",
        "Careful: not like the last row. It starts open.",
        "Resting. Your place is kept.",
        "Welcome back. Row twelve, which is row six",
        "Twenty-four; should be twenty-five, with eight windows. Don't turn. Feel under your hook: is the chain three bare?",
        "the same place.",
    ]
    at = -1
    for words in shown:
        at = out.find(words, at + 1)
        assert at >= 0, f"{words!r} is not shown, or not in its order"
    assert list(tmp_path.iterdir()) == []


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    """Also when none is given."""
    assert main([]) == 0
    out, _ = capsys.readouterr()
    assert all(command.help in out for command in COMMANDS)


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """As every command line does."""
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"rowteller {__version__}\n"


def test_the_samples_are_listed_with_their_files(capsys: pytest.CaptureFixture[str]) -> None:
    """So that the first piece can be begun with a copy and a paste."""
    assert main(["samples"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert {line.split()[0] for line in lines} >= {"harbour-windows", "low-tide-ripple", "pebble-cloth"}
    assert all(Path(line.split()[1]).is_file() for line in lines)


def test_the_pieces_in_hand_are_listed_and_none_is_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Name, day, row and file."""
    from tracker.commands.pieces.lead import lead, opened_piece
    from tracker.samples import samples

    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    assert main(["pieces"]) == 0
    assert capsys.readouterr().out == "No piece is in hand yet. Begin one with: rowteller work FILE\n"
    opened = opened_piece(str(samples()["pebble-cloth"]), None)
    lead(opened, ["row 7", "yes"], lambda line: None)
    opened.desk.close()
    assert main(["pieces"]) == 0
    (line,) = capsys.readouterr().out.splitlines()
    assert line.split()[:2] == ["1", "pebble-cloth"]
    assert "Row 7" in line
