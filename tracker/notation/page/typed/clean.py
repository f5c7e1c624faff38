"""Text as it arrives put right, once, before anything else looks at it.

Any text comes in; out comes text in which no control character, bidirectional mark or odd blank is left, and in
which the typography of web pages and word processors is the plain one. Never raises.
"""

import re
import unicodedata

from tracker.expressions import expression
from tracker.notation.definitions.filet.drawn import drawn_in_words
from tracker.notation.page.labelled.dashed import dashes_as_labels
from tracker.notation.page.labelled.figures import in_figures, likened
from tracker.notation.page.labelled.labels import ALONE
from tracker.notation.page.labelled.steps import steps_as_rows
from tracker.notation.page.sized.several import in_brackets
from tracker.notation.page.typed.glossed import glossed
from tracker.notation.page.typed.listed import set_out
from tracker.notation.page.typed.markdown import counts_plain, labels_plain, lists_plain
from tracker.notation.page.typed.printed import BETWEEN_PAGES, without_print
from tracker.notation.page.typed.stopped import without_stops
from tracker.notation.page.typed.tables import counts_bracketed, untabled

_TABLE: dict[int, str | None] = {
    **{code: None for code in range(0x20) if code not in (0x0A,)},
    **dict.fromkeys(range(127, 160)),
    0x09: "    ",
    0x0B: "\n",
    0x0C: "\n",
    0x85: "\n",
    0x2028: "\n",
    0x2029: "\n",
    **dict.fromkeys((173, 8203, 8204, 8205, 8288, 65279, 1564)),
    **dict.fromkeys((8206, 8207, *range(8234, 8239), *range(8294, 8298))),
    **dict.fromkeys(range(57344, 57360)),
    **dict.fromkeys((160, 5760, *range(8192, 8203), 8239, 8287, 12288), " "),
    **{ord(letter): "'" for letter in "‘’‚‛′`´ʼ"},
    **{ord(letter): '"' for letter in "“”„‟″"},
    **{ord(letter): "-" for letter in "‐‑‒−﹣－"},
    **{ord(letter): "*" for letter in "∗＊✱✳⁎"},
    **{ord(letter): "—" for letter in "―⸺"},
    ord("✕"): "×",
    ord("✖"): "×",
    ord("⨯"): "×",
    ord("…"): "...",
    **dict(zip(map(ord, "ﬀﬁﬂﬃﬄ"), ("ff", "fi", "fl", "ffi", "ffl"), strict=True)),
    **{code: chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)},  # full width
}

_RANGE_DASH = expression(
    r"(?<=\d)–(?=\d)"
    r"|(?<=\b[Cc]h)[–—](?=\d+(?:[ ]?(?:sps?|spaces?|lps?|loops?|arch\w*|corner|bars?|at|and|in|to|from|of|turn|counts?"
    r"|join)\b|\s*[(,;:.)\]](?![\d ,:]+[)\]][ ][a-z])|\s*$))"
    r"|(?<=\d)–(?=ch\b)|(?<=\d) ?– ?(?=\d+\s*[:(])"
    r"|(?<=\d)\s?[–—]\s?(?=(?:Rows?|Rnds?|Rounds?|R)\s?\d)",
    holds="–—",
)
_COUNT_DASH = expression(
    r"(?<=\bch)[–—](?=\d+(?:\s?[(\[{/][\d\s,:/(){}\[\]]*)?\s(?:sc|hdc|dc|tr|htr|sts?)\b)"
    r"|(?<=\bch[- ]\d) ?[–—] ?(?=\d+\s?[(\[{][\d\s,:/]+[)\]}])"
    r"|(?<=\d) [–—] (?=\d+\s?[(\[{][\d\s,:/]+[)\]}]\s(?:e?sc|e?hdc|e?dc|tr|htr|st(?:s|itches)?|shells?|puffs?)\b)",
    re.IGNORECASE,
    "–—",
)
""" "Dc in top of turning ch—49 dc": a count behind a chain, and no chain of 49; "join in ch-3 – 14 (17, 20)"."""
_SPACED_RANGE = expression(
    r"\b(?P<head>(?:[Rr]ows|[Rr]nds|[Rr]ounds|ROWS|RNDS|ROUNDS) \d{1,4}) ?[–—] ?(?P<last>\d{1,4})\b",
    holds="–—",
)
_SHORT_RANGE = expression(
    r"^(?P<head>[ ]*(?:R|r|Rd|Rnd|Rounds?|Rnds?|Rows?)[ ]?\d{1,4})\.?[ ]?[-–—][ ]?(?:R|r)?(?P<last>\d{1,4})"
    r"(?=[ ]{2,}\S|[ ]*[:.(\[]|[ ]+(?:sc|hdc|dc|tr)[ ]+(?:around|in[ ]+(?:all|each|every))\b)",
    re.MULTILINE,
)
""""R6 – 10  sc in all": a range, though a dash may mark a label too ("R2 – 12 sc")."""
_PAGE_NUMBER = expression(
    r"^[ ]*(?:[-–—•~]+[ ]*\d{1,3}[ ]*[-–—•~]+|[Pp]age[ ]+\d{1,3}(?:[ ]+of[ ]+\d{1,3})?)[ ]*$", re.MULTILINE
)
"""A page's number above the rows; those among them are seen to in `printed.py`."""
_LONE_NUMBER = expression(r"(?<=\S\n)(?P<blank>[ ]{9,})\d{1,3}(?=[ ]*\n[ ]*\S)", holds=[" " * 9])
"""A page's number with no blank line about it: the row goes on behind it."""
_SPACED = expression(r"\b(?:[Hh] [Dd] [Cc]|[DdSs] [Cc])\b")
_OLD_ORDINAL = expression(
    r"\b(?P<n>\d?[23])d(?=\s+(?:(?:and|to|or|&)\s+(?:the\s+)?\d+(?:d|st|nd|rd|th)\b|rows?\b|rnds?\b|rounds?\b|st\b"
    r"|sts\b|ch\b|chain\b|d\.? ?c\b|s\.? ?c\b|tr\b|loop\b|sp\b|space\b))",
    holds=["2d ", "3d ", "2d\n", "3d\n"],
)
"""Ordinals of old books: "2d row", "in 3d st"."""
_BROKEN_LABEL = expression(
    r"(?<=\b)(?P<word>Rnd|Row|Round|Rnds|Rows|Rounds)[ ]*\n[ ]*(?=\d{1,4}(?:-\d+)?[:.])",
    holds=[
        word + end
        for word in ("row", "rows", "rnd", "rnds", "round", "rounds")
        for end in (" \n", "\n", "  ")
    ],
)
_BULLETS = "•·▪◦●○■□☐☑✓►▶➤‣⁃»›"
_STEPS = expression(
    r"^[ ]*(?:Rows?|Rnds?|Rounds?|R)\.?[ ]?\d[^\n]{0,80}\n"
    rf"(?:[ ]*(?:[{_BULLETS}]|[-–](?=[ ]))[ ]+(?!(?:Rows?|Rnds?|Rounds?|R)[ ]?\d)[^\n]*(?:\n|$)){{2,}}",
    re.MULTILINE | re.IGNORECASE,
    [*_BULLETS, "- "],
)
"""A row told in steps, each with a line of its own: "Row 2" / "• Ch 1, turn" / "• Sc in first 3 sts"."""
_STEP = expression(rf"(?<=\n)(?P<blank>[ ]*)(?P<sign>[{_BULLETS}–-])(?=[ ])")
_BULLET = expression(rf"^(?P<blank>[ ]*)[{_BULLETS}](?=\s)", re.MULTILINE, _BULLETS)
_ARROWED = expression(
    r"^[ ]*[←-⇿➔-➾⟵-⟶⬀-⬋]\uFE0F?(?=[ ]*(?:Rows?|Rnds?|Rounds?|R)[ ]?\d)", re.MULTILINE | re.IGNORECASE, "→"
)
"""The way a row is worked, drawn before its label."""
_SIGN = "\u2190-\u21ff\u2300-\u23ff\u25a0-\u27bf\u2900-\u2bff\U0001f300-\U0001faff"
_PICTURED = expression(
    rf"^[ ]*(?:[{_SIGN}]\uFE0F?[ ]*){{1,4}}(?=[ ]*(?:Rows?|Rnds?|Rounds?|R)[ ]?\d)",
    re.MULTILINE | re.IGNORECASE,
)
"""Pictures before the label of a row."""
_POINTED = expression(
    rf"(?<=\S)[ ]+[{_SIGN}]\uFE0F?(?=[ ]+\d+[ ]+(?!times|x|more|rows|rnds|rounds)[a-z])", re.IGNORECASE
)
"""A picture that points to a count: "hdc in each ch 👉 7 hdc"."""
_ARROW_BEHIND = expression(
    r"(?<=[\d)\]])[ ]*[←-⇿➔-➾⟵-⟶⬀-⬋]\uFE0F?[ ]*(?=:|[(\[](?:RS|WS)[)\]])", re.IGNORECASE, "←↑→↓↔↖↗↘↙⇐⇒➔➜⟵⟶⬅➡"
)
"""The same behind the label: "Row 4 [WS] ←:"."""
_ARROW_BULLET = expression(r"^[ ]*[→➔➜⟶][ ]+(?=\d+[ ]?ch\b|[A-Za-z])", re.MULTILINE, "→")
"""An arrow that only marks a line of a list, "→ 11 ch"; not one that leads to a count."""
_ARROW = expression(
    r"[→⇒➔➜⟶]|(?<=\s)[-=]>(?=\s)|(?<=\s)(?://|>>|~~?|✓|✔|☑|✅)\uFE0F?(?=\s*\d)",
    holds=["->", "=>", "→", "//", ">>", "~", "✓", "✔", "✅"],
)
"""What leads to a count: "sc in each st → 20 sc", "// 20 sc", "✓ 20 sc"."""
_BULLET_ROW = expression(
    r"(?<=\S)[ ]+[•·▪◦●][ ]+(?=(?:Rows?|Rnds?|Rounds?|R)[ ]?\d)", re.IGNORECASE, _BULLETS
)
""" "… (20 sc) • Row 2: …": rows parted by bullets."""
_BULLET_WITHIN = expression(r"(?<=\S)[ ]+[•·▪◦●](?=[ ])", holds=_BULLETS)
"""A bullet between a label, its row and its count: a dash."""
_CUT_LABEL = expression(r"(?<=[.)\]}])[ ]+(?P<label>R\d{1,3}(?:[-–]R?\d{1,3})?)[ ]*\n[ ]*(?=\S)")
"""A short label that a wrapped line left alone at its end."""


_WITH = expression(r"\bw(?:/(?P<out>o\b)?[ ]*(?=[A-Za-z0-9])|\.[ ]+(?=\d))", re.IGNORECASE, ["w/", "w."])
"""How the hurried write "with" and "without": "join w/ sl st"."""
_INCLUDING = expression(r"\bincl\.(?=[ ])", re.IGNORECASE, ["incl."])
_HYPHENATED = expression(r"\b(?P<head>[A-Za-z]{2,})-[ ]*\n[ ]*(?P<tail>[A-Za-z]{3,})\b", holds=["-\n", "- "])
_ROW_END = expression(r"\b(row)-(ends?)\b", re.IGNORECASE, ["row-"])
_WHOLE = frozenset(
    "post double single half treble triple stitch chain crochet loop space yarn row round".split()
)
"""Words that stand whole behind a hyphen."""


_ORDINALS = {
    word: number
    for number, word in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth "
        "fifteenth sixteenth seventeenth eighteenth nineteenth twentieth".split(),
        1,
    )
}
_ORDINALS |= {
    f"{tens}-{word}": base + _ORDINALS[word]
    for tens, base in (("twenty", 20), ("thirty", 30), ("forty", 40))
    for word in "first second third fourth fifth sixth seventh eighth ninth".split()
}
_ORDINALS |= {"thirtieth": 30, "fortieth": 40}
_ORDINAL = "|".join(sorted(_ORDINALS, key=len, reverse=True))
_ROW_IN_WORDS = expression(
    rf"\b(?P<numbers>(?:{_ORDINAL})(?:(?:\s+(?:to|and|through|&)\s+|,\s*)(?:the\s+)?(?:{_ORDINAL}))*)"
    r"(?P<row>\s+(?:rows?|rnds?|rounds?)\b)",
    re.IGNORECASE,
)
_NAMED_IN_WORDS = expression(
    rf"\b(?P<lead>(?:as|like|from|rep(?:eat)?|than)\s+(?:(?:for|from)\s+)?(?:the\s+)?)(?P<numbers>(?:{_ORDINAL}))(?P<row>\s+(?:rows?|rnds?|rounds?)\b)",
    re.IGNORECASE,
    [" row", " rnd", " round"],
)
""" "The same as the second row": a row named in words, where others are numbered in figures."""
_LIKE_IN_WORDS = expression(
    rf"(?P<lead>\b(?:as|like)\s+(?:the\s+)?)(?P<numbers>{_ORDINAL})(?=\s*(?:[.;)]|$))",
    re.IGNORECASE | re.MULTILINE,
)
""" "Third and Fourth Rounds.—Like the second.": the row is not named again."""
_LABEL_IN_WORDS = expression(
    r"^[ ]*(?P<word>[A-Za-z]+(?:-[A-Za-z]+)?)\s+(?:[Rr]ow|ROW|[Rr]nd|RND|[Rr]ound|ROUND)\b", re.MULTILINE
)
_LED_LABEL = expression(
    rf"^(?P<blank>[ ]*)(?:(?:now|then|next|and)[ ,]+)?(?:(?:for|on|in|to work|to make)[ ])?the[ ]"
    rf"(?P<label>(?:{_ORDINAL})[ ](?:row|rnd|round))\b(?:,[ ]|:[ ]"
    r"|[ ](?:you[ ])?(?=ch(?:ain)?\b|work\b|make\b|\d|sl(?:ip)?\b|\*|join\b))(?!(?:is|are)\b)",
    re.IGNORECASE | re.MULTILINE,
    [" row", " rnd", " round"],
)
""" "For the second round chain 4, …", "The third round: …": a label told in a sentence."""
_BRACKETED = expression(r"^[ ]*\d{1,3}\)[ ]", re.MULTILINE, ") ")
"""Rows that are numbered "1)", "2)"; "48) sts" begins a line where a list of sizes is broken."""
_BRACKETED_RANGE = expression(
    r"^(?P<first>[ ]*\d{1,3})\)?[ ]?(?:to|-|–|through|and|&)[ ]?(?P<last>\d{1,3})\)(?=[ ])",
    re.MULTILINE,
    ") ",
)
_BRACKETED_NAMED = expression(
    r"(?P<lead>\b(?:rep(?:eat)?|as|after|like|than|of|to|and|from)|[,&])[ ]+(?P<number>\d{1,3})\)(?=[\s.,;:–—-])",
    re.IGNORECASE,
    ")",
)
""" "Repeat 2)" among them."""


def _in_figures(hit: re.Match[str]) -> str:
    """ "Fifth to eighth rows" as "5th to 8th rows"."""
    return (
        re.sub(_ORDINAL, _figure, re.sub(r"\bthe\s+", "", hit["numbers"]), flags=re.IGNORECASE) + hit["row"]
    )


def _figure(hit: re.Match[str]) -> str:
    """ "Second" as "2nd"."""
    number = _ORDINALS[hit.group().lower()]
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10 if number // 10 != 1 else 0, "th")
    return f"{number}{ending}"


def _whole_word(hit: re.Match[str]) -> str:
    """A word that the end of a line cut in two, put together; one that is written with a hyphen stays."""
    if hit["tail"].lower() in _WHOLE or hit["head"].lower() in _WHOLE:
        return hit.group()
    return hit["head"] + hit["tail"] + "\n"


_LABEL_WORD = r"(?:R|Rd|Rnd|Round|Row)s?"
_BOXED_LABEL = expression(
    rf"^(?P<blank>[ ]*)(?:[-*>~=_|]{{1,4}}[ ]*)?[\[({{<][ ]?(?P<word>{_LABEL_WORD})[ ]?[.#-]?[ ]?(?P<first>\d{{1,3}})"
    rf"(?:[ ]?[-–][ ]?(?:{_LABEL_WORD})?[ ]?(?P<last>\d{{1,3}}))?[ ]?[\])}}>]"
    rf"(?:[ ]?[-–][ ]?[\[({{<][ ]?(?:{_LABEL_WORD})?[ ]?(?P<end>\d{{1,3}})[ ]?[\])}}>])?[ ]*[:.)-]?(?=[ ]*\S)",
    re.IGNORECASE | re.MULTILINE,
    ["[r", "(r", "{r", "<r"],
)
""" "[R6]-[R10] 1 sc in each st", "(Rnd 3) …": labels in brackets."""
_BOXED_ORDINAL = expression(
    r"^(?P<blank>[ ]*)[\[({][ ]?(?P<told>\d{1,3}(?:st|nd|rd|th)(?:[ ]?(?:-|–|to|and|&)[ ]?\d{1,3}(?:st|nd|rd|th))?"
    r"[ ](?:row|rnd|rd|round)s?)[ ]?[\])}][ ]*[:.)-]?(?=[ ]*\S)",
    re.IGNORECASE | re.MULTILINE,
    ["1st", "2nd"],
)
""" "(2nd rnd) 2 sc in each sc": a label in brackets that counts."""
_JOINED_LABEL = expression(
    rf"^(?P<blank>[ ]*)(?P<word>{_LABEL_WORD})[ ]?[._#-]{{1,2}}[ ]?(?P<first>\d{{1,3}})"
    rf"(?:[ ]?[-–][ ]?(?:{_LABEL_WORD}\.?)?[ ]?(?P<last>\d{{1,3}}))?(?P<end>)[ ]*(?:[:=>|»~]+|[.)](?=[ ]))",
    re.IGNORECASE | re.MULTILINE,
    ["r.", "r-", "r#", "r_", "d.", "d#", "d-", "d_", "w.", "w#", "s.", "s#", " #"],
)
""" "R-4:", "Rnd_4:", "Round #4 >": a joint between word and number."""
_OTHER_MARK = expression(
    rf"^(?P<head>[ ]*{_LABEL_WORD}[ ]?\d{{1,3}}(?:[ ]?[-–][ ]?(?:{_LABEL_WORD}[ ]?)?\d{{1,3}})?"
    rf"(?:[ ]?[&+,][ ]?(?:{_LABEL_WORD}[ ]?)?\d{{1,3}}){{0,3}}(?:[ ]?\((?:RS|WS)\))?)[ ]*"
    rf"(?:>{{1,2}}|=|~|»|►|▶|▸|❯|;|\|\||::)(?=[ ])",
    re.IGNORECASE | re.MULTILINE,
    [">", "=", "~", "»", "►", "▶", "▸", "❯", ";", "||", "::"],
)
""" "Rnd 4 >> sc in each st", "R5 = …": other marks behind a label."""
_COUNT_IN_LABEL = expression(
    rf"^(?P<head>[ ]*{_LABEL_WORD}[ ]?\d{{1,3}})[ ]*[,–—-][ ]*"
    r"(?P<count>\d{1,4}[ ](?:sts?|stitches|e?sc|e?hdc|e?dc|d?tr|htr))(?=[ ]*:)",
    re.IGNORECASE | re.MULTILINE,
)
""" "Row 4 – 18 sc: Ch 1, turn, …": a count between label and row."""
_ANGLED = expression(
    r"(?<!\d )(?<!\d)<[ ]?(?P<count>\d[\w ,.&+-]{0,60}?)[ ]?>(?=[ ]*(?:$|[.;]))", re.MULTILINE, "<"
)
"""A count between "<" and ">" at a line's end."""


_LEADERS = expression(r"(?<=[\w)])[ ]?(?:\.{4,}|(?:\.[ ]){3,}\.)[ ]?(?=\w|\()", 0, ["....", ". . ."])
""" "Row 2 ..... ch 1, turn, sc in each st ..... 12 sc": dots that lead the eye across the line."""
_CHAIN_TOLD = expression(
    r"^(?P<blank>[ ]*)(?:foundation|starting|beginning|base|initial)[ ]ch(?:ain)?s?[ ]?[:=–—-][ ]?(?P<many>\d{1,4})"
    r"(?=[ ]*(?:[.(\[]|$))",
    re.IGNORECASE | re.MULTILINE,
    [" ch"],
)
""" "Foundation chain: 26": what a part begins with."""


def _plain_label(hit: re.Match[str]) -> str:
    """A label as most write it: "R6-10:"."""
    last = hit["last"] or hit["end"]
    return f"{hit['blank']}{hit['word']} {hit['first']}{f'-{last}' if last else ''}: "


def clean(text: str) -> str:
    """The text put right.

    >>> clean("Ch\\u00a03 (counts as dc) \\u2013 \\x1b[31mred")
    'Ch 3 (counts as dc) – [31mred'
    """
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    text = text.translate(_TABLE)
    text = (
        "".join(letter for letter in text if letter.isprintable() or letter == "\n")
        if not text.isascii()
        else text
    )
    text = drawn_in_words(text)
    text = steps_as_rows(labels_plain(set_out(in_brackets(text.replace("*'s", "*s").replace("*'S", "*s")))))
    text = in_figures(dashes_as_labels(likened(text)))
    text = _BOXED_LABEL.sub(_plain_label, text)
    text = _BOXED_ORDINAL.sub(r"\g<blank>\g<told>:", text)
    text = _JOINED_LABEL.sub(_plain_label, text)
    text = _OTHER_MARK.sub(lambda hit: hit["head"] + ": ", text)
    text = _COUNT_IN_LABEL.sub(lambda hit: f"{hit['head']} ({hit['count']})", text)
    text = _ANGLED.sub(lambda hit: f"({hit['count']})", text)
    text = _RANGE_DASH.sub(_hyphen, _COUNT_DASH.sub(" — ", text))
    text = _SPACED_RANGE.sub(lambda hit: hit["head"] + "-" + hit["last"], text)
    text = _SHORT_RANGE.sub(_ranged, text)
    text = glossed(untabled(text))
    text = _CHAIN_TOLD.sub(lambda hit: f"{hit['blank']}Ch {hit['many']}", text)
    text = _STEPS.sub(_in_steps, text)
    text = _BULLET.sub(lambda hit: hit["blank"] + " ", text)
    text = lists_plain(text)
    if not text.isascii():
        text = _PICTURED.sub(lambda hit: " " * len(hit.group()), text)
        text = _POINTED.sub(" —", text)
    text = _LEADERS.sub(" — ", text)
    text = _ARROWED.sub(lambda hit: " " * len(hit.group()), text)
    text = _ARROW_BEHIND.sub(lambda hit: " " * len(hit.group()), text)
    text = _ARROW_BULLET.sub(lambda hit: " " * len(hit.group()), text)
    text = _ARROW.sub("—", text)
    text = _BULLET_ROW.sub("\n", text)
    text = _BULLET_WITHIN.sub(" —", text)
    text = _CUT_LABEL.sub(lambda hit: "\n" + hit["label"] + " ", text)
    text = _OLD_ORDINAL.sub(lambda hit: hit["n"] + ("nd" if hit["n"][-1] == "2" else "rd"), text)
    text = _BROKEN_LABEL.sub(lambda hit: "\n" + hit["word"] + " ", text)
    text = without_print(text)
    text = _PAGE_NUMBER.sub(lambda hit: " " * len(hit.group()), text)
    text = _LONE_NUMBER.sub(
        lambda hit: hit["blank"] + BETWEEN_PAGES * (len(hit.group()) - len(hit["blank"])), text
    )
    text = without_stops(text)
    if {"1)", "2)", "3)"} <= set(map(str.strip, _BRACKETED.findall(text))):
        text = _BRACKETED_RANGE.sub(r"\g<first>-\g<last>)", text)
        text = _BRACKETED_NAMED.sub(r"\g<lead> Row \g<number>", text)
    text = _LED_LABEL.sub(lambda hit: f"{hit['blank']}{hit['label'].capitalize()}: ", counts_bracketed(text))
    if len(_ORDINALS.keys() & map(str.lower, _LABEL_IN_WORDS.findall(text))) >= 2:
        # "Second row: …", "Repeat the third and fourth rows": numbered in words throughout
        text = _LIKE_IN_WORDS.sub(r"\g<lead>\g<numbers> row", text)
        text = _ROW_IN_WORDS.sub(_in_figures, text)
    text = _NAMED_IN_WORDS.sub(lambda hit: hit["lead"] + _in_figures(hit), text)
    text = _WITH.sub(lambda hit: "without " if hit["out"] else "with ", text)
    text = _INCLUDING.sub("incl", text)
    text = _HYPHENATED.sub(_whole_word, text)
    text = _ROW_END.sub(r"\1 \2", text)
    if not re.search(r"\b[sd]c\b", text):
        text = _SPACED.sub(
            lambda hit: (
                hit.group().replace(" ", "").lower()
                if hit.group()[0].islower()
                else hit.group().replace(" ", "")
            ),
            text,
        )
    return counts_plain(text)


def _in_steps(hit: re.Match[str]) -> str:
    """The steps of a row parted by semicolons, the first by nothing."""
    head, _, steps = hit.group().partition("\n")
    if ALONE.fullmatch(head):
        head = head.rstrip() + ":"
    first, *more = steps.split("\n")
    first = _STEP.sub(lambda step: step["blank"] + " ", "\n" + first)
    rest = "".join(_STEP.sub(lambda step: step["blank"] + ";", "\n" + step) for step in more)
    return head + first + rest


_SO_OFTEN = expression(
    r"\d+\s*\((?=[^()\n]*[A-Za-z]{2})(?:[^()\n]*,|(?:\d+\s*)?(?:inc|dec)\b)[^()\n]*\)(?!\s*(?:[x×*]|\d))"
)
"""Behind a dash: "5 (3 sc, inc)", so often what the bracket holds."""


def _hyphen(hit: re.Match[str]) -> str:
    """The plain hyphen of a range; the dash of "Rd 8 – 5 (3 sc, inc)", which is no range, as it stands."""
    return hit.group() if "(" in hit.string and _SO_OFTEN.match(hit.string, hit.end()) else "-"


def _ranged(hit: re.Match[str]) -> str:
    """A range of rows with a plain hyphen, where its second number is the greater."""
    first = int(re.sub(r"\D", "", hit["head"]))
    often = _SO_OFTEN.match(hit.string, hit.start("last"))
    return f"{hit['head']}-{hit['last']}" if int(hit["last"]) > first and not often else hit.group()
