"""A maker who says "onward" every 1.2 seconds gets every step, through a real sound server while it speaks all the time.

The virtual card is PulseAudio's; the player is its own tool, `paplay`. Each answer lasts longer than the maker waits.
"""

import os
import re
import sys
import time
import wave
from collections.abc import Iterator
from pathlib import Path

import pytest
from ears_spoken import spoken
from virtual_sound import RATE, SoundCard, virtual_sound

if sys.platform == "win32":
    pytest.skip("Windows has no pty and no PulseAudio", allow_module_level=True)

from pretend_terminal import Terminal, terminal

ROOT = Path(__file__).resolve().parents[2]
EVERY_S = 1.2
TIMES = 10
ROWS = "".join(
    f"Row {row}: Turn, ch 3 (counts as dc), dc in next 2 dc, ch 1, sk 1 dc, dc in next {row} dc, ch 2, sk 2 dc, "
    f"dc in next {21 - row} dc, dc in top of ch-3.\n"
    for row in (2,)
)
PATTERN = (
    f"LONG WORDS\n\nCh 30.\nRow 1: Dc in 4th ch from hook and in each ch across. (28 dc)\n{ROWS}"
    + "".join(
        f"Row {row}: Turn, ch 3 (counts as dc), dc in each dc and ch across, dc in top of ch-3.\n"
        for row in range(3, 9)
    )
)


@pytest.fixture(scope="module")
def card() -> Iterator[SoundCard]:
    with virtual_sound() as found:
        yield found


def said_again_and_again(path: Path, words: str, times: int) -> Path:
    """A word every so often, each beginning exactly so much after the one before."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        for _ in range(times):
            word = spoken(words, before_s=0.1, after_s=0.0)
            file.writeframes((word + bytes(2 * RATE))[: int(EVERY_S * RATE) * 2])
        file.writeframes(bytes(2 * RATE))
    return path


def watched(screen: Terminal, seconds: float) -> None:
    ends = time.monotonic() + seconds
    while time.monotonic() < ends:
        screen.read(0.2)


@pytest.mark.parametrize("headphones", [True, False], ids=["told of headphones", "found out by itself"])
def test_a_word_every_1_2_seconds_gets_every_step(card: SoundCard, tmp_path: Path, headphones: bool) -> None:
    """Ten words, ten steps, whatever is being said meanwhile."""
    pytest.importorskip("onnxruntime")
    pattern = tmp_path / "long.txt"
    pattern.write_text(PATTERN)
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.json").write_text(
        f'{{"headphones": {str(headphones).lower()}, "offered": true, "fading": false}}'
    )
    env = {name: value for name, value in card.env.items() if os.environ.get(name) != value}
    words = said_again_and_again(tmp_path / "onward.wav", "onward", TIMES)
    with terminal(
        [sys.executable, "-m", "tracker", "work", str(pattern)],
        tmp_path,
        PYTHONPATH=str(ROOT),
        ROWTELLER_HOME=str(home),
        **env,
    ) as screen:
        screen.until("listening")
        watched(screen, 6)
        card.say_into_microphone(words)
        watched(screen, 2)
        screen.press("q")
        assert screen.until_over() == 0
    from tracker.journal import open_journal

    (journal,) = (home / "pieces").glob("*.journal")
    opened, _ = open_journal(journal, 0)
    deeds = [entry.deed for entry in opened.all()]
    opened.close()
    assert deeds.count("next") == TIMES, deeds
    assert not re.search("undo|back", " ".join(deeds))
