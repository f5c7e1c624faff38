"""Even spacing is as even as whole stitches allow, and is the Euclidean rhythm up to where it begins."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.trade.spacing import CannotSpace, evenly, lengths, shaping


def bjorklund(ones: int, steps: int) -> list[int]:
    """Bjorklund's algorithm as G. Toussaint tells it ("The Euclidean Algorithm Generates Traditional Musical Rhythms",
    2005): the remainders are put behind the sequences, again and again, until one or none is left."""
    if not ones:
        return [0] * steps
    first, second = [[1]] * ones, [[0]] * (steps - ones)
    while len(second) > 1:
        many = min(len(first), len(second))
        rest = first[many:] or second[many:]
        first, second = [a + b for a, b in zip(first, second, strict=False)], rest
    return [beat for group in first + second for beat in group]


def turned(rhythm: list[int]) -> set[tuple[int, ...]]:
    """The rhythm begun at each of its beats."""
    return {tuple(rhythm[at:] + rhythm[:at]) for at in range(len(rhythm))}


@pytest.mark.parametrize(
    "ones, steps, rhythm",
    [
        (3, 8, "x..x..x."),
        (5, 8, "x.xx.xx."),
        (2, 5, "x.x.."),
        (7, 12, "x.xx.x.xx.x."),
        (5, 13, "x..x.x..x.x.."),
    ],
)
def test_the_independent_algorithm_makes_the_printed_rhythms(ones: int, steps: int, rhythm: str) -> None:
    """Those that the paper lists: tresillo, cinquillo, and others."""
    assert "".join("x" if beat else "." for beat in bjorklund(ones, steps)) == rhythm


@given(st.integers(1, 90), st.data())
def test_spacing_is_the_euclidean_rhythm(places: int, data: st.DataObject) -> None:
    """Whatever the numbers: what is over beyond equal shares falls as Bjorklund's algorithm lets it fall."""
    things = data.draw(st.integers(0, 3 * places))
    shares = evenly(things, places)
    over = [share - things // places for share in shares]
    assert tuple(over) in turned(bjorklund(things % places, places))


def test_twenty_four_along_fifteen() -> None:
    """Nine row ends take two and six take one (common practice, no source)."""
    assert sorted(evenly(24, 15)) == [1] * 6 + [2] * 9


@given(st.integers(0, 500), st.integers(1, 120))
def test_nothing_is_lost_and_no_place_takes_two_more_than_another(things: int, places: int) -> None:
    """The sum is the number asked for."""
    shares = evenly(things, places)
    assert sum(shares) == things
    assert max(shares) - min(shares) <= 1


@given(st.integers(1, 60), st.integers(1, 60))
def test_any_run_of_places_takes_its_share(things: int, places: int) -> None:
    """Within one of what it would take if stitches could be parted: the strictest that even can mean."""
    shares = evenly(things, places)
    for start in range(places):
        for end in range(start + 1, places + 1):
            assert abs(sum(shares[start:end]) - things * (end - start) / places) < 1


@pytest.mark.parametrize(
    "stitches, sections, shares",
    [
        # Two worked examples of a teaching page: crochetkim.com, "Picking Up Stitches Evenly to Begin a Border".
        (200, 8, [25] * 8),
        (204, 8, [26, 25] * 4),
    ],
)
def test_a_border_is_shared_out_as_a_teaching_page_shares_it(
    stitches: int, sections: int, shares: list[int]
) -> None:
    """As many sections of each size, spread as the page spreads them, up to where it begins."""
    assert tuple(evenly(stitches, sections)) in turned(shares)


def test_shaping_takes_the_groups_that_a_designer_takes() -> None:
    """186 stitches and eight times: groups of 23 and 24 (wilmade.com, "calculate evenly spaced increases")."""
    for increase in (True, False):
        made = shaping(186, 8, increase)
        groups = [plain + (1 if increase else 2) for plain in made.plain]
        assert sorted(groups) == [23] * 6 + [24] * 2
        assert made.rest == 0


def test_six_increases_into_thirty_two() -> None:
    """(5 sc, inc) twice and (4 sc, inc) four times (common practice, no source)."""
    made = shaping(32, 6)
    assert sorted(made.plain) == [4, 4, 4, 4, 5, 5]
    assert made.makes == 38


@given(st.integers(1, 300), st.integers(1, 100), st.booleans(), st.booleans(), st.booleans())
def test_shaping_uses_every_stitch(
    stitches: int, times: int, increase: bool, flat: bool, stagger: bool
) -> None:
    """Plain stitches and those that increase or decrease are together what was there before."""
    takes = 1 if increase else 2
    if stitches < times * takes:
        with pytest.raises(CannotSpace, match="choose fewer"):
            shaping(stitches, times, increase, flat, stagger)
        return
    made = shaping(stitches, times, increase, flat, stagger)
    assert sum(made.plain) + made.rest + times * takes == stitches
    assert sum(made.plain) + made.rest + times * (2 if increase else 1) == made.makes
    assert min(made.plain) >= 0


def test_a_staggered_round_has_its_increases_between_those_of_the_round_before() -> None:
    """So that they do not stack into a corner: half a gap further on."""
    assert shaping(36, 6).plain == (5,) * 6
    assert shaping(36, 6, stagger=True).plain == (3, 5, 5, 5, 5, 5)
    assert shaping(36, 6, stagger=True).rest == 2


@pytest.mark.parametrize("stitches, groups", [(3, 4), (3, 0)])
def test_more_groups_than_stitches_are_refused_in_a_sentence(stitches: int, groups: int) -> None:
    """Every group needs a stitch."""
    with pytest.raises(CannotSpace, match="needs a stitch"):
        lengths(stitches, groups)
