"""The ear's figures in one table, beside what is wanted of it and beside vosk's final results where it could be asked.

Comes in: Measures. Goes out: lines. What was not measured says so.
"""

from __future__ import annotations

import statistics
from dataclasses import dataclass, field

from tracker.bench.hearing import Heardness, Tally
from tracker.bench.soak import Soaked

OURS, TAUGHT_OWN = "ours", "with three own recordings"
NONE = "not measured"


@dataclass(slots=True)
class Measures:
    """All that a run measured."""

    word_to_step_ms: float | None = None
    more_mb: float = 0.0
    heard: Heardness = field(default_factory=dict)
    own: Heardness = field(default_factory=dict)
    running: dict[str, Tally] = field(default_factory=dict)
    soaked: Soaked | None = None


def ear_table(m: Measures) -> list[str]:
    """A line for each measure: what it is, ours, vosk's, what is wanted."""
    vosk = next((name for name in m.heard if name != OURS), "")
    rows = [("measure", "ours", "vosk, final" if vosk else "", "wanted")]
    for role, wanted in (
        ("taught", ("90 %, wrong 1", "90 %, wrong 1", "60 %, wrong 1")),
        ("plain", ("", "", "")),
    ):
        for condition, want in zip(("clean", "pink", "babble"), wanted, strict=True):
            rows.append(
                (
                    f"{role} words kept, {condition if condition == 'clean' else f'10 dB {condition}'}",
                    _kept(m.heard, OURS, condition, role),
                    _kept(m.heard, vosk, condition, role) if vosk else "",
                    want,
                )
            )
    for condition, want in (("clean", "99 %"), ("pink", "96 %"), ("babble", "88 %")):
        rows.append(
            (f"three own recordings, {condition}", _kept(m.own, TAUGHT_OWN, condition, "taught"), "", want)
        )
    rows += [(f"false deeds in {role}", _false(tally), "", "0") for role, tally in m.running.items()]
    alone = "single words alone, false deeds an hour"
    rows.append((alone, _an_hour(m.heard, OURS), _an_hour(m.heard, vosk) if vosk else "", "4"))
    decided = "word end to decision, median / 95th"
    rows.append((decided, _waits(m.heard, OURS), _waits(m.heard, vosk) if vosk else "", "220 / 260 ms"))
    step = NONE if m.word_to_step_ms is None else f"{m.word_to_step_ms:.0f} ms"
    rows.append(("microphone to step on the screen, live, median", step, "", "300 ms"))
    if m.soaked:
        share = f"{100 * m.soaked.core_share:.1f} % / {m.more_mb:.0f} MB"
        rows.append(("listening: share of one core / memory", share, "", "3 % / 120 MB"))
        told = f"{m.soaked.lost_blocks} blocks lost, {m.soaked.drift_ms} ms off, {m.soaked.grown_mb:+.1f} MB"
        rows.append((f"{m.soaked.minutes} min of mixed sound", told, "", "none"))
    widths = [max(len(row[i]) for row in rows) for i in range(4)]
    return [
        "  ".join(f"{cell:{width}}" for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    ]


def _tally(found: Heardness, engine: str, condition: str, role: str) -> Tally | None:
    return found.get(engine, {}).get(condition, {}).get(role)


def _kept(found: Heardness, engine: str, condition: str, role: str) -> str:
    t = _tally(found, engine, condition, role)
    if t is None or not t.said:
        return NONE
    return f"{100 * t.right / t.said:.1f} %, wrong {100 * t.wrong / t.said:.1f} of {t.said}"


def _false(t: Tally) -> str:
    return f"{t.wrong} in {t.seconds / 3600:.2f} h"


def _an_hour(found: Heardness, engine: str) -> str:
    t = _tally(found, engine, "clean", "alone")
    return (
        NONE
        if t is None or not t.seconds
        else f"{3600 * t.wrong / t.seconds:.1f} in {t.seconds / 3600:.2f} h"
    )


def _waits(found: Heardness, engine: str) -> str:
    waits = sorted(w for t in found.get(engine, {}).get("clean", {}).values() for w in t.waits_ms)
    if not waits:
        return NONE
    return f"{statistics.median(waits):.0f} / {waits[min(len(waits) - 1, int(len(waits) * 0.95))]:.0f} ms"
