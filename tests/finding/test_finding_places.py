"""Lost places: what a maker sees gives exactly the places that fit it."""

import random
from collections import Counter

import pytest
from corpus_cases import RIGHT, cases, counts, made_by, reading, rows_of
from finding_cases import Worked, evidence_of, pieces, told, written_out

from tracker.finding.evidence import Evidence, Tally, Unclear, fits, listed, tallied, tallies
from tracker.finding.lost import find
from tracker.finding.where.index import index_of
from tracker.finding.where.places import Known
from tracker.load import load

NAMES = [name for name, _ in pieces()]
SEEN = 400
"""What is seen at so many places of a piece is tried, chosen evenly; each is compared with every place there is."""


def _spot(found) -> set[tuple[int, int]]:
    return {(place.index, place.elements_done) for place in found.places}


def _chosen(worked: Worked) -> list[tuple[int, int]]:
    places = list(worked.places())
    return places if len(places) <= SEEN else random.Random(7).sample(places, SEEN)


@pytest.fixture(params=NAMES)
def piece(request: pytest.FixtureRequest):
    loaded = dict(pieces())[request.param]
    return index_of(loaded.fabric), written_out(loaded)


def test_the_row_so_far_gives_every_place_where_it_looks_so(piece) -> None:
    """Working through every place of the piece finds the same ones."""
    index, worked = piece
    for seen in {worked.so_far(row, done) for row, done in _chosen(worked) if done}:
        fitting = {
            place
            for place in worked.places()
            if any(worked.so_far(*way) == seen for way in worked.seen_at(*place))
        }
        assert _spot(find(index, Evidence(so_far=seen))) == fitting


def test_the_last_few_stitches_give_every_place_that_ends_so(piece) -> None:
    """Three or eight things, all in the row on the hook."""
    index, worked = piece
    for many in (3, 8):
        for seen in {worked.so_far(row, done)[-many:] for row, done in _chosen(worked) if done >= many}:
            fitting = {
                place
                for place in worked.places()
                if any(worked.so_far(*way)[-many:] == seen for way in worked.seen_at(*place))
            }
            assert _spot(find(index, Evidence(last=seen))) == fitting


def test_a_count_of_stitches_gives_every_place_with_as_many(piece) -> None:
    """Before and after a chain are two places with the same count."""
    index, worked = piece
    for seen in {worked.count(row, done) for row, done in _chosen(worked)} - {0}:
        fitting = {
            place
            for place in worked.places()
            if any(worked.count(*way) == seen for way in worked.seen_at(*place))
        }
        assert _spot(find(index, Evidence(count=seen))) == fitting


def test_rows_done_with_the_row_so_far_give_one_place(piece) -> None:
    """The two together leave no doubt, and the place is the right one."""
    index, worked = piece
    for row, done in _chosen(worked):
        if row <= len(worked.rows):
            seen = Evidence(done=str(row - 1), so_far=worked.so_far(row, done))
            assert _spot(find(index, seen)) == {(row, done)}


def test_rows_done_with_a_count_give_the_places_of_that_row(piece) -> None:
    """The end of the row is a place as well."""
    index, worked = piece
    for row, done in _chosen(worked):
        if row > len(worked.rows):
            continue
        length = len(worked.rows[row - 1])
        count = worked.count(row, done)
        fitting = {
            (row + 1, 0) if at and at == length else (row, at)
            for at in range(length + 1)
            if worked.count(row, at) == count
        }
        assert _spot(find(index, Evidence(done=str(row - 1), count=count))) == fitting


def test_the_whole_top_row_gives_the_place_after_every_row_like_it(piece) -> None:
    """Nothing said of the row on the hook: it has not begun."""
    index, worked = piece
    for seen in set(worked.rows) - {()}:
        fitting = {(row + 1, 0) for row, names in enumerate(worked.rows, 1) if names == seen}
        assert _spot(find(index, Evidence(top=seen))) == fitting


@pytest.mark.parametrize("deep", [1, 2, 3])
def test_counts_of_the_top_rows_give_the_place_after_every_stack_like_it(piece, deep: int) -> None:
    """Rows of another piece of work do not lie below."""
    index, worked = piece
    tops = range(1, len(worked.rows) + 1)
    counted = {top: [Counter(row) for row in rows] for top in tops if (rows := worked.stack(top, deep))}
    for top, seen in counted.items():
        if not all(seen):
            continue
        newest_last = tuple(Tally(tuple(counts.items())) for counts in reversed(seen))
        fitting = {(other + 1, 0) for other, counts in counted.items() if counts == seen}
        assert (top + 1, 0) in fitting
        assert _spot(find(index, Evidence(top_counts=newest_last))) == fitting


def test_stitches_alone_of_the_top_row_leave_its_spaces_out(piece) -> None:
    """ "Twenty" is twenty stitches, with or without chains between."""
    index, worked = piece
    held = [sum(row) for row in worked.stitches]
    for seen in set(held) - {0}:
        fitting = {(row + 1, 0) for row, stitches in enumerate(held, 1) if stitches == seen}
        assert _spot(find(index, Evidence(top_counts=(Tally(stitches=seen),)))) == fitting


def test_the_likelihoods_of_all_places_are_one_together(piece) -> None:
    """Likeliest first, with and without a last known place."""
    index, worked = piece
    for known in (None, Known(2, 3), Known(len(worked.rows))):
        for seen in (Evidence(count=2), Evidence(last=worked.rows[-1][-1:])):
            chances = [place.likelihood for place in find(index, seen, False, known).places]
            assert sum(chances) == pytest.approx(1)
            assert chances == sorted(chances, reverse=True)


def test_what_was_seen_in_the_cases_gives_exactly_their_places() -> None:
    """All ten of them: made outside the project, their places found by working through each pattern."""
    wrong = []
    for case in told("lostplace"):
        index = index_of(reading("practice", case["pattern"]).fabric)
        length = {
            row: len(index.looks[look].text)
            for row in range(1, index.length + 1)
            if (look := index.at(row)) is not None
        }
        want = set()
        for truth in case["truth"]:
            if "finished" in truth:
                want.add((truth["finished"]["expanded_row_index"] + 1, 0))
            else:
                row, done = truth["expanded_row_index"], truth["elements_done"]
                want.add((row + 1, 0) if done == length[row] else (row, done))
        if _spot(find(index, evidence_of(case))) != want:
            wrong.append(case["id"])
    assert wrong == []


LONG = """Ch 27.
Row 1: Sc in 2nd ch from hook and in each ch across. (26 sc)
Row 2: Ch 3 (counts as dc), turn, sk first sc, dc in each sc across. (26 dc)
Row 3: Ch 1, turn, sc in each dc across, sc in top of ch-3. (26 sc)
Rows 4-100001: Rep Rows 2 and 3.
"""


@pytest.fixture(scope="module")
def long_piece():
    return index_of(load("long.txt", LONG).fabric)


def test_a_hundred_thousand_rows_are_kept_as_the_few_that_they_are(long_piece) -> None:
    """The index grows with what is different, not with what is repeated."""
    assert long_piece.length == 100_001
    assert len(long_piece.looks) == 2
    assert sum(len(span.looks) for span in long_piece.spans) < 10


def test_places_in_a_hundred_thousand_rows_are_counted_without_being_made(long_piece) -> None:
    """Every other row is of double crochet, and ends after the 26th of them."""
    found = find(long_piece, Evidence(last=("dc",) * 20))
    assert len(found.places) == 50_000 * 7
    assert [(p.index, p.elements_done) for p in found.places[:8]] == [
        *((2, done) for done in range(20, 26)), (3, 0), (4, 20),
    ]  # fmt: skip


def test_near_the_last_known_place_comes_first(long_piece) -> None:
    """On from there before back to there."""
    found = find(long_piece, Evidence(last=("dc",) * 20), known_place=Known(70_000, 21))
    assert [(p.index, p.elements_done) for p in found.places[:2]] == [(70_000, 21), (70_000, 22)]
    assert found.places[0].likelihood > 20 * found.places[1_500].likelihood


def test_a_row_far_up_is_found_by_its_label(long_piece) -> None:
    """Labels of rows that are worked over and over count on."""
    for said in ("Row 99999", "99999", "row 99999.", "rnd 99999"):
        assert _spot(find(long_piece, Evidence(done=said))) == {(100_000, 0)}
    assert not find(long_piece, Evidence(done="Row 100002")).places


def test_rows_seen_above_one_that_stands_out() -> None:
    """ "Three rows above the solid one": common on filet."""
    net = reading("practice", "filet_open_net")
    found = find(net.fabric, Evidence(above=(3, "solid")))
    assert _spot(found) == {(11, 0)}
    assert _spot(find(net.fabric, Evidence(above=(0, "solid")))) == {(8, 0)}


def test_the_side_that_faces_leaves_every_other_row() -> None:
    """Rows of one count, told apart by the side that faces while they are worked."""
    swatch = reading("practice", "dc_swatch")
    both = _spot(find(swatch.fabric, Evidence(so_far=("dc",) * 5)))
    right = _spot(find(swatch.fabric, Evidence(so_far=("dc",) * 5, side="RS")))
    assert right == {(row, done) for row, done in both if row % 2 == 1}


def test_the_question_asked_splits_the_places() -> None:
    """Four places on four sides of a square: a corner tells them apart, and so does a count."""
    square = reading("practice", "granny_square")
    found = find(square.fabric, Evidence(done="3", last=listed("3 dc, ch-2 sp, 3 dc")))
    assert len(found.places) == 4
    assert found.ask is not None
    assert found.ask.about in ("corners", "count")
    for place in found.places:
        answered = find(square.fabric, Evidence(done="3", count=place.stitches_done, last=listed("3 dc")))
        assert _spot(answered) == {(place.index, place.elements_done)}


def test_one_place_asks_nothing() -> None:
    """Nor does none."""
    square = reading("practice", "granny_square")
    assert find(square.fabric, Evidence(done="2", so_far=listed("3 dc, ch-2 sp"))).ask is None
    assert find(square.fabric, Evidence(done="2", so_far=listed("4 dc"))).ask is None


@pytest.mark.parametrize(
    "seen, row, element, expected",
    [
        (Evidence(done="3", so_far=listed("3 dc, ch-2 sp, 4 dc")), 4, 8, "ch-1 sp"),
        (Evidence(so_far=listed("3 dc, ch-2 sp" + ", 3 dc, ch-1 sp" * 4)), 4, 20, "ch-2 sp"),
        (Evidence(top_counts=tallies("24; 35")), 3, None, "36 stitches"),
        (Evidence(top_counts=tallies("21 dc, 4 ch-2 sp, 4 ch-1 sp; 36")), 2, None, "24 dc, 4 ch-2 sp, 4 ch-1 sp"),
        (Evidence(done="4", count=73), 5, None, "72 stitches in the whole row"),
        (Evidence(done="9"), 5, None, "5 rows in all"),
        (Evidence(last=listed("3 dc, ch-1 sp, 2 dc, ch-1 sp")), 2, 11, "dc"),
    ],
)  # fmt: skip
def test_work_that_fits_no_place_is_told_where_it_departs(
    seen: Evidence, row: int, element: int | None, expected: str
) -> None:
    """The row, the stitch of it counted from 1, and what the pattern has there."""
    found = find(reading("practice", "granny_square").fabric, seen)
    assert not found.places
    assert found.differs is not None
    assert (found.differs.index, found.differs.element, found.differs.expected) == (row, element, expected)


def test_a_decrease_may_be_counted_as_the_stitch_it_looks_like() -> None:
    """A maker sees 24 stitches, not 18 and 6 decreases; only when no row has 24 plain ones there."""
    ball = reading("practice", "ami_ball")
    assert _spot(find(ball.fabric, Evidence(top_counts=tallies("30 sc; 24 sc")))) == {(12, 0)}
    assert _spot(find(ball.fabric, Evidence(top_counts=tallies("18 sc; 24 sc")))) == {(5, 0)}


@pytest.mark.parametrize(
    "words, uk, names",
    [
        ("dc, ch-2 sp, 3 dc", False, ("dc", "ch-2 sp", "dc", "dc", "dc")),
        ("tr, 2-ch sp, 2 dtr", True, ("dc", "ch-2 sp", "tr", "tr")),
        ("2 ch-1 sps, sl st", False, ("ch-1 sp", "ch-1 sp", "slst")),
        ("two dc, ch2, slst", False, ("dc", "dc", "ch-2 sp", "slst")),
        ("sc x 2 and reverse sc", False, ("sc", "sc", "revsc")),
        ("FPdc, front post dc, dc2tog", False, ("fpdc", "fpdc", "dc2tog")),
        ("ss, rtrf, htr", True, ("slst", "fpdc", "hdc")),
    ],
)
def test_lists_are_read_in_the_patterns_own_terms(words: str, uk: bool, names: tuple[str, ...]) -> None:
    """Names inside are US ones."""
    assert listed(words, uk) == names


@pytest.mark.parametrize(
    "words, tally",
    [
        ("20", Tally(stitches=20)),
        ("20 sts", Tally(stitches=20)),
        ("thirty-one stitches", Tally(stitches=31)),
        ("12 dc, 10 ch-2 sps", Tally((("dc", 12), ("ch-2 sp", 10)))),
        ("dc, ch-1 sp", Tally((("dc", 1), ("ch-1 sp", 1)))),
        ('{"dc": 31}', Tally((("dc", 31),))),
    ],
)
def test_counts_are_read_with_and_without_kinds(words: str, tally: Tally) -> None:
    """A bare number is of stitches."""
    assert tallied(words) == tally


@pytest.mark.parametrize(
    "words", ["bananas", "3 bananas", "; ;", "{", "12", "99999999999 dc", "dc, -3", "ch-2 sp 4"]
)
def test_words_that_name_nothing_are_refused_in_a_sentence(words: str) -> None:
    """One that ends with a full stop; no list comes of them."""
    with pytest.raises(Unclear, match=r"\.$"):
        listed(words)


@pytest.mark.parametrize("words", ["", " , ", "bananas", "{", '{"dc": "many"}'])
def test_a_count_without_a_number_in_it_is_refused(words: str) -> None:
    """In a sentence, too."""
    with pytest.raises(Unclear, match=r"\.$"):
        tallied(words)


def test_a_stitch_of_the_patterns_own_is_what_it_leaves_on_the_row() -> None:
    """ "Two shells" are as many stitches as two shells have."""
    strip = reading("flat", "shell_throw_strip")
    index = index_of(strip.fabric)
    assert "shell" in index.own
    assert listed("2 shell", False, index.own) == index.own["shell"] * 2


@pytest.mark.parametrize("folder", RIGHT)
def test_counts_named_as_an_editor_names_them_fit_their_rows(folder: str) -> None:
    """Every row of the corpus that is read right, in its own terms: the names come from outside the project."""
    tried, wrong = 0, []
    for case in cases(folder):
        loaded = reading(folder, case.name)
        index = index_of(loaded.fabric)
        for placed, truth in zip(rows_of(loaded), case.truth["rows"], strict=False):
            # a last loop closed with a tall stitch may be counted as a loop or as what it is made of
            ways = (truth["stitches"], *truth.get("also", ()))
            told = next((one for one in ways if counts(one) == made_by(loaded, placed)), None)
            if told is None:
                continue
            tried += 1
            words = ", ".join(f"{number} {name}" for name, number in told.items())
            if not fits(
                tallied(words, loaded.pattern.uk, index.own), placed.worked.makes, placed.worked.stitches
            ):
                wrong.append((case.name, placed.label, words))
    assert tried > 100
    assert wrong == []
