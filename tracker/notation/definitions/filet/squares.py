"""Squares of filet ("open mesh: ch 2, sk 2, dc in next dc") and tiles of corner-to-corner ("sl st, ch 3, 3 dc")."""

import re
from collections.abc import Mapping, Sequence

from tracker.expressions import expression
from tracker.notation.definitions.short import in_short
from tracker.notation.pattern import Special
from tracker.notation.tree import Item, Mark, Say, Turn, Work
from tracker.problems import Span
from tracker.records import replace

_WINDOWS = frozenset(
    "om openmesh mesh open opensquare sp space window w openblock os opensp empty emptysquare emptymesh emptyspace "
    "emptyblock".split()
)


_BLOCKS = frozenset(
    "bl blk block solid solidmesh solidblock filledmesh fm cm closedmesh b filled filledsquare sm bk "
    "solidsquare full fullsquare fullblock closedsquare filledblock filledspace solidspace".split()
)


_TILE_STARTS = expression(
    r"\b(?:(?:ch\s*6|6\s*ch)\b.{0,40}?\b(?:4th|fourth)|(?:ch\s*5|5\s*ch)\b.{0,24}?\bh(?:dc|tr)\s.{0,8}\b(?:3rd|third))"
    r"\s+ch(?:ain)?\s+from",
    re.IGNORECASE | re.DOTALL,
    ["4th", "fourth", "3rd", "third"],
)
_TILE_GOES_ON = expression(
    r"\b(?:ch\s*[23]|[23]\s*ch)\b\W{0,3}(?:work\s+)?\b3\s*(?:dc|tr|hdc|htr)\s*(?:in(?:to)?\s+(?:the\s+)?same"
    r"|\)\s*in(?:to)?\s+(?:the\s+)?(?:next\s+)?(?:ch-[23]|[23]-ch)\s+(?:sp|space|loop))",
    re.IGNORECASE,
)

_CORNER_TO_CORNER = expression(r"\bc2c\b|\bcorner[- ]to[- ]corner\b", re.IGNORECASE, ["c2c", "corner"])
_TILES_COUNTED = expression(r"(?:[(\[:=-]|[–—])\s*\d+\s+(?:tiles?|squares?|blocks?|bls?)\b", re.IGNORECASE)
"""A piece by its name, whose rows are counted in squares."""

_LAST_CLOSES = expression(
    r"\s*(\d)\s*(?:dc|tr|d c)s?\b.*\b(?:(?:last|the)\b.*\bin(?:to)?\s+(?:the\s+)?(?:next\s+)?(?:dc|tr|d c)\b|sharing\b)"
)
"""A block told with the stitch that closes it: "3 tr, the last in next tr"."""

_CLOSED = expression(
    r"(?<!\d )\b(?:dc|tr|d c)\s+in(?:to)?\s+(?:the\s+|first\s+|next\s+|last\s+)*(?:dc|tr|d c|st)\b"
)
"""The one stitch at an edge of a block that is told apart from those within it."""


_IS = expression(
    r"\b(?:an?|the|each|every|one)\s+(?P<name>(?:(?:open|filled|closed|solid|empty|full|increase|inc|beginning|beg|corner|first|other"
    r"|regular|normal|plain)\s+)?(?:space|block|mesh|square|window|tile|box))\s+"
    r"(?:is|means|equals|=)\s+\"?(?:work\s+|make\s+)?(?P<body>(?:ch\b|chain\b|(?:\d|one|two|three|four)\s?(?:ch|chains?|dc|tr|double|treble)\b|dc\b|tr\b|double\b|treble\b|(?:a\s+)?(?:sl\s?st|ss)\b)[^.\"\n]*)",
    re.IGNORECASE,
    ["space", "block", "mesh", "square", "window", "tile", "box"],
)
_OTHER = expression(r"(?:other|regular|normal|plain)\s+")


def squares_told(text: str) -> list[Special]:
    """Squares that a sentence explains: "A space is ch 2, skip 2, dc in next dc"."""
    out: list[Special] = []
    for hit in _IS.finditer(text):
        name = _OTHER.sub("", " ".join(hit["name"].lower().split()))
        span = Span(hit.start("body"), hit.end("body"))
        found = square([name.replace(" ", "")], name, hit["body"], span, hit["body"])
        if found is not None and (found.base in ("window", "block") or "tile" in found.base):
            out.append(found)
    return out


def undefined_tile(text: str) -> Special | None:
    """The tile of a corner-to-corner piece whose rows spell every tile out and that defines none; else None."""
    found = _TILE_STARTS.search(text)
    if found is None or _TILE_GOES_ON.search(text) is None:
        found = _CORNER_TO_CORNER.search(text)
        if found is None or len(_TILES_COUNTED.findall(text)) < 2 and not _tile_by_tile(text):
            return None
    return Special("tile", (), 0, "tile", True, Span(found.start(), found.end()), found.group())


_IN_COLOURS = expression(
    r"^[^\w\n]{0,6}(?:rows?|r)?[ .]?(?P<number>[1-3])\b[ ]*(?:[(\[](?:RS|WS)[)\]])?[ ]*[:.)–—-]?[ ]*"
    r"(?P<told>\(?\d{0,2}[ ]?[x×(]?[A-Za-z][^\n]{0,80}|\d{1,2}[^\n]{0,80})$",
    re.IGNORECASE | re.MULTILINE,
)
_SQUARES_OF_COLOUR = expression(
    r"(?:\W*(?:\d{1,2}\s?[x×]?\s?[A-Za-z]{1,12}|\(?[A-Za-z]{1,12}\)?\s?[x×]?\s?\d{1,2})(?=\W|$)){1,6}\W*"
)


def _tile_by_tile(text: str) -> bool:
    """True where Rows 1, 2 and 3 tell one, two and three squares of colour: "Row 2: 1 T, 1 S"."""
    sums: dict[int, int] = {}
    for hit in _IN_COLOURS.finditer(text):
        if _SQUARES_OF_COLOUR.fullmatch(hit["told"]):
            sums.setdefault(int(hit["number"]), sum(map(int, re.findall(r"\d+", hit["told"]))))
    return sums == {1: 1, 2: 2, 3: 3}


def in_tiles(items: Sequence[Item], specials: Mapping[str, Special]) -> bool:
    """True for a row told in tiles of a corner-to-corner piece alone: it may be one tile long."""
    tiles = {key for key, special in specials.items() if special.base == "tile"}
    told = [item for item in items if not isinstance(item, (Say, Turn, Mark))]
    return bool(tiles and told) and all(isinstance(item, Work) and item.stitch in tiles for item in told)


_CORNER_TILE = expression(
    r"(?:corner|first|start|starting|inc|increase|edge|new|turning)(?:tile|block|square)$"
)
"""A tile that begins a row, by other names."""
_SQUARE_NAMED = expression(
    r"\s*((?:(?:open|filled|closed|solid|empty|full)\s+)?(?:square|mesh|space|block|window|tile))\b\s*[:(]"
)


_SHARED = expression(
    r"\b(?:shared?|sharing|shares|common|in all|in total|altogether|counting both|including both)\b",
    re.IGNORECASE,
    ["shar", "common", "in all", "total", "altogether", "both"],
)
"""A block told with the stitches it has in common with its neighbours: "4 dc, 1 shared with the next"."""
_BETWEEN_POSTS = expression(
    r"\W*(?:1\s*)?(?:dc|tr|d c)\W+(?:ch\s*-?\s*([1-3])|([1-3])\s*ch)\W+(?:1\s*)?(?:dc|tr|d c)\W*(?:\(.*\)\W*)?",
    re.DOTALL,
)
"""A window told with both of its posts: "dc, ch 2, dc"."""
_WHOLE_OF = expression(r"\W*(?:work\s+|=\s*)?(\d)\s*(?:dc|tr|d c)s?\b(\s*(?:\+|plus|and)\b)?")
_AS_OTHERS = expression(
    r"\b(?:then\s+)?(?:work|make|complete|finish|continue)?\s?(?:as|like)\s+(?:for\s+)?(?:an?\s+|the\s+|any\s+|other\s+)*\w{1,40}\W{0,9}$"
)
"""A first block told by the others: "ch 3, then work as for SM"."""


_CHAINS = expression(r"\bch(?:ain)?\s*-?\s*(\d)|\b(\d)\s*ch\b")


def settled(specials: Mapping[str, Special]) -> dict[str, Special]:
    """Blocks made as wide as the windows of the same mesh, however they are told; only those that change."""
    windows = {special.closes for special in specials.values() if special.base == "window"}
    if len(windows) != 1:
        return {}
    fill = windows.pop()
    return {
        key: replace(special, closes=fill)
        for key, special in specials.items()
        if special.base in ("block", "beg block") and special.closes != fill
    }


def square(keys: list[str], short: str, body: str, span: Span, text: str) -> Special | None:
    """A window, a block or a tile, as rows call it; None for anything else."""
    begins = any(key.startswith("beg") for key in keys)
    plain = {key.removeprefix("beginning").removeprefix("beg") for key in keys}
    if any(map(_CORNER_TILE.match, keys)) and re.search(r"\b(?:4th|3rd|fourth|third)\s+ch", body.lower()):
        return Special(short, (), 0, "beg tile", True, span, text)
    body = in_short(body)
    low = re.split(r"\.\s", body)[0]
    if (said := _SQUARE_NAMED.match(low)) is not None:
        # "O = open square (2 ch, miss 2, 1 tr)"
        plain |= {said[1].replace(" ", "")}
    chains = _CHAINS.search(low)
    on = bool(
        re.search(
            r"\b(?:dc|tr|d c|treble|double crochet)s?\s+in(?:to)?\s+(?:the\s+)?(?:next|each|last|dc\b|tr\b)",
            low,
        )
    )
    ends = re.search(r"\b(?:dc|tr|d c)\W*$", low)
    led = re.match(r"\W*(?:1\s*)?(?:dc|tr|d c)\W+(?:and\s+)?(?:ch\b|\d\s*ch\b)", low)  # "dc, ch 1, sk 1"
    if (
        plain & _WINDOWS
        and chains
        and (on or ends or led)
        and re.search(r"\b(?:sk|skip|skipping|miss|missing)\b", low)
    ):
        fill = int(chains[1] or chains[2])
        if begins:
            fill = max(1, fill - 3)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "beg window" if begins else "window", False, span, text)
    posts = _BETWEEN_POSTS.fullmatch(low) if plain & _WINDOWS and not begins else None
    if posts is not None:
        return Special(short, (), int(posts[1] or posts[2]), "window", False, span, text)
    filled = re.search(
        r"\b(\d)\s*(?:dc|tr|d c)s?\s+(?:in|into|under|over|around)\s+(?:the\s+|next\s+)*"
        r"(?:\d?[- ]?ch[- ]?\d?[- ]+)?(?:sp|space)\b",
        low,
    )
    tiled = re.search(r"\bch\s*[36]\b|\b[36]\s*ch\b(?!\s*sp)", low)
    if plain & _BLOCKS and not begins and not tiled and filled and 1 <= int(filled[1]) <= 3:
        # "3 tr on 3 sts (or 2 tr in ch sp, 1 tr in tr)": over a space it is told without the stitch that closes it
        return Special(short, (), int(filled[1]), "block", False, span, text)
    named = re.match(r"\s*(?:\w+\s+)?(?:space|mesh|window|block|square)\s*:\s*", low)
    low = low[named.end() :] if named else low
    spelled = re.match(r"\s*(?:\w+\s+)?(?:space|mesh|window|block|square)\s*\(([^)]*)\)", low)
    if spelled:
        # "block (3 dc; 4 dc at the start of a row)"
        low = spelled[1].split(";")[0]
        chains = _CHAINS.search(low)
    if plain & _BLOCKS and begins and re.match(r"\W*(?:ch\s*3|3\s*ch)\b", low) and _AS_OTHERS.search(low):
        return Special(short, (), 2, "beg block", False, span, text)
    whole = _WHOLE_OF.match(low) if plain & _BLOCKS and not begins and _SHARED.search(low) else None
    if whole is not None:
        # "4 dc in all, 1 shared with the next", "3 dc plus the shared dc": both edges counted, or one
        fill = int(whole[1]) - (1 if whole[2] else 2)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "block", False, span, text)
    closing = _LAST_CLOSES.match(low)
    if plain & _BLOCKS and closing and not chains and not begins and 2 <= int(closing[1]) <= 4:
        return Special(short, (), int(closing[1]) - 1, "block", False, span, text)
    if re.match(
        r"\s*(?:\d\s*(?:dc|tr)\b|(?:dc|tr)\s+in(?:to)?\s+(?:each\s+of\s+)?(?:the\s+)?next\s+\d)", low
    ):
        # "3 dc (4 dc counting the one before)", "dc in next 2 sts (over a space: …)"
        low = re.sub(r"\([^)]*\)", "", low)
        chains = chains if chains is None else _CHAINS.search(low)
    alone = re.fullmatch(r"\s*\d\s*(?:dc|tr|d c)s?\W*(?:(?:plus|and|\+)\s+1\s*(?:dc|tr).{0,24})?", low)
    if plain & _BLOCKS and (
        alone or on and (begins or not chains or re.search(r"\bin(?:to)?\b.*\bch-?\d", low))
    ):
        counts = [int(n) for n in re.findall(r"next\s+(\d)\s+(?:dc|sts|tr|d c|st)", low)]
        if not counts or not re.search(r"\bin(?:to)?\s+each\b", low):
            counts += [int(n) for n in re.findall(r"\b(\d)\s*(?:dc|tr|d c)\b", low)][: 1 if alone else None]
        fill = min(counts) if counts else 1
        if begins or counts and not _CLOSED.search(low):
            # the number is told with the stitch that closes the block
            fill = max(1, fill - 1)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "beg block" if begins else "block", False, span, text)
    if plain & {"tile", "block", "bl", "blk", "square", "box"} and (
        tiled
        and re.search(r"\b(?:3\s*(?:dc|hdc|tr)|4th ch)\b", low)
        or re.search(r"\bch\s*[2-6]\b.*\b(?:from (?:the )?hook|\d\s*\w+ in(?:to)? (?:the )?same)", low)
    ):
        return Special(short, (), 0, "beg tile" if begins else "tile", True, span, text)
    return None
