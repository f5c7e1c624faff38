"""What the page is told: words as they are, a drawing in which nothing of a pattern is markup, a code that can be read."""

import re
import xml.etree.ElementTree as ElementTree
from itertools import pairwise
from math import radians, tan

import pytest
import zxingcpp
from on_the_hook import PATTERNS, program_of, sample, walked, worked
from PIL import Image
from test_looks_around import BALL

from tracker.charts.signs.symbols import height_of
from tracker.looks.themes import THEMES
from tracker.session.seen.view import View, view
from tracker.session.state import begun
from tracker.tablet.code import code
from tracker.tablet.page import looks, page
from tracker.tablet.told import Seen, told

HOSTILE = """Cushion </script><img src=x onerror=alert(1)>
Special stitch: <b>x" (bx): 2 dc in same st.
Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn, <svg onload=alert(1)> in next st, sc in each st across.
"""


def seen(name: str, *asked: str) -> View:
    session, _ = worked(begun(sample(name)), *asked)
    return view(session)


def drawn(shown: View, mirrored: bool = False) -> ElementTree.Element:
    return ElementTree.fromstring(str(told(Seen(shown, mirrored=mirrored))["fabric"]))


def test_a_step_is_told_in_full() -> None:
    """Everything at the second window of four, whatever was told before."""
    step = told(Seen(seen("harbour-windows", "row 8", "yes", "next", "next", "next"), "Second."))
    assert step["where"] == "Row 8 of 15"
    assert step["hand"] == "ch 1, sk 1 dc, dc in next dc"
    assert (step["tally"], step["beats"]) == ("2 of 4", [2, 4])
    assert step["counted"] == "3 of 16 squares"
    assert step["words"][1] == "ch 1, sk 1 dc, dc in next dc"  # type: ignore[index]
    assert (step["said"], step["asked"], step["resting"]) == ("Second.", False, False)


def test_the_row_lies_in_its_direction_with_the_place_lit() -> None:
    """Right-handed, the first square made lies at the right; left-handed at the left; one is lit and marked."""
    shown = seen("harbour-windows", "row 8", "yes", "next", "next", "next")
    for mirrored in (False, True):
        hand = drawn(shown, mirrored).find("g[@class='hand']")
        assert hand is not None
        squares = {float(each.get("x", "")): each.get("class", "") for each in hand.findall("rect")}
        states = [squares[x] for x in sorted(squares, reverse=not mirrored)]
        states.remove("lit")
        assert len(states) == 16
        assert [state.split()[1] for state in states] == ["done"] * 3 + ["now"] + ["coming"] * 12
        assert hand.find("path[@class='mark']") is not None


def test_increases_and_decreases_lean_on_the_page() -> None:
    """Two in one stitch have one foot and lean away from each other; the tops of a row are evenly apart."""
    shown = seen("low-tide-ripple", "row 4", "yes", *["next"] * 3)
    for mirrored in (False, True):
        under = drawn(shown, mirrored).findall("g[@class='under']")[0]
        legs: dict[float, list[float]] = {}
        for use in under.iter("use"):
            hit = re.fullmatch(
                r"translate\(([\d.]+),[\d.]+\)(?: rotate\((-?[\d.]+)\))?", use.get("transform", "")
            )
            assert hit is not None
            legs.setdefault(float(hit[1]), []).append(float(hit[2] or 0))
        pairs = [turns for turns in legs.values() if len(turns) == 2]
        assert len(pairs) >= 4
        assert all(max(turns) - min(turns) > 15 for turns in pairs)
        tops = sorted(
            foot + height_of("dc") * tan(radians(turn)) for foot, turns in legs.items() for turn in turns
        )
        assert {round(b - a) for a, b in pairwise(tops)} == {14}


def test_a_ripple_rises_and_falls_on_the_page() -> None:
    """Each row dips to where it is worked together, by more than half a stitch, and none leaves the drawing."""
    page = drawn(seen("low-tide-ripple", "row 4", "yes", *["next"] * 3))
    high = float(page.get("viewBox", "").split()[3])
    rows = [*page.findall("g[@class='hand']"), *page.findall("g[@class='under']")]
    assert len(rows) == 3
    feet = []
    for row in rows:
        own = [
            float(hit[1])
            for use in row.iter("use")
            if (hit := re.search(r",([\d.]+)\)", use.get("transform", "")))
        ]
        assert max(own) - min(own) > height_of("dc") / 2
        assert max(own) <= high
        feet.append(min(own))
    assert feet == sorted(feet)
    straight = drawn(seen("hearth-mat", "row 4", "yes"))
    own = [use.get("transform", "").partition(",")[2] for use in straight.findall("g")[1].iter("use")]
    assert len(set(own)) == 1


def test_a_round_is_drawn_as_the_chart_has_it_each_stitch_in_its_state() -> None:
    """Nine of eighteen done, three in hand, six to come; a pass of the repeat is one piece of the band around."""
    session, _ = worked(begun(program_of(BALL)), "round 3", "yes", "next", "next", "next")
    for mirrored in (False, True):
        page = drawn(view(session), mirrored)
        hand = next(each for each in page.iter("g") if each.get("class") == "hand")
        counted = {
            group.get("class"): len(group.findall("use"))
            for group in hand.findall("g")
            if group.findall("use")
        }
        assert counted == {"done": 9, "now": 3, "coming": 6}
        bands = [each.get("class", "") for each in hand.findall("path") if "band" in each.get("class", "")]
        assert bands == ["band done"] * 3 + ["band now"] + ["band coming"] * 2
        assert [len(each.findall("use")) for each in page.iter("g") if each.get("class") == "under done"] == [
            6,
            12,
        ]
        assert (
            len([each for each in hand.findall("path") if each.get("class") in ("mark", "lit", "way")]) == 3
        )
        assert ("scale(-1,1)" in ElementTree.tostring(page, encoding="unicode")) is mirrored
        assert "against the clock" in page.get("aria-label", "") or mirrored


def test_the_maker_may_have_rows_for_rounds_on_the_page() -> None:
    """Drawn under each other as for a flat piece."""
    session, _ = worked(begun(program_of(BALL)), "round 3", "yes", "next")
    step = told(Seen(view(session), as_rows=True))
    assert step["round"] is False
    assert "Rnd 3" not in str(step["fabric"]).partition("aria-label")[0]
    assert 'class="round"' not in str(step["fabric"])
    assert told(Seen(view(session)))["round"] is True


@pytest.mark.parametrize("name", sorted(file.stem for file in PATTERNS.glob("*.txt")))
def test_every_place_of_every_sample_is_a_whole_drawing(name: str) -> None:
    """One that an XML reader that is not ours takes, no larger than a page can follow."""
    program = sample(name)
    for place in list(walked(program))[::7]:
        session, _ = worked(begun(program))
        step = told(Seen(view(type(session)(program, place))))
        if step["fabric"]:
            ElementTree.fromstring(str(step["fabric"]))
        assert len(str(step)) < 40_000


def test_nothing_in_a_pattern_becomes_markup() -> None:
    """A tag in its words comes to the page as those words, and not at all into the page itself."""
    session, _ = worked(begun(program_of(HOSTILE)), "row 2", "yes")
    for _ in range(6):
        step = told(Seen(view(session)))
        for each in ElementTree.fromstring(str(step["fabric"])).iter():
            assert each.tag in ("svg", "defs", "g", "use", "rect", "path", "ellipse", "text")
            assert not any(name.startswith("on") for name in each.attrib)
        session, _ = worked(session, "next")
    assert "Cushion" not in page("n", True)
    assert "<b>x" not in page("n", True)


def test_the_keys_are_there_only_with_touch() -> None:
    """Else they are hidden; the style and the script carry the nonce that lets them run."""
    assert 'id="keys" hidden' in page("n0", False)
    assert 'id="keys">' in page("n0", True)
    assert page("n0", True).count('nonce="n0"') == 2


def luminance(colour: str) -> float:
    """Relative luminance. Source: W3C, Web Content Accessibility Guidelines 2.2, "relative luminance"."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_contrast_on_the_page_is_seven_to_one_everywhere() -> None:
    """Every ink on every ground, and ground on lead where it is turned round. Source: the same, 1.4.6 (enhanced)."""
    blocks = re.findall(r"\{ (--ground.+?) \}", looks())
    assert len(blocks) == 3 + len([theme for theme in THEMES if theme.ground])
    for block in blocks:
        colours = dict(re.findall(r"--(\w+): (#\w{6});", block))
        pairs = [
            (ink, ground) for ink in ("ink", "faint", "lead", "work", "alert") for ground in ("ground", "bar")
        ]
        for ink, ground in pairs:
            light, dark = sorted((luminance(colours[ink]), luminance(colours[ground])), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= 7, (ink, ground, block)


def test_the_code_is_read_by_a_reader_that_is_not_ours() -> None:
    """ZXing reads the very half blocks as a camera would see them, on a dark terminal; and it fits 24 rows."""
    link = "http://192.168.178.123:45123/?k=abcdefghijklmn_-"
    lines = code(link)
    assert len(lines) <= 19
    assert len({len(line) for line in lines}) == 1
    image = Image.new("L", (len(lines[0]) * 4, len(lines) * 8), 0)
    for y, line in enumerate(lines):
        for x, sign in enumerate(line):
            for half in (0, 1):
                if sign == "█" or sign == "▀▄"[half]:
                    image.paste(255, (x * 4, y * 8 + half * 4, x * 4 + 4, y * 8 + half * 4 + 4))
    found = zxingcpp.read_barcodes(image)
    assert [each.text for each in found] == [link]
