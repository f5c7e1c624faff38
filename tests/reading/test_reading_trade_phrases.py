"""The phrasings of the trade by kind: every one makes the stitches that a reader counts, and none is told a fault."""

from pathlib import Path

import pytest

from tracker.load import load

TEXT = (Path(__file__).resolve().parents[1] / "phrasings.txt").read_text(encoding="utf-8")


def kinds() -> dict[str, list[tuple[str, str]]]:
    """For each kind its patterns, with what is expected of each: "12", or "12/9" where the rows are counted too."""
    begun: dict[str, str] = {"": ""}
    found: dict[str, list[tuple[str, str]]] = {}
    lines: list[str] = []
    kind = before = name = ""
    for line in TEXT.split("\n\n", 1)[1].splitlines():
        if line.startswith("= "):
            name = line[2:]
            begun[name] = ""
        elif line.startswith("# "):
            kind, _, before = line[2:].partition(" @")
            name, lines = "", []
        elif name:
            begun[name] += line + "\n"
        elif line:
            expected, words = line.split(" ", 1)
            lines = found.setdefault(kind, [])
            lines.append((expected, begun[before] + words.replace("\\n", "\n") + "\n"))
    return found


KINDS = kinds()


@pytest.mark.parametrize("kind", KINDS)
def test_a_phrasing_makes_the_stitches_a_reader_counts(kind: str) -> None:
    """Whatever the words, the last row is claimed, has its count, and no fault is told."""
    wrong = []
    for expected, text in KINDS[kind]:
        loaded = load("piece", text)
        last = loaded.fabric.stretches[-1].rows[-1].worked
        made = f"{sum(e.is_stitch for e in last.elements)}" if last.understood else "not understood"
        if "/" in expected:
            made += f"/{loaded.fabric.length}"
        told = [problem.headline for problem in loaded.problems if problem.severity.value != "note"]
        if made != expected or told:
            wrong.append((text, expected, made, told))
    assert not wrong


def test_the_table_is_read() -> None:
    """Some five hundred phrasings, in every kind of which the trade has some."""
    assert sum(map(len, KINDS.values())) > 480
    assert len(KINDS) >= 15
