"""`rowteller work FILE --plain`: a deed a line in, lines out; the place kept through any stop, kill and edit."""

import io
import os
import random
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from unittest.mock import patch

import pytest
from killing import killed
from on_the_hook import PATTERNS

from tracker.cli import main
from tracker.commands.pieces.lead import lead, opened_piece
from tracker.journal import pieces, pieces_folder

PANEL = PATTERNS / "harbour-windows.txt"
WORK = [sys.executable, "-m", "tracker", "work"]


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Pieces of a test are nobody else's."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def at_work(
    *lines: str, file: Path | None = PANEL, words: tuple[str, ...] = ("--plain", "--quiet")
) -> subprocess.CompletedProcess[str]:
    """One sitting of the command line in this process: to start another for each costs more than the sitting."""
    named = [str(file)] if file is not None else []
    given = ["work", *named, *words]
    typed = io.StringIO("".join(f"{line}\n" for line in lines))
    said, amiss = io.StringIO(), io.StringIO()
    with patch.object(sys, "stdin", typed), redirect_stdout(said), redirect_stderr(amiss):
        status = main(given)
    return subprocess.CompletedProcess(given, status, said.getvalue(), amiss.getvalue())


def through_a_pipe(*lines: str) -> subprocess.CompletedProcess[str]:
    """One sitting in a process of its own, through a pipe."""
    return subprocess.run(
        [*WORK, str(PANEL), "--plain", "--quiet"],
        input="".join(f"{line}\n" for line in lines),
        capture_output=True,
        text=True,
        encoding="utf-8",
    )


def place_of(done: subprocess.CompletedProcess[str]) -> str:
    """The last place line of a sitting."""
    return [line for line in done.stdout.splitlines() if line.startswith("place:")][-1]


def sitting(file: Path, *lines: str) -> list[str]:
    """One sitting in this process; what was said, the deeds themselves marked."""
    out: list[str] = []

    def spoken() -> object:
        for line in lines:
            out.append(f"you: {line}")
            yield line

    opened = opened_piece(str(file), None)
    try:
        lead(opened, spoken(), out.append)  # type: ignore[arg-type]
    finally:
        opened.desk.close()
    return out


def test_the_first_sitting_begins_at_the_foundation_chain() -> None:
    """Words, then what is written, a deed a line, and status 0 at "stop"."""
    done = through_a_pipe("next", "next", "next", "stop", "next")
    assert done.returncode == 0
    assert done.stderr == ""
    assert done.stdout.splitlines() == [
        "HARBOUR WINDOWS: 15 rows.",
        "Chain thirty-five. Your hook loop isn't one.",
        "    Ch 35.",
        "Row one, right side. Double crochet in the fourth chain; the three skipped are your first. "
        "Then one in each: thirty-one.",
        "    Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across · 0 of 16 squares",
        "Row one: sixteen squares, none open. Count, then turn.",
        "Row two, wrong side. Chain three: your first double crochet. Skip the stitch it stands on. "
        "Mark the top of that chain: the way back ends in it.",
        "    ch 3 · 0 of 16 squares",
        "Resting. Your place is kept.",
    ]


@pytest.mark.parametrize("end", [("stop",), ()])
def test_it_comes_back_to_exactly_the_same_group(end: tuple[str, ...]) -> None:
    """After "stop" and after the end of the input alike."""
    left = at_work("row 9", "yes", *["next"] * 4, "where am I", *end)
    found = at_work("where am I")
    assert place_of(found) == place_of(left)
    assert "Row 9 (Row 3 again, time 2 of 2), group 4 of 8, 2 of 2" in place_of(found)
    assert (
        "Welcome back. Row nine, which is row three. Two blocks, one window, one block done. "
        "Is that block closed by its double crochet?"
    ) in found.stdout


def test_what_was_taken_back_can_be_taken_back_in_another_sitting() -> None:
    """Undo reaches over the night."""
    at_work("row 9", "yes", "next", "next")
    done = at_work("take that back", "undo", "where am I", "redo", "where am I")
    assert [line.partition(":")[0] for line in done.stdout.splitlines() if line.startswith("place")] == [
        "place",
        "place",
    ]
    assert "Row 9 (Row 3 again, time 2 of 2), group 2" in place_of(done)


def test_the_stride_is_kept_too() -> None:
    """Who goes stitch by stitch goes on so."""
    at_work("row 2", "yes", "next", "stitch by stitch", "next")
    assert "stitch 3 of 4" in place_of(at_work("next", "where am I"))


def test_without_a_file_the_only_piece_is_taken_up() -> None:
    """There is nothing to choose."""
    at_work("next", "next")
    assert at_work("where am I", file=None).stdout.startswith("HARBOUR WINDOWS")


@pytest.mark.parametrize(
    "lines, title",
    [
        (("where am I",), "HARBOUR WINDOWS"),
        (("yes",), "HARBOUR WINDOWS"),
        (("next", "yes"), "PEBBLE CLOTH"),
        (("next", "next", "next", "yes"), "PEBBLE CLOTH"),
        (("back", "yes"), "PEBBLE CLOTH"),
        (("two",), "PEBBLE CLOTH"),
        (("seven", "1"), "HARBOUR WINDOWS"),
        (("pebble",), "PEBBLE CLOTH"),
        (("help", "frobnicate", "no", "yes"), "PEBBLE CLOTH"),
    ],
)
def test_without_a_file_the_pieces_in_hand_are_offered_the_latest_first(
    lines: tuple[str, ...], title: str
) -> None:
    """Stepped through with next, taken with yes, a number or a name; any other deed takes the one offered."""
    at_work("next", file=PATTERNS / "pebble-cloth.txt")
    at_work("next", "next")
    done = at_work(*lines, "where am I", file=None)
    assert done.stdout.startswith("1. Harbour windows, Row 1, ")
    assert "\n2. Pebble cloth, Row 1, " in done.stdout
    assert f"\n{title}: " in done.stdout
    assert "place: " in done.stdout


@pytest.mark.parametrize("lines", [("stop",), ()])
def test_none_need_be_taken(lines: tuple[str, ...]) -> None:
    """Nothing is opened, and nothing is kept of it."""
    at_work("next", file=PATTERNS / "pebble-cloth.txt")
    at_work("next", "next")
    before = [piece.entries for piece in pieces(pieces_folder())[0]]
    done = at_work(*lines, file=None)
    assert done.returncode == 0
    assert [piece.entries for piece in pieces(pieces_folder())[0]] == before


def test_two_pieces_of_one_pattern_do_not_mix() -> None:
    """One of them under a name of its own."""
    mine = at_work("row 9", "yes", "where am I")
    hers = at_work("next", "where am I", words=("--plain", "--quiet", "--piece", "for Ann"))
    assert place_of(at_work("where am I")) == place_of(mine)
    assert place_of(at_work("where am I", file=None, words=("--plain", "--piece", "ann"))) == place_of(hers)


def test_without_any_piece_it_says_what_to_do() -> None:
    """One sentence and status 2."""
    done = at_work(file=None)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.splitlines() == ["There is no piece in hand yet; name a pattern: rowteller work FILE."]


def test_a_second_opener_is_refused_with_the_reason(own_home: Path) -> None:
    """And the first goes on undisturbed."""
    first = subprocess.Popen(
        [*WORK, str(PANEL), "--plain"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert first.stdin is not None
    assert first.stdout is not None
    first.stdout.readline()
    second = at_work("next")
    assert second.returncode == 2
    assert second.stdout == ""
    assert "is open in another rowteller" in second.stderr
    assert f"process {first.pid}" in second.stderr
    out, _ = first.communicate("next\nstop\n")
    assert first.returncode == 0
    assert "Row one" in out


def test_an_edited_pattern_keeps_its_place_where_the_row_reads_as_before(tmp_path: Path) -> None:
    """A note was added at the top and row 1 reworded; row 9 is as it was."""
    file = tmp_path / "panel.txt"
    file.write_text(PANEL.read_text())
    left = sitting(file, "row 9", "yes", *["next"] * 4, "where am I")
    file.write_text(PANEL.read_text().replace("NOTES\n", "NOTES\nMind the cat.\n"))
    found = sitting(file, "where am I", "back", "undo", "where am I")
    assert "The pattern was edited since. Row 9 reads as it did, and your place holds." in found
    places = [line for line in [*left, *found] if line.startswith("place:")]
    assert len(set(places)) == 1
    assert sitting(file, "where am I")[1].startswith("Welcome back. Row nine")


def test_nothing_before_an_edit_is_taken_back(tmp_path: Path) -> None:
    """Places of the older text are none of this one: neither at once, nor after another rest."""
    file = tmp_path / "panel.txt"
    file.write_text(PANEL.read_text())
    left = sitting(file, "row 9", "yes", *["next"] * 4, "where am I")
    file.write_text(PANEL.read_text().replace("NOTES\n", "NOTES\nMind the cat.\n"))
    for lines in (("undo", "where am I"), ("undo", "where am I"), ("next", "undo", "undo", "where am I")):
        said = sitting(file, *lines)
        assert "There is nothing to take back." in " ".join(said)
        assert [line for line in said if line.startswith("place:")] == [
            line for line in left if line.startswith("place:")
        ]


def test_a_row_in_other_words_keeps_the_place_while_what_stands_on_it_fits(tmp_path: Path) -> None:
    """Reworded before the place, or changed behind it: the stitches made so far are the same."""
    file = tmp_path / "panel.txt"
    file.write_text(PANEL.read_text())
    left = sitting(file, "row 9", "yes", *["next"] * 4, "where am I")
    file.write_text(
        PANEL.read_text().replace(
            "Row 3: Turn, ch 3, dc in next 4 dc,", "Row 3: Turn, ch 3, dc in next 2 dc, dc in next 2 dc,"
        )
    )
    found = sitting(file, "where am I")
    assert (
        "The pattern was edited since. Row 9 reads otherwise now, but what you have on it fits, "
        "and your place holds."
    ) in found
    done = [line.rpartition(" · ")[2] for line in (*left, *found) if line.startswith("place:")]
    assert done == ["4 of 16 squares"] * 2


@pytest.mark.parametrize("answer, done", [("yes", 4), ("no", 0)])
def test_where_it_does_not_fit_both_are_shown_and_the_maker_is_asked(
    tmp_path: Path, answer: str, done: int
) -> None:
    """What stands on row 9 is not what row 9 makes now; yes goes on after it, no begins the row again."""
    file = tmp_path / "panel.txt"
    file.write_text(PANEL.read_text())
    sitting(file, "row 9", "yes", *["next"] * 4)
    file.write_text(
        PANEL.read_text().replace(
            "Row 3: Turn, ch 3, dc in next 4 dc, ch 1, sk next ch-1 sp, dc in next dc, "
            "(dc in next ch-1 sp, dc in next dc) twice,",
            "Row 3: Turn, ch 3, dc in next 4 dc, (dc in next ch-1 sp, dc in next dc) twice, "
            "ch 1, sk next ch-1 sp, dc in next dc,",
        )
    )
    found = sitting(file, answer, "where am I")
    assert "The pattern was edited since, and Row 9 reads otherwise now. You stand at its start." in found
    assert any(line.startswith("Row 9 was: Turn, ch 3, dc in next 4 dc, ch 1,") for line in found)
    assert any(line.startswith("Row 9 is now: Turn, ch 3, dc in next 4 dc, (dc in") for line in found)
    assert any(
        "Do those still stand? Yes goes on after them; no begins the row again." in line for line in found
    )
    (place,) = [line for line in found if line.startswith("place: Row 9 ")]
    assert f" · {done} of " in place


@pytest.mark.parametrize("inserted", [True, False])
def test_a_row_that_has_another_number_now_is_found_by_its_words_and_what_it_stands_on(
    tmp_path: Path, inserted: bool
) -> None:
    """A row was put in below it, or taken out: the place goes with the row."""
    rows = [
        "Sc in 2nd ch from hook and in each ch across, turn.", "Ch 1, sc in each st across, turn.",
        "Ch 1, (sc in next st, tr in next st) 10 times, turn.", "Ch 1, hdc in each st across.",
    ]  # fmt: skip

    def text(worked: list[str]) -> str:
        return "CLOTH\nCh 21.\n" + "".join(f"Row {n}: {words}\n" for n, words in enumerate(worked, 1))

    file = tmp_path / "cloth.txt"
    file.write_text(text(rows))
    sitting(file, "row 3", "yes", "next", "next", "next")
    file.write_text(text([rows[0], *rows[1:2] * (2 if inserted else 0), *rows[2:]]))
    found = sitting(file, "where am I")
    now = "Row 4" if inserted else "Row 2"
    assert f"The pattern was edited since. What was Row 3 is {now} now, and your place holds." in found
    (place,) = [line for line in found if line.startswith(f"place: {now}, ")]
    assert "3 of 10" in place


def test_a_row_that_was_edited_away_leads_to_what_stands_in_its_place(tmp_path: Path) -> None:
    """The nearest there is, and the missing one by name."""
    file = tmp_path / "panel.txt"
    file.write_text(PANEL.read_text())
    sitting(file, "row 15", "yes", "next")
    shorter = PANEL.read_text().partition("Row 14:")[0]
    file.write_text(shorter)
    found = sitting(file, "where am I")
    assert (
        "The pattern was edited since, and has no Row 15 any more. You stand at the start of Row 13." in found
    )
    assert any(line.startswith("Row 15 was: Turn, ch 3, *dc in next ch-1 sp") for line in found)
    assert any(line.endswith("Is that where you are? No, and we look for your place.") for line in found)


def test_the_text_is_kept_so_that_a_lost_file_stops_nobody(tmp_path: Path) -> None:
    """The pattern's file is gone; the piece goes on."""
    file = tmp_path / "panel.txt"
    file.write_text(PANEL.read_text())
    left = sitting(file, "row 9", "yes", "where am I")
    file.unlink()
    done = at_work("where am I", file=None)
    assert place_of(done) in left


def test_a_wrong_size_is_refused_with_the_sizes(tmp_path: Path) -> None:
    """Before any journal is begun."""
    done = at_work(words=("--plain", "--size", "XL"))
    assert done.returncode == 2
    assert done.stderr.splitlines() == ["harbour-windows.txt has no size 'XL'; it has one size only."]
    assert pieces(pieces_folder()) == ((), ())


@pytest.mark.parametrize(
    "lines, size",
    [
        (("34", "next"), "34"),
        (("3", "next"), "38"),
        (("adult 38", "next"), None),
        (("yes", "next"), "34"),
        (("next",), None),
        (("stop",), None),
        ((), None),
    ],
)
def test_the_size_is_asked_once(tmp_path: Path, lines: tuple[str, ...], size: str | None) -> None:
    """From a pipe, a line that names none is a deed, and the first size is worked; none is asked of a piece in hand."""
    file = tmp_path / "vest.txt"
    file.write_text(
        "Sizes: 34 (36, 38)\nCh 11 (13, 15).\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 (12, 14) sc)\n"
        "Row 2: Ch 1, turn, sc in each sc across. (10 (12, 14) sc)\n"
    )
    begun = at_work(*lines, file=file)
    assert begun.stdout.startswith("Which size? 1. 34, 2. 36, 3. 38\n")
    assert f"Size {size or '34'}; it also comes in" in begun.stdout
    assert ("I don't know 'adult 38'" in begun.stdout) is ("adult 38" in lines)
    stitches = {None: 10, "34": 10, "38": 14}[size]
    back = at_work("next", file=file).stdout
    assert "Which size?" not in back
    assert f"of {stitches} stitches" in back


@pytest.mark.parametrize(
    "line",
    ["frobnicate", "\x1b[2J\x1b]8;;x\x07", "next " * 200, "row", "row zero", "count minus one", "ß" * 500],
)
def test_words_it_does_not_know_change_nothing(line: str) -> None:
    """One sentence, no control code comes back, and the place stays."""
    done = at_work("where am I", line, "where am I")
    assert done.returncode == 0
    assert "\x1b" not in done.stdout
    first, last = (one for one in done.stdout.splitlines() if one.startswith("place:"))
    assert first == last


def test_bytes_that_are_no_letters_and_a_terminal_with_few_letters_stop_nobody() -> None:
    """Latin-1 typed into a terminal that only knows ASCII."""
    done = subprocess.run(
        [*WORK, str(PANEL), "--plain"],
        input=b"fr\xe9n\xe9tique\nnext\nwhere am I\n",
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "LC_ALL": "C"},
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"place: Row 1, group 1 of 1" in done.stdout


def test_a_pattern_cannot_reach_the_terminal_with_control_codes(tmp_path: Path) -> None:
    """Its text is shown, its codes are not."""
    file = tmp_path / "evil.txt"
    file.write_text(
        "EVIL \x1b]0;owned\x07\n\n"
        "Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\x1b[2J \u202e[/x]\n",
        encoding="utf-8",
    )
    done = at_work("next", "next", "whole row", "next", file=file)
    assert done.returncode == 0
    assert not set(done.stdout + done.stderr) & {"\x1b", "\x07", "\u202e"}


@pytest.mark.parametrize(
    "text",
    ["", "\n\n", "Just words.\n", "Row 1:\n", "(((((\n", "Row 1: *sc; rep from * forever\n", "\x00\x01"],
)
def test_a_text_that_is_hardly_a_pattern_is_followed_to_its_end(tmp_path: Path, text: str) -> None:
    """Or refused in one sentence; never a traceback."""
    file = tmp_path / "odd.txt"
    file.write_bytes(text.encode())
    done = at_work(
        "next",
        "back",
        "where am I",
        "how many",
        "whole row",
        "count 3",
        "row 1",
        "yes",
        "next",
        "next",
        "stop",
        file=file,
    )
    assert done.returncode in (0, 2)
    assert "Traceback" not in done.stderr
    assert len(done.stderr.splitlines()) <= 1


SITTINGS = {
    "work-filet-panel": (
        "harbour-windows",
        (
            "next",
            "next",
            "next",
            "",
            "",
            "where am I",
            "back",
            "again",
            "how many",
            "how many left",
            "show me how",
            "whole row",
            "undo",
            "redo",
        ),
        (
            "where am I",
            "go to row twelve",
            "no",
            "row 12",
            "yes",
            "next",
            "i have 2",
            "stitch by stitch",
            "next",
            "group by group",
            "row 40",
            "stop",
        ),
    ),
    "work-ripple": (
        "low-tide-ripple",
        (
            "row 4",
            "yes",
            *["next"] * 12,
            "where am I",
            "repeat by repeat",
            "next",
            "next",
            "back",
            "how many left",
        ),
        ("row 13", "yes", "row by row", "back", "next", "count 56", "next", "next", "next", "help"),
    ),
}


@pytest.mark.parametrize("name", sorted(SITTINGS))
def test_whole_sittings_are_as_they_always_were(name: str, golden: Callable[[str, str], None]) -> None:
    """Two sittings with a night between them, to be read like a play."""
    pattern, evening, morning = SITTINGS[name]
    file = PATTERNS / f"{pattern}.txt"
    lines = [
        f"Two sittings at {pattern}",
        "",
        *sitting(file, *evening),
        "",
        "the morning after",
        "",
        *sitting(file, *morning),
    ]
    golden(f"{name}.txt", "\n".join(lines) + "\n")


@pytest.mark.skipif(
    "sys.platform == 'win32'", reason="kill -9 is not Windows'; ending a process there is another test"
)
def test_thirty_kills_at_random_moments_lose_nothing_that_was_shown() -> None:
    """The same that `python tests/journal/killing.py` does 500 times."""
    seed = random.SystemRandom().randrange(1 << 32)
    chance = random.Random(seed)
    steps = chance.choices(("next", "back"), weights=(5, 1), k=60)
    tally = killed([*WORK, str(PANEL), "--plain", "--quiet"], 30, steps, chance)
    assert tally.kills == 30
    assert tally.shown > 0
    assert tally.lost == (), f"seed {seed}"


def test_each_deed_is_on_the_disk_before_it_is_shown(own_home: Path) -> None:
    """Read by another program while the first still waits for the deed after it."""
    first = subprocess.Popen(
        [*WORK, str(PANEL), "--plain"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=dict(os.environ),
    )
    assert first.stdin is not None
    assert first.stdout is not None
    try:
        for number in range(1, 6):
            first.stdin.write("next\nwhere am I\n")
            first.stdin.flush()
            while not first.stdout.readline().startswith("place:"):
                pass
            ((piece,), _) = pieces(own_home / "pieces")
            assert piece.entries == number
    finally:
        first.kill()
        first.communicate()
    assert piece.latest_ms is not None
    assert abs(piece.latest_ms - time.time_ns() // 1_000_000) < 600_000
