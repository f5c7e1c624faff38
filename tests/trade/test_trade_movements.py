"""How a stitch is worked: yarn-overs and loops as a published handbook has them, one row for each stitch of the table.

The handbook is the *Handbook of Wool Knitting and Crochet*, Needlecraft Publishing Co., Augusta, Maine, 1918 (in the
public domain; Project Gutenberg 26113), quoted word for word. Its names stand one step up the ladder from ours: what it
calls treble is our double crochet. What it does not hold is common practice, no source.
"""

import re

import pytest
from on_the_hook import NOW_MS, at_hand, program_of, worked

from tracker.session import deeds
from tracker.session.apply import Say, apply
from tracker.session.state import Session, begun
from tracker.session.understand import understand
from tracker.session.wording.explain import how_worked
from tracker.trade.numbers import number_of
from tracker.trade.said.movements import BY_NAME, MOVEMENTS, loops_up, steps_of, told
from tracker.trade.stitches import TABLE

SINGLE = (
    "Having a stitch on needle, insert hook in work, take up the thread and draw it through the work and the stitch on "
    "the needle at the same time."
)
DOUBLE = (
    "Having a stitch on needle, insert hook in work, take up thread and draw through, giving you two stitches on the "
    "needle; take up thread and draw through the two stitches."
)
TREBLE = (
    "Having a stitch on the needle, take up the thread as if to make a stitch, insert hook in work, take up thread and "
    "draw through, making three stitches or loops on the needle; * take up thread and draw through two, again and draw "
    "through two."
)
HALF_TREBLE = "Like treble to *; then take up thread and draw through all three stitches at once."
DOUBLE_TREBLE = (
    "Having a stitch on the needle, take up the thread twice, or put it twice over the needle, insert hook in work, take "
    "up thread and draw through, making four stitches to be worked off; (take up thread and draw through two) three times."
)
TRIPLE_TREBLE = (
    "Take up thread three times, insert hook in work, take up thread and draw through, making five stitches on needle; "
    "work these off two at a time, as in double treble."
)
LONGER = (
    "quadruple crochet (over four times before insertion of hook in work), quintuple crochet (over five times), and so "
    "on, which are worked off two at a time, exactly as in treble or double treble."
)


def overs_in(quote: str) -> int:
    """Yarn-overs that a quotation has before the hook goes in."""
    before, _, _ = quote.partition("insert hook")
    if "take up" not in before.lower():
        return 0
    times = re.search(r"(twice|\w+ times)", before)
    return 1 if times is None else 2 if times[1] == "twice" else number_of(times[1].split()[0]) or 0


def loops_in(quote: str) -> int:
    """Loops it has on the hook once one was drawn through."""
    found = re.search(r"(?:giving you|making) (\w+) stitches", quote)
    assert found is not None
    return number_of(found[1]) or 0


@pytest.mark.parametrize(
    "name, quote, pulls",
    [
        ("sc", DOUBLE, (2,)),
        ("dc", TREBLE, (2, 2)),
        ("tr", DOUBLE_TREBLE, (2, 2, 2)),
        ("dtr", TRIPLE_TREBLE, (2, 2, 2, 2)),
    ],
)
def test_the_ladder_is_worked_as_the_handbook_of_1918_has_it(
    name: str, quote: str, pulls: tuple[int, ...]
) -> None:
    """Yarn-overs and loops are read from the quotation; a draw through two takes one loop away."""
    row = BY_NAME[name]
    assert row.overs == overs_in(quote)
    assert loops_up(row) == loops_in(quote)
    assert row.pulls == pulls
    assert len(pulls) == loops_in(quote) - 1


def test_the_half_stitch_is_like_the_whole_one_up_to_its_last_draw() -> None:
    """ "Like treble to *; then … through all three stitches at once": our half double crochet."""
    assert "through all three" in HALF_TREBLE
    half, whole = BY_NAME["hdc"], BY_NAME["dc"]
    assert (
        (half.overs, loops_up(half)) == (whole.overs, loops_up(whole)) == (overs_in(TREBLE), loops_in(TREBLE))
    )
    assert half.pulls == (3,)


def test_the_slip_stitch_is_one_draw_through_all() -> None:
    """What the handbook calls single crochet: "through the work and the stitch on the needle at the same time"."""
    assert "at the same time" in SINGLE
    assert (
        told("slst")
        == "Slip stitch: into the stitch, yarn over, through the stitch and the loop on the hook."
    )


@pytest.mark.parametrize("name, words", [("trtr", "four"), ("quadtr", "five")])
def test_the_longest_stitches_go_on_as_the_ladder_does(name: str, words: str) -> None:
    """ "Over four times … over five times … worked off two at a time"."""
    assert f"over {words} times" in LONGER
    assert BY_NAME[name].overs == number_of(words)
    assert set(BY_NAME[name].pulls) == {2}


def test_every_stitch_of_the_table_has_its_movements_in_one_row() -> None:
    """A stitch that is added without them is missing here by name."""
    assert [row.name for row in MOVEMENTS] == [row.name for row in TABLE if row.name in BY_NAME]
    assert {row.name for row in TABLE} == set(BY_NAME)
    for row in TABLE:
        assert steps_of(row.name), row.name
        assert "{" not in told(row.name) + told(row.name, uk=True)


def test_whatever_is_pulled_up_is_worked_off_to_one_loop() -> None:
    """And the yarn-overs are those of the table of stitches."""
    table = {row.name: row for row in TABLE}
    for row in MOVEMENTS:
        if not row.words:
            assert loops_up(row) - sum(pull - 1 for pull in row.pulls) == 1, row.name
            assert row.overs == table[row.name].yarn_overs, row.name


def test_several_together_leave_one_loop_for_each_and_one_more() -> None:
    """Three double crochet together: four loops before the last pull (common practice, no source)."""
    assert "four loops; yarn over, through all four" in told("dc3tog")
    assert "five loops; yarn over, through all five" in told("hdc2tog")
    assert "three loops; yarn over, through all three" in told("sc2tog")


def test_uk_words_for_a_uk_maker() -> None:
    """The same movements, by the other name."""
    assert told("dc", uk=True).startswith(
        "Treble: yarn round hook, into the stitch, yarn round hook, pull up"
    )


BOBBLES = """CUSHION

Special stitch: Bobble (bo): 5 dc in next st, each up to the last pull, yo, pull through all loops.

Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Turn, ch 1, sc in next 5 sts, bo in next st, sc in next 5 sts. (10 sc, 1 bo)
"""


def asked(program_text: str, *lines: str) -> str:
    _, said = worked(begun(program_of(program_text)), *lines)
    return " ".join(said)


def test_a_special_stitch_is_told_in_the_patterns_own_words_first() -> None:
    """Then in the trade's; abbreviations as makers say them."""
    said = asked(BOBBLES, *["next"] * 5, "show me how")
    assert said.startswith(
        "The pattern says: five double crochet in the next stitch, each up to the last pull, yarn over"
    )


@pytest.mark.parametrize(
    "words, expected",
    [
        ("FPdc around next 8 sts", "around the post of the stitch, in from the front and out to the front"),
        ("dc in blo of next 8 sts", "Into the back loop alone"),
        ("dc in next 8 sts", "Under both loops at the top of the stitch."),
    ],
)
def test_where_the_hook_goes_is_told_too(words: str, expected: str) -> None:
    """Post, loop or top."""
    text = (
        "T\n\nCh 12.\nRow 1: Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across. (10 dc)\n"
        f"Row 2: Turn, ch 3 (counts as dc), {words}, dc in top of ch-3. (10 sts)\n"
    )
    assert expected in asked(text, *["next"] * 4, "show me how")


def test_a_stitch_into_a_space_goes_under_the_chain() -> None:
    """Row three of the windows: a block over an open square."""
    program = at_hand().program
    place = next(
        (0, 1, 3, 0, at, 0, 0)
        for at, breath in enumerate(program.breaths(3))
        if "ch-1 sp, dc in next dc" in program.source.words(breath.first.span).replace("next ch-1", "ch-1")
        and program.source.words(breath.first.span).startswith("dc")
    )
    assert "Into the space under the chain" in how_worked(program, place)


def test_asked_twice_it_is_told_movement_by_movement_and_the_work_waits() -> None:
    """At the maker's own pace: each step is one movement, and the place holds until the stitch is done."""
    session = at_hand()
    for _ in range(4):
        session, _ = apply(session, deeds.Onward(), NOW_MS)
    place = session.place
    heard: list[str] = []

    def does(session: Session, deed: deeds.Deed) -> Session:
        session, effects = apply(session, deed, NOW_MS)
        heard.extend(effect.text for effect in effects if isinstance(effect, Say))
        return session

    session = does(does(session, deeds.HowWorked()), deeds.HowWorked())
    while heard[-1] != "That is the stitch.":
        assert session.place == place
        session = does(session, deeds.Onward())
    assert [words.removeprefix("One movement at a step. ") for words in heard[1:-1]] == [
        "Yarn over.",
        "Into the stitch.",
        "Yarn over, pull up a loop: three loops.",
        "Yarn over, through two.",
        "Yarn over, through two.",
    ]
    assert does(session, deeds.Onward()).place > place


@pytest.mark.parametrize(
    "line, begins",
    [
        ("how do i work a bobble", "Bobble: "),
        ("how fpdc2tog", "Two front post double crochet together: "),
        ("show me half double crochet", "Half double crochet: "),
        ("how do i work a banana", "I know no stitch called banana"),
    ],
)
def test_any_stitch_can_be_asked_for_by_its_name(line: str, begins: str) -> None:
    """Typed; in full or as it is abbreviated."""
    deed = understand(line)
    assert isinstance(deed, deeds.HowWorked)
    _, (said,) = apply(at_hand(), deed, NOW_MS)
    assert isinstance(said, Say)
    assert said.text.startswith(begins)
