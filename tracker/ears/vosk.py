"""The vosk engine, for a maker who has a model: phrases from the table, with decoys for what sounds like
them.

In: the table of sayings, a model's folder (or one found in the usual places), how numbers are said in its
language. Out: Heard and PassedOver. Decides on a partial result that has stopped changing once the energy
has dropped, which is some 0.7 s earlier than vosk's own final result; `final=True` waits for that one.
Raises EarMissing with one sentence when vosk or a model is missing.
"""

from __future__ import annotations

import importlib.util
import json
import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

from tracker.ears.hearing.sound.endpoint import Endpointer, Segment
from tracker.ears.hearing.words import number_words
from tracker.ears.port import RATE, Awaiting, Cost, EarMissing, Heard, PassedOver, Report, Saying

WAIT_MS = 350
"""How long after the energy has dropped a partial is waited for."""
STABLE_MS = 112
"""How long a partial must have stayed the same."""
DECOYS_EN = (
    "text", "nest", "neck", "mixed", "bag", "black", "pack", "bank", "against", "begin", "game", "paws",
    "four", "because", "lesson", "list", "shop", "step", "top", "stock", "under", "onto", "and", "yet",
    "yarn", "guess", "this", "now", "go", "know", "not", "held", "hope", "where", "how", "many", "left",
    "road", "roll", "the", "a", "to", "it", "is", "in", "that", "you", "of", "chain", "double",
    "single", "crochet", "stitch",
)  # fmt: skip
"""Common or like-sounding words: what is taken for one of these is no command."""


def find_model(folder: Path | None = None) -> Path:
    """A model's folder: the one named, or one in the places where models are usually put."""
    if folder is not None:
        if (folder / "am").is_dir() or (folder / "conf").is_dir():
            return folder
        raise EarMissing(f"{folder} holds no vosk model (a model is a folder with am and conf in it).")
    named = os.environ.get("VOSK_MODEL_PATH")
    places = [Path(named)] if named else []
    for parent in (
        Path.home() / ".cache" / "vosk",
        Path.home() / ".local" / "share" / "vosk",
        Path("/usr/local/share/vosk-models"),
        Path("/usr/share/vosk-models"),
    ):
        places += [parent, *sorted(parent.glob("vosk-model*en*")), *sorted(parent.glob("vosk-model*"))]
    for place in places:
        if (place / "am").is_dir() or (place / "conf").is_dir():
            return place
    raise EarMissing(
        "No vosk model was found; put one into ~/.cache/vosk, or use the built-in ear, which needs none."
    )


class VoskEar:
    def __init__(
        self, sayings: tuple[Saying, ...], *, model: Path | None = None, decoys: tuple[str, ...] = DECOYS_EN,
        say_number: Callable[[int], str] | None = number_words, highest: int = 199, final: bool = False,
    ) -> None:  # fmt: skip
        if importlib.util.find_spec("vosk") is None:
            raise EarMissing("The vosk ear needs the package vosk, which is not installed: pip install vosk.")
        import vosk

        folder = find_model(model)
        vosk.SetLogLevel(-1)
        self._costs = {s.deed: s.cost for s in sayings} | {"number": Cost.ASKED}
        self._phrases: dict[str, tuple[str, int | None]] = {}
        for saying in (*sayings, Saying("number", ("{n}",), Cost.ASKED)):
            for phrase in saying.phrases:
                if "{n}" not in phrase:
                    self._phrases[phrase] = (saying.deed, None)
                elif say_number:
                    for n in range(1, highest + 1):
                        self._phrases[phrase.replace("{n}", say_number(n))] = (saying.deed, n)
        self._final = final
        listed = [*self._phrases, *(d for d in decoys if d not in self._phrases), "[unk]"]
        self._listed = listed
        self._also: tuple[Saying, ...] = ()
        self._table = dict(self._phrases)
        try:
            self._recognizer: Any = vosk.KaldiRecognizer(
                vosk.Model(str(folder)), RATE, json.dumps(listed, ensure_ascii=False)
            )
        except Exception as error:  # vosk raises a bare Exception for a model it cannot read
            raise EarMissing(f"The vosk model in {folder} cannot be read ({error}).") from None
        self._awaiting = Awaiting.COMMAND
        self.begin()

    def begin(self) -> None:
        self._recognizer.Reset()
        self._endpointer = Endpointer(hang_ms=200)
        self._open: Segment | None = None
        self._partial = ""
        self._since_ms = 0
        self._deaf_until = 0

    def await_(self, what: Awaiting, also: tuple[Saying, ...] = ()) -> None:
        self._awaiting = what
        if also == self._also:
            return
        self._also = also
        more: dict[str, tuple[str, int | None]] = {}
        for saying in also:
            more.update(dict.fromkeys(saying.phrases, (saying.deed, None)))
        self._phrases = {**more, **self._table}
        self._costs.update({saying.deed: saying.cost for saying in also})
        listed = [*self._listed, *(phrase for phrase in more if phrase not in self._table)]
        self._recognizer.SetGrammar(json.dumps(listed, ensure_ascii=False))

    def taken_back(self, deed: str = "") -> None:
        """Nothing is learnt here, so there is nothing to forget."""

    def deaf(self, until_ms: int) -> None:
        self._deaf_until = max(self._deaf_until, until_ms)

    def feed(self, block: bytes) -> list[Report]:
        began = time.perf_counter()
        reports: list[Report] = []
        samples = np.frombuffer(block, dtype="<i2").astype(np.float32) / np.float32(32768)
        ended = self._recognizer.AcceptWaveform(block)
        for segment in self._endpointer.feed(samples):
            self._open = segment
        fed = self._endpointer.fed_ms
        if self._final:
            if ended:
                reports += self._decide(json.loads(self._recognizer.Result()).get("text", ""), fed, began)
            return reports
        partial = json.loads(self._recognizer.PartialResult()).get("partial", "")
        if ended:
            partial = json.loads(self._recognizer.Result()).get("text", "") or self._partial
        if partial != self._partial:
            self._partial, self._since_ms = partial, fed
        if self._open and self._endpointer.speaking_since_ms is None:
            stable = bool(self._partial) and fed - self._since_ms >= STABLE_MS
            if stable or fed - self._open.decided_ms >= WAIT_MS:
                reports += self._decide(self._partial, fed, began)
                self._recognizer.Reset()
        return reports

    def finish(self) -> list[Report]:
        for segment in self._endpointer.finish():
            self._open = segment
        text = json.loads(self._recognizer.FinalResult()).get("text", "")
        reports = (
            self._decide(text or self._partial, self._endpointer.fed_ms, time.perf_counter())
            if self._open
            else []
        )
        self._recognizer.Reset()
        return reports

    def _decide(self, text: str, fed_ms: int, began: float) -> list[Report]:
        segment, self._open, self._partial = self._open, None, ""
        if segment is None:
            return []
        if segment.start_ms < self._deaf_until:
            return [PassedOver(segment.start_ms, segment.end_ms, "the tool was speaking")]
        if segment.too_long:
            return [PassedOver(segment.start_ms, segment.end_ms, "talk, not a command")]
        deed, number = self._phrases.get(text, (None, None))
        if deed is None or (deed == "number" and self._awaiting is not Awaiting.NUMBER):
            return [PassedOver(segment.start_ms, segment.end_ms, "not a command")]
        ask = self._costs[deed] is Cost.ASKED
        cost_ms = round((time.perf_counter() - began) * 1000)
        return [Heard(deed, text, 0.9, segment.start_ms, segment.end_ms, fed_ms, cost_ms, number, ask)]
