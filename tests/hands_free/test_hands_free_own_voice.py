"""The maker's own ear: their voice taught to it and forgotten, their words, a name said first, their room.

The maker's voice is espeak-ng's Scottish one, which speaks for the whole of a test; what the ear hears of it is recorded
to a file and stands for the microphone.
"""

import json
import wave
from pathlib import Path

import numpy as np
import pytest
from ears_spoken import spoken

from tracker.cli import main
from tracker.ears.phrases_en import TAUGHT
from tracker.ears.port import Heard
from tracker.hands_free.ear import made_ear, sayings
from tracker.hands_free.hearing.kept import keep_takes, phrases_kept, taught_folder, voice_folder
from tracker.hands_free.hearing.likeness import TOO_LIKE, likeness, refusal, syllables
from tracker.hands_free.hearing.teach import phrases_to_teach
from tracker.hands_free.settings import Settings, settings_file, settled

SCOTTISH = "en-gb-scotland"


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))


def recorded(folder: Path, *words: str, voice: str = SCOTTISH, loudness: float = 0.5) -> str:
    """Words one after another, each at a pace of its own, as a recording."""
    path = folder / "lesson.wav"
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(16_000)
        for at, each in enumerate(words):
            file.writeframes(spoken(each, voice=voice, speed=0.82 + 0.07 * (at % 3), loudness=loudness))
    return str(path)


def hears(words: str, voice: str) -> list[str]:
    """The deeds that the ear at home hears in words said alone."""
    settings, _ = settled(settings_file())
    ear, _ = made_ear("embedded", settings)
    ear.begin()
    return [r.deed for r in [*ear.feed(spoken(words, voice=voice)), *ear.finish()] if isinstance(r, Heard)]


def test_a_lesson_keeps_three_recordings_of_each_and_shows_what_they_are_worth(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Said from a file; kept as WAVs that only their owner reads; the gain is told; one command forgets it all."""
    lesson = recorded(tmp_path, *["move along"] * 3, *["one back"] * 3)
    assert main(["ear", "teach", "move along", "one back", "--hear", lesson]) == 0
    told = capsys.readouterr().out
    assert "1 of 2: “move along”, three times" in told
    assert "Of your 6 recordings" in told
    knowing = next(line for line in told.splitlines() if "knowing you" in line).split()
    came = next(line for line in told.splitlines() if "as it came" in line).split()
    assert int(knowing[2]) == 6
    assert int(knowing[2]) >= int(came[3])
    assert phrases_kept(voice_folder()) == {"move along": 3, "one back": 3}
    assert voice_folder().stat().st_mode & 0o077 == 0
    assert main(["ear", "forget"]) == 0
    assert taught_folder() is None
    assert not voice_folder().exists()


def test_a_recording_unlike_the_others_is_asked_for_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip of the tongue among three: that one is named, and a fourth takes its place."""
    lesson = recorded(tmp_path, "move along", "rest now", "move along", "move along")
    assert main(["ear", "teach", "move along", "--hear", lesson]) == 0
    assert "The second is unlike the others" in capsys.readouterr().out
    assert phrases_kept(voice_folder()) == {"move along": 3}


def test_what_is_too_soft_or_too_long_is_told_and_not_kept(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whispered, and a whole sentence: each with its reason; nothing is learned of either."""
    lesson = recorded(tmp_path, "move along", loudness=0.004)
    assert main(["ear", "teach", "move along", "--hear", lesson]) == 2
    assert "come nearer" in capsys.readouterr().out
    lesson = recorded(
        tmp_path, "move along to the next window and the one after that and then count them all again"
    )
    assert main(["ear", "teach", "move along", "--hear", lesson]) == 2
    assert "only the words" in capsys.readouterr().out
    assert taught_folder() is None


def test_a_word_of_another_language_is_taught_and_heard(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """ "Weiter" for next: the ear asks to be taught it, hears it then, and the old word counts no more."""
    assert main(["ear", "rename", "next", "weiter"]) == 0
    assert 'rowteller ear teach "weiter"' in capsys.readouterr().out
    assert hears("weiter", voice="de") == []
    assert main(["ear", "teach", "weiter", "--hear", recorded(tmp_path, *["weiter"] * 3, voice="de")]) == 0
    assert hears("weiter", voice="de") == ["next"]
    assert hears("move along", voice="en-us") == []
    assert main(["ear", "rename", "next"]) == 0
    assert hears("move along", voice="en-us") == ["next"]


@pytest.mark.parametrize(
    "phrase, too_like",
    [
        ("pores", "“pause”"),
        ("undo it", "“undo that”"),
        ("rose even", "“row seven”, which asks for row"),
        ("back loops", "“back loop”, which makers say as they work"),
        ("for", "“four”, which makers say as they count"),
        ("row 7", "figures"),
        ("!", "no word"),
    ],
)
def test_a_word_too_like_another_is_refused_with_the_reason(
    phrase: str, too_like: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """By its sound, not by its letters."""
    assert main(["ear", "rename", "next", phrase]) == 2
    assert too_like in capsys.readouterr().err
    assert settled(settings_file())[0].renamed == ()


def test_a_word_unlike_all_others_is_taken_and_comes_first_in_the_lesson() -> None:
    """Known to the ear out of the box, it works at once."""
    assert main(["ear", "rename", "next", "carry on"]) == 0
    settings, _ = settled(settings_file())
    assert phrases_to_teach(settings)[0] == "carry on"
    assert refusal("carry on", "next", sayings()) == ""


@pytest.mark.parametrize("phrase", ["nets", "neck", "nest", "text"])
def test_words_that_the_ear_takes_for_next_are_no_word_for_anything_else(phrase: str) -> None:
    """Sounds of a kind, and what drops out of a cluster, are heard least: necks, nets and neck were taken for it."""
    assert "“next”" in refusal(phrase, "again", sayings())


@pytest.mark.parametrize(
    ("phrase", "many"), [("stop", 1), ("mitten", 2), ("go on", 2), ("say again", 3), ("banana", 3)]
)
def test_syllables_are_counted_word_by_word(phrase: str, many: int) -> None:
    """As a dictionary divides them; two vowels that meet between words are two, and "mitten" ends in a whole one."""
    assert syllables(phrase) == many


def test_the_shipped_words_are_unlike_each_other() -> None:
    """No two of different deeds are as alike as a maker's own word may be; those shown to teach least of all."""
    found = sayings()
    for one in found:
        for other in found:
            if one.deed < other.deed:
                for a in one.phrases:
                    for b in other.phrases:
                        if "{n}" not in a + b and not {"count", "row"} & {one.deed, other.deed}:
                            assert likeness(a, b) >= TOO_LIKE, (a, b)


def test_with_a_name_only_a_command_after_it_counts() -> None:
    """Strict: "move along" alone moves nothing; an unknown name is refused with those there are."""
    assert main(["ear", "name", "archibald"]) == 2
    assert main(["ear", "name", "clover"]) == 0
    assert hears("move along", voice="en-us") == []
    assert hears("clover move along", voice="en-us") == ["next"]
    assert main(["ear", "name", "off"]) == 0
    assert hears("move along", voice="en-us") == ["next"]


def test_the_room_is_looked_at_with_what_was_heard_and_passed_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A good room; then the same words far too soft."""
    assert (
        main(["ear", "check", "--hear", recorded(tmp_path, "move along", "purple curtains", voice="en-us")])
        == 0
    )
    told = capsys.readouterr().out
    assert "heard: move along" in told
    assert "passed over: " in told
    assert "are fine" in told
    quiet = recorded(tmp_path, "move along", voice="en-us", loudness=0.01)
    assert main(["ear", "check", "--hear", quiet]) == 0
    assert "turn" in capsys.readouterr().out


def test_a_word_begun_as_the_time_runs_out_is_heard_to_its_end(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It begins within the first second, and ends after it; what is said later is not told."""
    lesson = recorded(tmp_path, "say again", "step back", voice="en-us")
    assert main(["ear", "check", "--seconds", "0.8", "--hear", lesson]) == 0
    told = capsys.readouterr().out
    assert "heard: say again" in told
    assert "step back" not in told


def test_a_row_read_aloud_is_taken_back_where_the_room_is_looked_at(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """ "Row four." with more after a breath is a pattern read aloud, as it is at work: no command was among it."""
    lesson = tmp_path / "aloud.wav"
    with wave.open(str(lesson), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(16_000)
        file.writeframes(spoken("row seven", after_s=0.3))
        file.writeframes(spoken("chain three and turn, then double crochet to the end", before_s=0.0))
    assert main(["ear", "check", "--hear", str(lesson)]) == 0
    told = capsys.readouterr().out
    assert "heard: row seven" in told
    assert "not that after all" in told
    assert "No command was among" in told


def test_a_room_without_a_microphone_is_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A recording that is not there stands for it."""
    assert main(["ear", "check", "--hear", str(tmp_path / "none.wav")]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_settings_of_words_survive_another_window(tmp_path: Path) -> None:
    """What one window settles, another that began earlier does not undo."""
    first, _ = settled(settings_file())
    assert main(["ear", "name", "maple"]) == 0
    from tracker.hands_free.settings import changed

    changed(first, speed_wpm=190)
    raw = json.loads(settings_file().read_text())
    assert (raw["ear_name"], raw["speed_wpm"]) == ("maple", 190)


def test_a_phrase_with_odd_marks_makes_a_plain_file_name(tmp_path: Path) -> None:
    """No path can be written outside of the folder."""
    keep_takes(tmp_path / "voice", "../../où suis-je", [bytes(3200)])
    assert [path.name for path in (tmp_path / "voice").iterdir()] == ["où_suis-je__1.wav"]
    assert np.all([path.parent == tmp_path / "voice" for path in tmp_path.rglob("*.wav")])


def test_the_usual_words_are_those_shown() -> None:
    """A lesson of everything asks for one phrase a command, the one that is shown for it."""
    shown = phrases_to_teach(Settings())
    assert set(shown) == set(TAUGHT.values())
    assert "carry on" in shown
    assert "next" not in shown
    assert not any("{n}" in phrase for phrase in shown)
