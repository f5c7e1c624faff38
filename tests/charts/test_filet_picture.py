"""A picture becomes a grid: dark is filled, and a circle stays round in the squares of the maker's gauge."""

from pathlib import Path

import pytest
from PIL import Image, ImageDraw

from tracker.filet.grid import NoGrid
from tracker.filet.picture import grid_from


def disc(folder: Path, name: str, dark: str = "black", ground: str = "white") -> str:
    """A round spot that fills its picture, drawn by Pillow."""
    picture = Image.new("RGB", (400, 400), ground)
    ImageDraw.Draw(picture).ellipse((0, 0, 399, 399), fill=dark)
    picture.save(folder / name)
    return str(folder / name)


@pytest.mark.parametrize("squares, rows", [(1, 1), (16, 9), (9, 16), (4, 3)])
def test_a_circle_stays_round(tmp_path: Path, squares: int, rows: int) -> None:
    """In squares of any proportion the filled part is as wide as high, measured in swatches, within one square."""
    grid = grid_from(disc(tmp_path, "disc.png"), 40, squares / rows)
    wide = max(line.count("#") for line in grid.lines)
    high = max(sum(line[at] == "#" for line in grid.lines) for at in range(grid.width))
    assert abs(wide / squares - high / rows) <= max(1 / squares, 1 / rows)
    # The share of the circle in its square is π/4.
    filled = sum(line.count("#") for line in grid.lines) / (grid.width * grid.height)
    assert filled == pytest.approx(3.14159 / 4, abs=0.04)


@pytest.mark.parametrize("name", ["disc.png", "disc.jpg", "disc.gif", "disc.bmp"])
def test_the_same_picture_gives_the_same_grid_from_any_file(tmp_path: Path, name: str) -> None:
    """A JPEG's own noise changes no square."""
    assert grid_from(disc(tmp_path, name), 17) == grid_from(disc(tmp_path, "other.png"), 17)


def test_an_svg_gives_the_same_grid_as_its_picture(tmp_path: Path) -> None:
    """Painted at first, then counted like any other."""
    drawn = tmp_path / "disc.svg"
    drawn.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></svg>'
    )
    assert grid_from(str(drawn), 20).lines == grid_from(disc(tmp_path, "disc.png"), 20).lines


def test_light_on_dark_can_be_filled_instead(tmp_path: Path) -> None:
    """A white spot on grey, and a pale one on white."""
    dark = grid_from(disc(tmp_path, "dark.png", "black"), 15)
    assert grid_from(disc(tmp_path, "light.png", "#eeeeee", "#777777"), 15, light=True) == dark
    assert grid_from(disc(tmp_path, "pale.png", "#c0c0c0"), 15) == dark


def test_a_picture_with_no_ground_is_seen_on_white(tmp_path: Path) -> None:
    """What is transparent is open."""
    picture = Image.new("RGBA", (20, 10), (0, 0, 0, 0))
    picture.paste((0, 0, 0, 255), (0, 0, 10, 10))
    picture.save(tmp_path / "half.png")
    assert grid_from(str(tmp_path / "half.png"), 4).lines == ("##..", "##..")


@pytest.mark.parametrize(
    "name, content, width, says",
    [
        ("gone.png", None, 10, "There is no file"),
        ("text.png", b"no picture", 10, "cannot be opened as a picture"),
        ("cut.svg", b"<svg", 10, "cannot be opened as an SVG"),
        ("cut.svg", b"\x00\xff", 10, "cannot be opened as an SVG"),
        ("gone.png", None, 0, "--width takes"),
    ],
)
def test_what_cannot_be_opened_is_told_in_one_sentence(
    tmp_path: Path, name: str, content: bytes | None, width: int, says: str
) -> None:
    """Never a traceback."""
    if content is not None:
        (tmp_path / name).write_bytes(content)
    with pytest.raises(NoGrid) as told:
        grid_from(str(tmp_path / name), width)
    assert says in str(told.value)
