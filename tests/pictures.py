"""Makes the README's pictures of the screen: `python tests/pictures.py [FOLDER]`. They are to be looked at,
not compared.

Comes in: nothing, or the folder they go to. Goes out: PNGs of a sample pattern at work, at 80×24 and 120×40 and in each
theme, drawn by the program's own screen; the maker's own pieces and settings are not touched.
"""

from __future__ import annotations

import asyncio
import os
import sys
import tempfile
from pathlib import Path

import resvg_py

from tracker.hands_free.settings import Settings
from tracker.run import open_desk
from tracker.samples import samples
from tracker.screen.app import WorkScreen
from tracker.screen.themes import THEMES, Theme
from tracker.session.understand import understand

FOLDER = Path(__file__).resolve().parent / "pictures"
FONT = "DejaVu Sans Mono"
IN_README = 2
"""The first so many are the README's, under 200 kB together."""
SHOTS = (
    # name, columns, rows, theme, pattern, what is asked for before
    ("work-80x24", 80, 24, 0, "harbour-windows", ("row 9", "yes", *["next"] * 7)),
    ("work-120x40", 120, 40, 0, "harbour-windows", ("row 9", "yes", *["next"] * 7)),
    ("light-80x24", 80, 24, 1, "low-tide-ripple", ("row 4", "yes", *["next"] * 4)),
    ("wide-200x60", 200, 60, 0, "harbour-windows", ("row 9", "yes", *["next"] * 7)),
    ("black-and-white-80x24", 80, 24, 2, "harbour-windows", ("row 6", "yes", "next", "next", "next")),
)


async def shot(
    columns: int, rows: int, theme: Theme, pattern: str, asked: tuple[str, ...], folder: Path
) -> str:
    """The screen as an SVG after these deeds."""
    file = samples()[pattern]
    opened = open_desk(
        folder / f"{pattern}-{columns}.journal",
        file.name,
        str(file),
        file.read_text(encoding="utf-8"),
        None,
        0,
    )
    app = WorkScreen(lambda: (opened, "", ""), Settings(ear="off"), theme, quiet=True)
    async with app.run_test(size=(columns, rows)) as pilot:
        while app.lap is None:
            await pilot.pause()
        for words in asked:
            deed = understand(words)
            assert deed is not None, words
            app.lap.do(deed)
        await pilot.press("escape")
        await pilot.pause()
        svg = app.export_screenshot(simplify=True)
    app.close()
    return svg


def png(svg: str) -> bytes:
    """The picture with a font of this machine in the place of the one Rich would fetch."""
    svg = svg.replace("Fira Code", FONT)
    return bytes(resvg_py.svg_to_bytes(svg_string=svg, font_family=FONT, monospace_family=FONT))


def main(folder: Path) -> None:
    """Make them all."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as own:
        os.environ["ROWTELLER_HOME"] = own
        for name, columns, rows, theme, pattern, asked in SHOTS[: IN_README if folder == FOLDER else None]:
            picture = png(asyncio.run(shot(columns, rows, THEMES[theme], pattern, asked, Path(own))))
            (folder / f"{name}.png").write_bytes(picture)
            print(f"{folder / name}.png: {len(picture) // 1000} kB")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
