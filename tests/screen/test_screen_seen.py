"""What the screen looks like, as text: keys in, picture out. Few, and to be read like code when they change.

The same pictures are taken by Textual's pilot and, on a real terminal, by an emulator that is not ours.
"""

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tracker.commands.pieces.lead import opened_piece
from tracker.hands_free.settings import Settings
from tracker.samples import samples
from tracker.screen.app import WorkScreen
from tracker.screen.before.entrance import Entrance
from tracker.screen.before.shelf import IN_HAND, OURS, Offer
from tracker.screen.themes import THEMES

ROOT = Path(__file__).resolve().parents[2]
SEEN = {
    # name: columns, rows, pattern, keys
    "filet-80x24": (80, 24, "harbour-windows", "g 9 enter y space space space space"),
    "filet-120x40": (120, 40, "harbour-windows", "g 9 enter y space space space space"),
    "leaning-80x24": (80, 24, "low-tide-ripple", "g 4 enter y space space space"),
    "stitch-by-stitch-80x24": (80, 24, "spindrift-coasters", "g 2 enter y space 1 space space"),
    "around-200x60": (200, 60, "crossroads-square", "g 3 enter y space space space"),
    "asked-80x24": (80, 24, "harbour-windows", "g 1 2 enter"),
    "tiny-36x9": (36, 9, "harbour-windows", "g 2 enter y space space"),
}
SENT = {"space": " ", "enter": "\r"}


def kept(text: str) -> str:
    """The picture without its last line: the keys are the table's, and grow with it."""
    return "\n".join(line.rstrip() for line in text.splitlines()[:-1]) + "\n"


@pytest.mark.parametrize("name", SEEN)
async def test_the_screen_is_as_it_was(
    name: str, golden: Callable[[str, str], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After these keys, in the pilot."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    columns, rows, pattern, keys = SEEN[name]
    opened = opened_piece(str(samples()[pattern]), None)
    said = opened.desk.view().said
    app = WorkScreen(lambda: (opened, said, ""), Settings(ear="off"), THEMES[0], quiet=True)
    async with app.run_test(size=(columns, rows)) as pilot:
        while app.lap is None:
            await pilot.pause()
        await pilot.press(*keys.split())
        await pilot.pause()
        golden(f"screen-{name}.txt", kept(app.sheet.text))
    app.close()


@pytest.mark.live
@pytest.mark.parametrize("name", ["filet-80x24", "leaning-80x24"])
def test_a_real_terminal_shows_the_same(
    name: str, golden: Callable[[str, str], None], tmp_path: Path
) -> None:
    """The very picture of the pilot, out of the bytes that were sent."""
    if sys.platform == "win32":
        pytest.skip("Windows has no pty; the pilot's pictures are taken there")
    from pretend_terminal import terminal

    columns, rows, pattern, keys = SEEN[name]
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "settings.json").write_text('{"ear": "off"}')
    words = [sys.executable, "-m", "tracker", "work", str(samples()[pattern]), "--quiet"]
    with terminal(words, tmp_path, columns, rows, PYTHONPATH=str(ROOT)) as screen:
        screen.until("before the row")
        for key in keys.split():
            screen.press(SENT.get(key, key))
        expected = (ROOT / "tests" / "golden" / f"screen-{name}.txt").read_text(encoding="utf-8")
        for _ in range(200):
            if kept(screen.text) == expected:
                break
            screen.read(0.05)
        golden(f"screen-{name}.txt", kept(screen.text))
        screen.press("q")
        assert screen.until_over() == 0


async def test_the_way_in_is_as_it_was(
    golden: Callable[[str, str], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The three questions and the shelf, one after another."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    offers = (
        Offer(IN_HAND, "attic curtain", str(samples()["harbour-windows"]), None, "Row 11 · yesterday"),
        *(
            Offer(OURS, name.replace("-", " "), str(samples()[name]))
            for name in ("frost-ring", "tea-tray-cloth")
        ),
    )
    settings = Settings(ear="off", file=tmp_path / "settings.json")
    app = WorkScreen(
        lambda: pytest.fail("nothing was named"), settings, THEMES[0], quiet=True,
        before=lambda post: Entrance(settings, offers, post, guided=True, quiet=True),
    )  # fmt: skip
    out = []
    async with app.run_test(size=(80, 24)) as pilot:
        for keys in ("", "space", "space", "r", "end"):
            if keys:
                await pilot.press(keys)
            for _ in range(300):
                await pilot.pause(0.02)
                if keys not in ("r", "end") or "US terms" in app.sheet.text:
                    break
            out.append(kept(app.sheet.text))
    app.close()
    golden("screen-way-in.txt", f"{'=' * 80}\n".join(out))
