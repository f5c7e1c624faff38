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
from tracker.session.amiss import righting
from tracker.session.amiss.doing import awaits_number, phrases_now, question
from tracker.session.amiss.searching import place_at
from tracker.session.apply import Keep, Say, Show, apply
from tracker.session.deeds import Deed
from tracker.session.replay import Kept, replayed
from tracker.session.seen.view import view
from tracker.session.state import Session, begun
from tracker.session.understand import understood

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
        talk.does(righting.Lost())
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
    assert "eight windows" in said
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
