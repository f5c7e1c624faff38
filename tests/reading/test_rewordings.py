"""The same pattern in another designer's words makes the same fabric."""

import pytest
from reworded.wording import Rewording
from rewordings import REWORDINGS, some, told

EACH = 2
"""So many patterns of every second rewording are read in a test; the command of `rewordings.py` reads them all."""


@pytest.mark.parametrize("rewording", REWORDINGS[::2], ids=lambda each: each.name)
def test_other_words_for_the_same_make_the_same_fabric(rewording: Rewording) -> None:
    """Rows, counts and no error: what the truth says of the pattern in its own words."""
    found = told(rewording, some(rewording, EACH))
    assert found.changed, "no pattern of the corpora has words to put in these others"
    assert not found.amiss, "\n".join(found.amiss)


def test_no_two_rewordings_share_a_name() -> None:
    """They are called by it."""
    assert len({each.name for each in REWORDINGS}) == len(REWORDINGS)
