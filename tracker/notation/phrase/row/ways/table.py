"""THE TABLE of ways to read a phrase, in the order in which they are tried; the order is meaning.

What one way takes, none behind it sees: a bracket is never a stitch's name, a turning chain's statement never the
end of a repeat. Where no way reads a phrase it is prose.
"""

from functools import cache

from tracker.notation.phrase.chatty.hook import PUTS
from tracker.notation.phrase.cursor import SLIPS
from tracker.notation.phrase.row.going_on import CLOSER, told_closer
from tracker.notation.phrase.row.marks.brackets import times_ahead
from tracker.notation.phrase.row.remarked.how import EDGES_OF_TILES, HOW_TOLD, edge_of_tiles, how_worked
from tracker.notation.phrase.row.remarked.remarks import PICTURES, SHAPES, kind_of_row, picture_here
from tracker.notation.phrase.row.remarked.starting import STARTS, starts_at
from tracker.notation.phrase.row.remarked.told_again import (
    by_row_ends,
    changes_the_last,
    closes_spiral,
    sews,
    shapes_somewhere,
    skips_chains,
    stops_short,
    told_twice,
)
from tracker.notation.phrase.row.ways import again, coloured, ended, light, signs, worked
from tracker.notation.phrase.row.ways.way import Way, by_items
from tracker.notation.phrase.works.movement import HOLDING, held
from tracker.notation.scan import T

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    from tracker.notation.phrase.row.ways.way import Read


def _words(*words: str) -> frozenset[str]:
    return frozenset(words)


WAYS = (
    Way(signs.bracketed, kinds=frozenset({T.OPEN})),
    Way(times_ahead, kinds=frozenset({T.NUMBER, T.TIMES, T.WORD})),
    Way(signs.rows_again, kinds=frozenset({T.NUMBER})),
    Way(signs.repeated_so_far),
    Way(worked.corner, _words("beg", "beginning", "first", "corner")),
    Way(worked.border),
    Way(signs.starred, kinds=frozenset({T.STAR})),
    Way(again.over_themselves, _words("always", "still", "working", "keeping", "placing", "making")),
    Way(by_items(sews)),
    Way(by_items(stops_short), _words("ending", "end", "ends")),
    Way(by_items(closes_spiral), frozenset(SLIPS)),
    Way(by_items(told_twice), _words("skipping")),
    Way(by_items(starts_at), STARTS),
    Way(by_items(by_row_ends)),
    Way(by_items(changes_the_last), _words("working", "making", "placing", "with")),
    Way(by_items(shapes_somewhere)),
    Way(by_items(skips_chains), _words("skipping", "missing")),
    Way(by_items(picture_here), frozenset(PICTURES)),
    Way(by_items(kind_of_row), frozenset(SHAPES)),
    Way(coloured.each_colour, _words("with", "in", "using")),
    Way(coloured.colour_ahead),
    Way(coloured.stitch_of_colours, kinds=frozenset({T.WORD})),
    Way(signs.plain_number, kinds=frozenset({T.NUMBER})),
    Way(light.name_of_edge, light.EDGES),
    Way(by_items(how_worked), HOW_TOLD),
    Way(by_items(edge_of_tiles), frozenset(EDGES_OF_TILES)),
    Way(light.you_have, _words("you")),
    Way(coloured.counted_tiles),
    Way(coloured.colour_of_row),
    Way(light.piece_named),
    Way(again.in_pattern, again.IN_PATTERN),
    Way(again.by_turns, _words("keep", "continue", "cont", "alternating", "alternate", "by", "work")),
    Way(light.hook_is_put, PUTS),
    Way(signs.number_of_a_toy, kinds=frozenset({T.NUMBER})),
    Way(signs.number_of_a_toy, _words("two", "three")),
    Way(again.in_other_corners, _words("do", "work", "make", "repeat", "rep", "then", "and")),
    Way(light.passed_over, light.LIGHT | light.MAKES | light.BEGINS),
    Way(again.told_to_repeat, _words("rep", "repeat", "repeating", "reps")),
    Way(again.done_again, _words("do")),
    Way(again.from_a_star, _words("work", "then")),
    Way(by_items(told_closer), CLOSER),
    Way(by_items(held), HOLDING),
    Way(ended.told_of_chain, ended.TOLD_OF_CHAIN),
    Way(ended.edge_of_filet, frozenset(EDGES_OF_TILES)),
    Way(ended.last_pass, ended.ENDINGS | ended.LANDS),
    Way(ended.all_in_one, _words("all")),
    Way(ended.chain_in_place, _words("in", "into")),
    Way(worked.worked),
)
_NAMED = frozenset(word for way in WAYS for word in way.words)


def ways_of(word: str, kind: T) -> "tuple[Read, ...]":
    """How a phrase may be read that begins with a word, or with a token of a kind, in order."""
    return _ways(word if word in _NAMED else "", kind)


@cache
def _ways(word: str, kind: T) -> "tuple[Read, ...]":
    return tuple(way.read for way in WAYS if way.may_begin(word, kind))
