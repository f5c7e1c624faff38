"""Speaking over it: a maker who does not wait is heard while it speaks, and its own voice never moves the work.

The maker's voice and ours are espeak-ng's; a room of a known answer, and the virtual sound card, stand between them.
"""

import numpy as np
from ears_spoken import spoken
from virtual_sound import RATE

from tracker.ears.embedded import EmbeddedEar
from tracker.ears.feeds.microphone import Listener
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import Heard, Report
from tracker.hands_free.speaking.echo import BLOCK, Echo
from tracker.hands_free.speaking.gate import Gate
from tracker.mouth.espeak import Espeak
from tracker.mouth.port import Manner, Utterance
from tracker.mouth.sound import Sound

SAID = (
    "Row two, wrong side. Chain three: your first double crochet.",
    "Skip the stitch it stands on.",
    "Two blocks: four double crochet.",
    "Window: chain one, skip one, one double crochet. Four of these.",
    "Last one. Then eight double crochet.",
    "Four double crochet to finish; the fourth goes in the top of the chain three.",
    "Row two: sixteen squares, eight open. Count, then turn.",
)


def numbers(pcm: bytes) -> np.ndarray:
    return np.frombuffer(pcm, "<i2").astype(np.float32) / np.float32(32768)


def room(sound: np.ndarray, delay_s: float = 0.09, loudness: float = 0.5) -> np.ndarray:
    """What a living room makes of it: a delay through the devices, and a quarter of a second of reverberation."""
    rng = np.random.default_rng(1)
    first, size = int(delay_s * RATE), int(0.25 * RATE)
    answer = np.zeros(first + size)
    answer[first] = loudness
    answer[first:] += rng.normal(0, 0.1 * loudness, size) * np.exp(-np.arange(size) / (0.06 * RATE))
    long = 1 << int(np.ceil(np.log2(len(sound) + len(answer))))
    return np.fft.irfft(np.fft.rfft(sound, long) * np.fft.rfft(answer, long), long)[: len(sound)].astype(
        np.float32
    )


class Sitting:
    """Our voice in a room, with the gate and the real ear behind the microphone; time is counted, not waited for."""

    def __init__(self, *, headphones: bool, times: int = 2) -> None:
        self.gate = Gate(headphones=headphones)
        voice = Espeak(Manner())
        ours, at = [np.zeros(RATE // 2, np.float32)], 0.5
        self.starts: list[tuple[float, Sound]] = []
        for sentence in SAID * times:
            sound = voice.make(sentence)
            quick = numbers(sound.pcm)
            heard = np.interp(np.arange(0, len(quick), sound.rate / RATE), np.arange(len(quick)), quick)
            self.starts.append((at, sound))
            ours += [heard.astype(np.float32) * 0.6, np.zeros(int(0.25 * RATE), np.float32)]
            at += len(heard) / RATE + 0.25
        played = np.concatenate(ours)
        self.heard = (np.zeros_like(played) if headphones else room(played)) + np.random.default_rng(
            2
        ).normal(0, 4e-4, len(played)).astype(np.float32)
        self.seconds = len(played) / RATE

    def says(self, words: str, at_s: float, loudness: float = 0.35) -> None:
        word = numbers(spoken(words, before_s=0, after_s=0, loudness=loudness))
        first = int(at_s * RATE)
        self.heard[first : first + len(word)] += word[: max(0, len(self.heard) - first)]

    def reports(self) -> list[Report]:
        """What comes of it all, block by block."""
        listener = Listener(EmbeddedEar(ENGLISH), lambda report: None, own_voice=self.gate)
        waiting, found = list(self.starts), []
        for at in range(0, len(self.heard) - BLOCK, BLOCK):
            while waiting and waiting[0][0] <= at / RATE:
                began, sound = waiting.pop(0)
                self.gate.begins(Utterance("", softer(sound), 100 + began))
            block = (np.clip(self.heard[at : at + BLOCK], -1, 1) * 32767).astype("<i2").tobytes()
            found += listener.hear(block, 100 + (at + BLOCK) / RATE)
        return found


def softer(sound: Sound) -> Sound:
    return Sound((numbers(sound.pcm) * 0.6 * 32767).astype("<i2").tobytes(), sound.rate)


def deeds(found: list[Report]) -> list[str]:
    return [report.deed for report in found if isinstance(report, Heard)]


def test_our_own_voice_alone_moves_nothing() -> None:
    """Forty seconds of our sentences over loudspeakers, in a room whose answer is learned as we go: no deed."""
    assert deeds(Sitting(headphones=False).reports()) == []


def test_a_maker_with_headphones_is_heard_all_the_while() -> None:
    """A word every 1.2 seconds while we speak without a pause: every one."""
    sitting = Sitting(headphones=True, times=1)
    many = int((sitting.seconds - 2) / 1.2)
    for number in range(many):
        sitting.says("move along" if number % 2 else "onward", 0.8 + 1.2 * number)
    assert deeds(sitting.reports()) == ["next"] * many


def test_a_maker_is_heard_over_the_loudspeakers_once_the_room_is_known() -> None:
    """From the second dozen seconds on, most words spoken over our sentences are heard, and no others.

    Without the gate not one of them is: our own voice and the maker's run together.
    """
    sitting = Sitting(headphones=False)
    said = [12.3 + 1.9 * number for number in range(int((sitting.seconds - 14.3) / 1.9))]
    for at in said:
        sitting.says("onward", at)
    found = deeds(sitting.reports())
    assert set(found) == {"next"}
    assert len(said) >= len(found) >= 0.7 * len(said)


def test_a_speaker_that_nobody_hears_needs_no_gate() -> None:
    """Headphones that nobody told of: the room stays quiet while we speak, so the ear opens by itself."""
    sitting = Sitting(headphones=True, times=2)
    sitting.gate = Gate(headphones=False)
    for number in range(8):
        sitting.says("move along", 10 + 2.0 * number)
    assert deeds(sitting.reports()) == ["next"] * 8


def test_the_room_is_learned_and_somebody_talking_does_not_spoil_it() -> None:
    """Our own voice is made at least fifteen decibels softer after eight seconds, and stays so after a word over it."""
    rng = np.random.default_rng(4)
    played = np.repeat(rng.normal(0, 0.1, RATE // 8 * 12), 8).astype(np.float32)[: RATE * 12]
    played *= (np.sin(np.arange(len(played)) / RATE * 6) > -0.6).astype(np.float32)
    heard = room(played)
    word = numbers(spoken("move along", before_s=0, after_s=0, loudness=0.3))
    heard[RATE * 9 : RATE * 9 + len(word)] += word
    echo = Echo()
    rest = np.concatenate(
        [
            echo.clean(heard[at : at + BLOCK], played[at : at + BLOCK])
            for at in range(0, len(heard) - BLOCK, BLOCK)
        ]
    )

    def softer_db(first_s: float, last_s: float) -> float:
        part = slice(int(first_s * RATE), int(last_s * RATE))
        return float(10 * np.log10(np.mean(heard[part] ** 2) / np.mean(rest[part] ** 2)))

    assert softer_db(8, 9) > 15
    assert softer_db(10.5, 11.5) > 15
    left = rest[RATE * 9 : RATE * 9 + len(word)]
    assert float(np.corrcoef(left[: len(word)], word)[0, 1]) > 0.9  # the word itself is left
