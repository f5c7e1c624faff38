"""The words of one row of filet. The squares of a row and of the row below come in, in working order; phrases go out.

One square is a dc and its filling, and neighbours share a dc, so n squares stand on (m + 1) n + 1 stitches, m being the
chains of an open square. Turning chains and foundations are those that filet teaching pages print.
"""

import re

from tracker.filet.grid import FILLED, OPEN
from tracker.records import dataclass
from tracker.trade.numbers import ordinal_figure

_ALONE = re.compile(r"(?P<head>(?:[^(\[]*, )?)dc in next (?P<kind>dc|ch)")
_MORE = re.compile(r"dc in next (?P<many>\d+) (?P<kind>dc|ch)(?P<plural>s?)")


@dataclass(frozen=True, slots=True)
class Run:
    """Squares of one sort, one after another: what is worked, over what."""

    square: str
    below: str
    """FILLED, OPEN, or "" for the foundation chain."""
    many: int


@dataclass(frozen=True, slots=True)
class Pass:
    """Runs worked several times over."""

    runs: tuple[Run, ...]
    times: int


def foundation(mesh: int, squares: str) -> int:
    """Chains to begin with, when the first dc takes the place of the last of them.

    >>> foundation(2, "#" * 8), foundation(2, ".#######"), foundation(1, "....")
    (27, 29, 12)
    """
    return (mesh + 1) * len(squares) + (3 if squares[0] == FILLED else 3 + mesh)


def counts(mesh: int, squares: str) -> str:
    """What stands on the row: "25 dc, 8 ch-1 sps"."""
    windows = squares.count(OPEN)
    dc = len(squares) + 1 + mesh * squares.count(FILLED)
    spaces = f", {windows} ch-{mesh} sp{'s' if windows > 1 else ''}" if windows else ""
    return f"{dc} dc{spaces}"


def first_row(mesh: int, squares: str) -> str:
    """Row 1, on its foundation chain."""
    if squares[0] == FILLED:
        head = "Dc in 4th ch from hook (3 skipped chs count as dc)"
        blocks = len(squares) - len(squares.lstrip(FILLED))
        rest = (mesh + 1) * blocks - 1
        words = [head, f"dc in next {rest} chs"]
        runs = _runs(squares[blocks:], "")
    else:
        nth = ordinal_figure(mesh * 2 + 4)
        words = [f"Dc in {nth} ch from hook (skipped chs count as dc and ch-{mesh} sp)"]
        runs = _runs(squares[1:], "")
    return ", ".join(_run_on(words + _told(_passes(runs), mesh)))


def further_row(mesh: int, squares: str, below: str, number: int) -> str:
    """A later row; `below` is the row below as this row meets it, so its last square is where that row began."""
    landing = _landing(mesh, below[-1], number)
    body, last = squares[1:-1], squares[-1]
    if squares[0] == FILLED:
        words = ["Ch 3 (counts as dc), turn"]
        first = [Run(FILLED, below[0], 1)]
    else:
        words = [f"Ch {3 + mesh} (counts as dc and ch-{mesh} sp), turn"]
        first = []
        under = f"sk first {mesh + 1} dc" if below[0] == FILLED else f"sk first ch-{mesh} sp"
        if len(squares) == 1:
            return f"{words[0]}, {under}, dc in {landing}"
        words.append(under)
    if len(squares) == 1:
        return ", ".join(_run_on([*words, *_last(mesh, FILLED, below[0], landing, 0)]))
    runs = _merged(first + _runs(body, below[1:-1]))
    # A block on a block at the end runs on from those before it: "dc in next 8 dc, dc in top of ch-3".
    before = 0
    if (
        runs
        and last == FILLED
        and below[-1] == FILLED
        and (runs[-1].square, runs[-1].below) == (FILLED, FILLED)
    ):
        before = (mesh + 1) * runs[-1].many
        runs = runs[:-1]
    if not first:
        # The dc that closes the first square runs on into blocks that stand on blocks: "dc in next 4 dc".
        more, lead = 0, _passes(runs)[:1]
        if lead and isinstance(lead[0], Run) and (lead[0].square, lead[0].below) == (FILLED, FILLED):
            more, runs = (mesh + 1) * lead[0].many, runs[1:]
        words.append(f"dc in next {1 + more} dc" if more else "dc in next dc")
    return ", ".join(
        _run_on(words + _told(_passes(runs), mesh) + _last(mesh, last, below[-1], landing, before))
    )


def _landing(mesh: int, below: str, number: int) -> str:
    if below == FILLED:
        return "top of ch-3" if number > 2 else "top of beg ch-3"
    if number > 2:
        return f"3rd ch of ch-{3 + mesh}"
    return f"{ordinal_figure(3 + mesh)} ch of skipped chs"


def _last(mesh: int, square: str, below: str, landing: str, before: int) -> list[str]:
    """The last square, whose dc goes into the turning chain."""
    if square == OPEN:
        return [
            f"ch {mesh}, sk {'next ' + str(mesh) + ' dc' if below == FILLED else f'next ch-{mesh} sp'}",
            f"dc in {landing}",
        ]
    if below == FILLED:
        return [f"dc in next {before + mesh} dc", f"dc in {landing}"]
    return [f"{mesh if mesh > 1 else ''} dc in next ch-{mesh} sp".strip(), f"dc in {landing}"]


def _runs(squares: str, below: str) -> list[Run]:
    out: list[Run] = []
    for at, square in enumerate(squares):
        under = below[at] if below else ""
        if out and (out[-1].square, out[-1].below) == (square, under):
            out[-1] = Run(square, under, out[-1].many + 1)
        else:
            out.append(Run(square, under, 1))
    return out


def _merged(runs: list[Run]) -> list[Run]:
    if len(runs) > 1 and (runs[0].square, runs[0].below) == (runs[1].square, runs[1].below):
        return [Run(runs[0].square, runs[0].below, runs[0].many + runs[1].many), *runs[2:]]
    return runs


def _passes(runs: list[Run]) -> list[Run | Pass]:
    """The runs with what repeats gathered: two or more runs in a row, twice or more."""
    out: list[Run | Pass] = []
    at = 0
    while at < len(runs):
        best = (0, 0, 0)
        for long in range(2, (len(runs) - at) // 2 + 1):
            times = 1
            while runs[at + times * long : at + (times + 1) * long] == runs[at : at + long]:
                times += 1
            # Words saved; of equal ones the shorter repeat is the easier to keep in mind.
            best = max(best, ((times - 1) * long, -long, times))
        if best[0]:
            long = -best[1]
            out.append(Pass(tuple(runs[at : at + long]), best[2]))
            at += long * best[2]
        else:
            out.append(runs[at])
            at += 1
    return out


def _run_on(phrases: list[str]) -> list[str]:
    """A dc alone and those after it in one phrase, as patterns print it.

    >>> _run_on(["ch 1, sk next ch-1 sp, dc in next dc", "dc in next 4 dc", "(ch 1, sk 1 dc, dc in next dc) twice"])
    ['ch 1, sk next ch-1 sp, dc in next 5 dc', '(ch 1, sk 1 dc, dc in next dc) twice']
    """
    out: list[str] = []
    for phrase in phrases:
        more = _MORE.fullmatch(phrase)
        if out and more and (alone := _ALONE.fullmatch(out[-1])) and alone["kind"] == more["kind"]:
            out[-1] = f"{alone['head']}dc in next {1 + int(more['many'])} {more['kind']}{more['plural']}"
        else:
            out.append(phrase)
    return out


def _told(passes: list[Run | Pass], mesh: int) -> list[str]:
    out = []
    for one in passes:
        if isinstance(one, Run):
            out.append(_run(one, mesh))
        else:
            inside = ", ".join(_run_on([_run(run, mesh) for run in one.runs]))
            out.append(f"[{inside}] {_times(one.times)}")
    return out


def _run(run: Run, mesh: int) -> str:
    if run.square == FILLED and run.below != OPEN:
        return f"dc in next {(mesh + 1) * run.many} {'dc' if run.below else 'chs'}"
    if run.square == FILLED:
        once = f"{'' if mesh == 1 else f'{mesh} '}dc in next ch-{mesh} sp, dc in next dc"
    elif run.below == OPEN:
        once = f"ch {mesh}, sk next ch-{mesh} sp, dc in next dc"
    elif run.below == FILLED:
        once = f"ch {mesh}, sk next {mesh} dc, dc in next dc"
    else:
        once = f"ch {mesh}, sk next {mesh} ch{'s' if mesh > 1 else ''}, dc in next ch"
    return once if run.many == 1 else f"({once}) {_times(run.many)}"


def _times(times: int) -> str:
    return "twice" if times == 2 else f"{times} times"
