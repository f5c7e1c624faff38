"""The smallest program that keeps its place in a journal: what the kills are tried on before any pattern is.

Reads a deed a line ("next", "back"), keeps it, then shows the place; with `careless` it shows first and keeps
only every tenth, which the kills must find out.
"""

import os
import sys
import time
from pathlib import Path

from tracker.journal import Entry, open_journal


def main() -> None:
    """Read deeds until the end of input."""
    careless = "careless" in sys.argv[1:]
    file = Path(os.environ["ROWTELLER_HOME"]) / "pieces" / "kept.journal"
    journal, _ = open_journal(file, time.time_ns() // 1_000_000)
    with journal:
        journal.lay_out()
        last = journal.last()
        number, place = (last.number, last.place[0]) if last else (0, 0)
        waiting = 0
        for line in sys.stdin:
            said = line.strip()
            if said == "where am I":
                print(f"place: step {number}, stitch {place}", flush=True)
                continue
            number, place = number + 1, place + (1 if said == "next" else -1)
            waiting += 1
            if not careless or waiting == 10:
                for late in range(waiting):
                    due = number - waiting + 1 + late
                    journal.append(Entry(due, time.time_ns() // 1_000_000, said, place=(place,)))
                waiting = 0
            print(said, flush=True)


if __name__ == "__main__":
    main()
