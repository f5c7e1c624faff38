"""The page beside the real screen: `rowteller work --show` in a pty, followed over a real connection."""

import http.client
import json
import re
import sys
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from tracker.samples import samples

if sys.platform == "win32":
    pytest.skip("Windows has no pty", allow_module_level=True)

from pretend_terminal import terminal

ROOT = Path(__file__).resolve().parents[2]
PATTERN = str(samples()["harbour-windows"])


def test_the_page_follows_the_keys_of_the_screen(tmp_path: Path) -> None:
    """The link and its code lie over the screen until space; V brings them back; each step comes to who follows."""
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "settings.json").write_text('{"ear": "off"}')
    words = [sys.executable, "-m", "tracker", "work", PATTERN, "--quiet", "--show"]
    with terminal(words, tmp_path, PYTHONPATH=str(ROOT)) as screen:
        seen = screen.until("space begins")
        assert "█" in seen
        link = re.search(r"http://\S+", seen)
        assert link is not None
        rest = re.search(rf"{re.escape(link[0])}[ █▀▄]*\n *([\w-]*)", seen)
        asked = urlsplit(link[0] + (rest[1] if rest else ""))
        screen.press(" ")
        screen.until("before the row")
        screen.press("V")
        screen.until("space begins")
        screen.press("  ")
        screen.until("Row 1 of 15")
        wire = http.client.HTTPConnection(asked.netloc, timeout=20)
        wire.request("GET", f"/live?{asked.query}")
        answer = wire.getresponse()
        assert answer.status == 200

        def step() -> dict[str, object]:
            while not (line := answer.readline()).startswith(b"data: {"):
                assert line
            found: dict[str, object] = json.loads(line[6:])
            return found

        assert step()["where"] == "Row 1 of 15"
        screen.press(" ")
        while step()["hand"] != "16 squares":
            pass
        screen.press("q")
        assert screen.until_over() == 0
        wire.close()


def test_wrong_words_are_one_sentence(tmp_path: Path) -> None:
    """--touch without --show, and a port that is none."""
    for words, sentence in (
        (("--touch",), "they go with --show"),
        (("--show", "--port", "0"), "0 is no port"),
    ):
        with terminal(
            [sys.executable, "-m", "tracker", "work", PATTERN, *words], tmp_path, PYTHONPATH=str(ROOT)
        ) as found:
            assert found.until_over() == 2
        assert sentence in found.text.replace("\n", " ")
        assert b"Traceback" not in found.sent
