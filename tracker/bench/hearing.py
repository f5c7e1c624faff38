"""How well, how soon and at what cost the ear hears: `python -m tracker.bench.hearing [--data FOLDER]`.

Comes in: with --data, a folder with manifest.csv (file, role, text, deed, number, speaker) and 16 kHz WAVs;
without, words said as this runs by the installed voices, those the ear was never trained on first. Goes out:
a table, one measure a line, ours and beside it vosk's final results where a vosk model of that language is on
this machine. Every choice is seeded; nothing is learnt from one file to the next.
"""

from __future__ import annotations

import argparse
import csv
import statistics
import sys
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from tracker.bench.soak import memory_mb
from tracker.ears.embedded import EmbeddedEar
from tracker.ears.feeds.files import read_recording
from tracker.ears.phrases_en import ENGLISH, TAUGHT
from tracker.ears.port import RATE, Awaiting, Ear, EarMissing, Heard, Learnt, Settled
from tracker.output import say

Samples = NDArray[np.float32]
Say = Callable[[str], None]
SNR_DB = 10.0
CONDITIONS = ("clean", "pink", "babble")
BLOCK = 512
"""Samples a block, 32 ms."""
TALK = (
    "Row four. Chain three, double crochet in each of the next two stitches, then turn.",
    "You go under two loops, yarn over, pull through, and there you are.",
    "In this lesson we are going to work into the back loop only, once more around.",
    "When you get to the end of the row, stop, count your stitches and turn your work.",
    "No, I said the next one, not the one before; go back and look again.",
)
COUNTING = ("one, two, three, four, five, six, seven, eight, nine, ten", "two, four, six, eight, ten, twelve")
ALONE = (
    "done", "oops", "okay", "right", "come on", "last one", "four", "six", "seven", "top", "hook", "loop", "skip",
    "window", "turn", "chain", "double", "second", "pull through", "there", "back loop", "in the next", "corner",
)  # fmt: skip
NO_COMMAND = ("talk", "running speech", "crochet talk", "counting", "alone")
"""Roles in which whatever is heard is false."""
TAKES, OTHER_TAKES = (0.88, 1.0, 1.14), (0.82, 0.94, 1.07, 1.2)
"""How fast the recordings taught are said, and those that are measured."""
NUMBERS = ("row seven", "row twelve", "go to row twenty three", "i have nine stitches", "round nineteen")
BARE = ("zero", "three", "seven", "fourteen", "forty", "twenty three", "ninety nine")


@dataclass(frozen=True, slots=True)
class Case:
    """One recording and what is to be made of it."""

    role: str
    """taught, plain, number, bare, talk, counting or alone."""
    sound: Samples
    deed: str = ""
    number: int | None = None

    @property
    def awaiting(self) -> Awaiting:
        return Awaiting.NUMBER if self.role == "bare" else Awaiting.COMMAND


@dataclass(slots=True)
class Tally:
    """What became of all cases of a role in a condition."""

    said: int = 0
    right: int = 0
    wrong: int = 0
    seconds: float = 0.0
    waits_ms: list[float] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        self.said += other.said
        self.right += other.right
        self.wrong += other.wrong
        self.seconds += other.seconds
        self.waits_ms += other.waits_ms


Heardness = dict[str, dict[str, dict[str, Tally]]]
"""By engine, condition and role."""


def main() -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tracker.bench.hearing", description=__doc__)
    parser.add_argument("--data", type=Path)
    o = parser.parse_args()
    hearing(say, o.data)
    own_voice(say)
    return 0


def hearing(say: Say, data: Path | None = None) -> Heardness:
    """Measure, say what came of it, and give it by engine and condition; nothing where no voice is installed."""
    cases, voices = (list(of_manifest(data)), f"the recordings in {data.name}") if data else spoken_cases()
    if not cases:
        say("hearing: not measured, for no voice is installed (pip install espeakng-loader)")
        return {}
    say(f"hearing, on {voices}; {len(cases)} recordings")
    ears: list[tuple[str, Ear]] = [("ours", EmbeddedEar(ENGLISH))]
    if vosk := _vosk():
        ears.append(("vosk, final results", vosk))
    else:
        say("  vosk's final results: not measured, for no English vosk model is on this machine")
    return {name: _in_each(say, name, ear, cases) for name, ear in ears}


def _in_each(say: Say, name: str, ear: Ear, cases: list[Case]) -> dict[str, dict[str, Tally]]:
    """The tallies of each condition, told as they come."""
    beds, found = _beds(cases), {}
    for condition in CONDITIONS:
        found[condition] = measured(ear, cases, beds[condition])
        for line in table(found[condition]):
            say(f"  {name}, {condition}: {line}")
    return found


def own_voice(say: Say) -> Heardness:
    """With three recordings of each taught phrase by voices never trained on, one ear for each: those voices in other
    takes, and what becomes of words that are no command."""
    from tracker.ears.train import voices

    families = [f for f in voices.KEPT_APART if voices.speak("next", voices.settings_of(f)[0]) is not None]
    if not families:
        say(
            "three own recordings: not measured, for no voice kept apart is installed (pip install hibari-tts)"
        )
        return {}
    together: Heardness = {}
    for family in families:
        for voice in _speakers(family):
            for name, found in _one_voice(say, family, voice).items():
                for condition, tallies in found.items():
                    into = together.setdefault(name, {}).setdefault(condition, {})
                    for role, tally in tallies.items():
                        into.setdefault(role, Tally()).add(tally)
    return together


def _speakers(family: str) -> list[str]:
    """One voice of a family, or one in each of its accents."""
    from tracker.ears.train import voices

    return list({s.voice.split("/")[0]: s.voice for s in voices.settings_of(family)}.values())


def _one_voice(say: Say, family: str, voice: str) -> Heardness:
    from tracker.ears.train import voices

    def said(words: str, speed: float) -> Samples:
        sound = voices.speak(words, voices.Setting(family, voice, speed))
        return np.zeros(RATE, np.float32) if sound is None else sound

    recordings = [(phrase, said(phrase, speed)) for phrase in TAUGHT.values() for speed in TAKES]
    cases = [
        Case("taught", said(phrase, speed), deed) for deed, phrase in TAUGHT.items() for speed in OTHER_TAKES
    ]
    cases += [Case("alone", said(words, speed)) for words in ALONE for speed in OTHER_TAKES]
    ears = [("as it ships", EmbeddedEar(ENGLISH)), ("with three own recordings", EmbeddedEar(ENGLISH))]
    ears[1][1].teach(recordings)
    right, many = (sum(n) for n in zip(*ears[1][1].agreement().values(), strict=True))
    told = f"each left out in turn, {right} of {many} are heard right"
    say(f"three own recordings of {len(TAUGHT)} phrases, {family} {voice}: {told}")
    return {name: _in_each(say, name, ear, cases) for name, ear in ears}


def measured(ear: Ear, cases: Iterable[Case], bed: Samples | None) -> dict[str, Tally]:
    """What one ear makes of all cases with that noise over them."""
    tallies: dict[str, Tally] = {}
    for i, case in enumerate(cases):
        sound, end_ms = placed(case.sound, bed, i)
        tally = tallies.setdefault(case.role, Tally())
        tally.said += 1
        tally.seconds += len(sound) / RATE
        found = heard(ear, sound, case.awaiting)
        if [(h.deed, h.number) for h in found] == ([(case.deed, case.number)] if case.deed else []):
            tally.right += 1
            tally.waits_ms += [h.decided_ms + h.compute_ms - end_ms for h in found]
        else:
            tally.wrong += len(found)
    return tallies


def table(tallies: dict[str, Tally]) -> list[str]:
    """One line a role."""
    out = []
    for role, t in tallies.items():
        if role in NO_COMMAND:
            an_hour = 3600 * t.wrong / t.seconds
            out.append(f"{role}: {t.wrong} false deeds in {t.seconds / 3600:.2f} h, {an_hour:.1f} an hour")
            continue
        line = (
            f"{role}: kept {100 * t.right / t.said:.1f} %, wrong {100 * t.wrong / t.said:.1f} % of {t.said}"
        )
        if t.waits_ms:
            late = sorted(t.waits_ms)[min(len(t.waits_ms) - 1, int(len(t.waits_ms) * 0.95))]
            line += (
                f"; word end to decision median {statistics.median(t.waits_ms):.0f} ms, 95th {late:.0f} ms"
            )
        out.append(line)
    return out


def heard(ear: Ear, sound: Samples, awaiting: Awaiting) -> list[Heard]:
    """The commands that stood."""
    if isinstance(ear, EmbeddedEar):
        ear.recall(Learnt())
    ear.begin()
    ear.await_(awaiting)
    data = (np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes()
    reports = [r for i in range(0, len(data), 2 * BLOCK) for r in ear.feed(data[i : i + 2 * BLOCK])]
    reports += ear.finish()
    stood: list[Heard] = []
    for r in reports:
        if isinstance(r, Heard):
            stood.append(r)
        elif isinstance(r, Settled) and not r.stands:  # what goes on from it may begin where it began
            stood = [h for h in stood if h.start_ms != r.start_ms]
    return stood


def placed(clip: Samples, bed: Samples | None, seed: int) -> tuple[Samples, int]:
    """The clip between half a second of the room and one and a half, and where its last loud frame ends."""
    rng = np.random.default_rng(seed)
    sound = clip * (0.25 / max(1e-6, float(np.abs(clip).max())))
    frames = sound[: len(sound) // 320 * 320].reshape(-1, 320)
    power = (frames**2).mean(axis=1)
    end_ms = 500 + int(np.flatnonzero(power > power.max() * 1e-3)[-1] + 1) * 20
    out = np.concatenate([np.zeros(RATE // 2, np.float32), sound, np.zeros(RATE * 3 // 2, np.float32)])
    loud = sound[np.abs(sound) > 0.0125]
    level = float(np.sqrt((loud**2).mean())) if len(loud) else 0.1
    noise = (
        rng.normal(0, 1, len(out))
        if bed is None
        else np.resize(np.roll(bed, -int(rng.integers(len(bed)))), len(out))
    )
    strength = 4e-4 if bed is None else level * 10 ** (-SNR_DB / 20)
    return (out + noise * (strength / np.sqrt((noise**2).mean()))).astype(np.float32), end_ms


def spoken_cases() -> tuple[list[Case], str]:
    """Words said now by the installed voices, and how those are called."""
    from tracker.ears.train import voices

    known = [f for f in voices.KEPT_APART if voices.speak("next", voices.settings_of(f)[0]) is not None]
    settings = [s for f in known for s in voices.settings_of(f)]
    called = f"voices it was never trained on ({', '.join(known)})" if known else "voices it was trained on"
    if not known:
        picked = ("en-us+m3", "en-gb-x-rp+f3", "en-gb-scotland")
        settings = [voices.Setting("espeak", voice, 0.9, 48) for voice in picked]
    shown = set(TAUGHT.values())
    said: list[tuple[str, str, str, int | None]] = []
    for saying in ENGLISH:
        for phrase in saying.phrases:
            if "{n}" not in phrase:
                said.append(("taught" if phrase in shown else "plain", phrase, saying.deed, None))
    said += [("number", words, *_number(words)) for words in NUMBERS]
    said += [("bare", words, *_number(words)) for words in BARE]
    for role, texts in (("talk", TALK), ("counting", COUNTING), ("alone", ALONE)):
        said += [(role, words, "", None) for words in texts]
    cases = []
    for role, words, deed, number in said:
        for setting in settings:
            sound = voices.speak(words, setting)
            if sound is not None:
                cases.append(Case(role, sound, deed, number))
    return cases, called


def _number(words: str) -> tuple[str, int | None]:
    from tracker.ears.hearing.judge import Judge

    return Judge(ENGLISH).meaning(words) or ("", None)


_ROLES = {"number": "bare", "crochet-talk": "talk", "negative": "talk", "crochet-count": "counting"}


def of_manifest(folder: Path) -> Iterable[Case]:
    """The cases of a folder of recordings."""
    shown = set(TAUGHT.values())
    with (folder / "manifest.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["role"] in ("noise", ""):
                continue
            role = _ROLES.get(row["role"], "alone" if row["role"] == "crochet-alone" else "plain")
            if role == "plain":
                role = "number" if row["number"] else "taught" if row["text"] in shown else "plain"
            sound = np.frombuffer(read_recording(folder / row["file"]), "<i2").astype(
                np.float32
            ) / np.float32(32768)
            yield Case(role, sound, row["deed"], int(row["number"]) if row["number"] else None)


def _beds(cases: list[Case]) -> dict[str, Samples | None]:
    """The noises: none, pink, and ten of the recordings talking at once."""
    from tracker.ears.train import augment

    rng = np.random.default_rng(31)
    talkers = [case.sound for case in cases if case.role != "bare"]
    return {
        "clean": None,
        "pink": augment.colour(rng, RATE * 20, 1.0),
        "babble": augment.make_beds(rng, talkers, []).babble[4],
    }


def _vosk() -> Ear | None:
    from tracker.ears.vosk import VoskEar, find_model

    try:
        model = find_model()
        return VoskEar(ENGLISH, model=model, final=True) if "-en" in model.name else None
    except EarMissing:
        return None


def cost(say: Say) -> float:
    """What listening costs beside a bare screen: memory, which is also given, in MB, and how soon it is ready."""
    import textual.app  # noqa: F401  # what a bare screen holds already

    before = memory_mb()
    began = time.perf_counter()
    EmbeddedEar(ENGLISH)
    took_ms = (time.perf_counter() - began) * 1000
    more_mb = memory_mb() - before
    say(f"listening: {more_mb:.0f} MB over a bare screen, ready in {took_ms:.0f} ms")
    return more_mb


if __name__ == "__main__":
    sys.exit(main())
