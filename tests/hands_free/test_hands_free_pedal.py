"""`rowteller pedal`: a key is learned by pressing it, at a real terminal, and then moves the work on the screen."""

import sys
from pathlib import Path

import pytest

from tracker.samples import samples

if sys.platform == "win32":
    pytest.skip("Windows has no pty; learning itself is tested without one", allow_module_level=True)

from pretend_terminal import terminal

ROOT = Path(__file__).resolve().parents[2]


def test_a_pedal_is_learned_and_then_moves_the_work(tmp_path: Path) -> None:
    """Page Down, as a pedal sends it: learned once, kept, and a step on the screen."""
    with terminal([sys.executable, "-m", "tracker", "pedal"], tmp_path, PYTHONPATH=str(ROOT)) as learning:
        learning.until("only while its window has focus")
        learning.until("Press your pedal now")
        learning.press("\x1b[6~")
        learning.until("Switch 1 is “pagedown”")
        assert learning.until_over() == 0
    pattern = str(samples()["harbour-windows"])
    with terminal(
        [sys.executable, "-m", "tracker", "work", pattern, "--quiet"], tmp_path, PYTHONPATH=str(ROOT)
    ) as screen:
        screen.until("before the row")
        screen.press("\x1b[6~")
        screen.until("Row 1 of 15")
        screen.press("q")
        assert screen.until_over() == 0


def test_a_key_with_another_meaning_is_refused(tmp_path: Path) -> None:
    """One sentence, status 2, and nothing is kept."""
    with terminal([sys.executable, "-m", "tracker", "pedal"], tmp_path, PYTHONPATH=str(ROOT)) as learning:
        learning.until("Press your pedal now")
        learning.press("q")
        learning.until("puts the work down")
        assert learning.until_over() == 2
    assert not (tmp_path / "home" / "settings.json").exists()
