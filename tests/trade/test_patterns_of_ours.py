"""The patterns that come with rowteller: right by arithmetic done by hand, and safe where a piece could hurt someone."""

from math import pi
from pathlib import Path

import pytest

from tracker.cli import main
from tracker.load import Loaded, load
from tracker.samples import samples

FILES = samples()


def loaded(name: str, size: str | None = None) -> Loaded:
    """One of them, worked."""
    return load(name, FILES[name].read_text(encoding="utf-8"), size)


def test_every_kind_of_piece_a_maker_may_want_to_try_is_there() -> None:
    """Filet, letters, granny, ripple, shells, doily, toy, cap, shawl, rib, mosaic, edgings, a square to join, UK terms."""
    assert set(FILES) >= {
        "harbour-windows",
        "tea-tray-cloth",
        "kettle-square",
        "low-tide-ripple",
        "orchard-shells",
        "frost-ring",
        "bramble-hedgehog",
        "stove-lid-cap",
        "dusk-lane-shawl",
        "quarry-rib-cowl",
        "brick-lane-mosaic",
        "shelf-edge",
        "hearth-mat",
        "crossroads-square",
        "spindrift-coasters",
        "pebble-cloth",
    }


# Worked out by hand from the words; what each row makes is compared, so neither the reader nor the printed counts
# vouch for themselves.
HAND = [
    # A granny round adds a group a side: 4, 8, 12, 16 groups of 3; then a sc each dc and space, 2 sc a corner.
    ("kettle-square", [12, 24, 36, 48, 3 * 16 + 12 + 4 * 2]),
    # A solid square: four sides, each of which grows by 4 a round.
    ("crossroads-square", [12, 4 * 7, 4 * 11, 4 * 15]),
    # Three stitches more at each half of every row; mesh over 61 a half; then every dc and space, 1 in the corner each.
    (
        "dusk-lane-shawl",
        [8 + 6 * nth for nth in range(20)] + [2 * (2 + 30 + 1), 2 * (33 + 32 + 1)],
    ),
    # 24, 24 with windows, 24 loops, 2 in each loop, 24 loops, 12 fans of 9 and their sc, 12 × (10 sc and a slip stitch).
    ("frost-ring", [24, 24, 24, 48, 24, 12 * 10, 12 * 11]),
    # Shells on a multiple of 6 plus 1: 6 shells and 7 sc; 5 shells, two halves of 3 and 6 sc.
    ("orchard-shells", [37, 37] * 29 + [37]),
    # 8 scallops over 64 + 1: seven dc on every eighth stitch, then 9 to each scallop and one between.
    ("shelf-edge", [65, 33, 9 + 8 * 7, 9 + 8 * 8]),
    # 26 dc, and around them 26 + 24 + 26 + 24 with two more in each of four corners.
    ("hearth-mat", [26] * 15 + [2 * (24 + 3 + 3) + 2 * 24]),
    ("brick-lane-mosaic", [29] * 37),
    ("quarry-rib-cowl", [32] * 54),
]


@pytest.mark.parametrize("name, stitches", HAND, ids=[name for name, _ in HAND])
def test_the_rows_make_what_was_worked_out_by_hand(name: str, stitches: list[int]) -> None:
    """Stitch for stitch, spaces left out."""
    assert [placed.worked.stitches for _, placed in loaded(name).fabric.rows()] == stitches


def test_the_toy_grows_and_closes_as_toys_do() -> None:
    """6, 12, 18, 24, 30 and back in mirror; every part counted once, "make 4" too."""
    rows = [(placed.part, placed.worked.stitches) for _, placed in loaded("bramble-hedgehog").fabric.rows()]
    body = [many for part, many in rows if part == "Body"]
    assert body == [6, 12, 18, 24, 30, *[30] * 7, 24, 24, 18, 12, 6]
    assert [many for part, many in rows if part == "Face"] == [5, 10, 10, 15, 15, 20]
    assert [many for _, many in loaded("bramble-hedgehog").pattern.parts] == [1, 1, 2, 4]


@pytest.mark.parametrize("size, first", [("Child", 10), ("Adult Small", 11), ("Adult Large", 12)])
def test_the_cap_lies_flat_at_the_crown_and_fits_the_head(size: str, first: int) -> None:
    """10 to 12 dc a round lie flat (common practice, no source); the rim is 3 to 5 cm less than the head."""
    cap = loaded("stove-lid-cap", size)
    made = [placed.worked.stitches for _, placed in cap.fabric.rows()]
    assert made[:6] == [first * nth for nth in range(1, 7)]
    assert set(made[6:]) == {6 * first}
    head = {"Child": 50, "Adult Small": 55, "Adult Large": 60}[size]
    assert 3 <= head - 6 * first / 13 * 10.16 <= 5


def test_the_doily_has_room_for_its_rounds() -> None:
    """No round is shorter than the circle it lies on: 2π × the height worked so far, a dc being three chains high.

    A chain is taken as wide as a stitch, and a row of fans as long as its stitches.
    """
    reach, heights = 1.0, {"dc": 3, "sc": 1, "slst": 0}
    for _, placed in list(loaded("frost-ring").fabric.rows())[:6]:
        row = placed.worked
        kinds = {element.kind for element in row.elements}
        reach += max(heights.get(kind, 0) for kind in kinds)
        around = row.stitches + sum(element.chains for element in row.elements if element.kind == "sp")
        assert around >= 2 * pi * reach * 0.8, placed.label


@pytest.mark.parametrize(
    "name, says",
    [
        ("bramble-hedgehog", ("under three", "embroider", "small parts", "choke")),
        ("kettle-square", ("open mesh", "baby")),
        ("frost-ring", ("iron", "steam")),
    ],
)
def test_a_piece_that_could_hurt_someone_says_so_in_its_notes(name: str, says: tuple[str, ...]) -> None:
    """Small parts for the mouths of small children, mesh for their fingers, steam for everyone's."""
    notes = " ".join(loaded(name).pattern.notes)
    assert [word for word in says if word not in notes] == []


def test_a_toy_in_parts_leaves_nothing_of_the_part_before() -> None:
    """A ring of its own begins each part, whether or not its yarn is named first."""
    text = (
        "MOUSE\n\nBODY\n\nRnd 1: 6 sc in a magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n\nFasten off.\n\n"
        "EAR (make 2)\n\nRnd 1: With B, 5 sc in a magic ring. (5 sc)\n\nFasten off.\n"
    )
    assert load("mouse", text).problems == ()


def test_a_row_begun_with_new_yarn_on_the_right_side_stays_on_it_when_repeated() -> None:
    """Mosaic worked from one side: no row of it is turned, none shows the wrong side."""
    rows = [placed.worked for _, placed in loaded("brick-lane-mosaic").fabric.rows()]
    assert {row.side for row in rows} == {"RS"}
    assert not any(row.turned for row in rows[1:])


def test_a_line_of_sizes_or_of_a_colour_is_no_part_of_the_piece() -> None:
    """Neither "Sizes: …" above the rows nor "With A:" between them."""
    assert {placed.part for _, placed in loaded("stove-lid-cap").fabric.rows()} == {None}
    text = "BALL\n\nBODY\n\nWith A:\n\nRnd 1: 6 sc in a magic ring. (6 sc)\n"
    assert {placed.part for _, placed in load("ball", text).fabric.rows()} == {"Body"}


@pytest.mark.parametrize("name", sorted(FILES))
def test_each_checks_clean_charts_plans_and_prints(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a maker types it: every command ends well, says nothing is wrong, and makes what it was asked for."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path / "home"))
    file, chart, sheet = str(FILES[name]), tmp_path / "chart.svg", tmp_path / "sheet.pdf"
    for words in (
        ["check", file],
        ["chart", file, "-o", str(chart)],
        ["plan", file],
        ["sheet", file, "-o", str(sheet)],
    ):
        assert main(words) == 0, words
        out, err = capsys.readouterr()
        assert err == (f"{words[3]} is written.\n" if "-o" in words else ""), words
        assert out or "-o" in words, words
    assert "<svg " in chart.read_text(encoding="utf-8")
    assert sheet.read_bytes().startswith(b"%PDF")
