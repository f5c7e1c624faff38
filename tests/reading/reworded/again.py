"""Rows that are worked as others were."""

import re

from reworded.wording import Rewording, filled, in_words, ordinal, ways

SAME = r"(?m)^(Rows|Rnds) (\d+)[-–](\d+): Rep (Row|Rnd) (\d+)\."
CYCLE = r"(?m)^(Rows|Rnds) (\d+)[-–](\d+): Rep (?:Rows|Rnds) (\d+)([-–]| and )(\d+)\."
ONE = r"(?m)^(Row|Rnd) (\d+): Rep (?:Row|Rnd) (\d+)\."
TWO = r"(?m)^(Rows|Rnds) (\d+) and (\d+):"


def _same(match: re.Match[str]) -> dict[str, object]:
    first, last, row = int(match[2]), int(match[3]), int(match[5])
    many = last - first + 1
    return {"ws": match[1], "os": match[1].lower(), "w": match[4], "o": match[4].lower(), "a": first, "b": last,
            "n": row, "k": many, "kw": in_words(many), "nth": ordinal(row), "ath": ordinal(first), "bth": ordinal(last)}  # fmt: skip


def _cycle(match: re.Match[str]) -> dict[str, object] | None:
    first, last, start, end = (int(match[k]) for k in (2, 3, 4, 6))
    times, rest = divmod(last - first + 1, end - start + 1)
    if rest or match[5] == " and " and end != start + 1:
        return None
    return {"ws": match[1], "os": match[1].lower(), "w": match[1][:-1], "a": first, "b": last, "c": start, "d": end,
            "t": times, "times": "once" if times == 1 else f"{times} times",
            "more": "once more" if times == 1 else f"{times} more times"}  # fmt: skip


def _one(match: re.Match[str]) -> dict[str, object]:
    row = int(match[3])
    return {"w": match[1], "o": match[1].lower(), "n": match[2], "m": row, "mth": ordinal(row)}


AGAIN = (
    Rewording("Repeat Row", r"\bRep (Rows?|Rnds?)\b", r"Repeat \1"),
    Rewording("Same as Row", r": Rep (Rows?|Rnds?) (\d+)\.", r": Same as \1 \2."),
    Rewording("Work as for Row", r": Rep (Rows?|Rnds?) (\d+)\.", r": Work as for \1 \2."),
    Rewording("em dash of rows", r"(?m)^(Rows|Rnds) (\d+) ?[-–] ?(\d+)", r"\1 \2—\3"),
    *filled(
        "same row", SAME, _same,
        "{ws} {a}-{b}: Like {o} {n}.", "{ws} {a}-{b}: Work the same as {w} {n}.",
        "{ws} {a}-{b}: Repeat the instructions for {w} {n}.", "{ws} {a}-{b}: As {nth} {o}.", "Rep {w} {n} for {ws} {a}-{b}.",
        "Repeat {w} {n} for the next {k} {os}.", "Next {k} {os}: Rep {w} {n}.", "Rep {w} {n} {k} more times.",
        "Repeat {o} {n} another {k} times.", "Rep {w} {n} a further {kw} times.", "{ws} {a} through {b}: Repeat {w} {n}.",
        "{ws} {a} - {b}: rep {o} {n}.", "{ws} {a}-{b} ({k} {os}): Rep {w} {n}.", "For {os} {a}-{b}, repeat {o} {n}.",
        "R{a}-R{b}: Rep R{n}.", "{ath} to {bth} {os}: As {nth} {o}.", "{ws} {a} to {b} inclusive: Rep {w} {n}.",
        "{ws} {a}-{b} incl.: Rep {w} {n}.", "{ws} {a}-{b}: {w} {n} again.", "{ws} {a}-{b}: as per {o} {n}.",
        "{ws} {a}-{b}: See {w} {n}.", "Work {ws} {a}-{b} same as {w} {n}.", "{ws} {a}-{b}: Rep {w} {n} until {w} {b} is complete.",
        "From {o} {a} to {b}: rep {o} {n}.", "Repeat {o} {n} until you have completed {o} {b}.",
        "{ws} {a} up to and including {b}: Rep {w} {n}.",
    ),
    *filled(
        "several rows", CYCLE, _cycle,
        "Rep {ws} {c}-{d} {times}.", "Rep {ws} {c}-{d} {more}.", "Repeat {ws} {c} through {d} another {t} times.",
        "{ws} {a}-{b}: Same as {ws} {c}-{d}.", "Rep from {w} {c} to {w} {d} {times}.", "Work {ws} {c}-{d} {more}.",
        "Rep {ws} {c} to {d} inclusive {more}.", "Rep {ws} {c}-{d} until {w} {b} has been worked.",
        "Rep {ws} {c}-{d} for {ws} {a}-{b}.", "Rep {ws} {c}-{d} x{t}.",
    ),
    *filled(
        "one row", ONE, _one,
        "{w} {n}: as {o} {m}.", "{w} {n}: Like {o} {m}.", "{w} {n}: Repeat {mth} {o}.", "{w} {n}: As the {mth} {o}.",
        "{w} {n}: Repeat instructions of {w} {m}.", "{w} {n}: Rep R{m}.", "{w} {n}: {w} {m}.", "{w} {n} = {w} {m}.",
        "{w} {n}: Exactly as {w} {m}.", "{w} {n}: Rep {w} #{m}.", "{w} {n}: As given for {w} {m}.",
    ),
    *ways("two rows", TWO, r"\1 \2 & \3:", r"\1 \2, \3:", r"\1 \2/\3:"),
)  # fmt: skip
