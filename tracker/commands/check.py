"""The command `check`: what a pattern makes, row by row, and everything that is wrong with it.

Words of the command line come in; lines or JSON go out, and an exit status: 0 fine, 1 the pattern has an error in it or
holds no row, 2 wrong use or a file that cannot be read.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
from collections.abc import Callable, Iterator, Mapping

from tracker.fabric.model import Fabric, Placed
from tracker.files import STANDARD_INPUT, Unreadable, text_of
from tracker.load import Loaded, WrongSize, sized
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Stated
from tracker.problems import Problem, Severity
from tracker.problems.render import as_json, underlined
from tracker.trade.nouns import amount
from tracker.trade.stitches import written

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import Any

    from tracker.mending import Mend

BESIDE = "beside the pattern"
"""What `--mend` holds when it names no file."""
MOST_ROWS = 10_000
"""A piece with more rows is listed by its first and last."""
ENDS = 1_000
"""How many of each end."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `check` takes."""
    parser.add_argument("file", metavar="FILE", nargs="?", help="the pattern; - for standard input")
    parser.add_argument("--size", metavar="NAME", help="the size to work; the first when not said")
    parser.add_argument("--rows", metavar="A-B", help="only these rows, counted over the whole piece from 1")
    parser.add_argument(
        "--mend",
        metavar="NEW",
        nargs="?",
        const=BESIDE,
        help="when one edit mends the pattern, write it to this new file; beside the pattern when not said",
    )
    parser.add_argument("--json", action="store_true", help="for other programs")


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Carry out `check`."""
    try:
        wanted = _wanted(said.rows)
        path, new = _paths(said)
        name, text = text_of(path)
        loaded = sized(name, text, said.size)
    except (Unreadable, WrongSize, ValueError) as fault:
        sys.stderr.write(f"{fault}\n")
        return 2
    if wanted is not None and wanted[0] > loaded.fabric.length > 0 and not said.json:
        told = f"{loaded.fabric.length} row{'s' if loaded.fabric.length > 1 else ''}"
        sys.stderr.write(f"{name} has {told}, and none of them is {wanted[0]}; --rows counts from 1.\n")
        return 2
    wrong = any(problem.severity is Severity.ERROR for problem in loaded.problems)
    found: Mend | None = None
    if wrong or any(p.severity is Severity.WARNING for p in loaded.problems):
        from tracker.mending import mend, offered

        found = mend(loaded)
        if found is not None:
            loaded = offered(loaded, found)
    if said.size is None and not wrong and len(loaded.pattern.sizes) > 1:
        loaded, found = _in_other_sizes(loaded, found)
    if said.json:
        say(json.dumps(report(loaded, wanted), ensure_ascii=False))
    else:
        for line in lines(loaded, wanted):
            say(line)
    if new is not None:
        return _mended(text, found, new) if wrong or found is not None else _nothing_to_mend()
    return 1 if wrong or not loaded.fabric.length else 0


def _in_other_sizes(loaded: Loaded, found: Mend | None) -> tuple[Loaded, Mend | None]:
    """The pattern with what is wrong in the sizes that nobody asked for, and the edit that mends that."""
    from tracker.mending import mend
    from tracker.other_sizes import wrong_elsewhere
    from tracker.records import replace

    told: list[Problem] = []
    for each in wrong_elsewhere(loaded):
        problem = each.problem
        mends = mend(each.loaded) if found is None and not told else None
        if mends is not None:
            found = mends
            problem = replace(problem, help=f"{problem.help} {found.sentence}", fix=found.fix)
        told.append(problem)
    return replace(loaded, problems=(*loaded.problems, *told)), found


def _paths(said: argparse.Namespace) -> tuple[str, str | None]:
    """The pattern, and the new file for the mended text if one is wanted."""
    path, new = said.file, said.mend
    if path is None and new not in (None, BESIDE):
        # `check --mend FILE` names the pattern; only with two names is one of them the new file.
        path, new = new, BESIDE
    if path is None:
        raise ValueError(
            "usage: rowteller check FILE; name the pattern to check, as in: rowteller check pattern.txt"
        )
    if new == BESIDE:
        from pathlib import Path

        file = Path("mended.txt" if path == STANDARD_INPUT else path)
        new = str(file if path == STANDARD_INPUT else file.with_name(f"{file.stem}-mended.txt"))
    return path, new


def _mended(text: str, found: Mend | None, new: str) -> int:
    from tracker.mending import mended, write_new
    from tracker.mending.text import NotWritten

    if found is None:
        sys.stderr.write("No single edit mends all of it, so no file was written; go by the helps above.\n")
        return 1
    try:
        write_new(new, mended(text, found.fix))
    except NotWritten as fault:
        sys.stderr.write(f"{fault}\n")
        return 2
    sys.stderr.write(f"{found.sentence} {new} has it so.\n")
    return 0


def _nothing_to_mend() -> int:
    sys.stderr.write("Nothing has to be mended, so no file was written.\n")
    return 0


def _wanted(rows: str | None) -> tuple[int, int] | None:
    """First and last index asked for."""
    if rows is None:
        return None
    hit = re.fullmatch(r"\s*(\d{1,12})\s*(?:[-–:]\s*(\d{1,12})\s*)?", rows)
    if hit is None or int(hit[2] or hit[1]) < int(hit[1]) or int(hit[1]) < 1:
        raise ValueError(f"--rows takes two row numbers, the lower first, such as 3-7; {rows!r} is not that.")
    return int(hit[1]), int(hit[2] or hit[1])


# -- for other programs


def report(loaded: Loaded, wanted: tuple[int, int] | None = None) -> Mapping[str, Any]:
    """Everything `check` knows, as other programs read it."""
    fabric, pattern = loaded.fabric, loaded.pattern
    listed = _listed(fabric.length, wanted)
    left_out = 0 if wanted else fabric.length - sum(end - start + 1 for start, end in listed)
    printed = {block.label_span.start: block for block in pattern.blocks if isinstance(block, Row)}
    return {
        "title": pattern.title,
        "terms": "UK" if pattern.uk else "US",
        "sizes": list(pattern.sizes),
        "size": pattern.size,
        "open_ended": fabric.open_ended,
        "rows_left_out": left_out,
        "rows": [
            _row(loaded, index, placed, printed)
            for start, end in listed
            for index, placed in fabric.rows(start, end)
        ],
        "problems": [as_json(problem, loaded.source) for problem in loaded.problems],
    }


def _listed(length: int, wanted: tuple[int, int] | None) -> list[tuple[int, int]]:
    if wanted is not None:
        return [(wanted[0], min(wanted[1], length))] if wanted[0] <= length else []
    if length <= MOST_ROWS:
        return [(1, length)]
    return [(1, ENDS), (length - ENDS + 1, length)]


def _row(loaded: Loaded, index: int, placed: Placed, printed: Mapping[int, Row]) -> Mapping[str, Any]:
    worked, uk = placed.worked, loaded.pattern.uk
    word = "Rnd" if placed.kind == "round" else "Row"
    return {
        "index": index,
        "label": placed.label,
        "kind": placed.kind,
        "part": placed.part,
        "as": f"{word} {placed.as_number}" if placed.as_number is not None else None,
        "line": loaded.source.position(placed.label_span.start)[0],
        "side": worked.side,
        "understood": worked.understood,
        "makes": {written(name, uk): number for name, number in worked.makes.items()},
        "stitches": worked.stitches,
        "total": worked.total,
        "states": _states(_stated(loaded.fabric, index, placed, printed), uk),
    }


def _stated(fabric: Fabric, index: int, placed: Placed, printed: Mapping[int, Row]) -> tuple[Stated, ...]:
    """The counts that the words printed for a row state; those of a range before those of the row it repeats.

    Where rows grow ("Rows 4-20: Rep Row 2. (122 dc)"), the count of a range is that of its last row.
    """
    own = printed.get(placed.label_span.start)
    if own is None or not own.stated:
        return placed.worked.row.stated
    if placed.number is not None and len(own.numbers) > 1 and placed.number != own.numbers[-1]:
        last = index + own.numbers[-1] - placed.number
        if 1 <= last <= fabric.length and fabric.row(last).worked.makes != placed.worked.makes:
            return ()
    return own.stated


def _states(stated: tuple[Stated, ...], uk: bool) -> dict[str, int] | None:
    out: dict[str, int] = {}
    for one in stated:
        if one.change or one.partial:
            continue
        for name, number in one.counts:
            out["st" if name in ("", ANY) else written(name, uk)] = number
    return out or None


# -- for a reader


def lines(loaded: Loaded, wanted: tuple[int, int] | None = None) -> Iterator[str]:
    """The problems with their words underlined, then the rows with what they make."""
    pattern, fabric = loaded.pattern, loaded.fabric
    size = f", size {pattern.size}" if pattern.size else ""
    title = re.sub(r"\s*\((?:US|UK) terms?\)$", "", pattern.title)
    yield f"{title} ({'UK' if pattern.uk else 'US'} terms{size})"
    if pattern.sizes:
        yield f"Sizes: {', '.join(pattern.sizes)}."
    for problem in loaded.problems:
        yield ""
        yield underlined(problem, loaded.source)
    yield ""
    if not fabric.length:
        yield "No row was found in this text. A row begins with its name: “Row 1: Ch 1, sc in each st across.”"
        return
    yield from _table(loaded, wanted)
    yield ""
    yield _verdict(loaded)


def _table(loaded: Loaded, wanted: tuple[int, int] | None) -> Iterator[str]:
    fabric, uk = loaded.fabric, loaded.pattern.uk
    rows: list[tuple[str, str, str]] = []
    for start, end in _listed(fabric.length, wanted):
        if rows:
            rows.append(("…", "", f"{fabric.length - 2 * ENDS} rows more"))
        before: Placed | None = None
        for _, placed in fabric.rows(start, end):
            if placed.part is not None and (before is None or before.part != placed.part):
                rows.append((placed.part, "", ""))
            makes = ", ".join(
                amount(number, written(name, uk)) for name, number in placed.worked.makes.items()
            )
            counted = makes if placed.worked.understood else "followed as written, not counted"
            word = "Rnd" if placed.kind == "round" else "Row"
            again = f"  ({word} {placed.as_number} again)" if placed.as_number is not None else ""
            rows.append((placed.label, placed.worked.side or "", counted + again))
            before = placed
    width = min(max((len(label) for label, _, _ in rows), default=0), 24)
    for label, side, counted in rows:
        yield f"{label:{width}}  {side:2}  {counted}".rstrip()


def _verdict(loaded: Loaded) -> str:
    many = {severity: sum(1 for p in loaded.problems if p.severity is severity) for severity in Severity}
    unread = sum(
        1 for stretch in loaded.fabric.stretches for placed in stretch.rows if not placed.worked.understood
    )
    rows = f"{loaded.fabric.length} row{'' if loaded.fabric.length == 1 else 's'}"
    rows += ", and on as long as you like" if loaded.fabric.open_ended else ""
    said = [
        f"{number} {word if number == 1 else word + 's'}"
        for severity, number in many.items()
        if number and (word := severity.value)
    ]
    found = ", ".join(said) if said else "nothing wrong"
    return f"{rows}: {found}." + (f" {unread} followed as written." if unread else "")
