"""How well voices are heard that a head never met: each family of voices held out in turn, and whole
sources of real speech.

In: examples by family, real speech. Out, printed: for each held-out family, commands kept and wrong at the
threshold where two in a thousand stretches of unseen real speech would be taken for a command, clean and
noisy copies apart; numbers right; words that are no command and were taken for one.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import numpy as np

from tracker.ears.hearing.head import Head
from tracker.ears.hearing.judge import Judge, Verdict
from tracker.ears.hearing.words import ONES, SLOTTED, TENS, classes, number_words, units
from tracker.ears.phrases_en import ENGLISH
from tracker.ears.port import Awaiting
from tracker.ears.train import learn
from tracker.ears.train.features import Example
from tracker.ears.train.saying.texts import OTHER

FIGURES = (*ONES, *TENS, "hundred", "zero")
FRAME_MS = 80
SPARE_MS = 55
"""What the cut adds to an utterance beyond its frames."""
FOLDS = (("flite",), ("piper",), ("kokoro",), ("espeak",))
SEEN_SOURCES = ("real/orders", "real/athena")
"""Real speech that the folds' heads learn rejection from; the other sources are only measured."""


def folds(
    by_family: dict[str, list[Example]],
    people: list[Example],
    weight_of: Callable[[Example], float],
    folder: Path,
) -> None:
    """Prints a line for each fold and condition; about two minutes a fold."""
    for held in FOLDS:
        away = [e for family in held for e in by_family.get(family, [])]
        kept = [e for family, examples in by_family.items() if family not in held for e in examples]
        if not away or not kept:
            continue
        known = [e for e in people if e.voice in SEEN_SOURCES]
        examples = [e for e in kept + known if len(e.embeddings) > 1]
        weights = learn.train(examples, weight_of)
        path = folder / f"head_without_{held[0]}.npz"
        learn.save([weights], learn.usual_of(examples), path)
        with np.load(path) as f:
            head = Head({name: f[name] for name in f.files})
        strangers = [e for e in people if e.voice not in SEEN_SOURCES]
        sys.stdout.write(f"held out: {', '.join(held)}; speech not learnt from: {len(strangers)} stretches\n")
        for line in measured(head, away, strangers):
            sys.stdout.write(f"  {line}\n")


def measured(head: Head, away: list[Example], strangers: list[Example]) -> list[str]:
    judge = Judge(ENGLISH)
    deed_of = {p: s.deed for s in ENGLISH for p in s.phrases}
    scores = sorted(
        (_verdict(head, judge, e).score for e in strangers if len(e.embeddings) > 1), reverse=True
    )
    needed = scores[len(scores) * 2 // 1000] if scores else 0.0
    lines = [f"score needed for two false in a thousand stretches: {needed:+.2f} (shipped: 0)"]
    for noisy in (False, True):
        tally: Counter[str] = Counter()
        numbers: Counter[str] = Counter()
        picked = random.Random(1).sample(away, min(len(away), 3000))
        for e in picked:
            name = classes()[e.label]
            if e.noisy != noisy or len(e.embeddings) < 2:
                continue
            if name in deed_of:
                verdict = _verdict(head, judge, e)
                for at, threshold in (("", needed), (" at 0", 0.0)):
                    tally["said" + at] += 1
                    if verdict.deed and verdict.score > threshold:
                        tally[("kept" if verdict.deed == deed_of[name] else "wrong") + at] += 1
            elif name in SLOTTED:
                verdict = _verdict(head, judge, e)
                numbers["said"] += 1
                if verdict.deed:
                    numbers["right" if _same(verdict.number, e) else "wrong"] += 1
            elif name == OTHER:
                verdict = _verdict(head, judge, e)
                tally["others"] += 1
                tally["taken"] += bool(verdict.deed) and verdict.score > 0
        share = {k: f"{100 * n / max(1, tally['said']):.1f} %" for k, n in tally.items()}
        lines.append(
            f"{'noise 4-18 dB' if noisy else 'clean to 18 dB'}: of {tally['said']} commands "
            f"kept {share.get('kept', 0)}, wrong {share.get('wrong', 0)}; at the shipped threshold "
            f"kept {share.get('kept at 0', 0)}, wrong {share.get('wrong at 0', 0)}; "
            f"numbers right {numbers['right']}, wrong {numbers['wrong']} of {numbers['said']}; "
            f"of {tally['others']} other words and stretches {tally['taken']} taken for a command"
        )
    return lines


def _same(number: int | None, e: Example) -> bool:
    """Whether that number was said: its words are all the number words of the spelling."""
    said = [units()[u] for u in e.spelling or ()]
    return number is not None and [w for w in said if w in FIGURES] == number_words(number).split()


def _verdict(head: Head, judge: Judge, e: Example) -> Verdict:
    awaiting = Awaiting.NUMBER if classes()[e.label] == "number" else Awaiting.COMMAND
    return judge(
        head(e.embeddings.astype(np.float32)), len(e.embeddings) * FRAME_MS - SPARE_MS, awaiting, -99.0
    )
