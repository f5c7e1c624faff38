"""Special stitches as the pattern defines them.

A stretch of text comes in; a Special comes out, or nothing when it defines nothing that rows can call. What is told in
hook movements closes into one top and is counted by its own name.
"""

import re

from tracker.expressions import expression
from tracker.notation.definitions.counted import first_of_row, increase, same_stitch
from tracker.notation.definitions.filet.squares import square
from tracker.notation.definitions.head import abbreviations_of, head_of, short_name
from tracker.notation.definitions.movements import MOVES, told_in_movements
from tracker.notation.definitions.shapes import shape
from tracker.notation.pattern import Special
from tracker.notation.phrase.cursor import Context, Cursor, key_of
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.plain.worded import said_plainly
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
    Travel,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Source, Span
from tracker.records import replace
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import STITCHES, parts_of

_GATHERS = expression(r"(?:beg)?(?P<n>[2-9])(?P<base>hdc|dc|tr|htr|dtr)(?:cl|cluster|clst)$")
"""Names of clusters worked in one place that say of how many stitches they are."""


_IN_FULL = expression(r"[A-Za-z][A-Za-z /-]{2,40}\d?[A-Za-z ]{0,12}:\s+(?=\S)", holds=":")
"""The name in full between an abbreviation and what it means: "C6 – cable 6: miss 3, …"."""


_IN_FULL_DASHED = expression(
    r"[A-Za-z][A-Za-z /]{2,30}[a-z]\s(?:[–—]|-)\s+(?=\d?\s?[a-z])", holds=["–", "—", "-"]
)
"""The same behind a colon: "ot: overlay treble – 1 tr in the front loop …"."""
_IN_FULL_EQUAL = expression(r"[A-Za-z][A-Za-z -]{2,30}[a-z]\s?=\s+(?=\d?\s?[a-z(])", holds="=")
"""And between two of the same sign: "PC = popcorn = 4 dc in one st, …"."""
_CALLED_SO = expression(
    r"(?:long|drop(?:ped)?|deep|spike|mosaic|front|tall)\s+[a-z -]{2,24},\s+(?=(?:\d\s|work|make|tr|dc|sc|hdc|htr)\b)",
    re.IGNORECASE,
)
"""The name in full ahead of what it means: "LT: long treble, 1 tr in missed dc 3 rows below"."""
_OF_ROWS = expression(
    r"\W*(?:(?:used\s+)?(?:in(?:to)?|at|on|for|as)\s+)?(?:the\s+|both\s+|every\s+|each\s+)*"
    r"(?:first|last|ends?|beginning|begin|start|edges?)\b.{0,60}\b(?:rows?|rnds?|rounds?)\b",
    re.IGNORECASE,
)


def _told_where(words: str) -> bool:
    """True for words of a definition that tell where in the rows its stitch stands."""
    return _OF_ROWS.match(words) is not None


def _in_one(item: Item, words: str) -> str:
    """ "Dc3tog, all three legs worked in same place": the name of what is worked together in one; "" for others."""
    together = isinstance(item, Work) and parts_of(item.stitch)[2] > 1
    return item.stitch if isinstance(item, Work) and together and _LEGS_IN_ONE.match(words) else ""


_LEGS_IN_ONE = expression(r"\W*(?:with\s+|working\s+)?all\b.{0,40}\b(?:same|one)\b", re.IGNORECASE, ["all"])


def _own_abbreviation(name: str, abbreviations: list[str], context: Context) -> str | None:
    """The stitch that a designer abbreviates otherwise than the trade: "Spike sc (ssc): …"; None where none is."""
    plain = stitch_named(name, context.uk)
    strange = all(
        _ONE_WORD.fullmatch(a) and stitch_named(a.lower(), context.uk) is None for a in abbreviations
    )
    return plain.name if plain is not None and abbreviations and strange and plain.name in STITCHES else None


_ONE_WORD = expression(r"[A-Za-z]{2,7}\d?")
"""An abbreviation; "US treble" behind a name is none."""


def define(text: str, offset: int, context: Context, source: Source) -> list[Special]:
    """The special stitches that a definition's text gives; changes what "inc" and "dec" mean in the context."""
    hit = head_of(text)
    if hit is None:
        return []
    name = " ".join(hit["name"].split()).lower()
    abbreviations = abbreviations_of(hit)
    body = hit["body"]
    span = Span(offset + hit.start("name"), offset + hit.end())
    start = offset + hit.start("body")
    in_full = (_IN_FULL if hit["mark"] != ":" else _IN_FULL_DASHED).match(body)
    if in_full is None and hit["mark"] == "=":
        in_full = _IN_FULL_EQUAL.match(body)
    raised = None if in_full is None else _raised(in_full.group(), start, context, source)
    if raised is None and " " in (hit["abbr"] or "") and " " not in name:
        # "RtF (raised treble front) = work tr round the stem of next st from the front"
        raised = _raised(hit["abbr"], offset + hit.start("abbr"), context, source)
    if raised is not None:
        inside = Work(raised, 1, Where(Which.STRAIGHT, span), span)
        return [
            Special(short_name(name, abbreviations), (inside,), 0, "", True, span, text[hit.start("body") :])
        ]
    full = ""
    if in_full is not None:
        full = key_of(in_full.group().rstrip(": \n–—=-"))
        body, start = body[in_full.end() :], start + in_full.end()
    if (called := _CALLED_SO.match(body)) is not None:
        body, start = body[called.end() :], start + called.end()
    ends = offset + hit.end("body")
    for told in (_USES, _LEFT_BEHIND):
        if (behind := told.search(body)) is not None:
            ends, body = ends - (len(body) - behind.start()), body[: behind.start()]
    tokens = said_plainly(scan(source.text, start, ends), context.colours)
    keys = [key_of(name), *(key_of(a) for a in abbreviations), *([full] if full else [])]
    # "inc" and "dec" are not specials: they say which stitch is doubled or worked together
    if increase(keys, body, tokens, context):
        return []
    short = short_name(name, abbreviations)
    filet = square(keys, short, body, span, source.text[start : offset + hit.end("body")])
    if filet is not None:
        return [filet]
    if same_stitch(name, abbreviations, text, body, context):
        own = _own_abbreviation(name, abbreviations, context)
        if own is None:
            return []
        inside = Work(own, 1, Where(Which.STRAIGHT, span), span)
        return [Special(short, (inside,), 0, "", True, span, text[hit.start("body") :])]
    special = special_of(
        text[: hit.start("body")] + (in_full.group() if in_full is not None else ""),
        short,
        name,
        body,
        tokens,
        context,
        span,
        source.text[start : offset + hit.end("body")],
    )
    return [] if special is None else [special]


def _begins_sentence(body: str, at: int) -> bool:
    """True for the place, counted from the first word, that begins a sentence."""
    before = body.lstrip()[:at].rstrip()
    return before[-1:] in (".", "!")


def _works(item: Item) -> bool:
    """True for what makes stitches."""
    return isinstance(item, (Work, Group, Chain, Repeat))


_USES = expression(
    r"(?<=[.;!])\s+(?:Uses|Takes|Worked\s+(?:over|across)|Cable|(?:One\s+)?[A-Z]\w+\s+(?:made|done|complete\w*)|(?:This|It|They)\s+(?:uses?|takes?|counts?|is|are|makes?|measures?|looks?|lies|stands?)"
    r"|\d+\s+(?:sts|stitches)\s+(?:used|crossed))\b[^.;]{0,60}\.?\s*$",
    holds=[". ", "; ", "! ", ".\n", ";\n", "!\n"],
)
""" "… Uses 6 sts.", "… Cable made.": a sentence that says no more of the stitch."""
_LEFT_BEHIND = expression(
    r",?\s?\bwith\s+the\s+(?:sc|dc|hdc|htr|tr|st|sts|stitch|stitches|one)\s+behind\b[^.;]{0,200}$",
    re.IGNORECASE,
    ["behind"],
)
""" "…, with the sc behind it skipped", at the end of what is worked rows below."""


def _raised(words: str, start: int, context: Context, source: Source) -> str | None:
    """The stitch around a post that a name in full says: "raised treble front:"; None for any other."""
    c = Cursor(scan(source.text, start, start + len(words.rstrip(": "))), context)
    stitch = stitch_here(c)
    if stitch is None or stitch.special is not None or c.kind(stitch.tokens) is not T.END:
        return None
    return stitch.name if parts_of(stitch.name)[0] in ("fp", "bp") else None


def _only_gathered(key: str, context: Context) -> Special | None:
    """The one stitch that gathers others and is called so, "3-tr cl" for "cl"; None where there is not just one."""
    found = [
        special
        for name, special in context.specials.items()
        if name.endswith(key) and special.closes and _GATHERS.match(name)
    ]
    return found[0] if len(set(found)) == 1 else None


def special_of(
    head: str, short: str, name: str, body: str, tokens: list[Token], context: Context, span: Span, text: str
) -> Special | None:
    """The stitch that a definition's body makes, told in movements or in other stitches."""
    plain_name = re.sub(
        r"^(?:(?:beg(?:inning)?|starting|standing|first|chain-?less|chain less)\.?[\s-]+)+", "", name
    )
    if plain_name == name and name.startswith("beg") and key_of(name[3:]) in context.specials:
        plain_name = name[3:]  # "BegPC", in one word
    trade = stitch_named(short, context.uk) or stitch_named(name, context.uk)
    if trade is None and plain_name != name:
        other = context.specials.get(key_of(plain_name)) or context.specials.get(
            key_of(re.sub(r"^beg\.?[\s-]*", "", short))
        )
        other = other or _only_gathered(key_of(plain_name), context)
        if other is not None and other.closes:
            return Special(f"beg {other.name}", (), other.closes, other.base, other.one_place, span, text)
        trade = stitch_named(plain_name, context.uk)
    if trade is not None and (stands_for := first_of_row(trade.name, head + body, context.uk)):
        return Special(short, (), 1, stands_for, True, span, text)
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
    if gathers := next((hit for key in (key_of(name), key_of(short)) if (hit := _GATHERS.match(key))), None):
        # "3dcCL", "2-dc cluster": the name says what is gathered
        plain_one = stitch_named(gathers["base"], context.uk)
        if plain_one is not None:
            return Special(short, (), 1, f"{plain_one.name}{gathers['n']}tog", True, span, text)
    if MOVES.search(body):
        return told_in_movements(head, short, body, trade_name, counted, span, text)
    problems = len(context.problems)
    saved_base = context.base
    reading = read_row(Cursor(tokens, context))
    context.base = saved_base
    del context.problems[problems:]
    items: list[Item] = []
    doubted = False
    for at, item in enumerate(reading.items):
        if (
            isinstance(item, Turning)
            and len(items) > 1
            and isinstance(items[-1], Chain)
            and _begins_sentence(body, items[-1].span.start - tokens[0].start)
            and not any(map(_works, reading.items[at:]))
        ):
            # "LT: 1 tr in missed dc 3 rows below. Ch 1 at start of every row (does not count)": of the rows
            items.pop()
            continue
        if isinstance(item, (Say, Turning, Mark)):
            words = body[item.span.start - tokens[0].start : item.span.end - tokens[0].start]
            if (
                isinstance(item, Say)
                and item.kind in ("words", "unsure")
                and not words.startswith(("or ", "(or "))
                and _SAYS_MORE.search(words)
            ):
                doubted = True
            continue
        if isinstance(item, (Work, Group, Chain, Repeat, Skip, Travel, Join)):
            items.append(item)
        elif isinstance(item, Prose):
            if len(items) == 1 and isinstance(items[0], Work) and items[0].where.down > 1:
                # "dc in the st two rows below, in front of the ch": the rest tells how, not what
                break
            if (
                len(items) == 1
                and isinstance(items[0], Work)
                and _told_where(body[item.span.start - tokens[0].start :])
            ):
                # "Edge stitch: sc through both loops, in the first and last st of every row": it tells where
                break
            if (
                len(items) == 1
                and _plain_one(items[0])
                and _WITHIN.match(words := body[item.span.start - tokens[0].start :])
                and not _SAYS_MORE_OF.search(words)
            ):
                # "waistcoat stitch = sc worked between the legs of the V": where in the stitch below, and no more
                break
            if len(items) == 1 and (legs := _in_one(items[0], body[item.span.start - tokens[0].start :])):
                return Special(short, (), 1, legs, True, span, text)
            return (
                Special(short, (), 1, counted, True, span, text)
                if items and trade_name and STITCHES.get(trade_name) and STITCHES[trade_name].closes
                else None
            )
    if not items:
        return None
    made = shape(short, counted, trade_name, items, span, text)
    # however a picot is told, it is a picot
    return replace(made, doubted=True) if doubted and made.base != "picot" else made


def _plain_one(item: Item) -> bool:
    """True for one stitch that nothing is told of but where it goes."""
    return (
        isinstance(item, Work)
        and item.count == 1
        and item.where.which is Which.STRAIGHT
        and not item.where.loop
    )


_WITHIN = expression(
    r"\W*(?:(?:worked|made|done)\s+)?(?:loosely\s+|down\s+)?(?:by\s+inserting\s+(?:the\s+|your\s+)?hook\s+)?"
    r"(?:between|in|into|through|under|inside)\s+(?:the\s+)?(?:two\s+|2\s+)?"
    r"(?:legs?|v|body|cent(?:re|er)|middle|heart|strands?|bars?)\b",
    re.IGNORECASE,
)
"""Words of a place within the stitch below: "worked between the two legs of the V"."""
_SAYS_MORE_OF = expression(
    r"\b(?:(?!2\b)\d|ch|same|together|tog|twice|times|again|rep\w*|sk|skip\w*|miss\w*|next|three|four|five|six|rows?|rnds?|rounds?"
    r"|first|last|group|shell|fan|square|side)\b",
    re.IGNORECASE,
)
_SAYS_MORE = expression(
    r"\b(?:\d|sc|hdc|dc|tr|htr|ch|legs?|same|together|tog|twice|times|again|rep\w*|sk|skip\w*|miss\w*|two|three|four|five|six)\b",
    re.IGNORECASE,
)
"""Words that, passed over in a definition, may say more of what it makes or uses up."""
