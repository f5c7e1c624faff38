"""`rowteller pieces` and `log`: list, card, rename, export, import, merging two machines' work, putting away."""

import json
import os
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from on_the_hook import NOW_MS, PATTERNS

from tracker.cli import main
from tracker.commands.pieces.lead import opened_piece
from tracker.journal import Entry, Whole, pieces, whole_of
from tracker.journal.merging import MERGED, PLACE, Standing, deeds_of, merge, to_append
from tracker.journal.whole import read, written
from tracker.run import open_desk
from tracker.session.understand import understand
from tracker.shelf.importing import taken_in
from tracker.shelf.taking_up import taken_down

SQUARES = """SEA GLASS SQUARES
Make 30 squares. US terms.

Ch 7.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (6 sc)
Row 2: Ch 1, turn, sc in each sc across. (6 sc)
Fasten off.
"""
PANEL = (PATTERNS / "harbour-windows.txt").read_text(encoding="utf-8")


class Machine:
    """One machine with its own pieces, in this process; its clock goes on by a minute a deed."""

    clock = NOW_MS

    def __init__(self, home: Path) -> None:
        self.folder = home / "pieces"

    def file(self) -> Path:
        (piece,) = pieces(self.folder)[0]
        return piece.file

    def work(self, *lines: str, text: str = SQUARES) -> tuple[int, ...]:
        """Some deeds; the place after them."""
        found, _ = pieces(self.folder)
        file = found[0].file if found else self.folder / "squares.journal"
        opened = open_desk(file, "squares.txt", "squares.txt", text, None, Machine.clock)
        try:
            for line in lines:
                deed = understand(line)
                assert deed is not None, line
                Machine.clock += 60_000
                opened.desk.do(deed, Machine.clock)
            return opened.desk.session.place
        finally:
            opened.desk.close()

    def exported(self, file: Path) -> Path:
        file.write_text(written(whole_of(self.file())), encoding="utf-8")
        return file

    def takes(self, file: Path, holds: str | None = None) -> str:
        return taken_in(file, self.folder, holds, lambda lines, words: "", Machine.clock)

    def whole(self) -> Whole:
        return whole_of(self.file())

    def place(self) -> tuple[int, ...]:
        return taken_down(self.file())[2].place


@pytest.fixture
def machines(tmp_path: Path) -> tuple[Machine, Machine, Path]:
    """Two machines and a file that goes between them."""
    return Machine(tmp_path / "hers"), Machine(tmp_path / "his"), tmp_path / "square.piece"


def bare(entries: tuple[Entry, ...]) -> Counter[str]:
    """What the makers did, without what merging wrote between."""
    return deeds_of(tuple(entry for entry in entries if entry.deed not in (MERGED, PLACE)))


class TestOneFileToAnotherMachine:
    """Export, then import on a machine that knows nothing of the piece."""

    def test_the_place_the_marks_and_the_card_are_the_same(
        self, machines: tuple[Machine, Machine, Path]
    ) -> None:
        """And what can be taken back."""
        hers, his, file = machines
        hers.work("next", "next", "note the blue end", "next", "square 4", "yes", "next", "next")
        his.takes(hers.exported(file))
        (_, _, one), (_, _, two) = taken_down(hers.file()), taken_down(his.file())
        assert (one.place, one.laid, one.marks, one.stride) == (two.place, two.laid, two.marks, two.stride)
        assert hers.work("undo", "undo") == his.work("undo", "undo")

    def test_the_text_goes_with_it_with_every_older_one(
        self, machines: tuple[Machine, Machine, Path]
    ) -> None:
        """An edit made before is known there too."""
        hers, his, file = machines
        hers.work("next", "next")
        hers.work("next", text=SQUARES.replace("30", "31"))
        his.takes(hers.exported(file))
        assert [text.text for text in his.whole().texts] == [text.text for text in hers.whole().texts]
        assert his.place() == hers.place()

    def test_the_same_file_twice_changes_nothing(self, machines: tuple[Machine, Machine, Path]) -> None:
        """It says so."""
        hers, his, file = machines
        hers.work("next", "next")
        his.takes(hers.exported(file))
        before = his.whole()
        assert his.takes(file) == "squares has all of these steps already."
        assert his.whole() == before


class TestTwoMachines:
    """One piece worked by two people; every deed of both is kept."""

    def both_went_on(self, machines: tuple[Machine, Machine, Path]) -> tuple[Machine, Machine, Path]:
        hers, his, file = machines
        hers.work(*["next"] * 7)
        his.takes(hers.exported(file))
        hers.work(*["next"] * 8)
        his.work("square 9", "yes", *["next"] * 7)
        return hers, his, file

    def test_who_only_waited_gets_the_others_place(self, machines: tuple[Machine, Machine, Path]) -> None:
        """Nothing is asked when only one went on."""
        hers, his, file = machines
        hers.work("next", "next")
        his.takes(hers.exported(file))
        there = his.work("next", "next")
        assert "you stand at Row 2" in hers.takes(his.exported(file))
        assert hers.place() == there

    def test_when_both_went_on_it_is_asked_and_without_an_answer_nothing_is_changed(
        self, machines: tuple[Machine, Machine, Path]
    ) -> None:
        """Both places are shown."""
        hers, his, file = self.both_went_on(machines)
        asked: list[str] = []
        before = hers.whole()
        with pytest.raises(Exception, match="Say whose place holds"):
            taken_in(
                his.exported(file),
                hers.folder,
                None,
                lambda lines, words: asked.extend(lines) or "",
                Machine.clock,
            )
        assert hers.whole() == before
        assert any("here:  number 3, " in line for line in asked)
        assert any("there: number 10, " in line for line in asked)

    @pytest.mark.parametrize("holds", ["here", "there"])
    def test_the_place_that_was_chosen_holds_and_the_squares_of_both_are_finished(
        self, machines: tuple[Machine, Machine, Path], holds: str
    ) -> None:
        """Squares one and two of hers, square nine of his."""
        hers, his, file = self.both_went_on(machines)
        expected = hers.place() if holds == "here" else his.place()
        hers.takes(his.exported(file), holds)
        assert hers.place() == expected
        _, _, session = taken_down(hers.file())
        finished = {copy[1] for copy, place in session.laid if place is None and copy != session.place[:2]}
        assert finished == {1, 2, 9}
        hers.work("where am i", "next")

    def test_merging_keeps_the_same_deeds_either_way_and_then_both_are_the_same(
        self, machines: tuple[Machine, Machine, Path]
    ) -> None:
        """Hers into his, or his into hers; and back again without a question."""
        hers, his, file = self.both_went_on(machines)
        two, one = his.whole(), hers.whole()
        hers.takes(his.exported(file), "here")
        assert bare(hers.whole().entries) == bare(one.entries) | bare(two.entries)
        back = file.with_name("back.piece")
        his.takes(hers.exported(back))
        assert bare(his.whole().entries) == bare(hers.whole().entries)
        assert his.place() == hers.place()


steps = st.builds(
    lambda minute, deed, group: Entry(0, NOW_MS + minute * 60_000, deed, {}, (0, 1, 2, 0, group, 0, 0)),
    st.integers(0, 40), st.sampled_from(["next", "back", "undo"]), st.integers(0, 5),
)  # fmt: skip


def numbered(*entries: Entry) -> tuple[Entry, ...]:
    return tuple(replace(entry, number=number) for number, entry in enumerate(entries, 1))


@settings(max_examples=80, deadline=None)
@given(st.lists(steps, max_size=5), st.lists(steps, max_size=5), st.lists(steps, max_size=5), st.booleans())
def test_merging_is_commutative_in_the_deeds_it_keeps(
    common: list[Entry], hers: list[Entry], his: list[Entry], theirs_holds: bool
) -> None:
    """Nothing is lost, nothing is there twice, whichever is merged into which."""
    one, two = numbered(*common, *hers), numbered(*common, *his)
    kept = []
    for ours, theirs in ((one, two), (two, one)):
        a, b = Whole(ours, (), ()), Whole(theirs, (), ())
        merged = merge(ours, theirs)
        after = (*ours, *to_append(merged, a, b, theirs_holds, NOW_MS))
        assert [entry.number for entry in after] == list(range(1, len(after) + 1))
        kept.append(bare(after))
        assert merge(after, theirs).standing in (Standing.SAME, Standing.AHEAD)
    assert kept[0] == kept[1] == bare(one) | bare(two)


@settings(max_examples=40, deadline=None)
@given(st.lists(steps, max_size=8))
def test_what_is_written_into_a_file_is_read_out_of_it(entries: list[Entry]) -> None:
    """Entry for entry."""
    whole = Whole(numbered(*entries), (), ())
    assert read(written(whole)) == whole


@pytest.mark.parametrize(
    "text", ["", "[1]", "{}", '{"rowteller piece":9}\n', '{"rowteller piece":1}\n{"entry":{}}', "\x00"]
)
def test_a_file_that_is_no_piece_is_one_sentence(text: str) -> None:
    """Whatever it is."""
    with pytest.raises(ValueError, match=r"^it|^its|^what"):
        read(text)


def rowteller(home: Path, *words: str, lines: str = "") -> subprocess.CompletedProcess[str]:
    env = {**os.environ, "ROWTELLER_HOME": str(home)}
    return subprocess.run(
        [sys.executable, "-m", "tracker", *words],
        input=lines,
        env=env,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )


def test_the_whole_command_line_of_pieces(tmp_path: Path) -> None:
    """List, card, name, export, log, put away after asking, bring back."""
    home, pattern = tmp_path / "home", tmp_path / "squares.txt"
    pattern.write_text(SQUARES)
    rowteller(home, "work", str(pattern), "--plain", "--quiet", lines="next\nnext\nstop\n")
    assert rowteller(home, "pieces", "1", "--card", "hook=4mm", "needle=3").returncode == 2
    done = rowteller(home, "pieces", "squares", "--card", "hook=4mm", "lot=B12", "--rename", "Sea throw")
    assert done.stdout == "squares is called Sea throw from now on.\n"
    (one,) = json.loads(rowteller(home, "pieces", "--json").stdout)
    assert (one["name"], one["place"], one["percent"]) == ("Sea throw", "Square one of thirty, Row 1", 2)
    shown = rowteller(home, "pieces", "sea").stdout
    assert "  hook   4mm\n" in shown
    assert "None of thirty squares finished, square one in hand at row one, twenty-nine not begun." in shown
    said = rowteller(home, "work", str(pattern), "--plain", "--quiet", lines="piece card\n").stdout
    assert "Hook: 4mm. Dye lot: B12." in said
    file = tmp_path / "sea.piece"
    assert rowteller(home, "pieces", "sea", "--export", str(file)).returncode == 0
    assert str(tmp_path) not in file.read_text()
    assert rowteller(home, "pieces", "sea", "--export", str(file)).returncode == 2
    log = json.loads(rowteller(home, "log", "sea", "--json").stdout)
    assert [deed["deed"] for deed in log["deeds"]] == ["next", "next", "stop"]
    assert "stays" in rowteller(home, "pieces", "sea", "--remove", lines="no\n").stdout
    assert "put away as" in rowteller(home, "pieces", "sea", "--remove", lines="yes\n").stdout
    (aside,) = (home / "removed").glob("*.journal")
    assert "No piece is in hand yet" in rowteller(home, "pieces").stdout
    assert rowteller(home, "pieces", "--import", str(aside)).returncode == 0
    assert "Sea throw" in rowteller(home, "pieces").stdout


def test_a_second_piece_of_one_pattern_is_named_as_the_first_is_opened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two scarves from one leaflet: whoever opens the leaflet hears of the other."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    file = tmp_path / "squares.txt"
    file.write_text(SQUARES, encoding="utf-8")

    def opened(called: str = "") -> tuple[str, ...]:
        piece = opened_piece(str(file), None, called=called)
        piece.desk.close()
        return piece.notices

    assert opened() == ()
    assert opened("blue one") == ()
    assert opened() == (
        "Another piece of this pattern is in hand: blue one. rowteller work --piece NAME takes it up.",
    )
    assert opened("blue one") == ()


def test_of_thirty_squares_only_a_few_that_are_not_begun_are_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The sixth is the last that has a line."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    Machine(tmp_path).work("next", "next")
    assert main(["pieces", "1"]) == 0
    told = capsys.readouterr().out
    assert "[ ] Square six of thirty: not finished\n  … and 24 more, not finished" in told
