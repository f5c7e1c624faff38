"""The way in: the guided start and the shelf, in Textual's own pilot and on a real terminal."""

import re
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tracker.commands.pieces.lead import opened_piece
from tracker.commands.pieces.sizing import sizes_to_ask
from tracker.ears.port import Heard
from tracker.hands_free.arrivals import Told
from tracker.hands_free.settings import Settings, settled
from tracker.pedal.port import PedalPress, Press, Route
from tracker.samples import samples
from tracker.screen.app import WorkScreen
from tracker.screen.before.entrance import Entrance
from tracker.screen.before.guide import STEPS
from tracker.screen.before.outcome import Chosen
from tracker.screen.before.preview import caption, drawn, picture_of
from tracker.screen.before.shelf import HERE, IN_HAND, OURS, places, shelf
from tracker.screen.drawing.words import width_of
from tracker.screen.themes import THEMES
from tracker.session.understand import understand

NOW = datetime(2026, 3, 14, 9, 26)


def entering(folder: Path, *, guided: bool, troubled: bool = False) -> WorkScreen:
    """The screen with nothing named."""
    settings = Settings(ear="off", file=folder / "settings.json")

    def choose(chosen: Chosen, settings: Settings):  # type: ignore[no-untyped-def]
        def opening():  # type: ignore[no-untyped-def]
            if troubled:
                raise ValueError("The piece is open elsewhere.")
            opened = opened_piece(chosen.source, chosen.size)
            return opened, opened.desk.view().said, ""

        return opening

    def before(post):  # type: ignore[no-untyped-def]
        offers = shelf(folder, folder / "pieces", NOW)
        look = lambda: places(folder / "pieces", NOW)  # noqa: E731
        sizes = lambda source: sizes_to_ask(source, None)  # noqa: E731
        return Entrance(settings, offers, post, guided=guided, quiet=True, look=look, sizes=sizes)

    return WorkScreen(
        lambda: pytest.fail("nothing was named"),
        settings,
        THEMES[0],
        quiet=True,
        before=before,
        choose=choose,
    )


@asynccontextmanager
async def on(app: WorkScreen, columns: int = 80, rows: int = 24) -> AsyncIterator[Pilot[int]]:
    async with app.run_test(size=(columns, rows)) as pilot:
        await pilot.pause()
        yield pilot
    app.close()


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    return tmp_path


async def until(pilot: Pilot[int], words: str) -> str:
    """What is on the screen once these words are."""
    app = pilot.app
    assert isinstance(app, WorkScreen)
    for _ in range(400):
        if words in app.sheet.text:
            return app.sheet.text
        await pilot.pause(0.02)
    raise AssertionError(f"{words!r} never came:\n{app.sheet.text}")


async def test_three_questions_and_a_piece(home: Path) -> None:
    """Yes; a pedal's key is learned; the left hand; then a piece is picked and is on the screen, and all was kept."""
    app = entering(home, guided=True)
    async with on(app) as pilot:
        await until(pilot, "1 of 3")
        await pilot.press("space")
        await until(pilot, "2 of 3")
        await pilot.press("pageup")
        await until(pilot, "Switch 1 is “pageup”")
        await pilot.press("l")
        await until(pilot, "What will you work?")
        assert "where it hurts or tingles, stop" in app.sheet.text
        while "▸ harbour windows" not in app.sheet.text:
            await pilot.press("down")
        await pilot.press("enter")
        await until(pilot, "HARBOUR WINDOWS")
        await pilot.press("pageup")
        await until(pilot, "Row 1 of 15")
    settings, trouble = settled(home / "settings.json")
    assert not trouble
    assert settings.pedal[0].terminal == "pageup"
    assert (settings.left_handed, settings.greeted) == (True, True)


async def test_it_can_be_skipped_and_called_again(home: Path) -> None:
    """Escape goes to the shelf at once and is remembered; g asks all again."""
    app = entering(home, guided=True)
    async with on(app) as pilot:
        await until(pilot, "1 of 3")
        await pilot.press("escape")
        await until(pilot, "What will you work?")
        assert settled(home / "settings.json")[0].greeted
        await pilot.press("g")
        await until(pilot, "1 of 3")
        await pilot.press("escape", "q")
    assert app.return_value == 0


async def test_what_the_ear_hears_answers_and_what_is_missing_is_said(home: Path) -> None:
    """A device's sentence is shown; “onward” goes on."""
    app = entering(home, guided=True)
    async with on(app) as pilot:
        await until(pilot, "1 of 3")
        app._note(Told("mouth", "There is no speaker."))
        app._note(Heard("back", "one back", 0.9, 0, 400, 600, 5))
        seen = await until(pilot, "I heard “one back”")
        assert "There is no speaker." in seen
        app._note(Heard("next", "onward", 0.9, 0, 400, 600, 5))
        assert "I heard “onward”" in await until(pilot, "2 of 3")


async def test_a_piece_is_picked_by_voice_and_by_pedal(home: Path) -> None:
    """Next and back look, yes takes; a tap of the learned pedal looks on, held it takes."""
    app = entering(home, guided=True)
    async with on(app) as pilot:
        await pilot.press("space", "pageup")
        await until(pilot, "3 of 3")
        await pilot.press("space")
        await until(pilot, "▸ bramble hedgehog")
        app._note(Heard("next", "onward", 0.9, 0, 400, 600, 5))
        await until(pilot, "▸ brick lane mosaic")
        app._note(Heard("where", "where am i", 0.9, 0, 400, 600, 5))
        app._note(Heard("back", "one back", 0.9, 0, 400, 600, 5))
        await until(pilot, "▸ bramble hedgehog")
        await pilot.press("pageup")
        await until(pilot, "▸ brick lane mosaic")
        app._note(PedalPress(Press.HOLD, 1, Route.TERMINAL, 5_000.0))
        await until(pilot, "BRICK LANE MAT")


async def test_a_key_that_can_be_no_pedal_is_refused_with_its_reason(home: Path) -> None:
    """And another press is learned after it."""
    app = entering(home, guided=True)
    async with on(app) as pilot:
        await pilot.press("space")
        await pilot.press("ctrl+z")
        await until(pilot, "suspends the program")
        assert "2 of 3" in app.sheet.text
        await pilot.press("f13")
        await until(pilot, "Switch 1 is “f13”")


async def test_a_piece_that_cannot_be_opened_leaves_the_shelf_there(home: Path) -> None:
    """With the reason; another can be picked."""
    app = entering(home, guided=False, troubled=True)
    async with on(app) as pilot:
        await until(pilot, "What will you work?")
        await pilot.press("enter")
        await until(pilot, "The piece is open elsewhere.")
        await pilot.press("down")
        assert "open elsewhere" not in app.sheet.text
        assert app.is_running


async def test_a_pattern_in_sizes_is_begun_in_the_one_that_was_chosen(home: Path) -> None:
    """Left and right change it, the picture follows, and so does the piece."""
    app = entering(home, guided=False)
    async with on(app) as pilot:
        while "▸ stove lid cap" not in app.sheet.text:
            await pilot.press("down")
        first = await until(pilot, "one of 3")
        await pilot.press("right")
        await until(pilot, "size Adult Small")
        assert app.sheet.text != first
        await pilot.press("space")
        await until(pilot, "STOVE LID CAP")
        assert app.lap is not None
        assert app.lap.desk.loaded.pattern.size == "Adult Small"


async def test_a_pattern_in_sizes_asks_which_before_it_is_begun(home: Path) -> None:
    """By voice and by pedal as the pieces are; escape goes back to them; a piece in hand is not asked again."""
    app = entering(home, guided=False)
    async with on(app) as pilot:
        while "▸ stove lid cap" not in app.sheet.text:
            await pilot.press("down")
        await pilot.press("enter")
        assert "▸ Child" in await until(pilot, "Which size?")
        await pilot.press("escape")
        assert "▸ stove lid cap" in await until(pilot, "What will you work?")
        app._note(Heard("yes", "yes please", 0.9, 0, 400, 600, 5))
        await until(pilot, "Which size?")
        app._note(Heard("next", "onward", 0.9, 0, 400, 600, 5))
        await until(pilot, "size Adult Small, one of 3")
        app._note(PedalPress(Press.HOLD, 1, Route.TERMINAL, 5_000.0))
        await until(pilot, "to form a ring")
        assert app.lap is not None
        assert app.lap.desk.loaded.pattern.size == "Adult Small"
    again = entering(home, guided=False)
    async with on(again) as pilot:
        await until(pilot, "▸ stove lid cap")
        await pilot.press("enter")
        await until(pilot, "to form a ring")
        assert again.lap is not None
        assert again.lap.desk.loaded.pattern.size == "Adult Small"


async def test_every_size_of_window_has_a_whole_page(home: Path) -> None:
    """Guide and shelf fill it exactly, from tiny to wide."""
    app = entering(home, guided=True)
    async with on(app) as pilot:
        for guided in (True, False):
            for columns, rows in ((30, 8), (60, 20), (80, 24), (200, 60)):
                await pilot.resize_terminal(columns, rows)
                await pilot.pause()
                lines = app.sheet.lines
                assert len(lines) == rows
                assert {sum(width_of(text) for text, _ in line) for line in lines} == {columns}
            if guided:
                await pilot.press("escape")


def test_the_shelf_has_what_is_in_hand_then_what_lies_here_then_what_came_with_it(home: Path) -> None:
    """Latest first, with the row and the day; nothing twice; a letter to an aunt is no pattern."""
    here = home / "here"
    here.mkdir()
    (here / "my-scarf_two.txt").write_text(
        "Ch 12.\nRow 1: Sc in each ch.\nRow 2: Ch 1, turn, sc in each st.\n"
    )
    (here / "letter.txt").write_text("Dear aunt,\nI sit in row 3 of the theatre.\n")
    (here / "broken.txt").mkdir()
    opened = opened_piece(str(samples()["frost-ring"]), None)
    opened.desk.close()
    offers = shelf(here, home / "pieces", NOW)
    assert [offer.kind for offer in offers] == [IN_HAND, HERE, *[OURS] * (len(samples()) - 1)]
    assert [offer.name for offer in offers[:2]] == ["frost ring", "my scarf two"]
    assert "frost ring" not in [offer.name for offer in offers[1:]]


@pytest.mark.parametrize("name", sorted(samples()))
def test_every_sample_has_a_picture_that_fits(name: str) -> None:
    """At any size of room, in either hand."""
    text = samples()[name].read_text(encoding="utf-8")
    for mirrored in (False, True):
        picture = picture_of(name, text, None, mirrored)
        for width, height in ((10, 4), (44, 16), (110, 50)):
            lines = drawn(picture, width, height)
            assert 1 <= len(lines) <= height
            assert all(sum(width_of(text) for text, _ in line) == width for line in lines)
            assert all(width_of(line) <= width for line in caption(picture, width, 5))


def test_a_filet_picture_is_the_grid_and_a_round_runs_against_the_clock() -> None:
    """The letters of the cloth can be read; mirrored, they are the other way round; so is a round."""
    tea = samples()["tea-tray-cloth"].read_text(encoding="utf-8")

    def grid(mirrored: bool) -> list[str]:
        lines = drawn(picture_of("tea", tea, None, mirrored), 60, 20)
        return [
            "".join(text for text, _ in line)[: 19 * 2 : 2].replace("□", ".").replace("█", "#")
            for line in lines
        ]

    right = grid(False)
    assert right[1] == ".#####.#####..###.."
    assert grid(True) == [row[::-1] for row in right]
    ring = "Ring\nCh 4, join to form a ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n"
    # The turning chain and the round's end stand at the top; a right-handed maker goes on to the left of it.
    for mirrored in (False, True):
        top = "".join(text for text, _ in drawn(picture_of("ring", ring, None, mirrored), 22, 11)[0])
        assert (top.index("┇") < top.index("Ŧ")) is not mirrored


def test_a_ripple_rises_and_falls_on_the_shelf_for_either_hand() -> None:
    """What is worked together lies lowest, under the last row; a shawl that grows keeps its rows as they are."""
    for mirrored in (False, True):
        text = samples()["low-tide-ripple"].read_text(encoding="utf-8")
        lines = [line[0][0] for line in drawn(picture_of("it", text, None, mirrored), 70, 20)]
        assert len(lines) == 14
        assert lines[-1].count("Λ") == 8
        assert lines[-1].lstrip() != lines[-1]
        assert "Λ" not in lines[1]
    shawl = picture_of("it", samples()["dusk-lane-shawl"].read_text(encoding="utf-8"), None, False)
    lines = [line[0][0] for line in drawn(shawl, 140, 40)]
    assert len(lines) == 22
    assert all("  " not in line.strip() for line in lines)


def test_a_granny_square_is_square_on_the_shelf_too() -> None:
    """Its last round fills the first line and the last from side to side; the ring of the doily does not."""
    for name in ("kettle-square", "crossroads-square"):
        picture = picture_of(name, samples()[name].read_text(encoding="utf-8"), None, False)
        lines = ["".join(text for text, _ in line).rstrip() for line in drawn(picture, 60, 31)]
        lines = [line for line in lines if line.strip()]
        for line in (lines[0], lines[-1]):
            assert len(line.strip()) > 0.9 * max(len(one.strip()) for one in lines), name
    ring = picture_of("ring", samples()["frost-ring"].read_text(encoding="utf-8"), None, False)
    lines = ["".join(text for text, _ in line).rstrip() for line in drawn(ring, 60, 31)]
    assert len(lines[0].strip()) < 0.6 * max(len(one.strip()) for one in lines)


def test_what_is_no_pattern_is_said_to_be_none() -> None:
    """No row, no picture, no exception."""
    picture = picture_of("x", "\x1b[2J nothing here", None, False)
    assert drawn(picture, 40, 10) == ()
    assert "no row or round" in caption(picture, 60, 5)[1]
    assert not any(re.search(r"[\x00-\x1f]", line) for line in caption(picture, 60, 5))


def test_the_table_of_steps_has_a_way_past_each() -> None:
    """Space goes on, escape skips all, and both are told."""
    for step in STEPS:
        keys = [key for key, _ in step.keys]
        assert keys[-1] == "escape"
        assert "space" in keys


@pytest.mark.live
@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no pty; the pilot's tests are run there")
def test_the_first_start_on_a_real_terminal(tmp_path: Path) -> None:
    """work without a pattern and without a piece: the guide, the shelf, a piece; pick and start bring them back."""
    from pretend_terminal import terminal

    root = Path(__file__).resolve().parents[2]
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "settings.json").write_text('{"ear": "off"}')

    def rowteller(*words: str):  # type: ignore[no-untyped-def]
        return terminal([sys.executable, "-m", "tracker", *words], tmp_path, PYTHONPATH=str(root))

    with rowteller("work", "--quiet") as screen:
        screen.until("1 of 3")
        screen.press("\x1b")
        screen.until("What will you work?")
        screen.press(" ")
        screen.until("BRAMBLE")
        screen.press("q")
        assert screen.until_over() == 0
    with rowteller("pick", "--quiet") as screen:
        assert "today" in screen.until("▸ bramble hedgehog")
        screen.press("q")
        assert screen.until_over() == 0
    with rowteller("start", "--quiet") as screen:
        screen.until("1 of 3")
        screen.press("\x03")
        assert screen.until_over() == 0
    with rowteller("pick", "--plain", "--quiet") as lines:
        lines.until("bramble hedgehog, in hand")
        lines.press("1\n")
        lines.until("Welcome back")
        lines.press("stop\n")
        assert lines.until_over() == 0


async def test_a_piece_whose_pattern_is_gone_has_its_picture_all_the_same(home: Path) -> None:
    """The text that was kept with it is drawn; a file that was never kept is said to be missing."""
    pattern = home / "lost.txt"
    pattern.write_text(samples()["frost-ring"].read_text(encoding="utf-8"))
    opened_piece(str(pattern), None).desk.close()
    pattern.unlink()
    app = entering(home, guided=False)
    async with on(app) as pilot:
        assert "▸ lost" in await until(pilot, "FROST RING")


async def test_where_a_piece_stands_is_told_in_full_as_soon_as_it_is_known(home: Path) -> None:
    """The part, the row and how much of it is done."""
    opened = opened_piece(str(samples()["crossroads-square"]), None)
    for words in ("row 3", "yes", "next"):
        deed = understand(words)
        assert deed is not None
        opened.desk.do(deed, round(NOW.timestamp() * 1000))
    opened.desk.close()
    app = entering(home, guided=False)
    async with on(app, 140, 30) as pilot:
        seen = await until(pilot, "%")
        assert re.search(r"\w+ one of twelve, Rnd 3 · \d+ % ·", seen), seen
