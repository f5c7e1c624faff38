"""The mouth as it is heard: real voices, a real stream, and a virtual speaker listened to from outside.

What the speaker said is recorded by PulseAudio's own `parec`, another program than the one that spoke.
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from virtual_sound import RATE, SoundCard, lasting_card, virtual_sound

from tracker.mouth.espeak import MISSING
from tracker.mouth.port import Listeners, Manner, Utterance
from tracker.mouth.sound import NOTES, Sound, Tone, made, resampled
from tracker.mouth.speaker import Speaker, voice_for

ROOT = Path(__file__).resolve().parents[2]
WINDOW = "Window: chain one, skip one, one double crochet."
SOON_S = 20


@pytest.fixture(scope="module")
def card() -> Iterator[SoundCard]:
    card = lasting_card()
    with card.here():
        yield card


class Sitting:
    """A real mouth, with what its listeners heard."""

    def __init__(self, manner: Manner | None = None) -> None:
        self.told: list[str] = []
        self.begun: list[Utterance] = []
        self.ended: list[str] = []
        self.started = threading.Event()
        self.mouth = Speaker(
            manner, Listeners(self._start, lambda each: self.ended.append(each.text), self.told.append)
        )

    def _start(self, utterance: Utterance) -> None:
        self.begun.append(utterance)
        self.started.set()

    def until_quiet(self) -> None:
        for _ in range(SOON_S * 50):
            if not self.mouth.busy:
                return
            time.sleep(0.02)
        raise AssertionError(f"the mouth never came to an end: {self.begun}")


@pytest.fixture
def sitting(card: SoundCard) -> Iterator[Sitting]:
    sitting = Sitting()
    yield sitting
    sitting.mouth.close()
    assert sitting.told == []


def heard(pcm: bytes) -> np.ndarray:
    return np.frombuffer(pcm, "<i2").astype(float)


def likeness(recording: np.ndarray, sound: Sound) -> float:
    """How much of the sound is in the recording where it fits best: 1 is all of it, 0 nothing."""
    wanted = heard(resampled(sound, RATE).pcm)
    if len(recording) < len(wanted):
        recording = np.pad(recording, (0, len(wanted) - len(recording)))
    size = 1 << int(np.ceil(np.log2(len(recording) + len(wanted))))
    match = np.fft.irfft(np.fft.rfft(recording, size) * np.conj(np.fft.rfft(wanted, size)))
    at = int(np.argmax(match[: len(recording) - len(wanted) + 1]))
    there = recording[at : at + len(wanted)]
    return float(there @ wanted / (np.linalg.norm(there) * np.linalg.norm(wanted) + 1e-9))


def loud_seconds(recording: np.ndarray) -> float:
    """How long from the first to the last sample that can be heard."""
    loud = np.flatnonzero(np.abs(recording) > 100)
    return float(loud[-1] - loud[0]) / RATE if len(loud) else 0.0


@pytest.mark.parametrize("engine", ["espeak", "natural"])
def test_a_sentence_is_heard_on_the_speaker(card: SoundCard, engine: str) -> None:
    """What comes out is, sample for sample but for the server's own resampling, what the voice made."""
    pytest.importorskip("piper") if engine == "natural" else None
    sitting = Sitting(Manner(engine=engine))
    with card.listening() as recording:
        sitting.mouth.say(WINDOW)
        sitting.until_quiet()
    sitting.mouth.close()
    assert sitting.told == []
    assert [each.text for each in sitting.begun] == sitting.ended == [WINDOW]
    assert sitting.begun[0].sound.seconds > 1.5
    assert likeness(heard(recording.pcm), sitting.begun[0].sound) > 0.9


def test_hush_is_heard_at_once(card: SoundCard, sitting: Sitting) -> None:
    """Most of a long sentence is never heard."""
    sitting.mouth.prepare([WINDOW])
    with card.listening() as recording:
        sitting.mouth.say(WINDOW)
        assert sitting.started.wait(SOON_S)
        time.sleep(0.4)
        sitting.mouth.hush()
        sitting.until_quiet()
        time.sleep(0.3)
    spoken = sitting.begun[0].sound.seconds
    assert 0.1 < loud_seconds(heard(recording.pcm)) < spoken / 2
    assert sitting.ended == [WINDOW]


def test_the_next_sentence_is_heard_whole_and_the_one_before_is_not(
    card: SoundCard, sitting: Sitting
) -> None:
    """The maker goes on in the middle of a sentence."""
    sitting.mouth.prepare([WINDOW, "Last one."])
    with card.listening() as recording:
        sitting.mouth.say(WINDOW)
        assert sitting.started.wait(SOON_S)
        time.sleep(0.4)
        sitting.mouth.say("Last one.")
        sitting.until_quiet()
    first, second = sitting.begun
    assert sitting.ended == [WINDOW, "Last one."]
    assert likeness(heard(recording.pcm), second.sound) > 0.9
    assert likeness(heard(recording.pcm), first.sound) < 0.7


def test_a_maker_faster_than_the_mouth_hears_the_last_step(card: SoundCard, sitting: Sitting) -> None:
    """Twelve steps in a row, each cutting the one before; no two are ever heard over each other."""
    with card.listening() as recording:
        for number in range(12):
            sitting.mouth.say(f"{WINDOW} {number}.")
            time.sleep(0.05)
        sitting.mouth.say("Then eight to the end.")
        sitting.until_quiet()
    assert sitting.ended[-1] == "Then eight to the end."
    assert sitting.ended == [each.text for each in sitting.begun]
    assert likeness(heard(recording.pcm), sitting.begun[-1].sound) > 0.9


@pytest.mark.parametrize("tone", Tone)
def test_a_tone_is_heard_at_its_pitch(card: SoundCard, sitting: Sitting, tone: Tone) -> None:
    """The first note that reaches the speaker has the frequency of the table, within one percent."""
    with card.listening() as recording:
        sitting.mouth.sound(tone)
        sitting.until_quiet()
    samples = heard(recording.pcm)
    begin = int(np.flatnonzero(np.abs(samples) > 300)[0])
    note = NOTES[tone][0]
    first = samples[begin : begin + round(note.ms * RATE / 1000)]
    power = np.abs(np.fft.rfft(first * np.hanning(len(first)), 1 << 16))
    assert float(np.argmax(power) * RATE / (1 << 16)) == pytest.approx(note.hertz, rel=0.01)
    assert likeness(samples, made(tone, 22_050)) > 0.9


def test_us_and_uk_speech_differ_and_speed_and_volume_are_obeyed() -> None:
    """The same words in other manners: another sound, a longer one, a softer one."""
    words = "Half treble in the fourth chain from the hook."

    def spoken(**manner: object) -> Sound:
        return voice_for(Manner(**manner)).make(words)  # type: ignore[arg-type]

    plain, british = spoken(), spoken(accent="en-gb")
    assert plain.pcm != british.pcm
    assert spoken(speed_wpm=110).seconds > 1.25 * plain.seconds
    assert spoken(speed_wpm=260).seconds < 0.8 * plain.seconds
    soft = np.abs(heard(spoken(volume=40).pcm)).max()
    assert soft < 0.7 * np.abs(heard(plain.pcm)).max()
    assert spoken().seconds == pytest.approx(plain.seconds, abs=0.02)  # no manner outlives its sentence


def test_the_natural_voice_obeys_speed_and_volume_and_reads_brackets() -> None:
    """A pattern's doubled brackets aren't taken for phonemes once they were made speakable."""
    pytest.importorskip("piper")
    from tracker.mouth.sentences import speakable

    plain = voice_for(Manner(engine="natural"))
    assert (
        voice_for(Manner(engine="natural", speed_wpm=110)).make(WINDOW).seconds
        > 1.25 * plain.make(WINDOW).seconds
    )
    soft = voice_for(Manner(engine="natural", volume=30)).make(WINDOW)
    assert np.abs(heard(soft.pcm)).max() < 0.6 * np.abs(heard(plain.make(WINDOW).pcm)).max()
    bracketed = plain.make(speakable("[[double crochet, chain one]] twice"))
    assert bracketed.seconds > 1.2


def test_speech_begins_with_its_first_sample() -> None:
    """No voice adds a silence that would be felt as slowness."""
    for engine in ("espeak",):
        samples = np.abs(heard(voice_for(Manner(engine=engine)).make("Second.").pcm))
        assert np.flatnonzero(samples > 60)[0] < 0.01 * 22_050


def test_a_voice_that_does_not_exist_is_one_sentence_and_the_plain_one_speaks(card: SoundCard) -> None:
    """A typing slip in the settings silences nobody."""
    sitting = Sitting(Manner(accent="en-uk"))
    sitting.mouth.say("Second.")
    sitting.until_quiet()
    sitting.mouth.close()
    assert sitting.ended == ["Second."]
    assert len(sitting.told) == 1
    assert "en-uk" in sitting.told[0]
    assert "en-gb" in sitting.told[0]


def test_a_speaker_that_does_not_exist_is_one_sentence_and_the_usual_one_speaks(card: SoundCard) -> None:
    """The headphones of yesterday are not plugged in."""
    sitting = Sitting(Manner(device="Headphones of yesterday"))
    with card.listening() as recording:
        sitting.mouth.say("Second.")
        sitting.mouth.say("Third.", after=True)
        sitting.until_quiet()
    sitting.mouth.close()
    assert sitting.ended == ["Second.", "Third."]
    assert sitting.told == [
        "No speaker is called “Headphones of yesterday”; the system's own choice speaks instead."
    ]
    assert loud_seconds(heard(recording.pcm)) > 0.5


SPEAKS = """
import sys, time
from tracker.mouth.port import Listeners, Manner
from tracker.mouth.speaker import Speaker
mouth = Speaker(Manner(), Listeners(lambda u: print("start", u.text), lambda u: print("end", u.text), print))
for text in ("Second.", "Third."):
    mouth.say(text, after=True)
while mouth.busy:
    time.sleep(0.01)
mouth.say("Fourth.")
while mouth.busy:
    time.sleep(0.01)
mouth.close()
"""


def spoken_elsewhere(env: dict[str, str], *, path: Path | None = None) -> tuple[str, str]:
    """What a process of its own prints and complains of, when it says three sentences in this environment."""
    search = os.pathsep.join(str(each) for each in (path, ROOT) if each)
    run = subprocess.run(
        [sys.executable, "-c", SPEAKS],
        env=env | {"PYTHONPATH": search},
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    return run.stdout, run.stderr


ALL_THREE = "".join(f"start {word}\nend {word}\n" for word in ("Second.", "Third.", "Fourth."))


def test_a_sitting_in_a_process_of_its_own_leaves_the_terminal_alone(card: SoundCard) -> None:
    """Silences between sentences, and the end of the program, write nothing over a screen."""
    assert spoken_elsewhere(card.env) == (ALL_THREE, "")


def no_sound_anywhere(tmp_path: Path) -> dict[str, str]:
    """An environment in which ALSA has no card and no sound server is found."""
    nothing = "{ type hw\n card 99 }\n"
    (tmp_path / "asound.conf").write_text(f"pcm.!default {nothing}ctl.!default {nothing}")
    return os.environ | {
        "ALSA_CONFIG_PATH": str(tmp_path / "asound.conf"),
        "PULSE_SERVER": f"unix:{tmp_path}/nobody",
        "XDG_RUNTIME_DIR": str(tmp_path),
    }


def test_a_machine_without_a_speaker_is_told_once(tmp_path: Path) -> None:
    """One sentence, no traceback, and nothing from the libraries below."""
    said, complained = spoken_elsewhere(no_sound_anywhere(tmp_path))
    assert said == "No speaker was found. I go on silently.\n"
    assert complained == ""


def test_a_machine_without_portaudio_is_told_once(tmp_path: Path) -> None:
    """The import of sounddevice fails with an OSError then, as it does here."""
    (tmp_path / "sounddevice.py").write_text("raise OSError('PortAudio library not found')\n")
    said, complained = spoken_elsewhere(dict(os.environ), path=tmp_path)
    assert said.startswith("No sound: the PortAudio library is missing")
    assert said.count("\n") == 1
    assert complained == ""


def test_a_machine_without_a_voice_is_told_once(card: SoundCard, tmp_path: Path) -> None:
    """Neither the wheel's library nor the system's: one sentence."""
    (tmp_path / "espeakng_loader.py").write_text("raise ImportError('no such wheel')\n")
    (tmp_path / "sitecustomize.py").write_text(
        "import ctypes.util\nfind = ctypes.util.find_library\n"
        "ctypes.util.find_library = lambda name: None if 'espeak' in name else find(name)\n"
    )
    said, complained = spoken_elsewhere(card.env, path=tmp_path)
    assert said == f"{MISSING}\n"
    assert complained == ""


def test_a_deep_folder_still_has_a_voice(card: SoundCard, tmp_path: Path) -> None:
    """Espeak-ng keeps its data folder's name in 160 bytes; a home folder may be longer."""
    import espeakng_loader

    deep = tmp_path.joinpath(*("a folder with a long name" for _ in range(8)))
    deep.mkdir(parents=True)
    (deep / "espeakng_loader").symlink_to(Path(espeakng_loader.__file__).parent, target_is_directory=True)
    assert spoken_elsewhere(card.env, path=deep) == (ALL_THREE, "")


def test_a_sound_server_that_dies_within_a_sentence_is_told_once() -> None:
    """The plug is pulled: the sentence ends for the ear, the maker is told, the program goes on."""
    with virtual_sound() as card:
        speaks = SPEAKS.replace('print("start", u.text)', "(print('start', flush=True), sys.stdin.read())")
        process = subprocess.Popen(
            [sys.executable, "-c", speaks],
            env=card.env | {"PYTHONPATH": str(ROOT)},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stdout.readline() == "start\n"
        card.server.kill()
        card.server.wait()
        said, _ = process.communicate("", timeout=60)
    assert said == "end Second.\nThe speaker went away. I go on silently, and try it again now and then.\n"
    assert process.returncode == 0
