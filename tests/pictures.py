"""Makes pictures of the screen and of the tablet's page: `python tests/pictures.py [FOLDER]`. They are to be looked
at, not compared.

Comes in: nothing, or the folder they go to. Goes out: PNGs of samples at work at 80×24, 120×40 and 200×60 in each theme,
the guided start and the shelf, all drawn by the program's own screen, and the page in a Chromium; without a folder only
those of the README. The maker's own pieces and settings are not touched.
"""

from __future__ import annotations

import asyncio
import os
import re
import sys
import tempfile
from collections.abc import Iterator
from datetime import datetime
from html import escape, unescape
from pathlib import Path

import resvg_py

from tracker.hands_free.settings import Settings
from tracker.run import open_desk
from tracker.samples import samples
from tracker.screen.app import WorkScreen
from tracker.screen.before.entrance import Entrance
from tracker.screen.before.shelf import places, shelf
from tracker.screen.themes import THEMES, Theme
from tracker.session.seen.view import Devices
from tracker.session.understand import understand
from tracker.tablet.server import Tablet
from tracker.tablet.told import Seen

FOLDER = Path(__file__).resolve().parent / "pictures"
FONT = "DejaVu Sans Mono"
SIZES = ((80, 24), (120, 40), (200, 60))
FILET = ("harbour-windows", ("row 9", "yes", *["next"] * 7))
RIPPLE = ("low-tide-ripple", ("row 4", "yes", *["next"] * 4))
ROUND = ("crossroads-square", ("row 3", "yes", *["next"] * 3))
BALL = ("bramble-hedgehog", ("row 5", "yes", *["next"] * 4))
DOILY = ("frost-ring", ("row 6", "yes", *["next"] * 5))
ASKED = ("harbour-windows", ("row 6", "yes", "next", "row 12"))
SHOTS = (
    # name, columns, rows, theme, pattern, what is asked for before; the first three are the README's
    ("work-80x24", 80, 24, 0, *FILET),
    ("work-120x40", 120, 40, 0, *RIPPLE),
    ("around-100x30", 100, 30, 0, *BALL),
    *(
        (f"{theme.name.replace(' ', '-')}-{columns}x{rows}", columns, rows, at, *piece)
        for at, theme in enumerate(THEMES)
        for (columns, rows), piece in zip(SIZES, (RIPPLE, FILET, ROUND), strict=True)
    ),
    *(
        (f"round-{theme.name.replace(' ', '-')}-{columns}x{rows}", columns, rows, at, *piece)
        for at, theme in enumerate(THEMES)
        for (columns, rows), piece in zip(SIZES, (BALL, ROUND, DOILY), strict=True)
    ),
    ("asked-80x24", 80, 24, 0, *ASKED),
)
IN_README = 3
"""The first so many are the README's, under 250 kB together."""
PAGES = (
    # name, across, down, look, pattern, what is asked for before
    ("page-tablet", 1180, 820, "dark", *FILET),
    ("page-upright", 820, 1180, "light", *RIPPLE),
    ("page-phone", 844, 390, "black and white", *FILET),
    ("page-round-tablet", 1180, 820, "light", *ROUND),
    ("page-round-upright", 820, 1180, "dark", *BALL),
    ("page-round-phone", 844, 390, "black and white", *DOILY),
)


async def shot(
    columns: int, rows: int, theme: Theme, pattern: str, asked: tuple[str, ...], folder: Path
) -> str:
    """The screen as an SVG after these deeds."""
    file = samples()[pattern]
    journal = folder / f"{pattern}-{columns}-{theme.name}.journal"
    opened = open_desk(journal, file.name, str(file), file.read_text(encoding="utf-8"), None, 0)
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


async def way_in(columns: int, rows: int, theme: Theme, folder: Path) -> list[tuple[str, str]]:
    """The guided start's three questions, and the shelf, as SVGs by name."""
    settings, now = Settings(ear="off", file=folder / "settings.json"), datetime.now()
    offers = shelf(folder, folder / "pieces", now)
    app = WorkScreen(
        lambda: (_ for _ in ()).throw(ValueError("nothing was named")), settings, theme, quiet=True,
        before=lambda post: Entrance(
            settings, offers, post, guided=True, quiet=True, look=lambda: places(folder / "pieces", now)
        ),
    )  # fmt: skip
    out = []
    async with app.run_test(size=(columns, rows)) as pilot:
        for name, keys in (
            ("hear", ()), ("pedal", ("space",)), ("hand", ("space",)), ("shelf", ("r", *["down"] * 3)),
            ("shelf-filet", ("end",)),
        ):  # fmt: skip
            await pilot.press(*keys)
            await pilot.pause(1.0 if name.startswith("shelf") else 0.1)
            out.append((f"start-{name}-{columns}x{rows}", app.export_screenshot(simplify=True)))
    app.close()
    return out


def pages() -> Iterator[tuple[str, bytes]]:
    """The tablet's page as Chromium draws it."""
    sys.path.insert(0, str(FOLDER.parent / "tablet"))
    from pretend_tablet import browser

    from tracker.load import load
    from tracker.program.places import Program
    from tracker.session.apply import change
    from tracker.session.seen.view import view
    from tracker.session.state import begun

    tablet = Tablet(touch=True)
    with tempfile.TemporaryDirectory() as folder, browser(Path(folder)) as browsers:
        for name, across, down, look, pattern, asked in PAGES:
            file = samples()[pattern]
            loaded = load(file.name, file.read_text(encoding="utf-8"))
            session = begun(Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems))
            for words in asked:
                deed = understand(words)
                assert deed is not None, words
                session = change(session, deed)
            shown = view(session, Devices("listening", "pedal", "onward"))
            tablet.put(Seen(shown))
            page = browsers.open(tablet.link, across, down)
            page.until("where", shown.row)
            page.js(f"look({look!r}); fit()")
            yield name, page.picture()
    tablet.close()


_TEXT = re.compile(r'<text class="([^"]*)" x="([\d.]+)" y="([\d.]+)"[^>]*?>([^<]*)</text>')
_ADVANCE, _LINE = 12.2, 24.4
"""Points from cell to cell in Rich's pictures."""


def dotted(svg: str) -> str:
    """Signs of eight dots as dots of their own: few fonts have them as wide as their letters."""

    def drawn(hit: re.Match[str]) -> str:
        words, dots = unescape(hit[4]), []
        for column, sign in enumerate(words):
            bits = ord(sign) - 0x2800
            if not 0 < bits < 256:
                continue
            for nth, bit in enumerate((0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80)):
                if bits & bit:
                    x = float(hit[2]) + (column + (nth % 2 + 0.5) / 2) * _ADVANCE
                    y = float(hit[3]) - 18.5 + (nth // 2 + 0.5) / 4 * _LINE
                    dots.append(f'<circle class="{hit[1]}" cx="{x:.1f}" cy="{y:.1f}" r="1.7"/>')
        if not dots:
            return hit[0]
        left = "".join(" " if 0x2800 <= ord(sign) < 0x2900 else sign for sign in words)
        return hit[0].replace(hit[4], escape(left).replace(" ", "&#160;")) + "".join(dots)

    return _TEXT.sub(drawn, svg)


def png(svg: str) -> bytes:
    """The picture with a font of this machine in the place of the one Rich would fetch."""
    svg = dotted(svg).replace("Fira Code", FONT)
    return bytes(resvg_py.svg_to_bytes(svg_string=svg, font_family=FONT, monospace_family=FONT))


def main(folder: Path) -> None:
    """Make them all."""
    folder.mkdir(parents=True, exist_ok=True)

    def kept(name: str, picture: bytes) -> None:
        (folder / f"{name}.png").write_bytes(picture)
        print(f"{folder / name}.png: {len(picture) // 1000} kB")

    # Else the colours would be those of whatever this runs in.
    os.environ |= {"COLORTERM": "truecolor", "TERM": "xterm-256color"}
    os.environ.pop("NO_COLOR", None)
    with tempfile.TemporaryDirectory() as own:
        os.environ["ROWTELLER_HOME"] = own
        for name, columns, rows, theme, pattern, asked in SHOTS[: IN_README if folder == FOLDER else None]:
            kept(name, png(asyncio.run(shot(columns, rows, THEMES[theme], pattern, asked, Path(own)))))
        if folder == FOLDER:
            return
        for size in SIZES[:2]:
            for name, svg in asyncio.run(way_in(*size, THEMES[0], Path(own))):
                kept(name, png(svg))
    for name, picture in pages():
        kept(name, picture)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
