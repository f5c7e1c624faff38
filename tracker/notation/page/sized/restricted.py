"""Labels that say for which sizes their row is, in whatever way: "Next rnd, sizes M and L only:", "Row 9 – L only:".

A text comes in; it comes out with what they say in brackets, as most patterns have it: "Row 9 (L only):".
"""

import re

from tracker.expressions import expression
from tracker.notation.page.sized.size_names import size_names
from tracker.notation.page.sized.sizes import condition_at

_HEAD = (
    r"^(?P<head>[ ]*(?:(?:Rows?|Rnds?|Rounds?|R)[ ]?\d{1,3}(?:[ ]?[-–][ ]?\d{1,3})?"
    r"|(?:Next|Following)[ ](?:\d{1,2}[ ])?(?:rows?|rnds?|rounds?)))"
)
_NAMES = r"(?P<names>(?:for[ ])?(?:the[ ])?(?:sizes?[ ][^:()\[\]\n]{1,40}?|[^:()\[\]\n]{1,40}?[ ](?:sizes?[ ])?only))"
_IN_LABEL = expression(
    rf"{_HEAD}(?:[ ]*[,;–—*-]{{1,2}}|(?=[ ]for[ ]))[ ]*{_NAMES}\*{{0,2}}[ ]*:",
    re.IGNORECASE | re.MULTILINE,
    [" only", "sizes ", "size "],
)
""" "Rnd 3, sizes M and L only:", "Next rnd – M only:", "Row 3 *M only*:"."""
_BRACKETED = expression(
    rf"{_HEAD}[ ]*[(\[][ ]*{_NAMES}[ ]*[)\]][ ]*:",
    re.IGNORECASE | re.MULTILINE,
    ["(size", "[size", "(for ", "[for "],
)
""" "Next round (sizes M, L):": without the word that tells it from others."""
_BEHIND = expression(
    rf"{_HEAD}[ ]*:[ ]*[(\[][ ]*{_NAMES}[ ]*[)\]][ ]*:?", re.IGNORECASE | re.MULTILINE, [" only", "size"]
)
""" "Rnd 3: [Sizes M and L only] Ch 2, …"."""


def restrictions_bracketed(text: str) -> str:
    """The text with the sizes that a label names in brackets behind its number.

    >>> restrictions_bracketed("Sizes: S (M, L)\\nNext rnd, sizes M and L only: Sc around.").split("\\n")[1]
    'Next rnd (M and L only): Sc around.'
    """
    names: tuple[str, ...] | None = None
    for form in (_IN_LABEL, _BRACKETED, _BEHIND):
        if form.search(text) is None:
            continue
        names = size_names(text) if names is None else names

        def put(hit: re.Match[str], sizes: tuple[str, ...] = names) -> str:
            told = hit["names"] if hit["names"].lower().endswith("only") else f"{hit['names']} only"
            told = re.sub(r"^(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?", "", told, flags=re.IGNORECASE)
            known = condition_at(f"{told}:", sizes)
            return hit.group() if known is None or not known[0] else f"{hit['head']} ({told}):"

        text = form.sub(put, text)
    return text
