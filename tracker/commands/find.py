"""The commands `find` and `miscount`: words of the command line come in, an answer and an exit status go out.

0: answered. 1: the answer or the pattern has an error in it. 2: wrong use, or a file that cannot be read.
"""

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.finding.evidence import Unclear

if TYPE_CHECKING:
    from tracker.finding.explain import Explained
    from tracker.finding.lost import Found
    from tracker.load import Loaded

SHOWN = 12
"""Places listed without --json."""


class Unusable(Exception):
    """A command line that cannot be followed; says why in one sentence."""


def add_parsers(subparsers: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Registers both commands; each sets `run` to what carries it out."""
    lost = subparsers.add_parser("find", help="find the place in a piece from what can be seen of it")
    _common(lost)
    lost.add_argument("--done", metavar="ROW", help="the last finished row: its index or its label")
    lost.add_argument(
        "--so-far", metavar="LIST", help="the row on the hook from its start: dc, ch-2 sp, 7 dc"
    )
    lost.add_argument("--count", type=int, metavar="N", help="stitches so far in the row on the hook")
    lost.add_argument("--last", metavar="LIST", help="the last few things worked")
    lost.add_argument("--top", metavar="LIST", help="the whole top finished row")
    lost.add_argument(
        "--top-counts", metavar="LISTS", help="counts of the top finished rows, newest last: 24; 30; 30"
    )
    lost.add_argument("--side", choices=["RS", "WS"], help="the side that faces you")
    lost.add_argument(
        "--above",
        metavar="ROWS",
        help="rows above the last one with spaces, without, or with a stitch: 5 open, 3 solid, 2 bobble",
    )
    lost.set_defaults(run=find_command)
    count = subparsers.add_parser("miscount", help="say what may have happened when a row's count is off")
    _common(count)
    count.add_argument("--row", type=int, required=True, metavar="INDEX", help="the row, counted from 1")
    count.add_argument(
        "--have", required=True, metavar="COUNTS", help="what is there: 20, or 12 dc, 10 ch-2 sp"
    )
    count.set_defaults(run=miscount_command)


def _common(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="the pattern")
    parser.add_argument("--size", metavar="NAME", help="the size to work")
    parser.add_argument("--json", action="store_true", help="answer in JSON")


def find_command(args: argparse.Namespace) -> int:
    """Carries out `find`."""
    try:
        loaded = _loaded(args)
        found = _found(loaded, args)
    except (Unusable, Unclear) as fault:
        return _refuse(fault)
    _say(json.dumps(found.shown(), ensure_ascii=False, indent=1) if args.json else _told(found))
    return 0 if found.places and not _faulty(loaded) else 1


def _found(loaded: "Loaded", args: argparse.Namespace) -> "Found":
    from tracker.finding.evidence import Evidence, listed, rows_above, tallied, tallies
    from tracker.finding.lost import find
    from tracker.finding.where.index import index_of

    index = index_of(loaded.fabric)
    uk, own = loaded.pattern.uk, index.own
    counts = tallies(args.top_counts, uk, own) if args.top_counts else ()
    top = None
    if args.top and args.top.strip().startswith("{"):
        counts = counts or (tallied(args.top, uk, own),)
    elif args.top:
        top = listed(args.top, uk, own)
    if args.count is not None and args.count < 0:
        raise Unusable("A row cannot have fewer than 0 stitches.")
    so_far = listed(args.so_far, uk, own) if args.so_far is not None else None
    last = listed(args.last, uk, own) if args.last else None
    above = rows_above(args.above, uk) if args.above is not None else None
    evidence = Evidence(args.done, so_far, args.count, last, top, counts, args.side, above)
    return find(index, evidence, uk)


def miscount_command(args: argparse.Namespace) -> int:
    """Carries out `miscount`."""
    from tracker.finding.evidence import tallied

    try:
        loaded = _loaded(args)
        if not 1 <= args.row <= loaded.fabric.length:
            rows = loaded.fabric.length
            raise Unusable(
                f"There is no row {args.row}: the pattern has {rows} row{'s' if rows != 1 else ''}, counted from 1."
            )
        from tracker.finding.explain import explain_miscount
        from tracker.finding.where.index import index_of

        have = tallied(args.have, loaded.pattern.uk, index_of(loaded.fabric).own)
        explained = explain_miscount(loaded.fabric, args.row, have, loaded.pattern.uk)
    except (Unusable, Unclear) as fault:
        return _refuse(fault)
    _say(json.dumps(explained.shown(), ensure_ascii=False, indent=1) if args.json else _explained(explained))
    return 1 if _faulty(loaded) else 0


def _loaded(args: argparse.Namespace) -> "Loaded":
    from tracker.load import load

    try:
        text = Path(args.file).read_text(encoding="utf-8", errors="replace")
    except OSError as fault:
        raise Unusable(f"{args.file} cannot be read: {fault.strerror or fault}.") from fault
    loaded = load(Path(args.file).name, text, args.size)
    if args.size is not None and args.size not in loaded.pattern.sizes:
        sizes = ", ".join(loaded.pattern.sizes)
        raise Unusable(
            f"There is no size {args.size}: " + (f"the pattern has {sizes}." if sizes else "it has no sizes.")
        )
    return loaded


def _faulty(loaded: "Loaded") -> bool:
    from tracker.problems import Severity

    return not loaded.fabric.length or any(p.severity is Severity.ERROR for p in loaded.problems)


def _told(found: "Found") -> str:
    if not found.places:
        if found.differs is None:
            return "There is no row in this pattern."
        return found.differs.told(f"row {found.differs.index}")
    lines = []
    for place in found.places[:SHOWN]:
        done = f"{place.stitches_done} stitches done, next: " if place.elements_done else "at its start: "
        lines.append(f"{place.row}: {done}{place.next}" if place.row else "All rows are done.")
    if len(found.places) > SHOWN:
        lines.append(f"… and {len(found.places) - SHOWN} more places.")
    if found.ask:
        lines.append(found.ask.words)
    return "\n".join(lines)


def _explained(explained: "Explained") -> str:
    expected = ", ".join(f"{number} {name}" for name, number in explained.expected.items())
    lines = [f"{explained.row} should have {expected}."]
    for cause in explained.causes:
        lines.append(f"{cause.likelihood:4.0%}  {cause.headline} {cause.look} {cause.feel}".rstrip())
    if not explained.causes:
        lines.append(explained.note)
    return "\n".join(lines)


def _say(text: str) -> None:
    sys.stdout.write(text + "\n")


def _refuse(fault: Exception) -> int:
    sys.stderr.write(f"{fault}\n")
    return 2


def main(words: Sequence[str] | None = None) -> int:
    """Both commands alone."""
    parser = argparse.ArgumentParser(prog="rowteller", description=__doc__)
    add_parsers(parser.add_subparsers(dest="command", required=True))
    args = parser.parse_args(words)
    status: int = args.run(args)
    return status


if __name__ == "__main__":
    sys.exit(main())
