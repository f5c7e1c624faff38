"""The commands chart, filet and plan, as a maker types them: files, exit status, one clear sentence for each slip."""

import argparse
import json
from pathlib import Path

import pytest

from tracker.charts.chart import Wish, charted
from tracker.charts.formats import FORMATS
from tracker.cli import main
from tracker.commands import plan
from tracker.commands.written import chart
from tracker.load import load
from tracker.samples import samples


def run(*words: str) -> int:
    """One command line."""
    parser = argparse.ArgumentParser(prog="rowteller")
    commands = parser.add_subparsers()
    chart.add_parsers(commands)
    plan.add_parsers(commands)
    said = parser.parse_args(words)
    status: int = said.run(said)
    return status


def test_a_grid_comes_back_from_its_pattern(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """filet, then chart to .txt: the very same file, for both meshes."""
    grid = tmp_path / "grid.txt"
    grid.write_text("#..#\n.##.\n#...\n", encoding="utf-8")
    for mesh in ("1", "2"):
        pattern, back = str(tmp_path / "pattern.txt"), tmp_path / "back.txt"
        assert run("filet", str(grid), "-o", pattern, "--mesh", mesh) == 0
        assert run("chart", pattern, "-o", str(back)) == 0
        assert back.read_text(encoding="utf-8") == grid.read_text(encoding="utf-8")
    assert "read backwards" in capsys.readouterr().err


def test_words_become_a_pattern_for_either_hand(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Mirrored rows, charted for the left hand, can be read."""
    plain, mirrored = str(tmp_path / "plain.txt"), str(tmp_path / "mirrored.txt")
    assert run("filet", "--text", "Hi!", "-o", plain) == 0
    assert run("filet", "--text", "Hi!", "-o", mirrored, "--mirrored") == 0
    capsys.readouterr()
    assert run("chart", plain) == 0
    right = capsys.readouterr().out
    assert run("chart", mirrored, "--left-handed") == 0
    assert capsys.readouterr().out == right


@pytest.mark.parametrize("ending", [".svg", ".png", ".pdf", ".txt"])
def test_a_chart_is_written_in_every_format(tmp_path: Path, ending: str) -> None:
    """With a row lit, for the left hand."""
    out = tmp_path / f"chart{ending}"
    sample = str(samples()["harbour-windows"])
    assert run("chart", sample, "-o", str(out), "--at", "2:1", "--left-handed") == 0
    assert out.stat().st_size > 100


@pytest.mark.parametrize("name", samples())
def test_every_sample_charts_and_plans(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Drawn once and written in every format; and its sums are told."""
    loaded = load(name, samples()[name].read_text(encoding="utf-8"))
    sheets = charted(loaded.source, loaded.pattern, loaded.fabric, Wish(left_handed=True, at=("2", 1)))
    assert all(len(row.write(sheets)) > 100 for row in FORMATS)
    assert run("plan", str(samples()[name])) == 0
    told = capsys.readouterr().out
    assert "of work" in told
    assert " m (" in told


@pytest.mark.parametrize(
    "words, status, says",
    [
        (["chart", "nowhere.txt"], 2, "There is no file nowhere.txt"),
        (["chart", "{sample}", "-o", "chart.doc"], 2, "use one of .svg, .png, .pdf, .txt"),
        (["chart", "{sample}", "-o", "no/such/folder/chart.svg"], 2, "cannot be written"),
        (["chart", "{sample}", "--at", "99"], 1, "There is no row 99 on this chart"),
        (["chart", "{sample}", "--at", ":"], 2, "--at takes a row"),
        (["chart", "{sample}", "--rows", "7-3"], 2, "--rows takes two row numbers"),
        (["chart", "{sample}", "--rows", "90-99"], 1, "has 15 rows"),
        (["chart", "{sample}", "--gauge", "wide"], 2, "--gauge takes squares"),
        (["chart", "{sample}", "--size", "XL"], 2, "has no size 'XL'"),
        (["filet"], 2, "Name a grid"),
        (["filet", "{sample}"], 2, "of the grid"),
        (["filet", "--text", "100 %"], 2, "The alphabet has no %"),
        (["filet", "picture.png"], 2, "needs --width"),
        (["filet", "x.txt", "--text", "A"], 2, "not both"),
        (["plan", "nowhere.txt"], 2, "There is no file nowhere.txt"),
        (["plan", "edging", "24"], 2, "plan edging STITCHES ROW-ENDS"),
        (["plan", "edging", "24", "0"], 2, "one place at least"),
        (["plan", "edging", "24", "15", "--of", "bananas"], 2, "no stitch"),
        (["plan", "even", "5", "9"], 2, "choose fewer"),
        (["plan", "gauge"], 2, "plan gauge --stitches"),
        (["plan", "gauge", "--stitches", "16", "--height", "9cm"], 2, "add --rows"),
        (["plan", "gauge", "--stitches", "16", "--multiple", "x"], 2, "--multiple takes"),
        (["plan", "circle", "slst"], 2, "plan circle STITCH"),
        (["plan", "{sample}", "--swatch", "400"], 2, "--swatch takes"),
        (["plan", "{sample}", "--ball", "much"], 2, "--ball takes"),
        (["plan", "{sample}", "and", "more"], 2, "is neither"),
    ],
)
def test_each_slip_is_one_sentence(
    words: list[str], status: int, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is so and what to do, on stderr; stdout stays empty."""
    given = [word.format(sample=samples()["harbour-windows"]) for word in words]
    assert run(*given) == status
    out, err = capsys.readouterr()
    assert says in err
    assert err.count("\n") == 1
    assert out == ""


def test_a_pattern_without_rows_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is written, and the status is 1."""
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear friend, the wool has come.\n", encoding="utf-8")
    assert run("chart", str(letter), "-o", str(tmp_path / "chart.svg")) == 1
    assert "No row was found" in capsys.readouterr().err
    assert not (tmp_path / "chart.svg").exists()
    assert run("plan", str(letter)) == 1


def test_a_plan_is_the_same_in_words_and_for_programs(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Yarn by colour, rough and said to be; time a guess and said to be, for who has no piece in hand."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    assert run("plan", str(samples()["low-tide-ripple"]), "--json") == 0
    plan = json.loads(capsys.readouterr().out)
    assert [one["colour"] for one in plan["yarn"]] == ["A", "B"]
    assert all(one["least_m"] < one["metres"] < one["most_m"] and one["rough"] for one in plan["yarn"])
    assert plan["guess"] is True
    assert run("plan", str(samples()["low-tide-ripple"])) == 0
    assert capsys.readouterr().out.splitlines() == plan["told"]


def test_an_edging_is_told_end_by_end(capsys: pytest.CaptureFixture[str]) -> None:
    """From numbers, and from a pattern's own rows."""
    assert run("plan", "edging", "24", "15") == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "24 along 15 row ends: nine row ends take two and six of them take one."
    assert len([line for line in lines if line.startswith("Row end")]) == 15
    assert run("plan", "edging", str(samples()["harbour-windows"]), "24", "--json") == 0
    assert json.loads(capsys.readouterr().out)["row_ends"] == 15


def test_even_increases_are_written_in_standard_notation(capsys: pytest.CaptureFixture[str]) -> None:
    """As a pattern would print them."""
    assert run("plan", "even", "32", "6") == 0
    assert (
        capsys.readouterr().out
        == "(4 sc, inc), (5 sc, inc), (4 sc, inc) twice, (5 sc, inc), (4 sc, inc). (38 sts)\n"
    )


@pytest.mark.parametrize("command", ["chart", "sheet", "filet", "plan"])
def test_no_command_writes_over_what_it_has_read(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip of the fingers costs nobody a pattern."""
    mine = tmp_path / "mine.txt"
    text = "#.\n.#\n" if command == "filet" else samples()["harbour-windows"].read_text(encoding="utf-8")
    mine.write_text(text, encoding="utf-8")
    assert main([command, str(mine), "-o", str(tmp_path / "." / "mine.txt")]) == 2
    assert "is the file that was read; name another" in capsys.readouterr().err
    assert mine.read_text(encoding="utf-8") == text
