"""More and fewer stitches: "inc", "2 sc in next st", "sc2tog" and all that is said for them."""

from reworded.wording import BEGINS, US, Rewording

_TWO_IN = r"\b2 (sc|dc|hdc|htr|tr) in (?:the )?next (?:st|sc|dc|hdc|htr|tr)\b(?! s?t? ?and)"
_INC = rf"{BEGINS}inc(?=[,;.*)\]])"
_DEC = rf"{BEGINS}dec(?=[,;.*)\]])"
_TOG = rf"{BEGINS}(sc|dc|hdc|tr)2tog(?=[,;.*)\]])"
"""With no place behind it."""
_OVER = rf"{BEGINS}(sc|dc|hdc|tr)2tog over (?:the )?next 2 (?:sts?|sc|dc|hdc|tr)\b"
_ANY_TOG = r"\b([Ss]c|[Dd]c|[Hh]dc|[Tt]r|[Hh]tr)([2-5])tog\b(?!\s*[=:(])"

SHAPING = (
    Rewording("sc2tog over next 2 sts", _TOG, r"\g<1>2tog over next 2 sts"),
    Rewording("sc2tog in next 2 sts", _TOG, r"\g<1>2tog in next 2 sts"),
    Rewording("sc2tog across next 2 sts", _TOG, r"\g<1>2tog across next 2 sts"),
    Rewording("sc next 2 sts tog", _TOG, r"\1 next 2 sts tog"),
    Rewording("sc the next 2 sts together", _TOG, r"\1 the next 2 sts together"),
    Rewording("sc 2 tog", _TOG, r"\1 2 tog"),
    Rewording("sc2together", _ANY_TOG, r"\1\2together"),
    Rewording("sc-2-tog", _ANY_TOG, r"\1-\2-tog"),
    Rewording("SC2TOG", _ANY_TOG, lambda m: m[0].upper()),
    Rewording("sc dec", _TOG, r"\1 dec"),
    Rewording("work sc2tog", _TOG, r"work \g<1>2tog"),
    Rewording("work a sc2tog", _TOG, r"work a \g<1>2tog"),
    Rewording("work 2 sc tog", _TOG, r"work 2 \1 tog"),
    Rewording("work next 2 sts together in sc", _TOG, r"work next 2 sts together in \1"),
    Rewording("sc 2 sts tog", _TOG, r"\1 2 sts tog"),
    Rewording("over: sc next 2 sts tog", _OVER, r"\1 next 2 sts tog"),
    Rewording("over: sc2tog", _OVER, r"\g<1>2tog"),
    Rewording("over: sc2tog across", _OVER, r"\g<1>2tog across next 2 sts"),
    Rewording("over: sc dec over", _OVER, r"\1 dec over next 2 sts"),
    Rewording("inc in next st", _INC, "inc in next st"),
    Rewording("1 inc", _INC, "1 inc"),
    Rewording("increase", r"\binc\b(?!\s*[=:])", "increase"),
    Rewording("work an inc", _INC, "work an inc"),
    Rewording("make an increase", _INC, "make an increase"),
    Rewording("dec over next 2 sts", _DEC, "dec over next 2 sts"),
    Rewording("dec in next 2 sts", _DEC, "dec in next 2 sts"),
    Rewording("decrease", r"\bdec\b(?!\s*[=:])", "decrease"),
    Rewording("invisible decrease", _DEC, "invisible decrease"),
    Rewording("2 sc into one stitch", _TWO_IN, r"2 \1 into one stitch"),
    Rewording("work 2 sc in next st", _TWO_IN, r"work 2 \1 in next st"),
    Rewording("sc twice in next st", _TWO_IN, r"\1 twice in next st"),
    Rewording("sc inc in next st", _TWO_IN, r"\1 inc in next st"),
    Rewording("2 sc in next", _TWO_IN, r"2 \1 in next"),
    Rewording("2 sc both in next st", _TWO_IN, r"2 \1 both in next st"),
    Rewording("sc 2 in next st", _TWO_IN, r"\1 2 in next st"),
    Rewording("(2 sc) in next st", _TWO_IN, r"(2 \1) in next st"),
    Rewording("(sc, sc) in next st", _TWO_IN, r"(\1, \1) in next st"),
    Rewording("single crochet two together", _TOG, lambda m: f"{ {'sc': 'single crochet', 'dc': 'double crochet', 'hdc': 'half double crochet', 'tr': 'treble crochet'}[m[1]] } two together", where=US),
    Rewording("the following two sts together", _TOG, r"\1 the following two sts together"),
    Rewording("sc-dec", _TOG, r"\1-dec"),
    Rewording("sc-inc in next st", _TWO_IN, r"\1-inc in next st"),
    Rewording("inc 1 sc in next st", _TWO_IN, r"inc 1 \1 in next st"),
)  # fmt: skip
