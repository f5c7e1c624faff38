"""How long a lost maker waits: `python tests/finding/bench_finding.py` times answers in pieces of 100,000 rows, in milliseconds
of this process alone, so that a busy machine tells the same.

Each answer is all the places that fit, the twelve likeliest of them in words, and the question that tells them apart.
"""

import statistics
import time

from tracker.finding.evidence import Evidence, listed, tallies
from tracker.finding.lost import find
from tracker.finding.where.index import Index, index_of
from tracker.finding.where.places import Known
from tracker.load import load

TIMES = 9


def _two_rows() -> str:
    """Two rows, fifty thousand times."""
    return (
        "Ch 27.\nRow 1: Sc in 2nd ch from hook and in each ch across. (26 sc)\n"
        "Row 2: Ch 3 (counts as dc), turn, sk first sc, dc in each sc across. (26 dc)\n"
        "Row 3: Ch 1, turn, sc in each dc across, sc in top of ch-3. (26 sc)\n"
        "Rows 4-100001: Rep Rows 2 and 3.\n"
    )


def _many_rows() -> str:
    """Two hundred rows that are all different, 200 stitches wide, five hundred times."""
    rows = ["Ch 201.", "Row 1: Sc in 2nd ch from hook and in each ch across. (200 sc)"]
    for number in range(2, 202):
        hdc, after = number % 97, number % 59
        rows.append(
            f"Row {number}: Ch 1, turn, sc in next {3 + after} sts, hdc in next {1 + hdc} sts, "
            f"sc in next st, hdc in next st, sc in each st to end. (200 sts)"
        )
    rows.append("Rows 202-100001: Rep Rows 2-201.")
    return "\n".join(rows)


SEEN = {
    "last 20": Evidence(last=("sc",) * 20),
    "last 5 mixed": Evidence(last=listed("2 hdc, sc, hdc, sc")),
    "so far": Evidence(so_far=("sc",) * 7),
    "count": Evidence(count=13),
    "top counts": Evidence(top_counts=tallies("26; 26; 26")),
    "counts by kind": Evidence(top_counts=tallies("167 sc, 33 hdc")),
    "rows done": Evidence(done="Row 99999", count=7),
    "side": Evidence(side="RS"),
    "above": Evidence(above=(1, "solid"), count=5),
    "fits nowhere": Evidence(so_far=listed("sc, tr")),
}


def _answered(index: Index, evidence: Evidence, known: Known | None) -> int:
    found = find(index, evidence, False, known)
    return len(found.places[:12])


def main() -> None:
    for name, text in (("two rows", _two_rows()), ("two hundred rows", _many_rows())):
        began = time.process_time()
        fabric = load("long.txt", text).fabric
        loaded = time.process_time()
        index = index_of(fabric)
        made = time.process_time()
        print(f"{name}, repeated: {index.length} rows; read in {1e3 * (loaded - began):.0f} ms, "
              f"indexed in {1e3 * (made - loaded):.0f} ms")  # fmt: skip
        for kind, evidence in SEEN.items():
            for known in (None, Known(70_000, 3)):
                took = []
                for _ in range(TIMES):
                    start = time.process_time()
                    _answered(index, evidence, known)
                    took.append(1e3 * (time.process_time() - start))
                places = len(find(index, evidence).places)
                near = "near row 70000" if known else "anywhere"
                print(f"  {kind:15} {near:15} {statistics.median(took):7.1f} ms  {places} places")


if __name__ == "__main__":
    main()
