"""The English phrases the ear is trained on and knows out of the box.

What comes out: `ENGLISH`, a tuple of `Saying`. "{n}" in a phrase stands for a number from 1 to 999. The
front end may hand the ear another table; every phrase there must be made of the words of this one, or be
taught with recordings.
"""

from __future__ import annotations

from tracker.ears.port import Cost, Saying

ENGLISH: tuple[Saying, ...] = (
    Saying("next", ("next", "onward", "move along"), Cost.CHEAP),
    Saying("back", ("back", "one back"), Cost.CHEAP),
    Saying("again", ("again", "say again"), Cost.CHEAP),
    Saying("pause", ("pause", "hang on"), Cost.CHEAP),
    Saying("listen", ("listen", "listen to me"), Cost.CHEAP),
    Saying("stop", ("stop", "rest now"), Cost.CHEAP),
    Saying("undo", ("undo", "take that back"), Cost.CHEAP),
    Saying("yes", ("yes", "yes please"), Cost.ANSWER),
    Saying("no", ("no", "no thanks"), Cost.ANSWER),
    Saying("help", ("help", "help me"), Cost.CHEAP),
    Saying("where", ("where am i",), Cost.CHEAP),
    Saying("left", ("how many left",), Cost.CHEAP),
    Saying("how", ("how do i work that", "show me how"), Cost.CHEAP),
    Saying("row", ("row {n}", "round {n}", "go to row {n}", "go to round {n}"), Cost.ASKED),
    Saying("count", ("count {n}", "i have {n}", "i have {n} stitches"), Cost.ASKED),
)
