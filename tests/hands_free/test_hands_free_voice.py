"""How it speaks, settled from the command line: shown, kept, and refused in one sentence when it cannot be."""

from pathlib import Path

import pytest

from tracker.cli import main
from tracker.hands_free.settings import Settings, settings_file, settled
from tracker.trade.said.speech import Speech


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))


def test_what_is_settled_is_kept_and_the_rest_stays(capsys: pytest.CaptureFixture[str]) -> None:
    """Speed and terms in one go, the hand in another; what was not named is as it was."""
    assert main(["voice", "--speed", "190", "--terms", "uk"]) == 0
    assert main(["voice", "--hand", "left", "--tones", "off", "--telling", "cues"]) == 0
    settings, trouble = settled(settings_file())
    assert trouble == ""
    assert (settings.speed_wpm, settings.volume, settings.tones, settings.telling) == (
        190,
        100,
        False,
        "cues",
    )
    assert settings.speech == Speech(uk=True, left_handed=True)
    assert "190 words a minute" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [["--speed", "5000"], ["--volume", "-3"]]
    + [["--accent", accent] for accent in ("en-uk", "klingon", "german", "en-gb+nobody")],
)
def test_what_no_voice_can_do_is_refused(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """One sentence, and nothing is kept."""
    assert main(["voice", *words]) == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert settled(settings_file())[0] == Settings()


def test_without_words_it_only_tells(capsys: pytest.CaptureFixture[str]) -> None:
    """And writes nothing to the disk."""
    assert main(["voice"]) == 0
    assert "The voice: espeak, en-us" in capsys.readouterr().out
    assert not settings_file().exists()
