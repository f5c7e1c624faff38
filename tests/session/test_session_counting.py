"""Counts in conversation: a tally taken together, markers, a count of the row below, squares, chains."""

from test_session_amiss import MOUSE, SWATCH, WINDOWS, Talk, _begun, _ours

from tracker.program.places import Stride
from tracker.session import deeds
from tracker.session.replay import replayed


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
    assert talk.says("next").endswith(
        "Don't join: mark its first stitch, stop at the marker, and move it up with each round."
    )
    talk = Talk(MOUSE)
    talk.does(deeds.Jump(0, 1))
    talk.does(deeds.SetStride(Stride.ROW))
    assert "Mark its" not in talk.says("no markers", "next")


def test_at_the_end_of_a_round_in_a_spiral_the_first_of_the_one_after_is_told_to_be_marked() -> None:
    """ "Thirty-six. Work one more and mark it: round eight has begun." Not once the hands know the round."""
    talk = Talk(MOUSE)
    heard = [talk.says("next") for _ in range(60)]
    marked = [words for words in heard if "Mark the first of" in words]
    assert marked[0].endswith("Count. Mark the first of round three.")
    assert not any("Round nine:" in words for words in marked)
    talk = Talk(MOUSE)
    talk.says("no markers")
    assert not any("Mark the first" in talk.says("next") for _ in range(60))


def test_the_top_of_the_first_turning_chain_that_counts_is_told_to_be_marked() -> None:
    """Row two has the first; not told again, not where chains do not count, and not with markers off."""
    talk = Talk(WINDOWS)
    heard = [talk.says("next") for _ in range(20)]
    marked = [words for words in heard if "Mark the top of that chain" in words]
    assert len(marked) == 1
    assert marked[0].startswith("Row two")
    quiet = Talk(WINDOWS)
    quiet.says("no markers")
    assert not any("Mark the top" in quiet.says("next") for _ in range(20))
    cloth = Talk(_begun(_ours("pebble-cloth")))
    assert not any("Mark the top" in cloth.says("next") for _ in range(40))


def test_a_number_nobody_asked_for_says_how_it_is_told() -> None:
    """And takes nothing with it."""
    talk = Talk(WINDOWS)
    assert talk.says("27") == "No number was asked for. Say row or count before it."
    assert talk.kept == []


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
        "Twenty-eight double crochet, four windows; row three"
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


def test_windows_of_filet_are_counted_by_their_name_and_what_is_missing_is_told() -> None:
    """ "Twenty-four double crochet, seven windows: one window is missing." """
    talk = Talk(WINDOWS)
    talk.does(deeds.Jump(2, 2))
    while not talk.session.program.is_count(talk.session.place):
        talk.says("next")
    said = talk.says("i have 24 dc, 7 ch-1 sp")
    assert said.startswith(
        "Twenty-four double crochet, seven windows; should be twenty-five double crochet, eight windows. "
        "One window is missing. "
    )
    assert talk.says("i have 25 dc, 8 ch-1 sp") == "Twenty-five double crochet, eight windows. That is right."
