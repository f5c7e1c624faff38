"""Charts of the patterns that come with rowteller: what a maker would find wrong on paper at the first look."""

from math import hypot

import pytest

from tracker.charts.chart import Wish, charted
from tracker.charts.drawing import Edge, Sheet, Use, Words
from tracker.charts.media.page import edge_marks
from tracker.charts.signs.letters import length_of
from tracker.charts.signs.symbols import STITCH
from tracker.load import load
from tracker.samples import samples

FILES = samples()
PLAIN = Wish()


def sheets(name: str, wish: Wish = PLAIN) -> tuple[Sheet, ...]:
    """The charts of one of them."""
    loaded = load(name, FILES[name].read_text(encoding="utf-8"))
    return charted(loaded.source, loaded.pattern, loaded.fabric, wish)


def test_a_shawl_of_dc_with_a_spine_of_chains_is_no_filet() -> None:
    """Stitches in one place, and a space made in one place with stitches, are no squares, however the counts divide."""
    (sheet,) = sheets("dusk-lane-shawl", Wish(rows=(1, 6)))
    assert [entry.words for entry in sheet.key if "square" in entry.words] == []
    assert sum(isinstance(mark, Use) and mark.symbol.startswith("st-dc") for mark in sheet.field.marks) > 50


def test_colours_of_rows_worked_again_are_those_of_the_rows_they_repeat() -> None:
    """Mosaic: A and B take turns to the last row, and each row is marked with its letter, not by colour alone."""
    (sheet,) = sheets("brick-lane-mosaic")
    letters = {edge.at: edge.text for edge in sheet.field.edges if edge.text in ("A", "B")}
    assert [letters[at] for at in sorted(letters, reverse=True)] == ["A", *["B", "A"] * 18]
    assert {"colour A: navy", "colour B: cream"} <= {entry.words for entry in sheet.key}


def test_yarn_joined_with_the_right_side_facing_is_seen() -> None:
    """A granny's third round is in B, and back in A at the last."""
    (sheet,) = sheets("kettle-square")
    said = [mark.text for mark in sheet.field.marks if isinstance(mark, Words)]
    assert [text for text in said if text[0].isdigit()] == ["1 A", "2 A", "3 B", "4 B", "5 A"]


def test_a_drop_down_stitch_reaches_two_rows_down() -> None:
    """Its sign is as high as both rows, and the key tells it in the pattern's own words."""
    (sheet,) = sheets("brick-lane-mosaic", Wish(rows=(1, 3)))
    tall = [mark for mark in sheet.field.marks if isinstance(mark, Use) and mark.symbol.startswith("st-ddc")]
    base = [mark for mark in sheet.field.marks if isinstance(mark, Use) and mark.symbol == "st-sc"]
    foot = {round(mark.matrix[5]) for mark in tall}
    second_row = sorted({round(mark.matrix[5]) for mark in base})[1]
    assert len(tall) == 6
    assert min(foot) >= second_row - 4
    assert "ddc: dc in the unused front loop of the st two rows below" in [entry.words for entry in sheet.key]


def test_the_key_prints_stitches_as_patterns_do() -> None:
    """Slip stitch in two words, post stitches with capitals."""
    words = " ".join(entry.words for entry in sheets("frost-ring")[0].key)
    assert "sl st: slip stitch" in words
    words = " ".join(entry.words for entry in sheets("quarry-rib-cowl")[0].key)
    assert "FPdc: front post double crochet" in words


def test_post_stitches_of_wrong_side_rows_are_explained() -> None:
    """Drawn as the words name them, which a chart has to say because makers do it both ways."""
    assert any("Post stitches are drawn" in line for line in sheets("quarry-rib-cowl")[0].lines)
    assert not any("Post stitches" in line for line in sheets("stove-lid-cap")[0].lines)


@pytest.mark.parametrize("name", ["frost-ring", "kettle-square", "bramble-hedgehog", "stove-lid-cap"])
def test_no_round_number_hides_a_stitch(name: str) -> None:
    """Between the round's last stitch and its first there is room for it."""
    for sheet in sheets(name):
        numbers = [m for m in sheet.field.marks if isinstance(m, Words) and m.text[:1].isdigit()]
        signs = [m for m in sheet.field.marks if isinstance(m, Use) and m.symbol in ("st-sc", "st-slst")]
        middles = [
            (
                use.matrix[4] - use.matrix[2] * -6,
                use.matrix[5] + use.matrix[3] * -6,
            )
            for use in signs
        ]
        for number in numbers:
            half = length_of(number.text, number.size) / 2
            for x, y in middles:
                apart = hypot(max(0.0, abs(x - number.x) - half), y - (number.y - 2.5))
                assert apart > 2.5, (sheet.title, number.text)


def test_an_edging_is_drawn_around_the_piece() -> None:
    """Not from a ring in the middle of it, and not said to be turned."""
    edging = sheets("hearth-mat")[1]
    assert edging.lines[0].endswith("Rnd 1 goes around the piece; every round runs counter-clockwise.")
    assert "the piece" in [mark.text for mark in edging.field.marks if isinstance(mark, Words)]


def test_a_row_of_many_short_stitches_fits_over_the_row_below() -> None:
    """The scallops' last row, two more a scallop, is hardly wider than the foundation."""
    (sheet,) = sheets("shelf-edge")
    rows: dict[int, list[float]] = {}
    for mark in sheet.field.marks:
        if isinstance(mark, Use) and mark.symbol == "st-sc":
            rows.setdefault(round(mark.matrix[5] / 8), []).append(mark.matrix[4])
    spans = [max(xs) - min(xs) for xs in rows.values() if len(xs) > 30]
    assert len(spans) == 2
    assert max(spans) < 1.15 * min(spans)


def test_the_numbers_of_a_shawl_stand_at_its_rows() -> None:
    """Twenty-two rows, each number where its row begins and within the length of two stitches of it, on either hand."""
    for left_handed in (False, True):
        (sheet,) = sheets("dusk-lane-shawl", Wish(left_handed=left_handed))
        field = sheet.field
        words = [
            mark for mark in edge_marks(field.edges, 0, field.width, field.height) if isinstance(mark, Words)
        ]
        stitches = [mark.matrix for mark in field.marks if isinstance(mark, Use)]
        for nth in (2, 9, 16, 22):
            word = next(mark for mark in words if mark.text.startswith(f"{nth} "))
            along = [x for *_, x, y in stitches if abs(y - (word.y - 4)) < 16]
            begins = min(along) if word.anchor == "end" else max(along)
            assert abs(word.x - begins) < 5 * STITCH, (nth, word.x, begins)
            assert (word.x < begins) is (word.anchor == "end")


def test_on_a_page_the_numbers_of_rows_that_are_not_on_it_are_left_out() -> None:
    """A window on the left third of a triangle: its upper rows are there, its lowest are not."""
    edges = (Edge("9", 10, "left", ends=(0, 300)), Edge("1", 90, "left", ends=(140, 160)))
    seen = [mark.text for mark in edge_marks(edges, 0, 100, 100) if isinstance(mark, Words)]
    assert seen == ["9"]
    (whole,) = [mark for mark in edge_marks(edges[1:], 0, 300, 100) if isinstance(mark, Words)]
    assert 120 < whole.x < 140
