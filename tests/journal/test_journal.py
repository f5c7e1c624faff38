"""The journal keeps what the maker did, whatever happens to the program, the disk or the file."""

import os
import random
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from killing import killed
from worked_pieces import NOW_MS, entry, in_another_process, opened, worked

from tracker.journal import (
    Anchor,
    Entry,
    Json,
    NewerJournal,
    PieceHeld,
    Text,
    digest_of,
    open_journal,
)
from tracker.journal.sqlite.schema import entry_of, row_of, sealed

HERE = Path(__file__).resolve().parents[1]
KEEPER = (sys.executable, str(HERE / "journal" / "journal_keeper.py"))

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
json_values: st.SearchStrategy[Json] = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53), 2**53)
    | st.floats(allow_nan=False, allow_infinity=False)
    | texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=6,
)
counts = st.integers(0, 2**40)
anchors = st.builds(
    Anchor, st.none() | texts, counts, counts, texts, texts, st.lists(counts, max_size=3).map(tuple), counts
)
entries = st.builds(
    Entry,
    counts,
    counts,
    texts,
    st.dictionaries(texts, json_values, max_size=3),
    st.lists(counts, max_size=5).map(tuple),
    st.none() | anchors,
    texts,
)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where a piece's journal would lie."""
    return tmp_path / "pieces" / "harbour-windows.journal"


def test_a_piece_put_away_and_taken_up_again_stands_where_it_stood(file: Path) -> None:
    """All deeds come back in order, the last one first asked for, and the text and name with them."""
    done = worked(file, 12)
    with opened(file) as journal:
        assert journal.last() == done[-1]
        assert journal.all() == done
        assert journal.last_number == 12
        assert journal.fact("name") == "For the kitchen"
        assert journal.text() == Text(1, NOW_MS, "harbour.txt", digest_of("Row 1: Ch 3."), "Row 1: Ch 3.", 1)


def test_a_new_piece_has_nothing_in_it(file: Path) -> None:
    """Before the first deed there is no last one, no text and no name."""
    with opened(file) as journal:
        assert (journal.last(), journal.all(), journal.text(), journal.fact("name")) == (None, (), None, None)


def test_room_laid_out_for_the_log_changes_nothing_that_is_kept(file: Path) -> None:
    """The log is begun again from the front; all that was kept before and after is there."""
    done = list(worked(file, 12))
    with opened(file) as journal:
        journal.lay_out()
        log = file.with_name(f"{file.name}-wal")
        room = log.stat().st_size
        for number in range(13, 300):
            done.append(entry(number))
            journal.append(done[-1])
        assert log.stat().st_size < 1.1 * room
        beside = sqlite3.connect(file)  # what a kill at this moment would leave
        assert beside.execute("SELECT count(*) FROM entries").fetchone() == (299,)
        beside.close()
    with opened(file) as journal:
        assert journal.all() == tuple(done)
        assert journal.fact("name") == "For the kitchen"


@given(entries)
def test_every_entry_comes_back_as_it_went_in(one: Entry) -> None:
    """Whatever the maker said and wherever they stood, the row gives the entry back and its seal holds."""
    assert entry_of(row_of(one)) == one


@given(entries, st.integers(0, 6), st.data())
def test_a_value_changed_in_the_file_breaks_the_seal(one: Entry, column: int, data: st.DataObject) -> None:
    """No column can be made another without its being noticed."""
    row = row_of(one)
    other = data.draw(texts.filter(lambda text: text != str(row[column])))
    assert not sealed((*row[:column], other, *row[column + 1 :]))


def test_numbers_have_no_gaps(file: Path) -> None:
    """An entry that is not the next one is refused, and nothing of it is kept."""
    with opened(file) as journal:
        journal.append(entry(1))
        for wrong in (1, 3):
            with pytest.raises(ValueError, match="where 2 is due"):
                journal.append(entry(wrong))
        assert journal.last_number == 1


def test_an_appended_entry_is_seen_by_others_at_once(file: Path) -> None:
    """When `append` returns, the entry is committed: another program that looks into the file finds it."""
    with opened(file) as journal:
        journal.append(entry(1))
        with sqlite3.connect(file) as looking:
            assert looking.execute("SELECT deed FROM entries").fetchall() == [("next",)]


def test_a_journal_is_kept_as_safely_as_sqlite_can(file: Path) -> None:
    """WAL, and FULL, which outlives a power cut (sqlite.org/pragma.html#pragma_synchronous)."""
    with opened(file) as journal:
        assert journal._base.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert journal._base.execute("PRAGMA synchronous").fetchone() == (2,)


class TestTheText:
    """A pattern edited since the piece was last worked is noticed."""

    def test_an_edit_is_noticed_and_the_old_text_stays(self, file: Path) -> None:
        """The text worked so far is given back to compare with; both stay, each with its first entry."""
        worked(file, 3)
        with opened(file) as journal:
            before = journal.edited_since("Row 1: Ch 4.")
            assert before is not None
            assert before.text == "Row 1: Ch 3."
            journal.keep_text("Row 1: Ch 4.", "harbour.txt", NOW_MS)
            assert journal.edited_since("Row 1: Ch 4.") is None
            assert [(text.text, text.from_entry) for text in journal.texts()] == [
                ("Row 1: Ch 3.", 1),
                ("Row 1: Ch 4.", 4),
            ]

    def test_the_same_text_is_no_edit(self, file: Path) -> None:
        """Neither the same words again nor other line ends count as an edit, and nothing is kept twice."""
        with opened(file) as journal:
            assert journal.edited_since("Row 1.\nRow 2.\n") is None
            journal.keep_text("Row 1.\nRow 2.\n", "a.txt", NOW_MS)
            journal.keep_text("Row 1.\r\nRow 2.\r\n", "a.txt", NOW_MS)
            assert journal.edited_since("Row 1.\r\nRow 2.\r\n") is None
            assert len(journal.texts()) == 1


class TestASecondOpener:
    """One piece is worked in one place at a time."""

    def test_it_is_refused_with_who_has_the_piece_and_since_when(self, file: Path) -> None:
        """Another process is told the process that holds the piece, and the piece is not touched."""

        def open_too() -> str:
            try:
                open_journal(file, NOW_MS + 1)
            except PieceHeld as held:
                return f"{held.pid} {held.since_ms} {held}"
            return "opened"

        with opened(file) as journal:
            journal.append(entry(1))
            said = in_another_process(open_too)
            journal.append(entry(2))
        assert said.startswith(
            f"{os.getpid()} {NOW_MS} The piece 'harbour-windows' is open in another rowteller"
        )
        with opened(file) as journal:
            assert journal.last_number == 2

    def test_it_is_refused_in_the_same_program_as_well(self, file: Path) -> None:
        """Two windows of one program are two openers."""
        with opened(file), pytest.raises(PieceHeld):
            open_journal(file, NOW_MS)

    def test_a_program_that_was_killed_holds_nothing(self, file: Path, tmp_path: Path) -> None:
        """The lock goes with the program, however it ends, and its file may stay."""
        env = {**os.environ, "ROWTELLER_HOME": str(tmp_path)}
        with subprocess.Popen(
            KEEPER, env=env, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        ) as keeper:
            assert keeper.stdin is not None
            assert keeper.stdout is not None
            keeper.stdin.write("next\n")
            keeper.stdin.flush()
            assert keeper.stdout.readline() == "next\n"
            kept = tmp_path / "pieces" / "kept.journal"
            with pytest.raises(PieceHeld, match=f"process {keeper.pid} since"):
                open_journal(kept, NOW_MS)
            keeper.kill()
        with opened(kept) as journal:
            assert journal.last_number == 1

    def test_another_piece_is_free(self, file: Path) -> None:
        """Two pieces in hand at once do not get into each other's way."""
        with opened(file), opened(file.with_name("mitten.journal")) as other:
            assert other.last() is None


def test_a_journal_of_a_later_rowteller_is_left_alone(file: Path) -> None:
    """A step of its tables that is not known here: the maker is asked to update, and nothing is changed."""
    worked(file, 2)
    with sqlite3.connect(file) as later:
        later.execute("INSERT INTO migrations VALUES ('tension by the hour', 1)")
    later.close()
    with pytest.raises(NewerJournal, match=r"later rowteller \(tension by the hour\)\. Update rowteller"):
        open_journal(file, NOW_MS)
    with sqlite3.connect(file) as later:
        assert later.execute("SELECT count(*) FROM entries").fetchone() == (2,)
    later.close()


class TestKills:
    """The program is killed at random moments, and no step that it showed is lost."""

    @pytest.fixture(autouse=True)
    def from_here(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setenv("PYTHONPATH", str(HERE.parent))

    def test_thirty_kills_lose_nothing(self) -> None:
        """Every place that was shown is there again, or the one after it whose showing was cut off."""
        chance = random.Random()
        tally = killed(KEEPER, 30, chance.choices(("next", "back"), (5, 1), k=200), chance)
        assert tally.lost == ()
        assert tally.kills == 30
        assert tally.shown > 0

    def test_a_program_that_shows_before_it_keeps_is_found_out(self) -> None:
        """The kills can fail: they catch a keeper that writes only every tenth step."""
        chance = random.Random(1)
        tally = killed((*KEEPER, "careless"), 8, chance.choices(("next", "back"), (5, 1), k=100), chance)
        assert tally.lost
