"""THE TABLE of cautions: what a piece's words say, and whether it has open spaces, comes in; sentences go out.

Each is said once and briefly, and gives way to medical advice and to local safety rules. One that the pattern says
itself is left to the pattern.
"""

import re

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """One row of the table."""

    when: str
    """A pattern of the words that call for it; empty: always."""
    told: str
    """A pattern of words by which a text says it already."""
    says: str
    open_only: bool = False
    """True when it is called for only where the fabric has spaces."""


CAUTIONS = (
    Caution(
        "",
        r"rest your hands|repetitive strain",
        "Rest your hands often. Stop if there is pain, numbness or tingling; "
        "what your doctor or therapist says goes first.",
    ),
    Caution(
        r"\b(?:stuff(?:ing|ed)?|toy|doll|rattle|safety eyes?|beads?|buttons?)\b",
        r"small parts|chok",
        "For a child under three, or one who still puts things in the mouth: no beads, buttons or "
        "safety eyes, embroider instead; sew every part on firmly. Local rules for toys go first.",
    ),
    Caution(
        r"\b(?:baby|babies|infant|newborn|cot|crib|pram|preemie)\b",
        r"fingers and toes|small fingers|safe sleep",
        "Open mesh can catch a baby's fingers and toes. Nothing loose belongs in a cot with a sleeping baby; "
        "local advice on safe sleep goes first.",
        open_only=True,
    ),
    Caution(
        r"\b(?:iron|steam|starch|press)\b",
        r"hot work|burn",
        "Steam and irons burn: keep hands away, and try the yarn's label first.",
    ),
    Caution(
        r"\b(?:sew|seam|pins?|scissors|cut)\b",
        r"count your needles|no needle",
        "Count needles, pins and blades when you put the work away, and keep them from children.",
    ),
)


def cautions_for(text: str, has_spaces: bool) -> tuple[str, ...]:
    """What has to be said of a piece whose whole text this is.

    >>> len(cautions_for("Stuff the body. Small parts can choke.", False))
    1
    """
    return tuple(
        row.says
        for row in CAUTIONS
        if (not row.when or re.search(row.when, text, re.IGNORECASE))
        and (has_spaces or not row.open_only)
        and not re.search(row.told, text, re.IGNORECASE)
    )


def is_caution(line: str) -> bool:
    """True for a line of a pattern that says what one of the table's rows would."""
    return any(re.search(row.told, line, re.IGNORECASE) for row in CAUTIONS)
