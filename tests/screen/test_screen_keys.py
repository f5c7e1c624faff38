"""The screen under a maker's keys, in Textual's own pilot: real app, real journal, no terminal."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tracker.commands.pieces.lead import opened_piece
from tracker.ears.port import Heard
from tracker.hands_free.settings import Settings
from tracker.pedal.port import LearnedKey
from tracker.samples import samples
from tracker.screen.app import WorkScreen
from tracker.screen.themes import THEMES

PEDAL = Settings(ear="off", pedal=(LearnedKey(1, terminal="pagedown"),))


@asynccontextmanager
async def at_work(app: WorkScreen, columns: int = 80, rows: int = 24) -> AsyncIterator[Pilot[int]]:
    async with app.run_test(size=(columns, rows)) as pilot:
        while app.lap is None:
            await pilot.pause()
        await pilot.pause()
        yield pilot
    app.close()


@pytest.fixture
def app(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> WorkScreen:
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TERM", "xterm-256color")
    return screen()


def screen(settings: Settings = PEDAL) -> WorkScreen:
    opened = opened_piece(str(samples()["harbour-windows"]), None)
    return WorkScreen(
        lambda: (opened, opened.recap if opened.begun else opened.desk.view().said, ""),
        settings,
        THEMES[0],
        quiet=True,
    )


async def test_space_goes_on_and_b_goes_back(app: WorkScreen) -> None:
    """The place on the page follows."""
    async with at_work(app) as pilot:
        assert "before the row" in app.sheet.text
        await pilot.press("space")
        assert "Row 1 of 15" in app.sheet.text
        await pilot.press("space", "space")
        assert "Row 2 of 15" in app.sheet.text
        await pilot.press("b", "b")
        assert "Row 1 of 15" in app.sheet.text


async def test_keys_pressed_while_the_piece_is_opened_are_not_lost(app: WorkScreen) -> None:
    """They are done once it is open."""
    app.pressed("space")
    async with at_work(app) as pilot:
        await pilot.pause()
        assert "Row 1 of 15" in app.sheet.text


async def test_a_note_is_typed_with_the_mark_it_belongs_to(app: WorkScreen) -> None:
    """M, the words, enter; without words the place alone is marked, and escape marks nothing."""
    async with at_work(app) as pilot:
        await pilot.press(
            "space",
            "M",
            *("space" if c == " " else c for c in "second skein"),
            "backspace",
            "space",
            "q",
            "minus",
            "1",
        )
        assert "mark second skei q-1_" in app.sheet.text
        await pilot.press("enter")
        assert app.lap is not None
        assert [mark.words for mark in app.lap.desk.session.marks] == ["second skei q-1"]
        await pilot.press("M", "enter")
        assert [mark.words for mark in app.lap.desk.session.marks][1:] == [""]
        await pilot.press("M", "x", "escape")
        assert "mark x" not in app.sheet.text
        assert len(app.lap.desk.session.marks) == 2


async def test_a_row_is_typed_asked_back_and_gone_to(app: WorkScreen) -> None:
    """g, the figures, enter; then yes. Escape leaves it before, no after."""
    async with at_work(app) as pilot:
        await pilot.press("g", "1", "3", "backspace", "2")
        assert "row 12_" in app.sheet.text
        await pilot.press("enter")
        assert app.lap is not None
        assert (
            app.lap.desk.view().asked == "Row twelve. Go there?"
        )  # in large letters: screen-asked-80x24 shows them
        assert "yes (y) or no (n)?" in app.sheet.text
        await pilot.press("n")
        assert "Row 12" not in app.sheet.text
        await pilot.press("g", "1", "2", "enter", "y")
        assert "Row 12 of 15 · row 6 again" in app.sheet.text
        await pilot.press("g", "5", "escape")
        assert "row 5_" not in app.sheet.text


async def test_help_lies_over_the_page_and_goes_away(app: WorkScreen) -> None:
    """Question mark opens it, space turns it, escape closes it."""
    async with at_work(app) as pilot:
        before = app.sheet.text
        await pilot.press("question_mark")
        seen = app.sheet.text
        assert "how many left" in seen
        while "space for more" in app.sheet.text:
            await pilot.press("space")
            seen += app.sheet.text
        assert "rest; your place is kept" in seen
        await pilot.press("escape")
        assert app.sheet.text == before


async def test_only_lines_that_changed_are_drawn_again(app: WorkScreen) -> None:
    """From one window to the next neither title nor foot nor the rows below are touched;
    nothing at all when nothing changes.
    """
    async with at_work(app) as pilot:
        await pilot.press(*["space"] * 6)
        await pilot.press("space")
        assert 0 < app.sheet.drawn_again <= 8
        await pilot.press("escape")
        assert app.sheet.drawn_again == 0


async def test_the_page_fits_again_when_the_window_changes(app: WorkScreen) -> None:
    """Small, wide, and too small for anything but the words."""
    async with at_work(app) as pilot:
        await pilot.press("space", "space", "space")
        for columns, rows in ((120, 40), (200, 60), (80, 24), (30, 8)):
            await pilot.resize_terminal(columns, rows)
            await pilot.pause()
            assert len(app.sheet.lines) == rows
            assert "Row 2" in app.sheet.text


async def test_a_learned_pedal_moves_and_its_double_tap_takes_the_tap_back(app: WorkScreen) -> None:
    """A tap goes on; two in quick succession come to one back from where the foot began."""
    async with at_work(app) as pilot:
        await pilot.press("space", "space", "space")
        start = app.lap.desk.session.place  # type: ignore[union-attr]
        await pilot.press("pagedown")
        await pilot.pause()
        moved = app.lap.desk.session.place  # type: ignore[union-attr]
        assert moved > start
        await asyncio.sleep(0.5)  # so long that the next tap is one of its own
        await pilot.press("pagedown")
        await asyncio.sleep(0.1)
        await pilot.press("pagedown")
        await pilot.pause()
        assert app.lap.desk.session.place == start  # type: ignore[union-attr]


async def test_what_the_ear_heard_moves_the_work_and_is_shown(app: WorkScreen) -> None:
    """A word posted from the listening thread; stop by voice rests and leaves the screen, next goes on."""
    async with at_work(app) as pilot:
        app.lap.sitting.post(Heard("next", "onward", 0.9, 0, 400, 600, 5))  # type: ignore[union-attr]
        await pilot.pause()
        assert "Row 1 of 15" in app.sheet.text
        assert "heard “onward”" in app.sheet.text
        app.lap.sitting.post(Heard("stop", "rest now", 0.9, 0, 400, 600, 5))  # type: ignore[union-attr]
        await pilot.pause()
        assert "resting" in app.sheet.text
        assert app.is_running
        app.lap.sitting.post(Heard("next", "next", 0.9, 0, 400, 600, 5))  # type: ignore[union-attr]
        await pilot.pause()
        assert "resting" not in app.sheet.text


async def test_stop_by_key_ends_and_the_place_is_found_again(app: WorkScreen) -> None:
    """The next sitting shows the same place."""
    async with at_work(app) as pilot:
        await pilot.press("space", "space", "space", "space", "q")
        await pilot.pause()
        place = app.lap.desk.session.place  # type: ignore[union-attr]
    assert app.return_value == 0
    again = screen()
    async with at_work(again) as pilot:
        assert again.lap.desk.session.place == place  # type: ignore[union-attr]
        assert "Row 2 of 15" in again.sheet.text


async def test_rounds_are_drawn_as_rows_with_a_key_and_again_round(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The choice is handed on to be kept; nothing of the work moves."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    opened = opened_piece(str(samples()["bramble-hedgehog"]), None)
    kept: list[bool] = []
    app = WorkScreen(lambda: (opened, "", ""), PEDAL, THEMES[0], quiet=True, keep_drawing=kept.append)
    async with at_work(app, 120, 40) as pilot:
        await pilot.press("g", "3", "enter", "y", "space")
        place = opened.desk.session.place
        assert "Rnd 3 ◄" not in app.sheet.text
        await pilot.press("D")
        assert "Rnd 3 ◄" in app.sheet.text
        await pilot.press("D")
        assert "Rnd 3 ◄" not in app.sheet.text
        assert opened.desk.session.place == place
    assert kept == [True, False]


async def test_the_theme_changes_with_a_key(app: WorkScreen) -> None:
    """Every look shows the same words; after the last comes the first. The terminal's own colours are one of them."""
    async with at_work(app) as pilot:
        await pilot.press("space")
        text = app.sheet.text
        drawn = []
        for theme in (*THEMES[1:], THEMES[0]):
            await pilot.press("t")
            assert app.sheet.text == text
            assert bool(app.ansi_color) is (theme is THEMES[-1])
            strip = app.sheet.render_line(0)
            drawn.append({str(segment.style) for segment in strip})
        assert len({frozenset(each) for each in drawn}) == len(THEMES)


async def test_a_piece_that_cannot_be_opened_ends_the_screen_with_a_sentence() -> None:
    """No traceback, status 2."""

    def refused() -> tuple[None, str, str]:
        raise ValueError("The piece is open elsewhere.")

    app = WorkScreen(refused, Settings(ear="off"), THEMES[0], quiet=True)  # type: ignore[arg-type]
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.pause()
    assert app.return_value == 2
    assert app.fault == "The piece is open elsewhere."
