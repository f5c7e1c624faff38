"""Recordings fed through the ear, and the form of what comes out."""

from __future__ import annotations

import json
import wave
from pathlib import Path

import pytest
from ears_spoken import spoken

from tracker.ears.__main__ import main
from tracker.ears.feeds.files import RecordingUnreadable, hear_files, read_recording, taught_recordings


def wav(path: Path, data: bytes, rate: int = 16000, channels: int = 1) -> Path:
    with wave.open(str(path), "wb") as f:
        f.setnchannels(channels)
        f.setsampwidth(2)
        f.setframerate(rate)
        f.writeframes(data)
    return path


def test_one_object_a_file_in_their_order(tmp_path: Path) -> None:
    """Each file gives its own object, with times from its own beginning."""
    files = [
        wav(tmp_path / f"{i}.wav", spoken(words))
        for i, words in enumerate(("next", "table cloth", "where am i"))
    ]
    answers = list(hear_files(files))
    assert [a["file"] for a in answers] == [str(f) for f in files]
    assert [[h["deed"] for h in a["heard"]] for a in answers] == [["next"], [], ["where"]]
    assert answers[1]["passed_over"][0]["why"]
    for answer in answers:
        for heard in answer["heard"]:
            assert set(heard) >= {
                "deed",
                "words",
                "sureness",
                "start_ms",
                "end_ms",
                "decided_ms",
                "compute_ms",
            }
            assert 0 < heard["start_ms"] < heard["end_ms"] < heard["decided_ms"] <= answer["seconds"] * 1000
            assert 0 <= heard["sureness"] <= 1


def test_a_jump_carries_number_and_ask(tmp_path: Path) -> None:
    """A row is read back before it acts, so it carries "ask"; a plain command does not."""
    (row,) = next(hear_files([wav(tmp_path / "a.wav", spoken("go to row twelve"))]))["heard"]
    assert (row["deed"], row["number"], row["ask"]) == ("row", 12, True)
    (following,) = next(hear_files([wav(tmp_path / "b.wav", spoken("onward"))]))["heard"]
    assert "ask" not in following
    assert "number" not in following


def test_a_file_alone_is_heard_as_in_a_sitting(tmp_path: Path) -> None:
    """What a sitting learns helps later files, and no file needs it."""
    files = [wav(tmp_path / f"{i}.wav", spoken(w)) for i, w in enumerate(("next", "again", "undo", "next"))]
    together = [[h["deed"] for h in a["heard"]] for a in hear_files(files)]
    alone = [[h["deed"] for h in a["heard"]] for f in files for a in hear_files([f])]
    assert together == alone == [["next"], ["again"], ["undo"], ["next"]]


@pytest.mark.parametrize(("rate", "channels"), [(48000, 1), (44100, 2), (8000, 1)])
def test_other_rates_and_stereo_are_converted(tmp_path: Path, rate: int, channels: int) -> None:
    """A recording from a telephone or a camera lasts as long as it lasted there."""
    data = read_recording(wav(tmp_path / "a.wav", bytes(2 * channels * rate), rate, channels))
    assert abs(len(data) // 2 - 16000) <= 3


def test_what_cannot_be_read_is_one_sentence(tmp_path: Path) -> None:
    """A missing file, one that is no WAV, and one that is cut off in its head: each says so, none is a traceback."""
    (tmp_path / "text.wav").write_text("not a recording")
    (tmp_path / "short.wav").write_bytes(b"RIFF")
    for name in ("none.wav", "text.wav", "short.wav"):
        with pytest.raises(RecordingUnreadable, match=name):
            read_recording(tmp_path / name)


def test_the_command_prints_json_and_keeps_the_exit_status(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """JSON alone on stdout and 0; a missing file is a sentence on stderr and 2."""
    assert main(["hear", "--json", str(wav(tmp_path / "a.wav", spoken("where am i")))]) == 0
    out = capsys.readouterr()
    assert [h["deed"] for h in json.loads(out.out)["heard"]] == ["where"]
    assert main(["hear", "--json", str(tmp_path / "none.wav")]) == 2
    out = capsys.readouterr()
    assert out.out == ""
    assert "There is no file" in out.err


def test_a_number_alone_is_heard_when_awaited(tmp_path: Path) -> None:
    """`--awaiting number`: the ear has just asked for one."""
    file = wav(tmp_path / "a.wav", spoken("forty two"))
    assert [h["deed"] for h in next(hear_files([file]))["heard"]] == []
    (heard,) = next(hear_files([file], awaiting="number"))["heard"]
    assert (heard["deed"], heard["number"]) == ("number", 42)


def test_in_strict_mode_a_command_needs_the_name(tmp_path: Path) -> None:
    """With a name set, "next" alone is passed over and "clover, next" is a step."""
    files = [wav(tmp_path / "a.wav", spoken("next")), wav(tmp_path / "b.wav", spoken("clover next"))]
    assert [[h["deed"] for h in a["heard"]] for a in hear_files(files, strict="clover")] == [[], ["next"]]


def test_words_of_ones_own_in_another_voice_are_learnt(tmp_path: Path) -> None:
    """Three recordings of a command in an accent the ear never met make it heard, and still nothing else."""
    taught = tmp_path / "taught"
    taught.mkdir()
    for phrase in ("next", "back", "take that back"):
        for k, speed in enumerate((0.75, 0.9, 1.05)):
            name = f"{phrase.replace(' ', '_')}__{k}.wav"
            wav(taught / name, spoken(phrase, voice="de", speed=speed))
    assert len(taught_recordings(taught)) == 9
    said = [
        wav(tmp_path / f"{i}.wav", spoken(w, voice="de", speed=0.83))
        for i, w in enumerate(("next", "take that back", "window"))
    ]
    heard = [[h["deed"] for h in a["heard"]] for a in hear_files(said, taught=taught)]
    assert heard == [["next"], ["undo"], []]


def test_a_folder_without_recordings_is_one_sentence(tmp_path: Path) -> None:
    """An empty folder or none: what they should be called is said."""
    for folder in (tmp_path, tmp_path / "none"):
        with pytest.raises(RecordingUnreadable, match="PHRASE__1"):
            taught_recordings(folder)
