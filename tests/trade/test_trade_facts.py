"""What the trade knows by heart, asked of the fabric: foundations, turning chains, filet squares, circles, corners.

Check values are common practice with no source, except where one is named beside them.
"""

import pytest

from tracker.load import Loaded, load


def worked(text: str) -> Loaded:
    """A pattern read from its rows alone."""
    return load("test", f"Test piece\n\n{text}\n")


def makes(loaded: Loaded, index: int) -> dict[str, int]:
    """Counts of a row of a piece."""
    return loaded.fabric.row(index).worked.makes


def errors(loaded: Loaded) -> list[str]:
    return [problem.headline for problem in loaded.problems if problem.severity.value == "error"]


@pytest.mark.parametrize("chains", [10, 23, 30, 101])
def test_a_chain_with_the_first_dc_in_the_fourth_makes_two_stitches_fewer(chains: int) -> None:
    """A chain of N with the first dc in the 4th chain makes N − 2 stitches."""
    loaded = worked(f"Ch {chains}.\nRow 1: Dc in 4th ch from hook and in each ch across.")
    assert makes(loaded, 1) == {"dc": chains - 2}
    assert not errors(loaded)


@pytest.mark.parametrize(
    ("stitch", "nth", "counts"), [("sc", 2, 0), ("dc", 4, 1), ("tr", 5, 1), ("dtr", 6, 1)]
)
def test_the_nth_chain_from_the_hook_tells_how_many_stitches_a_foundation_gives(
    stitch: str, nth: int, counts: int
) -> None:
    """N chains with the first stitch in the k-th give N − k + 2 when the skipped chain counts, else N − k + 1."""
    loaded = worked(f"Ch 30.\nRow 1: {stitch} in {nth}th ch from hook and in each ch across.")
    assert makes(loaded, 1) == {stitch: 30 - nth + 1 + counts}


@pytest.mark.parametrize(
    "said", ["does not count as a st", "not a stitch", "does not count here or throughout"]
)
def test_a_turning_chain_said_not_to_count_is_not_counted(said: str) -> None:
    """A ch 3 that does not count leaves as many stitches as before, and the first goes in the first."""
    loaded = worked(
        f"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: Ch 3 ({said}), turn, dc in each sc across. (20 dc)"
    )
    assert makes(loaded, 2) == {"dc": 20}
    assert not errors(loaded)


def test_a_turning_chain_that_counts_is_counted_and_worked_into_on_the_way_back() -> None:
    """The last stitch goes into the top of a ch 3 that counts, and the count stays."""
    loaded = worked(
        "Ch 12.\nRow 1: Dc in 4th ch from hook and in each ch across. (10 dc)\n"
        "Row 2: Ch 3 (counts as dc), turn, sk first dc, dc in each dc across, dc in top of ch-3. (10 dc)\nRow 3: Rep Row 2."
    )
    assert [makes(loaded, n) for n in (1, 2, 3)] == [{"dc": 10}] * 3
    assert not errors(loaded)


def test_a_chain_of_five_is_a_stitch_with_its_window() -> None:
    """Ch 5 that counts as dc and ch 2 stands in the counts as both."""
    loaded = worked(
        "Ch 14.\nRow 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. (4 dc, 3 ch-2 sps)\n"
        "Row 2: Ch 5 (counts as dc, ch 2), turn, sk first ch-2 sp, dc in next dc, ch 2, sk next ch-2 sp, dc in next dc, ch 2, dc in 5th ch of turning ch."
    )
    assert makes(loaded, 1) == {"dc": 4, "ch-2 sp": 3}
    assert makes(loaded, 2) == {"dc": 4, "ch-2 sp": 3}


@pytest.mark.parametrize("squares", [1, 5, 16, 40])
@pytest.mark.parametrize(("fill", "start_open"), [(2, True), (2, False), (1, True), (1, False)])
def test_filet_squares_stand_on_the_handbook_number_of_chains(
    squares: int, fill: int, start_open: bool
) -> None:
    """Ch-2 mesh is 3n + 1 stitches wide and ch-1 mesh 2n + 1; the table of starting chains gives both.

    Source of the table: the chart of filet starting chains at jahodnett.tripod.com/id178.html, arithmetic checked.
    """
    step = fill + 1
    chains = step * squares + {(2, True): 5, (2, False): 3, (1, True): 4, (1, False): 3}[fill, start_open]
    nth = {(2, True): 8, (2, False): 4, (1, True): 6, (1, False): 4}[fill, start_open]
    more = (
        f"*ch {fill}, sk {fill} ch, dc in next ch; rep from * across"
        if start_open
        else "dc in each ch across"
    )
    loaded = worked(f"Ch {chains}.\nRow 1: Dc in {nth}th ch from hook, {more}.")
    if start_open and squares == 1:
        loaded = worked(f"Ch {chains}.\nRow 1: Dc in {nth}th ch from hook.")
    elements = [e for e in loaded.fabric.row(1).worked.elements if e.counts]
    width = sum(e.chains if e.kind == "sp" else 1 for e in elements)
    assert width == step * squares + 1
    assert sum(e.kind == "sp" for e in elements) == (squares if start_open else 0)


@pytest.mark.parametrize(("stitch", "grows"), [("sc", 6), ("hdc", 8), ("dc", 12)])
def test_a_flat_circle_grows_by_its_number_each_round(stitch: str, grows: int) -> None:
    """Sc 6, hdc 8, dc 12 a round, by the ratio of a circle's edge to its radius (the 6/8/12 rule)."""
    rounds = [f"Rnd 1: {grows} {stitch} in magic ring.", f"Rnd 2: 2 {stitch} in each st around."]
    rounds += [
        f"Rnd {n}: *{stitch} in next {n - 2} sts, 2 {stitch} in next st; rep from * around."
        for n in range(3, 8)
    ]
    loaded = worked("\n".join(rounds))
    assert [loaded.fabric.row(n).worked.stitches for n in range(1, 8)] == [grows * n for n in range(1, 8)]


@pytest.mark.parametrize(
    ("words", "times"), [("6 times", 6), ("x6", 6), ("x 6", 6), ("× 6", 6), ("six times", 6), ("6x", 6)]
)
def test_a_bracket_n_times_is_n_in_all(words: str, times: int) -> None:
    """ "( … ) N times" is N in all, however the number is written."""
    loaded = worked(f"Rnd 1: 6 sc in magic ring. (6)\nRnd 2: (2 sc in next st) {words}. (12)")
    assert makes(loaded, 2) == {"sc": 2 * times}
    assert not errors(loaded)


def test_n_more_times_is_one_more_in_all() -> None:
    """ "rep from * 4 more times" is five in all.

    Source: Handbook of Wool Knitting and Crochet (1918) explains "* … repeat from * twice" as three in all.
    """
    loaded = worked(
        "Ch 16.\nRow 1: Sc in 2nd ch from hook and in each ch across. (15 sc)\nRow 2: Ch 1, turn, *sc in next 2 sc, 2 sc in next sc; rep from * 4 more times."
    )
    assert makes(loaded, 2) == {"sc": 20}


@pytest.mark.parametrize("times", ["3 times", "4 times"])
def test_n_times_after_a_star_is_settled_by_arithmetic(times: str) -> None:
    """After a star "N times" may mean N in all or N more: what fits the row below and the count is taken."""
    loaded = worked(
        f"Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\nRow 2: Ch 1, turn, *sc in next 2 sc, 2 sc in next sc; rep from * {times}. (16 sc)"
    )
    assert makes(loaded, 2) == {"sc": 16}
    assert not errors(loaded)


def test_a_granny_corner_adds_two_groups_a_side() -> None:
    """A round of a granny square has one more group a side than the one before."""
    loaded = worked(
        "Ch 4, join with sl st to form ring.\n"
        "Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join.\n"
        "Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * around, ch 1; join.\n"
        "Rnd 3: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, 3 dc in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * around, ch 1, 3 dc in last ch-1 sp, ch 1; join."
    )
    assert [makes(loaded, n)["dc"] for n in (1, 2, 3)] == [12, 24, 36]
    assert makes(loaded, 3) == {"dc": 36, "ch-2 sp": 4, "ch-1 sp": 8}


def test_uk_names_are_one_step_up_the_ladder() -> None:
    """UK double crochet is US single; the fabric is the same (Craft Yarn Council's table of terms, from memory)."""
    us = worked(
        "US terms.\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 3 (counts as dc), turn, dc in next sc and in each sc across."
    )
    uk = worked(
        "UK terms.\n11 ch.\nRow 1: 1 dc into 2nd ch from hook, 1 dc into each ch to end.\nRow 2: 3 ch (counts as 1 tr), turn, 1 tr into next dc and into each dc to end."
    )
    assert [makes(us, n) for n in (1, 2)] == [makes(uk, n) for n in (1, 2)] == [{"sc": 10}, {"dc": 10}]


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ("Ch 1, turn, sc in each sc across. (21 sc)", "C201"),
        ("Ch 1, turn, *sc in next 3 sc, sc2tog; rep from * to last 2 sc, sc in last 2 sc. (16 sts)", "C204"),
        ("Ch 1, turn, sc in next 25 sc.", "C203"),
        ("Ch 1, turn, (sc in next 5 sc, ch 1) 5 times.", "C203"),
        ("Ch 1, turn, sc in next ch-2 sp.", "C205"),
        ("Rep Row 9.", "R301"),
        ("Ch 1, turn, (sc in each sc across.", "T102"),
        ("Ch 1, turn, sc in each sc; rep from * across.", "T103"),
        ("Ch 1, turn, scx in next sc, sc in each sc across.", "T104"),
    ],
)
def test_what_is_wrong_with_a_row_is_told_at_the_row_with_its_words(row: str, code: str) -> None:
    """Each fault is an error of its kind, at its row, with a stretch of the text to underline."""
    loaded = worked(f"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: {row}")
    found = [p for p in loaded.problems if p.code == code]
    assert found, errors(loaded)
    assert found[0].row == "Row 2"
    assert found[0].severity.value == "error"
    assert loaded.source.words(found[0].label.span)
