"""The English phrases the ear is trained on and knows out of the box.

What comes out: `ENGLISH`, a tuple of `Saying`. "{n}" in a phrase stands for a number from 1 to 999. The
front end may hand the ear another table; every phrase there must be made of the words of this one, or be
taught with recordings.
"""

from __future__ import annotations

from tracker.ears.port import Cost, Saying

ENGLISH: tuple[Saying, ...] = (
    Saying("next", ("carry on", "next", "move along", "onward"), Cost.CHEAP),
    Saying("back", ("step back", "back", "one back"), Cost.CHEAP),
    Saying("again", ("say again", "again", "once more"), Cost.CHEAP),
    Saying("pause", ("wait a minute", "pause"), Cost.CHEAP),
    Saying("listen", ("listen to me", "listen", "wake up"), Cost.CHEAP),
    Saying("stop", ("rest now", "stop"), Cost.CHEAP),
    Saying("undo", ("undo that", "undo", "take that back"), Cost.CHEAP),
    Saying("yes", ("yes please", "yes"), Cost.ANSWER),
    Saying("no", ("no thanks", "no"), Cost.ANSWER),
    Saying("help", ("help me", "help", "what can i say"), Cost.CHEAP),
    Saying("where", ("where am i",), Cost.CHEAP),
    Saying("left", ("how many left",), Cost.CHEAP),
    Saying("how", ("show me how", "how do i work that"), Cost.CHEAP),
    Saying("stitch", ("stitch by stitch",), Cost.CHEAP),
    Saying("group", ("group by group",), Cost.CHEAP),
    Saying("by row", ("row by row",), Cost.CHEAP),
    Saying("more", ("tell me more",), Cost.CHEAP),
    Saying("cues", ("only cues",), Cost.CHEAP),
    Saying("faster", ("speak faster",), Cost.CHEAP),
    Saying("slower", ("speak slower",), Cost.CHEAP),
    Saying("row", ("row {n}", "round {n}", "go to row {n}", "go to round {n}"), Cost.ASKED),
    Saying("count", ("count {n}", "i have {n}", "i have {n} stitches"), Cost.ASKED),
)

TAUGHT: dict[str, str] = {s.deed: s.phrases[0] for s in ENGLISH if "{n}" not in s.phrases[0]}
"""The phrase to teach and show for each deed, the first of its phrases: of those the head knows, the one that voices it
had never met kept best, clean, in 10 dB of pink noise and in 10 dB of babble, and that was least taken for others.
`python -m tracker.ears.train WORK --words` measures it; words.txt beside it holds what came of it."""
