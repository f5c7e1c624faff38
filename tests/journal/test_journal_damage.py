"""What the disk and others do to a journal: the maker hears one sentence and loses what was hurt."""

import os
import random
import sqlite3
import sys
from pathlib import Path

import pytest
from worked_pieces import NOW_MS, entry, in_another_process, opened, worked

from tracker.journal import FolderRefused, NoRoom, open_journal

NOBODY = 65534
"""The user who owns nothing, by its number on Linux and macOS."""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where a piece's journal would lie."""
    return tmp_path / "pieces" / "harbour-windows.journal"


class TestADamagedJournal:
    """It is set aside and said so, never deleted, and what still reads goes on."""

    def aside(self, file: Path) -> list[Path]:
        return sorted(file.parent.glob("*.damaged-*.journal"))

    @pytest.mark.parametrize("rubbish", [b"Row 1: Ch 3.", b"SQLite format 3\0" + b"\7" * 4096, b"\0" * 5000])
    def test_a_file_that_is_no_journal_at_all(self, file: Path, rubbish: bytes) -> None:
        """The sentence names the piece and where the old file lies; the file is kept to the byte."""
        file.parent.mkdir(parents=True)
        file.write_bytes(rubbish)
        journal, (notice,) = open_journal(file, NOW_MS)
        with journal:
            assert journal.last() is None
            journal.append(entry(1))
        (kept,) = self.aside(file)
        assert kept.read_bytes() == rubbish
        assert notice.headline.startswith("The journal of 'harbour-windows' was damaged: ")
        assert (
            notice.help
            == f"No step of it could be read, so a new journal is begun. The damaged one is kept as {kept}."
        )
        with opened(file) as journal:
            assert journal.last_number == 1

    def test_a_cut_file_gives_what_it_still_holds(self, file: Path) -> None:
        """Half of a journal is half of the steps, not none."""
        done = worked(file, 300)
        whole = file.read_bytes()
        file.write_bytes(whole[: len(whole) // 2])
        journal, (notice,) = open_journal(file, NOW_MS)
        with journal:
            saved = journal.all()
        assert 0 < len(saved) < 300
        assert all(each == done[each.number - 1] for each in saved)
        assert f"The {len(saved)} steps that could still be read go on" in notice.help
        assert len(self.aside(file)) == 1

    def test_a_step_changed_from_outside_is_left_out_and_the_last_place_holds(self, file: Path) -> None:
        """SQLite finds such a file sound; the seal does not. The maker's place is not lost by it."""
        done = worked(file, 20)
        with sqlite3.connect(file) as meddler:
            meddler.execute("UPDATE entries SET place = '[0,1,2,7]' WHERE number = 7")
        meddler.close()
        journal, (notice,) = open_journal(file, NOW_MS)
        with journal:
            assert journal.all() == done[:6] + done[7:]
            assert journal.fact("name") == "For the kitchen"
            assert journal.text() is not None
            journal.append(entry(21))
        assert "a step in it was changed from outside" in notice.headline
        assert "The 19 steps" in notice.help
        assert len(self.aside(file)) == 1

    def test_a_turned_over_byte_anywhere_never_gives_a_wrong_step(self, file: Path) -> None:
        """Whichever byte is hit, what comes back was really done, and nothing ends in an exception."""
        done = worked(file, 60)
        sound = file.read_bytes()
        chance = random.Random(7)
        for _ in range(60):
            hurt = bytearray(sound)
            for at in chance.sample(range(len(hurt)), 3):
                hurt[at] ^= 1 << chance.randrange(8)
            file.write_bytes(hurt)
            journal, notices = open_journal(file, NOW_MS)
            with journal:
                saved = journal.all()
            assert all(each == done[each.number - 1] for each in saved)
            assert notices or saved == done
            if notices:
                assert self.aside(file)
            for left in file.parent.iterdir():
                left.unlink()

    def test_two_damaged_in_one_second_are_both_kept(self, file: Path) -> None:
        """The second does not write over the first."""
        file.parent.mkdir(parents=True)
        for rubbish in (b"one", b"two"):
            file.write_bytes(rubbish)
            open_journal(file, NOW_MS)[0].close()
        assert {kept.read_bytes() for kept in self.aside(file)} == {b"one", b"two"}

    def test_an_empty_file_is_a_new_piece(self, file: Path) -> None:
        """It is what a kill in the first instant leaves behind; nothing was in it."""
        file.parent.mkdir(parents=True)
        file.touch()
        with opened(file) as journal:
            assert journal.last() is None

    def test_a_mending_cut_off_between_its_moves_is_ended(self, file: Path) -> None:
        """The damaged file was moved and the program killed before the mended one had its name."""
        done = worked(file, 5)
        file.rename(file.with_name("harbour-windows.mending.journal"))
        with opened(file) as journal:
            assert journal.all() == done

    def test_what_an_earlier_mending_left_is_not_taken_for_the_piece(self, file: Path) -> None:
        """The program was killed while it mended: the damaged file is still there and is mended afresh."""
        done = worked(file, 5)
        with sqlite3.connect(file) as meddler:
            meddler.execute("UPDATE entries SET deed = 'back' WHERE number = 2")
        meddler.close()
        file.with_name("harbour-windows.mending.journal").write_bytes(b"half")
        journal, (notice,) = open_journal(file, NOW_MS)
        with journal:
            assert journal.all() == (done[0], *done[2:])
        assert "The 4 steps" in notice.help

    def test_a_wal_without_its_journal_is_kept(self, file: Path) -> None:
        """SQLite would delete it unread; somebody may still want to look into it."""
        worked(file, 1)
        file.write_bytes(b"")
        file.with_name(f"{file.name}-wal").write_bytes(b"the last steps")
        journal, (notice,) = open_journal(file, NOW_MS)
        journal.close()
        assert "its main file is empty" in notice.headline
        (kept,) = file.parent.glob("*.damaged-*.journal-wal")
        assert kept.read_bytes() == b"the last steps"

    def test_a_wal_hurt_after_a_kill_is_noticed(self, file: Path) -> None:
        """SQLite takes the hurt place for the end, silently; the note beside the journal knows better."""
        with opened(file) as journal:
            for number in range(1, 41):
                journal.append(entry(number))
            journal.remember()
            wal = file.with_name(f"{file.name}-wal")
            as_killed = {part: part.read_bytes() for part in (file, wal, file.with_suffix(".lock"))}
        hurt = bytearray(as_killed[wal])
        hurt[len(hurt) // 2] ^= 1
        for part, content in {**as_killed, wal: bytes(hurt)}.items():
            part.write_bytes(content)
        journal, (notice,) = open_journal(file, NOW_MS)
        with journal:
            last = journal.last_number
        assert 0 < last < 40
        assert f"it ends at step {last}, and step 40 had been kept" in notice.headline
        (kept,) = file.parent.glob("*.damaged-*.journal-wal")
        assert kept.read_bytes() == hurt
        opened(file).close()

    def test_another_programs_database_is_not_written_into(self, file: Path) -> None:
        """It is set aside whole."""
        file.parent.mkdir(parents=True)
        with sqlite3.connect(file) as other:
            other.execute("CREATE TABLE recipes (name)")
        other.close()
        journal, (notice,) = open_journal(file, NOW_MS)
        journal.close()
        assert "it is another program's database" in notice.headline
        with sqlite3.connect(self.aside(file)[0]) as other:
            assert other.execute("SELECT count(*) FROM sqlite_master").fetchone() == (1,)
        other.close()


class TestTheDisk:
    """Full, read-only or not there: one sentence, and nothing that was kept is lost."""

    def test_a_full_disk_refuses_the_step_and_keeps_the_ones_before(self, file: Path) -> None:
        """The file may grow no further (RLIMIT_FSIZE); once there is room, the step can be said again."""
        resource = pytest.importorskip("resource", reason="Windows has no limit on a file's size")
        worked(file, 3)

        def fill() -> str:
            with opened(file) as journal:
                resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, resource.RLIM_INFINITY))
                number = 4
                try:
                    while number < 2_000:
                        journal.append(entry(number))
                        number += 1
                except NoRoom as full:
                    kept = journal.last_number
                    resource.setrlimit(
                        resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY)
                    )
                    journal.append(entry(number))
                    return f"{number - kept} {full}"
            return "the disk was never full"

        said = in_another_process(fill)
        assert said.startswith("1 There is no room left on the disk to keep your step in ")
        assert said.endswith("Make room and say it again; every step before it is kept.")
        with opened(file) as journal:
            numbers = [each.number for each in journal.all()]
        assert numbers == list(range(1, len(numbers) + 1))
        assert len(numbers) > 3

    def test_a_damaged_journal_stays_where_it_is_when_there_is_no_room_to_mend_it(self, file: Path) -> None:
        """Nothing is moved before what still reads is safe; with room again it is mended."""
        resource = pytest.importorskip("resource", reason="Windows has no limit on a file's size")
        worked(file, 300)
        with sqlite3.connect(file) as meddler:
            meddler.execute("UPDATE entries SET deed = 'back' WHERE number = 2")
        meddler.close()
        before = file.read_bytes()

        def mend_without_room() -> str:
            resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, resource.RLIM_INFINITY))
            try:
                open_journal(file, NOW_MS)
            except NoRoom as full:
                return str(full)
            return "mended"

        assert in_another_process(mend_without_room).startswith("There is no room left on the disk")
        assert file.read_bytes() == before
        journal, (notice,) = open_journal(file, NOW_MS)
        journal.close()
        assert "The 299 steps" in notice.help

    def test_a_folder_that_cannot_be_made_is_one_sentence(self, tmp_path: Path) -> None:
        """Something else stands where the folder should be."""
        (tmp_path / "pieces").write_text("a shopping list")
        with pytest.raises(FolderRefused, match=r"cannot be made .*ROWTELLER_HOME"):
            open_journal(tmp_path / "pieces" / "a.journal", NOW_MS)

    @pytest.mark.skipif(sys.platform == "win32", reason="Windows keeps its permissions elsewhere")
    def test_a_read_only_folder_is_one_sentence(self, tmp_path: Path) -> None:
        """A maker who may read the folder but not write in it is told so."""
        folder = tmp_path / "pieces"
        worked(folder / "a.journal", 2)
        folder.chmod(0o555)

        def open_without_rights() -> str:
            if os.geteuid() == 0:
                tmp_path.chmod(0o755)
                for above in tmp_path.parents:
                    if above.name.startswith(("pytest-", "popen-")):
                        above.chmod(0o755)
                os.setgid(NOBODY)
                os.setuid(NOBODY)
            try:
                open_journal(folder / "b.journal", NOW_MS)
            except FolderRefused as refused:
                return str(refused)
            return "opened"

        said = in_another_process(open_without_rights)
        folder.chmod(0o755)
        assert said.startswith("rowteller may not write beside 'b' in ")
        assert said.endswith("Make that folder writable, or set ROWTELLER_HOME to a folder that is.")
        with opened(folder / "a.journal") as journal:
            assert journal.last_number == 2
