"""Special stitches as the pattern defines them: "Shell: 5 dc in one st", "Puff (puff): …", "inc = 2 sc in one st".

A stretch of tokens comes in; a Special comes out, or None when it defines nothing that rows can call. What is
told in hook movements closes into one top and is counted by its own name.
"""

import re

from tracker.notation.phrase.cursor import Context, Cursor, key_of, stitch_here
from tracker.notation.phrase.row import read_row
from tracker.notation.scan import T, Token, scan
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Join,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Special,
    Travel,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Source, Span
from tracker.trade.stitches import STITCHES, by_chains, parts_of, stitch_named

HEAD = re.compile(
    r"^\s*(?:\d\.\s+)?(?P<name>[A-Za-z0-9][\w/' -]{0,44}?(?:\s*\+\s*[\w ]{1,12})?)\s*(?:[(\[](?P<abbr>[^)\]\n]{1,44})[)\]])?(?:\s+(?:over|worked|made|in)\b[^:=\n]{0,50}?)?\s*(?P<mark>:|=|—|–|\s-+\s)\s*(?P<body>\S.*)$",
    re.DOTALL,
)
_GENERIC = frozenset(
    "note notes gauge tension yarn hook hooks materials material size sizes finished color colors colour colours colorway skill level tip tips hint thread measurements row round rnd rows rnds a b c d mc cc cca ccb ca cb "
    "cd shade weight you supplies notions stitches multiple abbreviations terms instructions pattern edging border stuffing needle other designer level difficulty sts st turn with using foundation to "
    "approx instructions directions finishing assembly stitch blocking care setup set-up color-a color-b main by special spiral rounds sample fits fit worked".split()
)
_MOVES = re.compile(
    r"\b(?:yo|yrh|yoh|yarn over|insert hook|draw up|pull up|draw through|pull through|loops? on (?:the )?hook|drop (?:the )?(?:lp|loop)|wrap)\b",
    re.IGNORECASE,
)


_LED = re.compile(r"^\s*(?:special\s+)?stitch(?:es)?(?:\s+used)?\s*:\s*(?=\S)", re.IGNORECASE)


def head_of(text: str) -> re.Match[str] | None:
    """The name, abbreviation and body of a definition, or None when the line looks like none."""
    led = _LED.match(text)
    if led is not None:
        # blanks instead of the heading, so that offsets stay
        text = " " * 0 + text[led.end() :].rjust(len(text)) if len(text) - led.end() > 8 else text
    hit = HEAD.match(text)
    if hit is None:
        return None
    words = hit["name"].lower().split()
    if not words or words[0] in _GENERIC or len(words) > 6 or words[-1] in ("only", "sizes"):
        return None
    if len(words) > 1 and words[0] in ("ch", "chain", "make") and words[1].isdigit():
        return None
    return hit


def define(text: str, offset: int, context: Context, source: Source) -> list[Special]:
    """The special stitches that a definition's text gives; changes what "inc" and "dec" mean in the context."""
    hit = head_of(text)
    if hit is None:
        return []
    name = " ".join(hit["name"].split()).lower()
    abbreviations = [
        piece.strip().lower() for piece in re.split(r",|;|/|\bor\b", hit["abbr"] or "") if piece.strip()
    ]
    abbreviations = [
        re.sub(r"^(?:abbreviated?|abbr\.?)\s+(?:as\s+)?", "", a).strip(" '\"") for a in abbreviations
    ]
    abbreviations = [
        a
        for a in abbreviations
        if len(a) < 24 and not a.startswith(("make", "worked", "counts", "rs", "ws", "uses"))
    ]
    body = hit["body"]
    span = Span(offset + hit.start("name"), offset + hit.end())
    start = offset + hit.start("body")
    tokens = scan(source.text, start, offset + hit.end("body"))
    keys = [key_of(name), *(key_of(a) for a in abbreviations)]
    # "inc" and "dec" are not specials: they say which stitch is doubled or worked together
    if _increase(keys, body, tokens, context):
        return []
    short = _short(name, abbreviations)
    square = _square(keys, short, body, span, source.text[start : offset + hit.end("body")])
    if square is not None:
        if square.base in ("window", "block"):
            context.filet = square.closes
        return [square]
    if _same_stitch(name, abbreviations, body, context):
        return []
    special = _special(
        short, name, body, tokens, context, span, source.text[start : offset + hit.end("body")]
    )
    if special is None:
        return []
    names = {short, name, *abbreviations}
    return (
        [
            Special(
                special.name,
                special.items,
                special.closes,
                special.base,
                special.one_place,
                special.span,
                special.text,
            )
        ]
        if names
        else []
    )


def keys_of(text: str) -> list[str]:
    """Every key by which rows may call what a definition defines."""
    hit = head_of(text)
    if hit is None:
        return []
    name = " ".join(hit["name"].split()).lower()
    names = [name]
    for piece in re.split(r",|;|\bor\b", hit["abbr"] or ""):
        words = re.sub(r"^(?:abbreviated?|abbr\.?)\s+(?:as\s+)?", "", piece.strip().lower())
        if words and len(words) < 24:
            names.append(words)
    for each in list(names):
        for tail in (" stitch", " stitches", " st", "-stitch", "-st"):
            if each.endswith(tail) and len(each) - len(tail) > 1:
                names.append(each[: -len(tail)])
    return [key_of(each) for each in names if key_of(each)]


def _short(name: str, abbreviations: list[str]) -> str:
    for abbreviation in abbreviations:
        if 1 <= len(abbreviation) <= 14:
            return abbreviation
    return name


def _increase(keys: list[str], body: str, tokens: list[Token], context: Context) -> bool:
    low = body.lower()
    inc = bool({"inc", "increase"} & set(keys))
    dec = bool({"dec", "decrease", "invdec", "invisibledecrease"} & set(keys))
    if not (inc or dec):
        return False
    c = Cursor(tokens, context)
    number = None
    name = ""
    while c.kind() is not T.END:
        if number is None and c.value() is not None:
            number = c.value()
        stitch = stitch_here(c)
        if stitch is not None and stitch.name not in ("inc", "dec", "slst") and stitch.special is None:
            name = stitch.name.removeprefix("inc:")
            break
        c.i += 1
    if inc:
        post, base, _ = parts_of(name)
        context.increase = base if name else context.increase
        context.increase_count = number if number and 2 <= number <= 5 and "in" in low else 2
    else:
        post, base, together = parts_of(name)
        if name and base in ("sc", "hdc", "dc", "tr"):
            context.decrease = base
        if together > 1:
            context.decrease_count = together
        elif number == 3:
            context.decrease_count = 3
    return True


def _same_stitch(name: str, abbreviations: list[str], body: str, context: Context) -> bool:
    """True for lines of an abbreviation list that only spell out what the trade means anyway: "hdc = half double crochet"."""
    plain = stitch_named(name, context.uk)
    if plain is None:
        words = name.split()
        return (
            len(words) == 1
            and words[0]
            in (
                "ch",
                "sk",
                "sp",
                "rep",
                "tch",
                "blo",
                "flo",
                "mr",
                "fo",
                "beg",
                "rs",
                "ws",
                "yo",
                "rnd",
                "st",
                "sts",
                "pm",
                "m",
                "tog",
                "lp",
                "lps",
                "sl",
            )
            or (name in ("sl st", "3rd loop", "magic ring", "magic circle"))
        )
    if plain.name in STITCHES and STITCHES[plain.name].closes:
        return False
    if plain.name in ("picot", "spsc", "spdc", "tile"):
        return plain.name.startswith("sp")
    spelled = stitch_named(body.strip(" .;"), context.uk)
    if spelled is not None and spelled.name == plain.name:
        return True
    return parts_of(plain.name)[1] in STITCHES


_WINDOWS = frozenset("om openmesh mesh open opensquare sp space window w openblock os opensp".split())
_BLOCKS = frozenset(
    "bl blk block solid solidmesh solidblock filledmesh fm cm closedmesh b filled filledsquare sm bk solidsquare".split()
)


def _square(keys: list[str], short: str, body: str, span: Span, text: str) -> Special | None:
    """A square of filet ("open mesh: ch 2, sk 2, dc in next dc") or a tile of corner-to-corner ("sl st, ch 3, 3 dc")."""
    begins = any(key.startswith("beg") for key in keys)
    plain = {key.removeprefix("beginning").removeprefix("beg") for key in keys}
    low = body.lower()
    chains = re.search(r"\bch(?:ain)?\s*-?\s*(\d)|\b(\d)\s*ch\b", low)
    on = bool(
        re.search(r"\b(?:dc|tr|d c|treble|double crochet)s?\s+in(?:to)?\s+(?:the\s+)?(?:next|each|last)", low)
    )
    if plain & _WINDOWS and chains and on and re.search(r"\b(?:sk|skip|miss)\b", low):
        fill = int(chains[1] or chains[2])
        if begins:
            fill = max(1, fill - 3)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "beg window" if begins else "window", False, span, text)
    if plain & _BLOCKS and on and (begins or not chains or re.search(r"\bin(?:to)?\b.*\bch-?\d", low)):
        counts = [int(n) for n in re.findall(r"\b(\d)\s*(?:dc|tr|d c)\b", low)] + [
            int(n) for n in re.findall(r"next\s+(\d)\s+(?:dc|sts|tr|d c|st)", low)
        ]
        fill = min(counts) if counts else 1
        if begins:
            fill = max(1, fill - 1)
        if 1 <= fill <= 3:
            return Special(short, (), fill, "beg block" if begins else "block", False, span, text)
    if (
        plain & {"tile", "block", "bl", "blk", "square"}
        and re.search(r"\bch\s*[36]\b", low)
        and re.search(r"\b(?:3\s*(?:dc|hdc|tr)|4th ch)\b", low)
    ):
        return Special(short, (), 0, "beg tile" if begins else "tile", True, span, text)
    return None


_NUMBER_GIVEN = re.compile(
    r"\b(?:number of sts|as many\s+times as|sts (?:given|stated|indicated))\b", re.IGNORECASE
)
_ORDER = re.compile(
    r"(?:once|twice|thrice|(?P<n>\d+|two|three|four|five|six|seven)\s*(?:times|x\b))", re.IGNORECASE
)


def _special(
    short: str, name: str, body: str, tokens: list[Token], context: Context, span: Span, text: str
) -> Special | None:
    plain_name = re.sub(r"^(?:beg(?:inning)?|starting|standing|first)\.?\s+", "", name)
    trade = stitch_named(short, context.uk) or stitch_named(name, context.uk)
    if trade is None and plain_name != name:
        other = context.specials.get(key_of(plain_name)) or context.specials.get(
            key_of(re.sub(r"^beg\.?\s*", "", short))
        )
        if other is not None and other.closes:
            return Special(short, (), other.closes, other.base, other.one_place, span, text)
        trade = stitch_named(plain_name, context.uk)
    trade_name = trade.name if trade else ""
    counted = trade_name if trade_name in STITCHES else short
    meant = re.match(
        r"\s*(?:(?P<inc>inc(?:rease)?)|(?:invisible\s+)?(?P<dec>dec(?:rease)?))\b", body, re.IGNORECASE
    )
    if meant is not None and trade is None:
        plain = next(
            (
                st.name
                for k in range(len(tokens))
                if (st := stitch_here(Cursor(tokens[k:], context))) and st.name in ("sc", "hdc", "dc", "tr")
            ),
            "sc",
        )
        if meant["inc"]:
            return Special(
                short, (Work(plain, 2, Where(Which.STRAIGHT, span), span),), 0, "", True, span, text
            )
        return Special(short, (), 2, f"{plain}2tog", False, span, text)
    if _MOVES.search(body):
        closes = _gathered(body, tokens)
        one = closes <= 1
        plain = _legs(body, name)
        if (
            plain
            and trade_name == "cl"
            and re.search(
                r"\b(?:number of|indicated|over (?:the )?(?:given|stated)|as many)\b.*\b(?:sts|stitches|times)\b|\bnumber of sts\b|\b(?:sts|stitches|number) (?:stated|given|indicated)|\bover \(?\d+ or \d+|\beach (?:of the )?(?:st|sts|stitch)\w* (?:stated|indicated)",
                body,
                re.IGNORECASE,
            )
        ):
            return Special(short, (), 1, f"{plain}*tog", False, span, text)
        if not one and plain and trade_name in ("cl", "") and short.startswith("cl"):
            return Special(short, (), closes, f"{plain}{closes}tog", False, span, text)
        return Special(short, (), max(1, closes), counted, one, span, text)
    problems = len(context.problems)
    saved_base = context.base
    c = Cursor(tokens, context)
    reading = read_row(c)
    context.base = saved_base
    del context.problems[problems:]
    items: list[Item] = []
    for item in reading.items:
        if isinstance(item, (Say, Turning, Mark)):
            continue
        if isinstance(item, (Work, Group, Chain, Repeat, Skip, Travel, Join)):
            items.append(item)
        elif isinstance(item, Prose):
            return (
                Special(short, (), 1, counted, True, span, text)
                if items and trade_name and STITCHES.get(trade_name) and STITCHES[trade_name].closes
                else None
            )
    if not items:
        return None
    return _shape(short, counted, trade_name, items, span, text)


def _shape(
    short: str, counted: str, trade_name: str, items: list[Item], span: Span, text: str
) -> Special | None:
    """What a definition told in stitches uses up and makes."""
    first = items[0]
    worked = [i for i in items if isinstance(i, Work)]
    if (
        worked
        and not any(isinstance(i, (Chain, Group, Repeat)) for i in items)
        and worked[0].count == 1
        and (worked[0].where.down != 1 or worked[0].where.loop.startswith("free"))
    ):
        # a stitch worked rows below: it closes into one, and goes by its own name
        return Special(short, (), 1, trade_name or counted, True, span, text)
    if isinstance(first, Chain) and first.count >= 2 and short.startswith(("beg", "first", "standing")):
        items = [
            Work(by_chains(first.count, "dc"), 1, Where(Which.STRAIGHT, first.span), first.span),
            *items[1:],
        ]
        inner: list[Item] = []
        for item in items:
            inner.extend(item.items if isinstance(item, Group) and item.where.which is Which.SAME else [item])
        items = inner
        first = items[0]
    if counted == "picot" or (
        isinstance(first, Chain)
        and len(items) <= 2
        and any(isinstance(i, (Work, Join)) and "slst" in (getattr(i, "stitch", "")) for i in items[1:])
    ):
        return Special(short, tuple(items), 0, "picot", True, span, text)
    if len(items) == 1 and isinstance(first, Group):
        return Special(short, first.items, 0, "", True, span, text)
    if len(items) == 1 and isinstance(first, Work):
        together = parts_of(first.stitch)[2]
        closing = STITCHES.get(trade_name)
        if together > 1:
            one = first.where.which is Which.SAME or (
                first.where.many == 1
                and first.where.which is Which.NEXT
                and first.count == 1
                and " one " in f" {text} "
            )
            in_one = (
                one
                or bool(
                    re.search(r"\b(?:same|one|in next|in a|in st\b|in sp|indicated)\b", text, re.IGNORECASE)
                )
                and "over" not in text
            )
            if closing is not None and closing.closes and closing.name != "cl":
                return Special(short, (), 1, closing.name, True, span, text)
            return Special(short, (), 1 if in_one else together, first.stitch, in_one, span, text)
        if closing is not None and closing.closes and re.search(r"\btog(?:ether)?\b", text, re.IGNORECASE):
            return Special(short, (), 1, closing.name, True, span, text)
        inside = Work(first.stitch, first.count, Where(Which.STRAIGHT, first.span), first.span)
        if first.where.many > 1 and first.count == 1 and first.where.which in (Which.NEXT,):
            return Special(short, tuple(items), 0, "", False, span, text)
        return Special(short, (inside,), 0, "", True, span, text)
    placed = [
        item
        for item in items
        if isinstance(item, (Work, Group)) and item.where.which not in (Which.STRAIGHT, Which.SAME)
    ]
    skips = any(isinstance(item, Skip) for item in items)
    if not placed and not skips:
        return Special(short, tuple(items), 0, "", True, span, text)
    return Special(short, tuple(items), 0, "", False, span, text)


def _gathered(body: str, tokens: list[Token]) -> int:
    """How many stitches below a stitch told in hook movements uses: 1 when it says same st or sp."""
    low = body.lower()
    over = re.search(r"(?:over|across)\s+(?:the\s+)?next\s+(\d+)", low)
    if over:
        return int(over[1])
    if re.search(
        r"same\s+(?:st|sp|place|stitch|space|ch|lp|loop)|\bplace\b|indicated|stated|specified|\bone st\b", low
    ):
        return 1
    times = _ORDER.search(low)
    if times and re.search(r"\bin(?:to)?\s+(?:the\s+)?next\s+(?:st|sc|dc|stitch|ch)\b", low[: times.start()]):
        word = times.group().lower()
        words = {
            "once": 1,
            "twice": 2,
            "thrice": 3,
            "two": 2,
            "three": 3,
            "four": 4,
            "five": 5,
            "six": 6,
            "seven": 7,
        }
        if times["n"]:
            return int(times["n"]) if times["n"].isdigit() else words[times["n"]]
        return words.get(word, 1)
    nexts = len(re.findall(r"insert (?:the )?hook (?:in|into|through) (?:the )?next", low))
    del tokens
    return max(1, nexts)


def _legs(body: str, name: str) -> str:
    """The stitch whose legs a cluster gathers, told from its hook movements; "" when not clear."""
    low = body.lower()
    through_two = bool(re.search(r"(?:draw|pull)(?:\s+\w+)?\s+through\s+(?:first\s+)?(?:2|two)", low))
    begins_over = bool(re.match(r"\W*(?:\*|\(|\[)*\s*(?:yo|yrh|yoh|yarn over)\b", low))
    del name
    if begins_over and through_two:
        return "dc"
    if not begins_over and "yo" in low and not through_two:
        return "sc"
    return ""


__all__ = ["define", "head_of", "keys_of"]
