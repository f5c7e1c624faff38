"""The English phrases the ear is trained on and knows out of the box.

What comes out: `ENGLISH`, a tuple of `Saying`. "{n}" in a phrase stands for a number from 1 to 999. The
front end may hand the ear another table; every phrase there must be made of the words of this one, or be
taught with recordings.
"""

from __future__ import annotations

from tracker.ears.port import Cost, Saying

ENGLISH: tuple[Saying, ...] = (
    Saying("next", ("next", "move along", "onward"), Cost.CHEAP),
    Saying("back", ("back", "one back"), Cost.CHEAP),
    Saying("again", ("again", "once more", "say again"), Cost.CHEAP),
    Saying("pause", ("pause", "wait a minute"), Cost.CHEAP),
    Saying("listen", ("listen", "wake up", "listen to me"), Cost.CHEAP),
    Saying("stop", ("stop", "rest now"), Cost.CHEAP),
    Saying("undo", ("undo", "undo that", "take that back"), Cost.CHEAP),
    Saying("yes", ("yes", "yes please"), Cost.ANSWER),
    Saying("no", ("no", "no thanks"), Cost.ANSWER),
    Saying("help", ("help", "what can i say", "help me"), Cost.CHEAP),
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

TAUGHT: dict[str, str] = {
    "next": "move along",
    "back": "one back",
    "again": "once more",
    "pause": "wait a minute",
    "listen": "wake up",
    "stop": "rest now",
    "undo": "undo that",
    "yes": "yes",
    "no": "no thanks",
    "help": "what can i say",
    "where": "where am i",
    "left": "how many left",
    "how": "show me how",
}
"""The phrase to teach and show for each deed: of those tried, the one that two neural voice families the
head had never met kept best, clean, at 10 dB pink noise and in 10 dB babble. Only 4 to 13 sayings of each
were tried, so neighbours in this list are not really apart; percent kept, those three in order: rest now
100 100 90, no thanks 100 87 87, wait a minute 85 85 71, how many left 100 100 75, show me how 100 100 75,
one back 100 75 66, wake up 100 75 75, move along 100 100 37, once more 100 100 25, undo that 100 100 22,
where am i 100 71 57; beside them next 71 28 0, stop 10 20 0, pause 66 0 0, undo 100 66 0, again 100 42 42.
"What can i say", 100 16 33, stands for help, whose other phrases (help 54 45 9, help me 62 0 0) were lost
when clean."""
