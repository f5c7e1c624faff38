"""The screen on a real terminal: `rowteller work` in a pty, read by an emulator that is not ours."""

import re
import sys
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from tracker.samples import samples

if sys.platform == "win32":
    pytest.skip("Windows has no pty; the pilot's tests are run there", allow_module_level=True)

from pretend_terminal import Terminal, terminal

ROOT = Path(__file__).resolve().parents[2]
PATTERN = str(samples()["harbour-windows"])
HOSTILE = (
    "Bad [/x] [bold]\x1b]52;c;aGVsbG8=\x07 \u202eback\nCh 12.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\x1b[2J\x9b31m\n"
    "Row 2: Ch 1, turn, [/red] sc in each st across.\n"
)


def rowteller(folder: Path, *words: str, **env: str) -> AbstractContextManager[Terminal]:
    (folder / "home").mkdir(exist_ok=True)
    settings = folder / "home" / "settings.json"
    if not settings.exists():
        settings.write_text('{"ear": "off"}')
    return terminal([sys.executable, "-m", "tracker", *words], folder, PYTHONPATH=str(ROOT), **env)


def test_a_piece_is_worked_stopped_and_taken_up_again(tmp_path: Path) -> None:
    """Keys move it, q rests with status 0 and a clean terminal, and the piece without a name is the one worked last."""
    with rowteller(tmp_path, "work", PATTERN, "--quiet") as first:
        first.until("before the row")
        first.press("   ")
        first.until("Row 2 of 15")
        first.press(" ")
        first.until("then four windows")
        first.press("q")
        assert first.until_over() == 0
    assert first.sent.rstrip().endswith(b"l")
    assert b"\x1b[?1049l" in first.sent
    with rowteller(tmp_path, "work", "--quiet") as second:
        seen = second.until("yes (y) or no (n)?")  # the question itself stands in large letters
        assert "Row 2 of 15" in seen
        assert "Welcome back" in seen
        second.press("n")
        second.until("then four windows")
        second.press("\x03")
        assert second.until_over() == 0


def test_with_a_wrong_name_there_is_one_sentence(tmp_path: Path) -> None:
    """No traceback, status 2."""
    with rowteller(tmp_path, "work", "nowhere.txt") as found:
        assert found.until_over() == 2
    assert "no file nowhere.txt" in found.text.replace("\n", " ")
    assert b"Traceback" not in found.sent


def test_a_pattern_cannot_write_to_the_clipboard_or_the_screen(tmp_path: Path) -> None:
    """None of its control characters is sent; its brackets are seen as they stand."""
    pattern = tmp_path / "bad.txt"
    pattern.write_text(HOSTILE)
    with rowteller(tmp_path, "work", str(pattern), "--quiet") as screen:
        screen.until("[/x] [bold]")
        screen.press(" ")
        screen.until("Row 1 of 2")
        screen.press("   ")
        screen.until("Row 2 of 2")
        screen.press("q")
        assert screen.until_over() == 0
    sent = screen.sent.decode("utf-8", "replace")
    assert "\x1b]52" not in sent
    assert "\u202e" not in sent
    assert "\x9b" not in sent
    assert "\x1b[2J\x9b" not in sent


def test_no_color_sends_no_colour(tmp_path: Path) -> None:
    """Bold and reverse remain, so that what is marked is still seen. Source of the habit: no-color.org."""
    with rowteller(tmp_path, "work", PATTERN, "--quiet", NO_COLOR="1") as screen:
        screen.press("   ")
        screen.until("Row 2 of 15")
        screen.press("q")
        assert screen.until_over() == 0
    codes = {code for found in re.findall(rb"\x1b\[([0-9;]*)m", screen.sent) for code in found.split(b";")}
    assert b"7" in codes
    assert b"1" in codes
    assert not codes & {
        b"38",
        b"48",
        *(str(n).encode() for n in (*range(31, 38), *range(41, 48), *range(90, 98))),
    }


def test_a_dumb_terminal_gets_plain_lines(tmp_path: Path) -> None:
    """One line a step, no codes."""
    with rowteller(tmp_path, "work", PATTERN, "--quiet", TERM="dumb") as lines:
        lines.until("Chain thirty-five")
        lines.press("stop\n")
        assert lines.until_over() == 0
    assert b"\x1b" not in lines.sent


def test_a_recording_is_heard_on_the_screen_and_ends_it(tmp_path: Path) -> None:
    """The real ear hears the demo's words at a microphone's pace; each moves the page;
    the screen ends with the recording.
    """
    pytest.importorskip("onnxruntime")
    wav = str(ROOT / "tracker" / "ears" / "demo.wav")
    with rowteller(tmp_path, "work", PATTERN, "--quiet", "--hear", wav) as screen:
        screen.until("Row 1 of 15")
        screen.until("heard “how many left”")
        screen.until("Row 2 of 15")
        screen.until("resting")
        assert screen.until_over() == 0


def test_a_move_is_one_frame_and_never_clears_the_screen(tmp_path: Path) -> None:
    """On a terminal that can hold a frame back until it is whole (mode 2026), each key is one frame, so nothing flickers.

    Source of the mode and its answers: "Synchronized Output", a published terminal specification (DECRQM 2026).
    """
    with rowteller(tmp_path, "work", PATTERN, "--quiet") as screen:
        screen.until("before the row")
        assert b"\x1b[?2026$p" in screen.sent
        screen.press("\x1b[?2026;2$y")
        screen.press("   ")
        screen.until("Row 2 of 15")
        while screen.read(0.5):
            pass
        for _ in range(6):
            before, seen = len(screen.sent), screen.text
            screen.press(" ")
            while screen.text == seen:
                screen.read(0.05)
            while screen.read(0.3):
                pass
            moved = screen.sent[before:]
            assert moved.count(b"\x1b[?2026h") == 1
            assert moved.count(b"\x1b[?2026l") == 1
            assert moved.strip().startswith(b"\x1b[?2026h")
            assert b"\x1b[2J" not in moved
            assert b"\x1b[J" not in moved
        screen.press("q")
        assert screen.until_over() == 0
