"""The pieces in hand: where they live and the list of them."""

from pathlib import Path

import platformdirs
import pytest

from tracker.journal import Anchor, Entry, home, open_journal, piece_file, pieces, pieces_folder


def work_on(file: Path, source: str, at_ms: int, label: str, name: str = "") -> None:
    """One step worked on a piece."""
    journal, _ = open_journal(file, at_ms)
    with journal:
        journal.keep_text("Row 1: Ch 3.", source, at_ms)
        if name:
            journal.set_fact("name", name, at_ms)
        anchor = Anchor(None, 1, 1, label, "")
        journal.append(Entry(journal.last_number + 1, at_ms, "next", {}, (0,), anchor))


def test_the_list_has_the_latest_worked_first(tmp_path: Path) -> None:
    """Each with the maker's name for it, or its pattern's file name, and the row it stands in."""
    shawl, mat = piece_file(tmp_path, "/home/me/shawl.txt"), piece_file(tmp_path, "/home/me/mat.txt")
    work_on(shawl, "/home/me/shawl.txt", 2_000, "Row 7")
    work_on(mat, "/home/me/mat.txt", 1_000, "Rnd 2", "For Sunday")
    found, notices = pieces(tmp_path)
    assert [(piece.name, piece.label, piece.latest_ms, piece.entries) for piece in found] == [
        ("shawl", "Row 7", 2_000, 1),
        ("For Sunday", "Rnd 2", 1_000, 1),
    ]
    assert notices == ()


def test_a_piece_that_is_open_elsewhere_is_listed(tmp_path: Path) -> None:
    """Looking at the list needs no lock and disturbs nobody."""
    file = piece_file(tmp_path, "/home/me/shawl.txt")
    journal, _ = open_journal(file, 1_000)
    with journal:
        journal.append(Entry(1, 1_000, "next"))
        ((piece,), _) = pieces(tmp_path)
        assert piece.entries == 1
        journal.append(Entry(2, 1_001, "next"))
    ((piece,), _) = pieces(tmp_path)
    assert piece.entries == 2


def test_a_damaged_piece_costs_its_own_line_only(tmp_path: Path) -> None:
    """The others are listed, and the damaged one is named; what was set aside is no piece."""
    work_on(piece_file(tmp_path, "/home/me/mat.txt"), "/home/me/mat.txt", 1_000, "Rnd 2")
    (tmp_path / "hurt.journal").write_bytes(b"not a journal")
    (tmp_path / "old.damaged-20260101-000000.journal").write_bytes(b"not a journal")
    found, (notice,) = pieces(tmp_path)
    assert [piece.name for piece in found] == ["mat"]
    assert "hurt.journal cannot be read" in notice.headline


def test_no_folder_yet_is_no_pieces(tmp_path: Path) -> None:
    """Nothing is made by looking."""
    assert pieces(tmp_path / "pieces") == ((), ())
    assert not (tmp_path / "pieces").exists()


def test_a_pattern_has_one_journal_and_each_name_another(tmp_path: Path) -> None:
    """The same file is the same piece on every run; one of its name elsewhere, or a second of it, is not."""
    shawl = piece_file(tmp_path, "/home/me/Shawl in July.txt")
    assert shawl == piece_file(tmp_path, "/home/me/Shawl in July.txt")
    assert shawl.name.startswith("shawl-in-july-")
    others = {
        piece_file(tmp_path, "/home/you/Shawl in July.txt"),
        piece_file(tmp_path, "/home/me/Shawl in July.txt", "the second"),
        piece_file(tmp_path, "C:\\Users\\me\\Shawl in July.txt"),
    }
    assert len({shawl, *others}) == 4
    assert piece_file(tmp_path, "/home/me/かぎ針.txt").name.startswith("piece-")


@pytest.mark.parametrize(
    "environ, expected",
    [
        ({"ROWTELLER_HOME": "/srv/yarn", "XDG_DATA_HOME": "/data"}, Path("/srv/yarn")),
        ({"XDG_DATA_HOME": "/data"}, Path("/data/rowteller")),
    ],
)
def test_the_variables_are_obeyed(environ: dict[str, str], expected: Path) -> None:
    """Our own first, then that of the XDG Base Directory Specification."""
    assert home(environ) == expected
    assert pieces_folder(environ) == expected / "pieces"


@pytest.mark.skipif("sys.platform in ('win32', 'darwin')", reason="the XDG default is that of Linux")
@pytest.mark.parametrize("given", [{}, {"XDG_DATA_HOME": ""}, {"XDG_DATA_HOME": "relative"}])
def test_without_them_it_is_the_place_the_standard_names(given: dict[str, str]) -> None:
    """`$HOME/.local/share`; a relative path is ignored (XDG Base Directory Specification 0.8)."""
    assert home({"HOME": "/home/me", **given}) == Path("/home/me/.local/share/rowteller")


def test_the_platforms_own_place_is_taken_where_there_is_no_xdg(monkeypatch: pytest.MonkeyPatch) -> None:
    """On macOS and Windows the place is the one platformdirs knows."""
    monkeypatch.setattr("sys.platform", "darwin")
    assert home({}) == platformdirs.user_data_path("rowteller", appauthor=False)
