"""Plain lines with the devices around them: a recording through the real ear, and a terminal without a screen."""

import subprocess
import sys
from pathlib import Path

import pytest

from tracker.samples import samples

ROOT = Path(__file__).resolve().parents[2]
PATTERN = str(samples()["harbour-windows"])
DEMO = str(ROOT / "tracker" / "ears" / "demo.wav")


def rowteller(folder: Path, *words: str, given: str = "") -> subprocess.CompletedProcess[str]:
    import os

    env = os.environ | {"ROWTELLER_HOME": str(folder), "PYTHONPATH": str(ROOT)}
    return subprocess.run(
        [sys.executable, "-m", "tracker", *words],
        input=given,
        env=env,
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=120,
    )


def test_spoken_commands_in_a_recording_move_the_work(tmp_path: Path) -> None:
    """Six words of a voice, through the real ear, are six deeds in their order; stop keeps the place."""
    pytest.importorskip("onnxruntime")
    done = rowteller(tmp_path, "work", PATTERN, "--plain", "--quiet", "--hear", DEMO)
    assert done.returncode == 0, done.stderr
    assert [line for line in done.stdout.splitlines() if line.startswith("heard: ")] == [
        f"heard: {words}" for words in ("next", "next", "again", "how many left", "next", "stop")
    ]
    assert done.stdout.splitlines()[-1] == "Resting. Your place is kept."
    again = rowteller(tmp_path, "work", "--plain", given="where am i\n")
    assert "place: Row 2" in again.stdout


def test_a_recording_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    """Status 2, no traceback."""
    done = rowteller(tmp_path, "work", PATTERN, "--plain", "--quiet", "--hear", "nothing.wav")
    assert done.returncode == 2
    assert done.stderr.strip().endswith("There is no file nothing.wav; check its name and folder.")
    assert "Traceback" not in done.stderr


def test_lines_that_were_written_before_wake_no_device(tmp_path: Path) -> None:
    """Nothing is said of microphones or speakers, and the end of the input ends it."""
    done = rowteller(tmp_path, "work", PATTERN, "--plain", given="next\nwhere am i\n")
    assert done.returncode == 0
    assert done.stderr == ""
    assert "place: Row 1" in done.stdout


def test_the_demo_is_heard_by_the_real_ear(tmp_path: Path) -> None:
    """Without a terminal, its last part is spoken commands that move the work."""
    pytest.importorskip("onnxruntime")
    done = rowteller(tmp_path, "demo")
    assert done.returncode == 0
    last = done.stdout.partition("5. Hands-free")[2]
    assert [line.strip() for line in last.splitlines() if "heard: " in line] == [
        f"heard: {words}" for words in ("next", "next", "again", "how many left", "next", "stop")
    ]
    assert "Fourteen squares to go." in last
    assert list(tmp_path.iterdir()) == []


def test_a_word_of_the_makers_own_is_as_good_typed_as_said(tmp_path: Path) -> None:
    """Renamed for the ear, it goes on in lines as well; "off" brings the usual words back."""
    assert rowteller(tmp_path, "ear", "rename", "next", "hop along").returncode == 0
    done = rowteller(tmp_path, "work", PATTERN, "--plain", given="Hop along\nwhere am i\n")
    assert "place: Row 1" in done.stdout
    taken = rowteller(tmp_path, "ear", "rename", "again", "back")
    assert (taken.returncode, taken.stderr) == (2, "“back” asks for back already. Choose another word.\n")
    off = rowteller(tmp_path, "ear", "rename", "next", "off")
    assert off.stdout == "For next the usual words count again.\n"
