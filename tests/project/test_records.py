"""Our records against the standard library's dataclasses: the same classes by both decorators, asked the same."""

import copy
import dataclasses
import pickle
import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest

from tracker import records
from tracker.samples import samples


def _classes(dataclass: Any, field: Any) -> tuple[type[Any], ...]:
    @dataclass(frozen=True, slots=True)
    class Nothing:
        """No field."""

    @dataclass(frozen=True, slots=True)
    class One:
        only: tuple[int, ...]

    @dataclass(frozen=True, slots=True)
    class Stitch:
        name: str
        count: int = 1
        told: str = field(default="", repr=False, compare=False)
        tall: int = field(init=False, compare=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "tall", len(self.name))

        @property
        def many(self) -> bool:
            return self.count > 1

    @dataclass(slots=True)
    class Row:
        number: int
        made: list[int] = field(default_factory=list)
        side: str = "RS"

    return Nothing, One, Stitch, Row


OURS = _classes(records.dataclass, records.field)
THEIRS = _classes(dataclasses.dataclass, dataclasses.field)
MADE: tuple[Callable[[tuple[type[Any], ...]], Any], ...] = (
    lambda kinds: kinds[0](),
    lambda kinds: kinds[1]((1, 2)),
    lambda kinds: kinds[2]("dc"),
    lambda kinds: kinds[2]("dc", 3, told="three"),
    lambda kinds: kinds[2](count=1, name="dc", told="once"),
    lambda kinds: kinds[3](4),
    lambda kinds: kinds[3](4, [5], side="WS"),
)


@pytest.mark.parametrize("make", MADE)
def test_a_record_says_of_itself_what_a_dataclass_says(make: Callable[[tuple[type[Any], ...]], Any]) -> None:
    """How it is written, its fields with their defaults, all as one mapping."""
    ours, theirs = make(OURS), make(THEIRS)
    assert repr(ours) == repr(theirs)
    assert type(ours).__match_args__ == type(theirs).__match_args__
    assert type(ours).__slots__ == type(theirs).__slots__
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert [
        (each.name, each.default, each.default_factory, each.init, each.repr, each.compare)
        for each in dataclasses.fields(ours)
    ] == [
        (each.name, each.default, each.default_factory, each.init, each.repr, each.compare)
        for each in dataclasses.fields(theirs)
    ]


def test_records_are_equal_where_dataclasses_are() -> None:
    """Every value with every other, and with what is no record; equal ones have one hash."""
    ours, theirs = [make(OURS) for make in MADE], [make(THEIRS) for make in MADE]
    equal = [[a == b for b in [*ours, 1, None]] for a in ours]
    assert equal == [[a == b for b in [*theirs, 1, None]] for a in theirs]
    assert equal[2][4], "a field that is not compared makes no difference"
    assert hash(ours[2]) == hash(ours[4])
    assert len(set(ours[:5])) == len(set(theirs[:5])) == 4
    for kinds in (OURS, THEIRS):
        with pytest.raises(TypeError, match="unhashable"):
            hash(kinds[3](1))


@pytest.mark.parametrize("replace", [records.replace, dataclasses.replace])
def test_a_change_leaves_the_rest(replace: Any) -> None:
    """By our `replace` or the library's; what is worked out from the rest is worked out again."""
    for kinds in (OURS, THEIRS):
        stitch = kinds[2]("dc", 3, told="three")
        other = replace(stitch, name="half")
        assert (other.name, other.count, other.told, other.tall) == ("half", 3, "three", 4)
        assert stitch.name == "dc"
        with pytest.raises(TypeError):
            replace(stitch, nowhere=1)


@pytest.mark.parametrize("kinds", [OURS, THEIRS])
def test_a_record_is_made_as_a_dataclass_is(kinds: tuple[type[Any], ...]) -> None:
    """A missing value and a field that is not there are refused; each has a list of its own; no other attribute."""
    with pytest.raises(TypeError):
        kinds[2]()
    with pytest.raises(TypeError):
        kinds[2]("dc", nowhere=1)
    first, second = kinds[3](1), kinds[3](1)
    first.made.append(1)
    assert second.made == []
    with pytest.raises(AttributeError):
        first.nowhere = 1
    match kinds[2]("dc", 2):
        case object(name="dc", count=count, many=True):
            assert count == 2
        case _:
            pytest.fail("a record is matched by its fields")
    assert copy.copy(first) == first


def test_a_record_of_ours_can_be_pickled() -> None:
    """As the tests' own processes do with what they find."""
    from tracker.problems import Span

    assert pickle.loads(pickle.dumps(Span(1, 2))) == Span(1, 2)


def test_a_check_does_not_wait_for_the_library() -> None:
    """What it imports is named; each of these is a good part of a start."""
    heavy = {"dataclasses", "difflib", "inspect", "pathlib", "shutil"}
    asked = "import sys; from tracker.cli import main; main(sys.argv[1:]); print(*sorted(sys.modules))"
    pattern = str(samples()["hearth-mat"])
    there = subprocess.run(
        [sys.executable, "-c", asked, "check", pattern], capture_output=True, text=True, check=True
    )
    assert heavy & set(there.stdout.split()) == set()
