"""`python -m tracker.bench [--fast] [--ear] [--data FOLDER] [--hours H]`: reading beside a bare lark grammar, a check
as a whole process, first frame and key to repaint beside a bare Textual app, from the end of a word to the step, from
the step to speech, and how well the ear hears.

Goes out: one line a figure, with medians, on standard output, and at the end the figures of the ear in one table. What
cannot be measured here says why.
"""

import argparse
import json
import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

from tracker.bench.ear.running import running
from tracker.bench.ear.table import Measures, ear_table
from tracker.bench.ear.vosk_ways import vosk_ways
from tracker.bench.hearing import cost, hearing, own_voice
from tracker.bench.mouth import step_to_speech
from tracker.bench.reading import reading
from tracker.bench.soak import MINUTES, soak
from tracker.bench.sound import word_to_step
from tracker.bench.terminal import Timed, program
from tracker.output import say
from tracker.samples import samples

LONG_ROWS = 5_000


def main() -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tracker.bench", description=__doc__)
    parser.add_argument("--fast", action="store_true", help="fewer runs")
    parser.add_argument("--ear", action="store_true", help="only what concerns the ear")
    parser.add_argument("--data", type=Path, help="recordings to hear: a folder with manifest.csv")
    parser.add_argument(
        "--hours", type=float, default=3.5, help="of speech that is no command; 3.5 when not said"
    )
    o = parser.parse_args()
    fast: bool = o.fast
    if not o.ear:
        reading(say)
    with tempfile.TemporaryDirectory() as home:
        (Path(home) / "settings.json").write_text(json.dumps({"ear": "off"}))
        env = os.environ | {"ROWTELLER_HOME": home, "TERM": "xterm-256color", "COLORTERM": "truecolor"}
        env.pop("NO_COLOR", None)
        if not o.ear:
            _screen(env, Path(home), 3 if fast else 9, 40 if fast else 120)
    measures = Measures(word_to_step(say))
    step_to_speech(say)
    measures.more_mb = cost(say)
    measures.heard = hearing(say, o.data)
    measures.own = own_voice(say)
    measures.running = running(say, o.hours)
    measures.soaked = soak(say, 6 if fast else MINUTES)
    vosk_ways(say)
    for line in ear_table(measures):
        say(line)
    return 0


def _screen(env: dict[str, str], home: Path, runs: int, keys: int) -> None:
    """First frames taken in turn, so that a busy machine is as busy for one as for the other."""
    pattern = samples()["harbour-windows"]
    bare = program("tracker.bench.bare")
    ours = program("tracker", "work", str(pattern), "--quiet")
    firsts: list[list[float]] = [[], [], []]
    for _ in range(runs):
        with Timed(bare, env) as timed:
            firsts[0].append(timed.until(b"ready"))
        with Timed(ours, env) as timed:
            firsts[1].append(timed.until(b"opening"))
            firsts[2].append(timed.until(b"HARBOUR"))
    _compare("first frame", firsts[0], firsts[1], 1.5)
    say(f"first page with the place on it: {statistics.median(firsts[2]):.0f} ms")
    long = home / "long.txt"
    long.write_text(
        f"Long scarf\nCh 42.\nRow 1: Sc in 2nd ch from hook and in each ch across. (41 sc)\n"
        f"Rows 2-{LONG_ROWS}: Ch 1, turn, sc in next 20 sts, 2 sc in next st, sc2tog, sc in each st across.\n"
    )
    with (
        Timed(bare, env) as one,
        Timed(ours, env) as two,
        Timed(program("tracker", "work", str(long), "--quiet"), env) as three,
    ):
        for timed, seen in ((one, b"ready"), (two, b"HARBOUR"), (three, b"Long scarf")):
            timed.until(seen)
            timed.quiet()
        took: list[list[float]] = [[], [], []]
        for at in range(keys):
            for timed, kept in zip((one, two, three), took, strict=True):
                kept.append(timed.press(b" " if at % 8 else b"b"))
                timed.quiet()
    _compare("key to repaint", took[0], took[1], 1.3)
    say(f"of which this disk's fsync, before anything is shown: {_fsync(home):.1f} ms")
    _compare(f"key to repaint, {LONG_ROWS} rows beside 15", took[1], took[2], 1.0)


def _fsync(folder: Path) -> float:
    """Median milliseconds of an fsync of one page, which each step waits for."""
    taken = []
    with (folder / "fsync").open("wb") as file:
        for _ in range(50):
            file.write(bytes(4096))
            file.flush()
            began = time.perf_counter()
            os.fsync(file.fileno())
            taken.append((time.perf_counter() - began) * 1000)
    return statistics.median(taken)


def _compare(what: str, bare: list[float], ours: list[float], wanted: float) -> None:
    one, two = statistics.median(bare), statistics.median(ours)
    say(
        f"{what}: {two:.1f} ms beside {one:.1f} ms, {two / one:.2f} times (wanted: within {wanted}); "
        f"95th of a hundred {_high(ours):.1f} beside {_high(bare):.1f} ms; {len(ours)} runs each, in turn"
    )


def _high(taken: list[float]) -> float:
    return sorted(taken)[min(len(taken) - 1, int(len(taken) * 0.95))]


if __name__ == "__main__":
    sys.exit(main())
