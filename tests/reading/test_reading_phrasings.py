"""The same row as different designers write it: each phrasing makes the stitches that a reader of it would count."""

import pytest

from tracker.load import load

TWELVE = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc in each st (12)\n"
GAP = (
    "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
    "Row 2: Ch 1, turn, sc in next 4 sc, ch 6, sk 4 sc, sc in next 4 sc. (8 sc, 1 ch-6 sp)\n"
)


def made(text: str) -> tuple[int | None, list[str]]:
    """Stitches of the last row, None where it is not understood; and the problems of the whole, but for notes."""
    loaded = load("piece", text, None)
    last = loaded.fabric.stretches[-1].rows[-1].worked
    told = [problem.headline for problem in loaded.problems if problem.severity.value != "note"]
    return (sum(e.is_stitch for e in last.elements) if last.understood else None), told


@pytest.mark.parametrize(
    "words",
    [
        "Rnd 3: (sc, inc) x6",
        "Rnd 3: sc, inc * 6 = 18",
        "Rnd 3: sc1, inc1, x6 [18 sts]",
        "Rnd 3: 1sc 1inc *6 (18)",
        "Rnd 3: sc, inc, 6 times (18)",
        "Rnd 3: sc in next st, inc in next st, repeat around (18)",
        "Rnd 3: *1 sc, 2 sc in next st* around = 18 sts",
        "Rnd 3: [sc, inc] 6 times -18-",
        "Rnd 3: Sc 1, (inc, sc 1) 5 times, inc. 18",
        "Rnd 3: *2 sc in next st, sc in next st, repeat from *. 18 sc.",
    ],
)
def test_every_second_stitch_is_doubled(words: str) -> None:
    """Twelve stitches become eighteen, however it is said."""
    assert made(TWELVE + words) == (18, [])


@pytest.mark.parametrize(
    "words",
    [
        "Rnds 3-5: sc around (12)",
        "Rnds 3-5: sc around (12) 3 rounds",
        "Rnds 3-5: 12 sc - 3 rounds",
        "Rnds 3-5 (3 rnds): sc around (12)",
        "R3-5 sc (12)",
        "R3, R4, R5: sc around {12}",
    ],
)
def test_rounds_without_increases_keep_their_count(words: str) -> None:
    """Three rounds, and the number of rounds may be told twice."""
    loaded = load("piece", TWELVE + words, None)
    assert made(TWELVE + words) == (12, [])
    assert sum(len(stretch.rows) * stretch.times for stretch in loaded.fabric.stretches) == 5


@pytest.mark.parametrize(
    "words",
    [
        "sc in each sc and 6 sc in ch-6 sp. (14 sc)",
        "sc in each sc and 6 sc in the ch-6 sp across. (14 sc)",
        "sc in each sc, 6 sc in ch-6 sp, turn. (14 sc)",
        "sc in each sc, 6 sc in ch-6 sp, sc in next 4 sc. (14 sc)",
        "sc in each sc to ch-6 sp, 6 sc in ch-6 sp, sc in each sc to end. (14 sc)",
        "sc across, working 6 sc in ch-6 sp. (14 sc)",
        "work 1 sc in each sc and 6 sc in each sp. (14 sc)",
    ],
)
def test_a_gap_is_filled_on_the_way(words: str) -> None:
    """Four stitches, a space, four stitches: the space is met between them."""
    assert made(f"{GAP}Row 3: Ch 1, turn, {words}") == (14, [])


@pytest.mark.parametrize("last", ["ending with a Row 2", "ending with Row 2", "ending after a Row 2"])
def test_a_range_may_say_with_which_row_its_last_repeat_stops(last: str) -> None:
    """Five rows of a repeat of two: that they stop with its first row is told, so nothing is wrong."""
    rows = "".join(f"Row {n}: Ch 1, turn, sc in each st across. (12 sc)\n" for n in (2, 3))
    base = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n" + rows
    assert made(f"{base}Rows 4-8: Rep Rows 2 and 3, {last}.") == (12, [])
    other = load("piece", f"{base}Rows 4-8: Rep Rows 2 and 3, {last.replace('2', '3')}.")
    assert [problem.code for problem in other.problems if problem.severity.value == "error"] == ["R302"]


def test_a_row_into_a_chain_of_no_known_length_is_not_claimed() -> None:
    """ "Ch a multiple of 4 + 2": how many stitches that makes is the maker's affair; the next row has the count told."""
    text = "Ch a multiple of 4 + 2.\nRow 1: Sc in 2nd ch from hook and in each ch across."
    assert made(text) == (None, [])
    assert made(f"{text} (17 sc)\nRow 2: Ch 1, turn, sc in each st across. (17 sc)") == (17, [])


def test_a_place_that_is_not_known_is_no_error() -> None:
    """A marker's place may be told in words that are not followed: the row is not claimed, and nobody is blamed."""
    for place, stitches in (("in last st made", 12), ("at the shoulder", None)):
        base = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        base += f"Row 2: Ch 1, turn, sc in next 6 sts, place marker {place}, sc in each st to end. (12 sc)\n"
        assert made(f"{base}Row 3: Ch 1, turn, sc to marker, dc in each st to end. (12 sts)") == (
            stitches,
            [],
        )


def test_a_word_for_a_group_is_no_error_where_none_was_made() -> None:
    """A "point" of a star is no fan: the round is followed as written."""
    base = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
    assert made(f"{base}Row 2: Ch 1, turn, *sc in next point; rep from * 4 more times. (5)") == (None, [])


RINGED = "Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring; join with sl st in top of ch-3. (12 dc)\n"
GRANNY = (
    "Ch 4, join with sl st in first ch to form ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, "
    "(3 dc in ring, ch 2) 3 times; join with sl st in top of beg ch-3. (12 dc, 4 ch-2 sps)\n"
)


@pytest.mark.parametrize(
    ("before", "words", "stitches"),
    [
        (GRANNY, "Sl st in next 2 dc and in ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp", 24),
        (GRANNY, "Sl st in next 2 dc and in ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in ch-2 sp", 24),
        (GRANNY, "Sl st to corner, (ch 3, 2 dc, ch 2, 3 dc) in corner", 24),
        (GRANNY, "(Sl st, ch 3, 2 dc, ch 2, 3 dc) in next ch-2 sp", 24),
        (GRANNY, "Join B in any ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp", 24),
    ],
)
def test_a_granny_round_begins_with_a_chain_in_its_group(before: str, words: str, stitches: int) -> None:
    """The chain in the bracket is the corner's first double crochet."""
    rest = ", *ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * around, ch 1, join to top of ch 3."
    assert made(f"{before}Rnd 2: {words}{rest} (24 dc, 4 ch-2 sps, 4 ch-1 sps)") == (stitches, [])


@pytest.mark.parametrize(
    ("before", "words", "stitches"),
    [
        (RINGED, "Ch 1, sc in joining st, 2 sc in next st, (sc in next st, 2 sc in next st) around, join. (18)", 18),
        (RINGED, "Ch 1. 2 sc in each st around. Join. 24 sc.", 24),
        (RINGED, "Ch 2, dc in same st (counts as beg 2-dc cluster), ch 2, *2-dc cluster in next st, ch 2; "
                 "rep from * around; join in top of first cluster. (12 clusters)", 12),
        (TWELVE, "sc in next 3 sts, 5-dc bobble in next st, sc in next 8 sts (12)", 12),
    ],
)  # fmt: skip
def test_what_a_round_begins_with_and_what_its_stitches_are_made_of(
    before: str, words: str, stitches: int
) -> None:
    """A joining stitch, a chain as a sentence of its own, a cluster told by how many it is made of."""
    number = 3 if before is TWELVE else 2
    assert made(f"{before}Rnd {number}: {words}") == (stitches, [])


@pytest.mark.parametrize("words", ["Same as Row 1.", "Repeat row 1. (19 sc)", "As row 1"])
def test_the_first_row_again_is_worked_in_every_stitch(words: str) -> None:
    """There is no chain from the hook to count any more: what is meant is its stitch, all along."""
    first = "Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
    assert made(f"{first}Row 2: {words}") == (19, [])


@pytest.mark.parametrize(
    "words",
    [
        "Ch 4 (counts as dc, ch 1), sk next ch, *dc in next ch, ch 1, sk next ch; rep from * around, join.",
        "Ch 4, skip 1 ch, (dc in next ch, ch 1, skip 1 ch) 9 times, sl st to 3rd ch of beg ch-4.",
        "Ch 4, sk next ch, [dc in next ch, ch 1, sk 1 ch] around; join with sl st in 3rd ch of ch-4.",
    ],
)
def test_a_mesh_is_begun_on_a_closed_chain(words: str) -> None:
    """Twenty chains closed to a ring: every second one carries a stitch, the chain at the start the first."""
    assert made(f"Ch 20, being careful not to twist, join with sl st to first ch.\nRnd 1: {words}") == (
        10,
        [],
    )


SHAWL = (
    "Ch 4, join with sl st to form ring.\n"
    "Row 1: Ch 4 (counts as dc, ch 1), (3 dc, ch 2, 3 dc) in ring, ch 1, dc in ring. Turn. (8 dc)\n"
)
SECOND_HALF = "(3 dc, ch 2, 3 dc) in ch-2 sp, *ch 1, 3 dc in next ch-1 sp; rep from * across, ch 1, dc in 3rd ch of tch."


@pytest.mark.parametrize(
    "first_half",
    [
        "3 dc in first ch-1 sp, ch 1, *3 dc in next sp, ch 1; rep from * to center ch-2 sp,",
        "*3 dc in next ch-1 sp, ch 1* to center,",
        "(3 dc, ch 1) in each ch-1 sp to centre sp,",
        "[3 dc in next ch-1 sp, ch 1] to middle,",
    ],
)
def test_a_shawl_grows_on_both_sides_of_its_middle(first_half: str) -> None:
    """Six stitches more in each row: eight, fourteen, twenty, twenty-six."""
    row = f"Ch 4, {first_half} {SECOND_HALF} Turn.\n"
    assert made(f"{SHAWL}Row 2: {row}Row 3: {row}Row 4: {row}") == (26, [])


@pytest.mark.parametrize(
    "words",
    [
        "rep rows 2 and 3 twice more",
        "rep r2 & r3 twice more",
        "Repeat R2-3 2 more times.",
        "repeat R2 and R3 until Row 7",
    ],
)
def test_rows_are_told_again_in_small_letters_under_a_row_without_a_full_stop(words: str) -> None:
    """A line of its own is a row of its own: seven rows in all."""
    rows = "r2: ch 1, sc in each st, turn\nr3: ch 1, hdc in each st, turn"
    loaded = load(
        "piece", f"ch 29\nr1: sc in 2nd ch from hook and in each ch across, turn (28)\n{rows}\n{words}", None
    )
    assert sum(len(stretch.rows) * stretch.times for stretch in loaded.fabric.stretches) == 7
    assert all(row.worked.understood for _, row in loaded.fabric.rows())


POINT = "ch 6, sl st in 2nd ch from hook, sc in next ch, hdc in next ch, dc in next ch, tr in last ch"


@pytest.mark.parametrize(
    "words",
    [
        f"*{POINT}, sk next 2 dc, sl st in next dc; repeat from * 4 more times.",
        f"[{POINT[0].upper()}{POINT[1:]}, skip 2 dc, sl st in next dc] 5 times.",
    ],
)
def test_a_point_may_begin_with_a_slip_stitch(words: str) -> None:
    """A chain with a slip stitch in its second chain is a picot only where nothing more goes along it: 5 x 6 here."""
    assert made(f"Rnd 1: 15 dc in magic ring, join.\nRnd 2: {words}") == (30, [])


@pytest.mark.parametrize(
    ("block", "space", "made_in_all"),
    [
        ("dc in each of next 3 sts", "ch 2, skip 2, dc in next dc", 16),
        ("3 dc", "ch 2, sk 2 sts, dc in next st", 16),
        ("2 dc in ch-2 sp or in next 2 dc, dc in next dc", "ch 2, sk 2, dc in next dc", 16),
    ],
)
def test_a_block_is_as_wide_as_a_space_however_it_is_counted(
    block: str, space: str, made_in_all: int
) -> None:
    """Eleven squares three wide: a double crochet closes each, two more fill each of the two blocks, one begins."""
    heads = f"Heart\nBlock (bl): {block}.\nSpace (sp): {space}.\n"
    rows = (
        "Row 1: Dc in 4th ch from hook and in each ch across. (34 dc)\n"
        "Row 2: Ch 3 (counts as dc), 1 bl, 9 sps, 1 bl. Turn."
    )
    assert made(f"{heads}Ch 36.\n{rows}") == (made_in_all, [])


@pytest.mark.parametrize(
    "words",
    [
        "ch 3, dc in each dc to corner, *(2 dc, ch 2, 2 dc) in corner sp, dc in each dc along side; rep from * to end, join.",
        "ch 3, dc in next 2 dc, *(2 dc, ch 2, 2 dc) in corner sp, dc in each dc across side; rep from * around, join.",
        "ch 3, dc in each dc along each side, with (2 dc, ch 2, 2 dc) in each corner sp, join.",
    ],
)
def test_a_square_grows_by_four_at_each_corner(words: str) -> None:
    """Twelve and four times four."""
    ring = "Ch 4, join to form ring.\nRnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * twice more, join.\n"
    assert made(f"{ring}Rnd 2: {words}") == (28, [])


@pytest.mark.parametrize(
    "words",
    [
        "mr 6 sc (6)",
        "MR with 6 sc (6)",
        "magic ring 6 sc. (6)",
        "mr: 6sc = 6",
        "make a magic ring with 6 sc [6]",
        "MR, 6 sc",
    ],
)
def test_a_toy_begins_in_a_ring_without_a_comma(words: str) -> None:
    """Six into the ring, twelve out of the first increases."""
    assert made(f"R1: {words}\nR2: inc x 6 (12)") == (12, [])


@pytest.mark.parametrize(
    "words",
    [
        "Join yarn at thumb opening, sc in each of 4 skipped sts, sc in each of 2 ch.",
        "Join yarn in first skipped st of Rnd 3, sc in each of 4 skipped sts, sc in each of 2 ch, join.",
        "Attach yarn at thumb opening, ch 1, sc in each of the 4 skipped sts and in each of 2 ch, join.",
    ],
)
def test_a_thumb_goes_round_the_stitches_left_and_the_chains_over_them(words: str) -> None:
    """Four left and two chains."""
    hand = (
        "Rnd 1: 12 sc in magic ring, join. (12)\nRnd 2: Ch 1, sc in each sc around, join. (12)\n"
        "Rnd 3: Ch 1, sc in next 4 sc, ch 2, sk 4 sc, sc in next 4 sc, join. (8 sc, 2 ch)\n"
        "Rnd 4: Ch 1, sc in each sc and ch around, join. (10)\nThumb\n"
    )
    assert made(f"{hand}Rnd 1: {words} (6 sc)") == (6, [])


@pytest.mark.parametrize(
    "words", ["tch", "tch sp", "turning ch", "turning ch space", "turning ch-2 sp", "turning chain space"]
)
def test_the_last_stitch_goes_into_the_space_of_the_turning_chain(words: str) -> None:
    """Moss stitch keeps its count."""
    first = "Ch 30.\nRow 1: Sc in 4th ch from hook, (ch 1, sk 1, sc in next ch) across. Ch 2, turn.\n"
    second = f"Row 2: Sc in first ch-1 sp, (ch 1, sc in next ch-1 sp) across to turning ch, ch 1, sc in {words}. Ch 2, turn."
    assert made(first + second) == (14, [])


@pytest.mark.parametrize(
    "words",
    [
        "Multiple of 3 + 1. Ch 31.",
        "Stitch multiple: 3 + 1. With A, ch 31.",
        "Pattern is a multiple of 3 sts plus 1: ch 31",
    ],
)
def test_a_foundation_stands_behind_its_multiple(words: str) -> None:
    """The chain is found, and worked into: nine groups of three, and one."""
    row = "Row 1: 2 dc in 4th ch from hook, sk 2 ch, *(sc, 2 dc) in next ch, sk 2 ch; rep from * to last ch, sc in last ch."
    assert made(f"Dishcloth\n{words}\n{row}") == (28, [])


def test_work_without_a_label_that_is_known_is_told_and_nothing_behind_it_is_taken_for_sure() -> None:
    """How many rounds they are nobody knows, so that no number is missed and no count of theirs is built upon."""
    hat = TWELVE + "\nThe middle bit, ten times: ch 1, 2 hdc in each st around, join\n\n"
    loaded = load("hat", hat + "Rnd 13: sc in each st around\nRnd 14: sc in each st around (24)")
    worked = [placed.worked.understood for _, placed in loaded.fabric.rows()]
    assert worked == [True, True, False, False, True]
    assert [problem.code for problem in loaded.problems] == ["T101"]


def test_a_tip_between_rounds_is_no_work() -> None:
    """A sentence that speaks of stitches and works none leaves the count as it was."""
    toy = TWELVE + "\nTip: keep your tension even in each stitch, and count at the end of each round.\n\n"
    assert made(toy + "Rnd 3: sc in each st around") == (12, [])
