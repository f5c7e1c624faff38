"""Lost places by whatever a maker can see, in any mix: exactly what working through every place gives."""

import random
from collections.abc import Callable
from functools import cache

import pytest
from finding_cases import Worked, pieces, written_out

from tracker.finding.evidence import Evidence, Tally
from tracker.finding.lost import find
from tracker.finding.where.index import Index, index_of
from tracker.load import Loaded
from tracker.samples import samples

OURS = sorted(samples())
MIXES = 1
"""Mixes tried at each place."""
SOME = 40
"""Places tried of each pattern of the corpus."""
KINDS = ("done", "so far", "count", "last", "top", "counts", "stitches", "side", "above")


@cache
def _worked(name: str) -> tuple[Loaded, Index, Worked]:
    loaded = dict(pieces())[name]
    return loaded, index_of(loaded.fabric), written_out(loaded)


class _Seen:
    """What is seen at one place, by some kinds of evidence; and at which others it would be seen."""

    def __init__(self, loaded: Loaded, worked: Worked) -> None:
        self.worked = worked
        self.sides = [None, *(placed.worked.side for _, placed in loaded.fabric.rows()), None]
        self._within: dict[tuple[object, ...], list[int]] = {}

    def at(self, row: int, done: int, kinds: set[str], chance: random.Random) -> Evidence:
        """The evidence of these kinds at a place."""
        worked, top = self.worked, row - 1
        so_far = worked.so_far(row, done)
        said: dict[str, object] = {}
        if "done" in kinds:
            said["done"] = str(top)
        if "so far" in kinds and done:
            said["so_far"] = so_far
        if "count" in kinds and worked.count(row, done):
            said["count"] = worked.count(row, done)
        if "last" in kinds and done:
            said["last"] = so_far[-chance.choice((1, 2, 4)) :]
        if top and "top" in kinds:
            said["top"] = worked.rows[top - 1]
        elif top and "counts" in kinds and (stack := worked.stack(top, chance.choice((1, 2, 3)))):
            said["top_counts"] = tuple(_by_kind(names) for names in reversed(stack))
        elif top and "stitches" in kinds:
            said["top_counts"] = (Tally(stitches=sum(worked.stitches[top - 1])),)
        if "side" in kinds and row <= len(worked.rows) and self.sides[row]:
            said["side"] = self.sides[row]
        if "above" in kinds and (rows := self.above(top)) is not None:
            said["above"] = (rows, "open")
        return Evidence(**said)  # type: ignore[arg-type]

    def above(self, top: int) -> int | None:
        """Rows above the last open one."""
        for row in range(top, 0, -1):
            if any(name.startswith("ch-") for name in self.worked.rows[row - 1]):
                return top - row
        return None

    def places(self, evidence: Evidence) -> set[tuple[int, int]]:
        """Where all of it would be seen: every row held against what is known of rows, and every stitch and
        space of those that are left against what is known of the row on the hook."""
        found: set[tuple[int, int]] = set()
        within = bool(evidence.so_far or evidence.count or evidence.last)
        for row in range(1, len(self.worked.rows) + 2):
            if not self._row_holds(evidence, row, within):
                continue
            if not within:
                found.add((row, 0))
                continue
            for done in self._held_within(evidence, row):
                full = done == len(self.worked.rows[row - 1])
                found.add((row + 1, 0) if full else (row, done))
        return found

    def _row_holds(self, evidence: Evidence, row: int, within: bool) -> bool:
        """True when what is known of rows is so for who has this row on the hook, begun or not."""
        worked, top = self.worked, row - 1
        if within and row > len(worked.rows):
            return False
        if evidence.done is not None and top != int(evidence.done):
            return False
        if evidence.top is not None and (not top or worked.rows[top - 1] != evidence.top):
            return False
        if evidence.top_counts and not self._stacked(evidence.top_counts, top):
            return False
        if evidence.side:
            # between two rows the work may be turned already, or not
            facing = {self.sides[row]} if within else {self.sides[row], self.sides[row - 1]}
            if facing != {None} and evidence.side not in facing:
                return False
        return not evidence.above or self.above(top) == evidence.above[0]

    def _held_within(self, evidence: Evidence, row: int) -> list[int]:
        """How much of a row may be done, worked through stitch by stitch; rows alike are worked once."""
        names, stitches = self.worked.rows[row - 1], self.worked.stitches[row - 1]
        said = (names, evidence.so_far, evidence.count, evidence.last)
        if said not in self._within:
            self._within[said] = [
                done
                for done in range(1, len(names) + 1)
                if (evidence.so_far is None or names[:done] == evidence.so_far)
                and (evidence.count is None or sum(stitches[:done]) == evidence.count)
                and (not evidence.last or names[:done][-len(evidence.last) :] == evidence.last)
            ]
        return self._within[said]

    def _stacked(self, told: tuple[Tally, ...], top: int) -> bool:
        if told[0].stitches is not None:
            return top > 0 and sum(self.worked.stitches[top - 1]) == told[0].stitches
        stack = self.worked.stack(top, len(told))
        return stack is not None and tuple(_by_kind(names) for names in reversed(stack)) == told


def _by_kind(names: tuple[str, ...]) -> Tally:
    return Tally(tuple(sorted((name, names.count(name)) for name in set(names))))


def _spot(found) -> set[tuple[int, int]]:
    return {(place.index, place.elements_done) for place in found.places}


def _wrong(name: str, chosen: Callable[[list[tuple[int, int]]], list[tuple[int, int]]]) -> list[object]:
    loaded, index, worked = _worked(name)
    seen = _Seen(loaded, worked)
    places = list(worked.places())
    chance = random.Random(11)
    known: dict[Evidence, set[tuple[int, int]]] = {}
    wrong: list[object] = []
    for place in chosen(places):
        for _ in range(MIXES):
            kinds = {kind for kind in KINDS if chance.random() < 0.35}
            evidence = seen.at(*place, kinds, chance)
            if evidence == Evidence():
                continue
            if evidence not in known:
                known[evidence] = seen.places(evidence)
            if _spot(find(index, evidence)) != known[evidence]:
                wrong.append((place, evidence))
    return wrong


@pytest.mark.parametrize("name", OURS)
def test_any_mix_of_what_is_seen_at_any_place_of_our_patterns_gives_the_places_that_fit(name: str) -> None:
    """Every place there is; each mix is held against every other place."""
    assert _wrong(name, lambda places: places) == []


@pytest.mark.parametrize("name", [name for name, _ in pieces() if name not in OURS])
def test_any_mix_of_what_is_seen_gives_the_places_that_fit_in_patterns_of_others(name: str) -> None:
    """Places chosen here and there."""
    assert _wrong(name, lambda places: random.Random(5).sample(places, min(SOME, len(places)))) == []
