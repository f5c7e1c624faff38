"""A maker who does not look: all that the screen shows can be asked for and heard, and a whole piece is made by ear.

The maker's voice is espeak-ng's, from the wheel that speaks for us, through the real embedded ear; what comes out is
text alone, as a screen reader or a braille display gets it.
"""

import io
import wave
from collections.abc import Sequence
from dataclasses import fields
from pathlib import Path

import pytest
from ears_spoken import spoken_afresh
from on_the_hook import NOW_MS, at_hand, sample, worked

from tracker.cli import main
from tracker.finding.causes.table import CAUSES
from tracker.hands_free.reader import speaks_already
from tracker.hands_free.settings import Settings
from tracker.hands_free.sitting import Sitting
from tracker.mouth.silent import Silent
from tracker.mouth.sound import Tone
from tracker.run import open_desk
from tracker.samples import samples
from tracker.session import deeds
from tracker.session.commands import COMMANDS
from tracker.session.seen.view import Devices, View
from tracker.session.state import begun

TWICE = "where am i, twice"
ASKED_BY = {
    "title": (TWICE, "harbour windows"),
    "part": ("where am i", "row two"),
    "row": ("where am i", "row two"),
    "rows": (TWICE, "the last is row fifteen"),
    "repeats": ("where am i", "which is row two"),
    "side": ("where am i", "wrong side"),
    "said": ("again", "chain one, skip one"),
    "written": ("tell me more", "chain one, skip one double crochet"),
    "beat": ("where am i", "second window"),
    "beats": ("where am i", "of four"),
    "single": (TWICE, "on the row: six double crochet"),
    "singles": ("again", "four of these"),
    "then": ("tell me more", "then eight double crochet"),
    "done": ("where am i", "three of sixteen squares"),
    "due": ("where am i", "sixteen squares"),
    "unit": ("how many left", "squares"),
    "count": ("tell me more", "in all sixteen squares, eight open"),
    "cells": ("tell me more", "four times: chain one, skip one"),
    "below": ("tell me more", "row one, from where you begin: sixteen blocks"),
    "waved": ("tell me more", "row one, from where you begin: sixteen blocks"),
    "around": ("tell me more", "row one, from where you begin: sixteen blocks"),
    "text": ("tell me more", "chain three"),
    "phrase": ("again", "window"),
    "asked": ("again", "window"),
    "asks_number": ("again", "window"),
    "stride": ("group by group", "one group at a step"),
    "resting": ("rest now", "resting"),
    "finished": (TWICE, "row two"),
    "filet": ("how many left", "squares"),
    "devices": ("what did you hear", ""),
    "joining": ("tell me more", "top row, one to three. row two, four to six."),
}
"""For each thing on the screen: what asks for it, in row two of the windows at the second window, and what is heard."""
BY_TAUGHT_EARS = ("devices",)
"""Asked for in words that the built-in ear knows only once it is taught them."""


@pytest.mark.parametrize("shown", [field.name for field in fields(View)])
def test_everything_on_the_screen_can_be_asked_for_and_heard(shown: str) -> None:
    """A thing added to the screen and not here is missing by name; the built-in ear hears what asks for it."""
    asks, heard = ASKED_BY[shown]
    asked = [TWICE.partition(",")[0]] * 2 if asks == TWICE else [asks]
    spoken = {phrase for command in COMMANDS if command.spoken for phrase in command.phrases}
    assert shown in BY_TAUGHT_EARS or asked[0] in spoken
    row = "row 8" if shown == "repeats" else "row 2"
    begins = at_hand()
    if shown == "joining":
        begins, row = begun(sample("crossroads-square")), "part 2"
    session, _ = worked(begins, row, "yes", *["next"] * 3)
    said = worked(session, *asked)[1][-1:] if asks == TWICE else worked(session, asks)[1]
    assert said
    assert heard in " ".join(said).lower()


def test_what_the_devices_show_is_heard_as_well(tmp_path: Path) -> None:
    """What was heard last, what was passed over after it, and that the ear is there."""
    file = samples()["harbour-windows"]
    desk = open_desk(tmp_path / "p.journal", file.name, str(file), file.read_text("utf-8"), None, 0).desk
    sitting = Sitting(desk, Settings(ear="off"), lambda value: None, quiet=True)
    sitting._heard, sitting._passed = "one back", "not a command"
    said = sitting.do(deeds.Ask("ear"), NOW_MS).said
    assert {field.name for field in fields(Devices)} == {"ear", "pedal", "heard", "passed"}
    assert "Keys only" in said
    assert "“one back”" in said
    assert "not a command" in said


def test_each_check_has_its_feel_beside_its_look() -> None:
    """A finger finds it: every cause says what to feel for, in other words than what to look at."""
    for cause in CAUSES.values() if isinstance(CAUSES, dict) else CAUSES:
        assert cause.look
        assert cause.feel
        assert cause.feel != cause.look
        assert not cause.feel.lower().startswith("look"), cause.name


def test_a_screen_reader_is_found_by_what_runs_and_the_setting_outweighs_it(tmp_path: Path) -> None:
    """Orca on Linux; any name that only resembles it is none."""
    for number, name in ((41, "bash"), (42, "orcadian")):
        (tmp_path / str(number)).mkdir()
        (tmp_path / str(number) / "comm").write_text(f"{name}\n")
    assert not speaks_already("look", "linux", {}, tmp_path)
    (tmp_path / "43").mkdir()
    (tmp_path / "43" / "comm").write_text("orca\n")
    assert speaks_already("look", "linux", {}, tmp_path)
    assert not speaks_already("no", "linux", {}, tmp_path)
    assert speaks_already("yes", "linux", {}, tmp_path / "nowhere")


def test_beside_a_screen_reader_nothing_is_said_twice(tmp_path: Path) -> None:
    """The lines are read by it; of ours only the tones are left."""
    file = samples()["harbour-windows"]
    desk = open_desk(tmp_path / "p.journal", file.name, str(file), file.read_text("utf-8"), None, 0).desk
    sitting = Sitting(desk, Settings(ear="off"), lambda value: None, quiet=True, tones_only=True)
    mouth = Silent()
    sitting.voice.mouth = mouth
    for number in range(1, 4):
        assert sitting.do(deeds.Onward(), NOW_MS + number).said
    assert [each.text for each in mouth.said] == [""]
    assert mouth.said[0].tone is Tone.ROW_END


MAT = """LITTLE MAT

Ch 8.
Row 1 (RS): Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across. (6 dc)
Row 2: Turn, ch 3 (counts as dc), dc in next 4 dc, dc in top of ch-3. (6 dc)
Row 3: Rep Row 2. (6 dc)
Fasten off. Weave in ends.
"""
"""Small enough to be heard whole; made up for this test."""


def spoken_to_file(path: Path, words: Sequence[str]) -> Path:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(16_000)
        file.writeframes(spoken_afresh(words, before_s=0.7, after_s=1.1))
    return path


def heard_through(
    words: Sequence[str], folder: Path, capsys: pytest.CaptureFixture[str], *piece: str
) -> list[str]:
    """The lines that come of a sitting in which these words are said."""
    recording = spoken_to_file(folder / "maker.wav", words)
    assert main(["work", *piece, "--plain", "--quiet", "--hear", str(recording)]) == 0
    return capsys.readouterr().out.splitlines()


def test_a_whole_piece_is_made_with_eyes_shut(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """From choosing it to fastening off, across a rest: every word is heard, nothing else is done, all is told."""
    pytest.importorskip("onnxruntime")
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    pattern = tmp_path / "mat.txt"
    pattern.write_text(MAT)
    first = ["move along", "move along", "show me how", "move along", "move along", "where am i", "rest now"]
    lines = heard_through(first, tmp_path, capsys, str(pattern))
    assert heard_in(lines) == first
    assert lines[0] == "LITTLE MAT: 3 rows."
    assert any("your first double crochet" in line for line in lines)
    assert any(line.startswith("Double crochet: yarn over, into the stitch") for line in lines)
    assert "Row two, wrong side. Five double crochet to finish;" in " ".join(lines)
    assert lines[-1] == "Resting. Your place is kept."

    # Taken up again by no name at all: the piece that was worked last, and where; yes, those are done.
    second = [
        "yes",
        "move along",
        "move along",
        "how many left",
        "move along",
        "i have six stitches",
        "move along",
    ]
    lines = heard_through(second, tmp_path, capsys)
    assert heard_in(lines)[:5] == second[:5]
    assert any(line.startswith("Welcome back. Row two.") for line in lines)
    assert any(line.startswith("Row three is row two.") for line in lines)
    assert "Five stitches to go." in lines
    assert any("Row three: six double crochet. Count. Fasten off." in line for line in lines)
    assert "The piece is finished." in lines
    # Teens and tens are mixed up by ears of all kinds: a count that is not the one due is asked back first.
    right = any(line.startswith("Six") and line.endswith("That is right.") for line in lines)
    assert right or "Sixty, six zero. Is that what you have?" in lines


def heard_in(lines: list[str]) -> list[str]:
    """The commands that were heard, in their order."""
    return [line.removeprefix("heard: ") for line in lines if line.startswith("heard: ")]
