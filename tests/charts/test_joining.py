"""Many squares into one: how they lie, which edges meet, the order of joining; led, printed and planned."""

from xml.etree import ElementTree

import pytest
from on_the_hook import program_of, sample, worked

from tracker.charts.chart import Wish, charted
from tracker.charts.drawing import Words
from tracker.load import load
from tracker.paper.gather import leaf_of
from tracker.program.joining import Joining, Layout, edges_of, joints_of, last_edges, layout_of, map_of
from tracker.samples import samples
from tracker.screen.drawing.seams import seams as seam_lines
from tracker.screen.page import Showing, page
from tracker.session.seen.view import View, counted_of, hand_of, view, where_of
from tracker.session.state import begun
from tracker.session.wording import said_at
from tracker.session.wording.where import left_said, place_line, where_said
from tracker.tablet.drawn.seams import seams as tablet_seams
from tracker.tablet.told import Seen, told


@pytest.mark.parametrize("down, across", [(1, 2), (2, 2), (4, 3), (1, 7), (5, 1)])
def test_every_edge_that_meets_another_is_joined_once(down: int, across: int) -> None:
    """Counted without the seams: in a grid each piece meets the one at its right and the one below it."""
    places = {row * across + at + 1: (row, at) for row in range(down) for at in range(across)}
    meeting = {
        (one, other)
        for one, (row, at) in places.items()
        for other, (row_too, at_too) in places.items()
        if one < other and abs(row - row_too) + abs(at - at_too) == 1
    }
    pairs = [pair for seam in Layout(down, across).seams for pair in seam.pairs]
    assert len(pairs) == len(set(pairs)) == len(meeting)
    assert set(pairs) == meeting


def test_the_squares_lie_as_the_pattern_says() -> None:
    """Four rows of three, right sides together; words that name another number are not believed."""
    pattern = load("x", samples()["crossroads-square"].read_text(encoding="utf-8")).pattern
    layout = layout_of(pattern, 12)
    assert layout == Layout(4, 3, "right sides together")
    assert layout_of(pattern, 30) is None
    assert map_of(Layout(4, 3)) == (" 1   2   3", " 4   5   6", " 7   8   9", "10  11  12")


@pytest.mark.parametrize(
    "name, edges",
    [
        # Worked by hand: a side grows by 4 a round, 3, 7, 11, 15; of the granny 4 groups of 3, 3 spaces, 2 at the corners.
        ("crossroads-square", (15, 15, 15, 15)),
        ("kettle-square", (17, 17, 17, 17)),
    ],
)
def test_the_edges_of_a_square_are_counted_between_its_corners(name: str, edges: tuple[int, ...]) -> None:
    """Corner spaces belong to no edge."""
    fabric = load(name, samples()[name].read_text(encoding="utf-8")).fabric
    assert last_edges(fabric) == edges
    assert len(edges_of(fabric.row(2).worked)) == 4


def test_the_joining_is_led_pair_by_pair_after_the_last_square() -> None:
    """Across first, then down; the words of the pattern before it; nothing of it after the first eleven."""
    program = sample("crossroads-square")
    place, said = program.part_start(0, 12), []
    while place != program.end:
        said.append(said_at(program, place))
        place = program.next(place)
    at = next(nth for nth, words in enumerate(said) if words.startswith("Now the joining."))
    assert said[at + 1] == (
        "Seam one of five, across: squares one and four, right sides together. "
        "Fifteen stitches on each edge; corner meets corner."
    )
    assert said[at + 2 : at + 4] == ["On to two and five.", "On to three and six. Fasten off."]
    assert len(said) - at - 1 == 17
    after_first = program.next(program.next(program.part_start(0, 1)))
    assert after_first[1] == 1
    place, joined = program.part_start(0, 1), 0
    while place[1] == 1 and place[0] == 0:
        joined += "Seam" in said_at(program, place)
        place = program.next(place)
    assert joined == 0


def test_a_pattern_that_does_not_say_how_they_lie_keeps_its_own_words() -> None:
    """Joined as written, after the last of them, with no seam made up."""
    text = (
        "COASTER\nMake 4.\n\nCh 3.\nRow 1: Sc in 2nd ch from hook, sc in next ch. (2 sc)\n\nFasten off.\n\n"
        "JOINING\nJoin the squares as you like.\n"
    )
    program = program_of(text)
    assert [part.copies for part in program.parts] == [4, 1]
    place, said = program.part_start(1), []
    while place != program.end:
        said.append(said_at(program, place))
        place = program.next(place)
    assert said == ["Now the joining. Join the squares as you like."]


def test_the_sheet_lists_the_seams_and_how_they_lie() -> None:
    """In words that need no picture."""
    leaf = leaf_of(load("x", samples()["crossroads-square"].read_text(encoding="utf-8")))
    assert leaf.layout[0] == "Top row: 1, 2, 3."
    assert "stitch for stitch" in leaf.layout[-1]
    assert sum(words.startswith(("Seam", "On to")) for entry in leaf.after for words in entry.words) == 17
    assert any("34 (square 2 × 12, Joining 10)" in words for entry in leaf.after for words in entry.words)


@pytest.mark.parametrize(
    "sides, says",
    [
        ((8, 8, 8, 8), ""),
        ((8, 6, 8, 6), ""),
        ((8, 6, 8, 7), "opposite edges have eight and nine between the corners."),
    ],
)
def test_edges_that_should_agree_and_do_not_are_told_as_the_round_begins(
    sides: tuple[int, ...], says: str
) -> None:
    """A square and a rectangle are well; where opposite edges differ, where to add is said, before the corner."""
    along = ", ".join(f"3 sc in next st, sc in next {many} sts" for many in sides)
    whole = sum(sides) + 4
    text = (
        f"RING\nCh {whole}, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around; join with sl st in first "
        f"sc. ({whole} sc)\nRnd 2: Ch 1, {along}; join with sl st in first sc. ({sum(sides) + 12} sc)\n"
    )
    program = program_of(text)
    assert edges_of(program.fabric.row(2).worked) == tuple(many + 2 for many in sides)
    said = said_at(program, program.row_start(program.start, 2))
    assert (says in said) if says else ("opposite" not in said)


def _at_the_joint(nth: int) -> View:
    """The rug's joining with so many edges done."""
    program = sample("crossroads-square")
    session, _ = worked(begun(program), "part 2", "yes", *["next"] * (nth + 1))
    return view(session)


def test_each_pair_of_edges_is_seen_like_a_row() -> None:
    """Which seam, which pieces, how many edges are done, what comes next; worked out from the layout by hand."""
    shown = _at_the_joint(3)
    assert where_of(shown) == "Seam 2 of 5"
    assert hand_of(shown) == "squares 4 and 7"
    assert counted_of(shown) == "3 of 17 edges"
    assert shown.then == "then squares 5 and 8"
    assert _at_the_joint(16).then == ""
    before = _at_the_joint(-1)
    assert where_of(before) == "before the row"
    assert before.joining is not None
    assert before.joining.joint == -1


def test_where_how_many_and_how_many_left_are_told_of_seams() -> None:
    """In words for the ear, and in the line that begins with the place."""
    program = sample("crossroads-square")
    session, _ = worked(begun(program), "part 2", "yes", *["next"] * 5)
    assert place_line(program, session.place) == "Joining; Seam 2 of 5: squares 5 and 8 · 4 of 17 edges"
    assert where_said(program, session.place) == (
        "Seam two of five, across: squares five and eight. Four of seventeen edges."
    )
    assert left_said(program, session.place) == "Thirteen edges to go."


@pytest.mark.parametrize("width, height", [(80, 24), (120, 40), (200, 60)])
def test_the_map_is_in_the_lap_with_the_pair_lit(width: int, height: int) -> None:
    """At every edge, both pieces in brackets, and nothing else; joined edges have a full line between."""
    for nth in range(17):
        shown = _at_the_joint(nth)
        assert shown.joining is not None
        assert shown.joining.now is not None
        lines = page(shown, Showing(), width, height)
        lit = [text.strip() for line in lines for text, role in line if role == "stitch now"]
        assert lit == [f"[{piece}]" for piece in shown.joining.now.pairs[0]]
        told = "".join(text for line in lines for text, _ in line)
        assert ("━" in told or "┃" in told) == (nth > 0)


def test_the_map_on_the_tablet_names_itself_and_draws_each_seam() -> None:
    """Seventeen edges, one of them in hand, two pieces framed."""
    drawing = ElementTree.fromstring(str(told(Seen(_at_the_joint(11)))["fabric"]))
    assert drawing.get("aria-label") == "Seam 4 of 5: squares 7 and 8"
    seams = [path.get("class", "") for path in drawing.iter("path")]
    assert (len(seams), seams.count("seam now"), seams.count("seam done")) == (17, 1, 11)
    assert sum(rect.get("class") == "now" for rect in drawing.iter("rect")) == 2


def test_a_very_large_joining_is_drawn_around_the_seam_in_hand() -> None:
    """Thirty by forty: whole seams at a step, the lines as wide as the room, the tablet's drawing small."""
    layout = Layout(40, 30)
    joints = joints_of(layout)
    assert [joint.seam for joint in joints] == list(range(1, 69))
    assert sum(len(joint.pairs) for joint in joints) == 39 * 30 + 29 * 40
    for at in (-1, 0, 38, 67, 68):
        joining = Joining(layout, at, "square")
        lines = seam_lines(joining, 80, 5)
        assert len(lines) == 5
        assert {sum(len(text) for text, _ in line) for line in lines} == {80}
        assert len(tablet_seams(joining)) < 20_000


def test_the_chart_draws_the_map_of_the_joining() -> None:
    """A number for each piece and each seam, the count at both edges of every pair; none where it is not said."""
    loaded = load("x", samples()["crossroads-square"].read_text(encoding="utf-8"))
    *_, sheet = charted(loaded.source, loaded.pattern, loaded.fabric, Wish())
    assert sheet.title == "CROSSROADS SQUARE, joining"
    words = [mark for mark in sheet.field.marks if isinstance(mark, Words)]
    assert sorted(int(mark.text) for mark in words if mark.size == 12) == list(range(1, 13))
    assert [mark.text for mark in words if mark.bold] == ["1", "2", "3", "4", "5"]
    assert sum(mark.text == "15" for mark in words) == 2 * 17
    assert all(0 <= mark.x <= sheet.field.width and 0 <= mark.y <= sheet.field.height for mark in words)
    assert any("Right sides together. 15 stitches" in line for line in sheet.lines)
    assert "seam 4" in sheet.letters
    granny = load("x", samples()["kettle-square"].read_text(encoding="utf-8"))
    assert len(charted(granny.source, granny.pattern, granny.fabric, Wish())) == 1
    assert len(charted(loaded.source, loaded.pattern, loaded.fabric, Wish(rows=(1, 2)))) == 1
