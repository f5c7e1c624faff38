"""What is amiss, in conversation: a lost place, a count that is off, a count taken together."""

import random

import pytest
from corpus_cases import reading
from test_finding_questions import _truth

from tracker.finding.where.index import index_of
from tracker.load import Loaded, load
from tracker.program.places import Program, Stride
from tracker.samples import samples
from tracker.session import deeds
from tracker.session.amiss.doing import awaits_number, phrases_now, question
from tracker.session.amiss.searching import place_at
from tracker.session.apply import Keep, Say, Show, apply
from tracker.session.deeds import Deed
from tracker.session.replay import Kept, replayed
from tracker.session.state import Session, begun
from tracker.session.understand import understood
from tracker.session.view import view

NOW_MS = 1_760_000_000_000


def _ours(name: str) -> Loaded:
    file = samples()[name]
    return load(file.name, file.read_text(encoding="utf-8"))


def _begun(loaded: Loaded) -> Session:
    return begun(Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems))


WINDOWS = _begun(_ours("harbour-windows"))
SWATCH = _begun(reading("practice", "dc_swatch"))
MOUSE = _begun(reading("rounds", "pip_mouse"))


class Talk:
    """A maker and the tool, line by line."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.kept: list[Kept] = []
        self.shown: tuple[str, ...] = ()

    def says(self, *lines: str) -> str:
        """What is answered to the last of the lines."""
        said = ""
        for line in lines:
            deed = understood(line, self.session)
            assert deed is not None, line
            said = self.does(deed)
        return said

    def does(self, deed: Deed) -> str:
        self.session, effects = apply(self.session, deed, NOW_MS)
        self.shown = ()
        for effect in effects:
            if isinstance(effect, Keep):
                self.kept.append(Kept(effect.deed, effect.arguments, self.session.place))
            elif isinstance(effect, Show):
                self.shown = effect.lines
        return " ".join(effect.text for effect in effects if isinstance(effect, Say))

    def row(self, row: int) -> "Talk":
        """At the end of a row, by its index."""
        self.does(deeds.Jump(row, row))
        self.does(deeds.SetStride(Stride.ROW))
        return self


# -- lost


def test_a_lost_maker_is_asked_until_the_place_is_found_and_agrees_to_it() -> None:
    """The place moves only on a yes, and is kept as any other."""
    talk = Talk(WINDOWS)
    talk.says("row 9", "yes", "next")
    before = talk.session.place
    said = talk.says("I'm lost")
    assert said.endswith("?")
    assert awaits_number(talk.session)
    assert view(talk.session).asked == said
    asked = 0
    while awaits_number(talk.session):
        asked += 1
        assert asked < 6
        search = talk.session.amiss.search
        assert search is not None
        assert search.question is not None
        truth = _truth(search.index, search.question, 12, 9)
        said = talk.says("no" if truth is None else str(truth))
    assert talk.session.place == before
    assert said.endswith("Is that where you are?")
    assert talk.session.asked is not None
    talk.says("yes")
    program = talk.session.program
    assert talk.session.place[2] == 12
    assert program.elements_done(talk.session.place) == 9
    assert talk.kept[-1].deed == "place"


@pytest.mark.parametrize(
    "name", ["harbour-windows", "low-tide-ripple", "bramble-hedgehog", "crossroads-square"]
)
def test_whoever_answers_truly_is_led_to_where_they_are(name: str) -> None:
    """From many places of our patterns; where several look alike, a no brings the next."""
    start = _begun(_ours(name))
    program = start.program
    index = index_of(program.fabric)
    chance = random.Random(2)
    for _ in range(12):
        row = chance.randrange(1, index.length + 1)
        done = chance.randrange(len(index.looks[index.at(row) or 0].text))
        there = place_at(program, program.start, row, done)
        done = program.elements_done(there)
        talk = Talk(start)
        talk.does(deeds.Jump(0, max(1, row - chance.randrange(2))))
        talk.does(deeds.Lost())
        for _ in range(14):
            search = talk.session.amiss.search
            if talk.session.asked is not None:
                offered = talk.session.asked.deed
                assert isinstance(offered, deeds.PutAt)
                if offered.place[2:] == there[2:]:
                    break
                talk.does(deeds.No())
                continue
            assert search is not None
            assert search.question is not None, (name, row, done, search)
            truth = _truth(search.index, search.question, row, done)
            talk.does(deeds.No() if truth is None else deeds.Number(truth))
        talk.does(deeds.Yes())
        assert talk.session.place[2:] == there[2:], (name, row, done)


def test_what_can_be_answered_has_words_of_its_own() -> None:
    """The side by its name, or by its number: a list of phrases made for that question."""
    talk = Talk(_begun(_ours("pebble-cloth")))
    talk.does(deeds.Jump(0, 9))
    talk.says("lost")
    for _ in range(8):
        search = talk.session.amiss.search
        assert search is not None
        if search.question is None or search.question.about == "side":
            break
        talk.says("no")
    assert search.question is not None
    assert search.question.about == "side"
    words = dict(phrases_now(talk.session))
    assert words["right side"] == deeds.Number(1)
    assert understood("the wrong side", talk.session) == deeds.Number(2)
    assert "one, the right side; two, the wrong side" in talk.session.amiss.search.says.lower()


def test_work_that_fits_no_place_is_told_where_it_departs() -> None:
    """With the pattern's own count; the place stays."""
    talk = Talk(SWATCH)
    talk.does(deeds.Jump(0, 4))
    before = talk.session.place
    talk.says("lost")
    said = ""
    while awaits_number(talk.session):
        search = talk.session.amiss.search
        assert search is not None
        assert search.question is not None
        said = talk.says("80" if search.question.about in ("count", "below") else "no")
        if "fits no place" in said:
            break
    assert "It first differs in" in said
    assert talk.session.place == before
    assert talk.session.asked is None


def test_a_no_to_where_i_stand_begins_the_search() -> None:
    """ "Where am I?" "Row nine ..." "No." """
    talk = Talk(WINDOWS)
    talk.says("row 9", "yes", "where am i")
    assert talk.says("no").endswith("?")
    assert awaits_number(talk.session)


def test_any_other_wish_leaves_the_search() -> None:
    """The maker remembers, and goes on."""
    talk = Talk(WINDOWS)
    talk.says("row 9", "yes", "lost")
    assert question(talk.session)
    talk.says("next")
    assert not question(talk.session)
    assert not awaits_number(talk.session)


# -- miscounts


def test_a_count_that_is_off_asks_cause_by_cause() -> None:
    """What to look at and what to feel for, likeliest first; all of them for the eye."""
    talk = Talk(SWATCH).row(4)
    said = talk.says("I have twenty")
    assert said == "Twenty; should be twenty-one. Don't turn. Feel under your hook: is the chain three bare?"
    assert talk.shown[0].startswith("1. The last double crochet is missing")
    assert "one hole is wider" in talk.says("no")
    assert talk.says("no", "no").startswith("Then I know no other.")


def test_a_cause_may_be_chosen_by_its_number() -> None:
    """ "The second", or "two"."""
    for line in ("the second", "2", "two"):
        talk = Talk(SWATCH).row(4)
        talk.says("have 20")
        assert talk.says(line).startswith("Look for it, and unravel to it")


def test_putting_it_right_leads_to_where_it_went_wrong() -> None:
    """The last stitch is worked now; a stitch somewhere in the row is found by the count before it."""
    talk = Talk(SWATCH).row(4)
    said = talk.says("have 20", "yes")
    assert said.startswith("There is nothing to unravel: it is worked now.")
    talk.says("yes")
    assert talk.session.program.elements_done(talk.session.place) == 20
    talk = Talk(SWATCH).row(4)
    assert talk.says("have 20", "the second", "yes").endswith("How many stitches stand before it?")
    assert awaits_number(talk.session)
    talk.says("seven")
    assert talk.session.program.elements_done(talk.session.place) == 7
    assert talk.kept[-1].deed == "place"


def test_a_miscount_is_carried_along_in_plain_rows_until_it_is_mended() -> None:
    """Later rows are told with what is really on the hook; a sitting that comes after knows it, too."""
    talk = Talk(SWATCH).row(4)
    said = talk.says("have 20", "yes", "no")
    assert said.startswith("Carried along: one fewer from here on.")
    assert "Twenty double crochet. Count." in talk.says("next")
    assert view(talk.session).due == 20
    again = replayed(SWATCH.program, talk.kept)
    assert view(again).due == 20
    assert again.amiss.carried == talk.session.amiss.carried
    talk.says("mended")
    assert view(talk.session).due == 21
    assert "right" in talk.says("have 21")
    assert view(replayed(SWATCH.program, talk.kept)).due == 21


def test_what_is_carried_along_can_be_taken_back() -> None:
    """Undo brings the pattern's own rows again."""
    talk = Talk(SWATCH).row(4)
    talk.says("have 20", "yes", "carry it along")
    assert talk.session.program is not SWATCH.program
    talk.says("undo")
    assert talk.session.program is SWATCH.program


def test_where_the_rows_above_cannot_bear_it_that_is_said() -> None:
    """A spiral that is plain for a while, and then decreases in a fixed number."""
    talk = Talk(MOUSE).row(8)
    said = talk.says("have 23", "yes")
    assert "it must be mended before round thirteen" in said
    talk.says("no")
    talk.says("next", "next", "next")
    assert "Mend it now: round thirteen needs what the pattern has." in talk.says("next") + talk.says("next")


def test_a_lost_window_shifts_the_picture_and_is_not_carried_along() -> None:
    """Filet: rip back to it."""
    talk = Talk(WINDOWS).row(2)
    said = talk.says("I have 24 dc, 7 ch-1 sp")
    assert "should be" in said
    assert "eight chain-one spaces" in said
    said = talk.says("yes")
    assert "shifts the picture" in said
    assert "carries it along" not in said


def test_squares_that_are_off_are_looked_for_once_it_is_known_how_many_are_open() -> None:
    """Sixteen squares, eight open: with seven of fifteen open it is a window, with eight of fifteen a block."""
    talk = Talk(WINDOWS).row(2)
    asked = talk.says("i have 15 squares")
    assert asked == "Fifteen; should be sixteen squares, eight open. How many are open?"
    assert awaits_number(talk.session)
    assert talk.says("again") == "How many are open?"
    assert talk.says("30") == "How many are open?"
    said = talk.says("7")
    assert said.startswith("Fifteen squares, seven open; should be sixteen, eight open. ")
    assert "windows" in said
    assert "shifts the picture" in talk.says("yes")
    said = Talk(WINDOWS).row(2).says("i have 15 squares", "8")
    assert "Count the blocks with a fingertip" in said
    assert "right" in Talk(WINDOWS).row(2).says("i have 15 squares", "i have 16 squares")
    cannot_tell = Talk(WINDOWS).row(2).says("i have 15 squares", "i can't tell")
    assert "shifts the picture: rip back to it." in cannot_tell


def test_in_a_row_all_filled_or_all_open_nothing_more_is_asked_of_its_squares() -> None:
    """Sixteen blocks in row seven, sixteen windows in row fourteen."""
    talk = Talk(WINDOWS).row(7)
    assert talk.says("i have 15 squares").startswith("Fifteen; should be sixteen blocks. ")
    assert talk.session.asked is not None
    assert "should be sixteen windows." in Talk(WINDOWS).row(14).says("i have 15 squares")


def test_a_row_worked_twice_comes_out_and_the_right_one_is_worked() -> None:
    """Row eight looks like row seven."""
    talk = Talk(WINDOWS).row(8)
    said = talk.says("i have 33 dc", "yes")
    assert "Rip that row out and work row eight." in said
    talk.says("yes")
    assert talk.session.place[2] == 8


@pytest.mark.parametrize(
    "wish, asked",
    [
        ("ask every row", [4, 5, 6, 7, 8]),
        ("ask every 3 rows", [6]),
        ("ask at repeats", [7]),
        ("no counts", []),
    ],
)
def test_a_count_is_asked_for_as_often_as_the_maker_wants(wish: str, asked: list[int]) -> None:
    """At row ends; the answer is a number alone."""
    talk = Talk(WINDOWS)
    talk.does(deeds.Jump(0, 4))
    talk.says(wish)
    rows = []
    while talk.session.place[2] < 9:
        if talk.says("next").endswith("How many have you?"):
            rows.append(talk.session.place[2])
    assert rows == asked
    again = replayed(WINDOWS.program, talk.kept)
    assert again.amiss.every == talk.session.amiss.every


def test_the_answer_to_a_count_that_was_asked_for_is_held_against_the_row() -> None:
    """Row by row, too: before the next one begins."""
    talk = Talk(SWATCH).row(4)
    talk.says("ask every row")
    assert talk.says("next") == "How many have you?"
    assert talk.session.place[2] == 4
    assert talk.says("twenty-one") == "Twenty-one. That is right."
    assert talk.says("next").startswith("Row five")


# -- count with me


def test_taps_are_called_at_the_tens_and_the_tally_is_held_against_the_row() -> None:
    """Twenty where twenty-one belong: straight to the likeliest cause."""
    talk = Talk(SWATCH).row(4)
    assert talk.says("count with me").startswith("Row four: tap each stitch")
    said = [talk.says("next") for _ in range(20)]
    assert [n for n, words in enumerate(said, 1) if words] == [10, 20]
    assert said[9] == "Ten."
    assert talk.session.place[2] == 4
    assert talk.says("yes").startswith("Twenty; should be twenty-one. Don't turn.")


def test_a_tally_survives_an_interruption() -> None:
    """Every tap is kept; a step back takes one off."""
    talk = Talk(SWATCH).row(4)
    talk.says("count with me", *["next"] * 9, "back", "stop")
    again = Talk(replayed(SWATCH.program, talk.kept))
    assert again.session.amiss.tally == talk.session.amiss.tally
    assert again.says("again") == "You were counting row four: eight so far. Tap on."
    assert again.says("next", "next") == "Ten."


def test_one_too_many_is_said_at_once() -> None:
    """And the last one is told to be the last."""
    talk = Talk(SWATCH).row(4)
    talk.says("count with me")
    said = [talk.says("next") for _ in range(22)]
    assert said[20].startswith("Twenty-one: that is all")
    assert said[21] == "Twenty-two: one more than there should be."


def test_kinds_that_are_named_are_told_at_once_where_they_leave_the_pattern() -> None:
    """Squares by name in filet, stitches by theirs elsewhere."""
    talk = Talk(WINDOWS).row(3)
    talk.says("count with me")
    assert talk.says("block, block, window, block, block") == ""
    assert talk.says("block") == "Square six should be a window, not a block."
    talk = Talk(_begun(_ours("pebble-cloth"))).row(2)
    talk.says("count with me")
    assert talk.says("sc, tr, sc, tr") == ""
    assert talk.says("tr") == "Stitch five should be a single crochet, not a treble crochet."
    talk = Talk(_begun(_ours("kettle-square"))).row(3)
    said = talk.says("count with me", "3 dc, ch-1 sp")
    assert said == "After three stitches comes a chain-two space, not a chain-one space."
    assert talk.says("bananas") == "I know those words for no stitch or space of this piece."


def test_a_tally_by_kind_goes_on_to_the_causes() -> None:
    """What was named is what is explained."""
    talk = Talk(WINDOWS).row(14)
    talk.says("count with me", *["window"] * 15)
    assert "is the chain three bare?" in talk.says("that's all")
    talk = Talk(WINDOWS).row(2)
    talk.says("count with me", "2 blocks, 3 windows, 4 blocks, 4 windows, 2 blocks")
    said = talk.says("that's all")
    assert said.startswith("Fifteen squares, seven open; should be sixteen, eight open. ")
    assert "1. One window is missing." in talk.shown
    talk = Talk(_begun(_ours("pebble-cloth"))).row(2)
    talk.says("count with me", *["sc, tr"] * 12, "sc")
    said = talk.says("yes")
    assert said.startswith("Twenty-five stitches: thirteen single crochet, twelve treble crochet; should be")
    assert talk.session.amiss.off is not None


def test_a_long_foundation_chain_is_tapped_with_a_marker_every_twenty() -> None:
    """Adjustable, and can be turned off."""
    talk = Talk(WINDOWS)
    assert "Your hook loop isn't one." in talk.says("count with me")
    said = [talk.says("next") for _ in range(35)]
    assert said[19] == "Twenty. Mark it."
    assert said[29] == "Thirty."
    assert talk.says("yes") == "Thirty-five chains. That is right."
    talk = Talk(WINDOWS)
    talk.says("markers every 10", "count with me")
    assert [talk.says("next") for _ in range(10)][-1] == "Ten. Mark it."
    talk = Talk(WINDOWS)
    talk.says("no markers", "count with me")
    assert [talk.says("next") for _ in range(20)][-1] == "Twenty."


def test_the_second_round_of_a_spiral_is_told_to_be_marked() -> None:
    """Nothing else shows where it began; not with markers off."""
    talk = Talk(MOUSE)
    talk.does(deeds.Jump(0, 1))
    talk.does(deeds.SetStride(Stride.ROW))
    assert "Mark its first stitch" in talk.says("next")
    talk = Talk(MOUSE)
    talk.does(deeds.Jump(0, 1))
    talk.does(deeds.SetStride(Stride.ROW))
    assert "Mark its" not in talk.says("no markers", "next")


def test_a_round_among_others_alike_says_which_it_is() -> None:
    """ "Round nine. Third of six alike." """
    talk = Talk(MOUSE)
    assert "Third of six alike" in talk.does(deeds.Jump(9, 9))
    assert "Last of six alike" in talk.does(deeds.Jump(12, 12))


def test_there_is_nothing_to_count_before_the_first_round() -> None:
    """And no tally to end."""
    talk = Talk(MOUSE)
    talk.does(deeds.Jump(1, 1))
    assert talk.says("count with me") == "There is no row to count yet."
    assert talk.says("i have 6") == "There is no row to count yet."
    assert talk.says("that's all") == "Nothing is being counted."
    assert talk.says("mended") == "Nothing is carried along."


def test_a_foundation_chain_is_counted_until_the_first_row_is_begun() -> None:
    """As it is made, and again before the first row is worked into it."""
    for talk in (Talk(WINDOWS), Talk(WINDOWS)):
        assert talk.says("i have 35") == "Thirty-five chains. That is right."
        assert talk.says("i have 34") == "Thirty-four; should be thirty-five. One more to make."
        assert (
            talk.says("next", "i have 37") == "Thirty-seven; should be thirty-five. Two too many: undo them."
        )
        assert talk.says("count with me").startswith("Tap each chain")


def test_part_of_a_filet_row_is_counted_in_squares_too() -> None:
    """Two blocks and three windows are done; what leaves the pattern is told once, and the tens go on."""
    talk = Talk(WINDOWS)
    talk.does(deeds.Jump(2, 2))
    talk.says(*["next"] * 5)
    assert talk.says("count with me").startswith("Row two so far: tap each square")
    assert talk.says("2 blocks") == ""
    assert talk.says("block") == "Square three should be a window, not a block."
    assert talk.says("window") == ""
    assert talk.says("window") == "Five: that is all there should be. Yes, if it ends here."
    talk = Talk(WINDOWS).row(2)
    talk.says("count with me", "2 blocks")
    assert talk.says("block") == "Square three should be a window, not a block."
    said = [talk.says("window") for _ in range(7)]
    assert [words for words in said if words] == ["Ten."]


def test_a_filet_row_is_counted_by_stitch_for_who_names_stitches() -> None:
    """Five double crochet, then a window's chain."""
    talk = Talk(WINDOWS).row(2)
    talk.says("count with me")
    assert talk.says("5 dc, ch-1 sp") == ""
    assert talk.says("ch-1 sp") == "Stitch six should be a double crochet, not a chain-one space."


def test_a_count_names_its_row_when_it_is_not_the_one_in_hand() -> None:
    """Turned already, or in the middle of a row, with a count that only the row below can hold."""
    talk = Talk(WINDOWS)
    talk.does(deeds.Jump(4, 4))
    assert talk.says("i have 29") == "Twenty-nine in row three. That is right."
    assert talk.says("i have 15 squares").startswith(
        "Fifteen; row three should have sixteen squares, four open."
    )
    assert talk.says("next", "i have 30").startswith("Thirty; row three should have twenty-nine")
    assert talk.says("i have 28 dc, 4 ch-1 sp").startswith(
        "Twenty-eight double crochet, four chain-one spaces; row three"
    )
    assert talk.says("next", "i have 7").startswith("Seven; should be five so far")


def test_the_mistake_is_found_in_squares_where_squares_are_counted() -> None:
    """A window of row three is missing, behind seven squares."""
    talk = Talk(WINDOWS)
    talk.does(deeds.Jump(4, 4))
    assert "shifts the picture" in talk.says("i have 15 squares", "3", "yes")
    assert talk.says("yes") == "Unravel to it. How many squares stand before it?"
    assert talk.says("yes") == "Unravel to it. How many squares stand before it?"
    talk.says("7")
    assert talk.session.place[2] == 3
    program = talk.session.program
    assert [element.name for element in program.made(talk.session.place)] == [
        element.name for element in program.fabric.row(3).worked.elements[:15]
    ]
