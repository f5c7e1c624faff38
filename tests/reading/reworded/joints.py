"""What is passed over, and the signs and words that part what follows on one another."""

from reworded.wording import BEGINS, Rewording, in_words

_SK = r"\b(?:sk|skip|miss) (?:next )?(\d+) (sts|sc|dc|hdc|tr|ch|chs)\b"
_SK1 = r"\b(?:sk|skip|miss) (?:the )?next (st|sc|dc|hdc|tr|ch)\b(?! ?-)"
_NEXT = r"(\b(?:sc|dc|hdc|tr) in next (?:\d+ )?(?:sts?|sc|dc|hdc|tr))"

JOINTS = (
    Rewording("skip over", _SK, r"skip over the next \1 \2"),
    Rewording("skipping", _SK, r"skipping next \1 \2"),
    Rewording("skip the next two stitches", _SK, lambda m: f"skip the next {in_words(int(m[1]))} {'stitches' if m[2] == 'sts' else m[2]}"),
    Rewording("sk 2", r"\b(?:sk|skip) (?:next )?(\d+) sts(?=[,;])", r"sk \1"),
    Rewording("pass over", _SK, r"pass over \1 \2"),
    Rewording("sk.", r"\bsk(?= )", "sk."),
    Rewording("skip 1", _SK1, r"skip 1 \1"),
    Rewording("skip the next st", _SK1, r"skip the next \1"),
    Rewording("leave 1 st unworked", _SK1, r"leave 1 \1 unworked"),
    Rewording("leave next st unworked", _SK1, r"leave next \1 unworked"),
    Rewording("skip the first stitch", r"\b(?:sk|skip) first st\b", "skip the first stitch"),
    Rewording("miss first", r"\b(?:sk|skip) first (st|sc|dc|hdc|tr)\b", r"skip the very first \1"),
    # Between one thing and the next.
    Rewording("then", rf"{_NEXT}, (?=\w)", r"\1, then "),
    Rewording("and then", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch|sk|skip|\d)\b)", r"\1, and then "),
    Rewording("and", rf"{_NEXT}, (?=(?:ch|sk|skip)\b)", r"\1 and "),
    Rewording("semicolons", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch|sk|skip|\d)\b)(?![^(\n]*\))", r"\1; "),
    Rewording("plus", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch|sk|skip|\d)\b)", r"\1 + "),
    Rewording("ampersand for and", r"(?<!Row \d) and (?=in |each )", " & "),
    Rewording("comma and", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch|sk|skip|\d)\b)", r"\1, and "),
    Rewording("followed by", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch|\d)\b)", r"\1, followed by "),
    Rewording("full stops", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch|sk|skip|\d)\b)(?![^(\n]*\))(?![^*\n]*rep)", r"\1. "),
    Rewording("no blank behind commas", r"(?<=[a-z]), (?=(?:sc|dc|hdc|ch|sk)\b)", ","),
    Rewording("no commas", rf"{_NEXT}, (?=(?:sc|dc|hdc|ch|sk|skip)\b)", r"\1 "),
    Rewording("slash", rf"{_NEXT}, (?=(?:sc|dc|hdc|ch)\b)", r"\1 / "),
    Rewording("line breaks", r"(?<=[a-z]), (?=(?:sc|dc|hdc|ch|sk) )", ",\n"),
    Rewording("ch, and", rf"{BEGINS}ch (\d), (?=sk|skip)", r"ch \1 and "),
    Rewording("also", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr) )", r"\1, also "),
    Rewording("finally", r", (?=(?:sc|dc|hdc|tr) in last)", ", finally "),
    Rewording("lastly", r", (?=(?:sc|dc|hdc|tr) in last)", " and lastly "),
    Rewording("Then", rf"{_NEXT}, (?=ch|sk)", r"\1. Then "),
    Rewording("plus in words", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|\d)\b)", r"\1 plus "),
    Rewording("after that", rf"{_NEXT}, (?=(?:sc|dc|hdc|tr|ch)\b)", r"\1, after that "),
)  # fmt: skip
