"""Kills a program -9 at random moments, again and again, and shows that no step it showed was lost.

    python tests/journal/killing.py
    python tests/journal/killing.py --times 500 -- rowteller work patterns/NAME.txt --plain

Comes in: `rowteller work` on a pattern of ours, or any other command that reads one deed a line, shows
what it did, answers the line "where am I" with one line that begins "place:", and begins no other line so.
Goes out: a report and exit status 0 when every
place that was shown was still there after the kill, 1 when one was lost, 2 when the command cannot be
followed.

How it knows: the command is first led through all the deeds without a kill, which gives the place after
each. Then, in a home of its own (ROWTELLER_HOME), it is killed at a random moment and started anew. The
place it comes back to must be the last one it showed, or the one after the single deed that was under way.
"""

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

WHERE = "where am I"
ANSWER = "place:"
PATTERN = Path(__file__).resolve().parents[2] / "patterns" / "harbour-windows.txt"
ROWTELLER = [sys.executable, "-m", "tracker", "work", str(PATTERN), "--plain", "--quiet"]
"""What is killed when no command is named."""


@dataclass(frozen=True, slots=True)
class Tally:
    """What the kills have shown so far."""

    kills: int = 0
    shown: int = 0
    """Deeds whose place was shown before the program was killed."""
    under_way: int = 0
    """Kills that met a deed not shown yet, but kept."""
    begun_anew: int = 0
    """How often the deeds came to their end, or a place was lost, and a new home was taken."""
    lost: tuple[str, ...] = ()
    """A sentence for each place that was shown and not found again."""


@dataclass(frozen=True, slots=True)
class Fuse:
    """When a run is killed."""

    lead: int
    """Which deed of the run is under way when the time begins to count, from 1; 0 for the program's start."""
    after_s: float


class NotFollowed(Exception):
    """The command did not answer as it should."""


class Program:
    """The command while it runs."""

    def __init__(self, command: Sequence[str], home: str) -> None:
        # A file, because nobody reads while the program runs and a pipe would fill up.
        self._faults = tempfile.TemporaryFile()  # noqa: SIM115, closed in `gone`
        self._process = subprocess.Popen(
            command,
            env={**os.environ, "ROWTELLER_HOME": home, "PYTHONUNBUFFERED": "1"},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=self._faults,
            text=True,
            encoding="utf-8",
        )

    def place_after(self, deed: str = "") -> str | None:
        """Say a deed, ask for the place, and wait for it; None when the program died over it."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        try:
            self._process.stdin.write(f"{deed}\n{WHERE}\n" if deed else f"{WHERE}\n")
            self._process.stdin.flush()
        except OSError:
            return None
        for line in self._process.stdout:
            # A line without its end was cut off by the kill: nobody has read it.
            if line.startswith(ANSWER) and line.endswith("\n"):
                return line.strip()
        return None

    def kill(self) -> None:
        """End it as a power cut would, as far as the program can tell."""
        self._process.kill()

    def gone(self) -> tuple[int, str]:
        """Wait for its end; the exit status and what it said of its faults."""
        self._process.communicate()
        with self._faults as faults:
            faults.seek(0)
            return self._process.returncode, faults.read().decode("utf-8", "replace").strip()


def places(command: Sequence[str], deeds: Sequence[str]) -> tuple[str, ...]:
    """The place before the first deed and after each, with no kill."""
    with tempfile.TemporaryDirectory() as home:
        program = Program(command, home)
        found = [program.place_after(deed) for deed in ("", *deeds)]
        program.kill()
        _, faults = program.gone()
    answered = tuple(place for place in found if place is not None)
    if len(answered) < len(found):
        raise NotFollowed(f"{' '.join(command)} answered {len(answered)} of {len(found)} questions. {faults}")
    return answered


def killed(
    command: Sequence[str],
    times: int,
    deeds: Sequence[str],
    chance: random.Random,
    tell: Callable[[Tally], None] = lambda tally: None,
) -> Tally:
    """Kill the command so many times; the deeds begin again in a new home when they come to their end."""
    known = places(command, deeds)
    tally = Tally()
    with tempfile.TemporaryDirectory() as homes:
        home, done = f"{homes}/0", 0
        start_s, deed_s = _pace(command, homes, deeds[:25])
        while tally.kills < times:
            if done >= len(deeds):
                tally = replace(tally, begun_anew=tally.begun_anew + 1)
                home, done = f"{homes}/{tally.begun_anew}", 0
            # Into the start of the program, or into one of the deeds that follow.
            lead = chance.randint(0, 12)
            after_s = chance.uniform(0, start_s if lead == 0 else 3 * deed_s)
            tally, done = _one_kill(command, home, deeds, known, done, Fuse(lead, after_s), tally)
            tell(tally)
        # The last kill too has to be come back from.
        tally, _ = _come_back(Program(command, home), known, done, tally)
    return tally


def _one_kill(
    command: Sequence[str],
    home: str,
    deeds: Sequence[str],
    known: Sequence[str],
    done: int,
    fuse: Fuse,
    tally: Tally,
) -> tuple[Tally, int]:
    program = Program(command, home)
    timer = threading.Timer(fuse.after_s, program.kill)
    try:
        if fuse.lead == 0:
            timer.start()
        first = program.place_after()
        if first is not None:
            tally, done = _settle(first, known, done, tally)
            last = min(done + fuse.lead, len(deeds))
            for deed in deeds[done:]:
                if done == last - 1:
                    timer.start()
                place = program.place_after(deed)
                if place is None:
                    break
                done += 1
                tally = replace(tally, shown=tally.shown + 1)
                if place != known[done]:
                    tally = _missed(tally, f"after deed {done}: {place!r} where {known[done]!r} was due")
                    done = len(deeds)
                    break
    finally:
        timer.cancel()
        program.kill()
    status, faults = program.gone()
    if status != -signal.SIGKILL:
        raise NotFollowed(f"The program ended by itself with status {status}. {faults}")
    return replace(tally, kills=tally.kills + 1), done


def _come_back(program: Program, known: Sequence[str], done: int, tally: Tally) -> tuple[Tally, int]:
    place = program.place_after()
    program.kill()
    _, faults = program.gone()
    if place is None:
        return _missed(tally, f"the program did not come back: {faults}"), done
    return _settle(place, known, done, tally)


def _settle(place: str, known: Sequence[str], done: int, tally: Tally) -> tuple[Tally, int]:
    """Hold the place it came back to against the two that are right; gives the deeds done so far."""
    if place == known[done]:
        return tally, done
    if done + 1 < len(known) and place == known[done + 1]:
        return replace(tally, under_way=tally.under_way + 1), done + 1
    # From here on all places would differ: the end of these deeds, and a new home for the next ones.
    return _missed(tally, f"{known[done]!r} was shown, and it came back to {place!r}"), len(known) - 1


def _missed(tally: Tally, sentence: str) -> Tally:
    return replace(tally, lost=(*tally.lost, sentence))


def _pace(command: Sequence[str], homes: str, deeds: Sequence[str]) -> tuple[float, float]:
    """How long the start and how long a deed takes here, in seconds, so that kills fall into all of both."""
    begun = time.monotonic()
    program = Program(command, f"{homes}/pace")
    program.place_after()
    ready = time.monotonic()
    for deed in deeds:
        program.place_after(deed)
    done = time.monotonic()
    program.kill()
    program.gone()
    return ready - begun, (done - ready) / max(len(deeds), 1)


def main(words: Sequence[str] | None = None) -> int:
    """Carry out one command line and return its exit status."""
    parser = argparse.ArgumentParser(
        description="Kill a program -9 at random moments and show that no step it showed was lost."
    )
    parser.add_argument("--times", type=int, default=500, help="how many kills (500)")
    parser.add_argument("--deeds", type=int, default=400, help="how many deeds before a new beginning (400)")
    parser.add_argument("--seed", type=int, default=None, help="for the same moments again")
    parser.add_argument("command", nargs="*", default=ROWTELLER, help="after --: the program and its words")
    said = parser.parse_args(words)
    seed = said.seed if said.seed is not None else random.SystemRandom().randrange(1 << 32)
    chance = random.Random(seed)
    deeds = chance.choices(("next", "back"), weights=(5, 1), k=said.deeds)

    def tell(tally: Tally) -> None:
        if tally.kills % 25 == 0:
            print(f"{tally.kills} kills, {tally.shown} steps shown, {len(tally.lost)} lost", flush=True)

    try:
        tally = killed(said.command, said.times, deeds, chance, tell)
    except (NotFollowed, OSError) as fault:
        print(fault)
        return 2
    for sentence in tally.lost:
        print(f"lost: {sentence}")
    print(
        f"{tally.kills} kills -9 (seed {seed}), {tally.shown} steps shown, {len(tally.lost)} lost; "
        f"{tally.under_way} kills met a step that was kept but not shown yet."
    )
    return 1 if tally.lost else 0


if __name__ == "__main__":
    sys.exit(main())
