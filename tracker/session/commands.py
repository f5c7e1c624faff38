"""THE TABLE of commands: how each deed is asked for by voice, in typed words, with a key and with a pedal.

A new command is one row here. Help, key bindings and the phrases the ear is handed are made from it. "{n}" in a phrase
is a number. A phrase that is spoken has two syllables or more before its short twin, because the short ones drown in
noise (chosen by measurement, see ears/phrases_en.py); those only typed cost the ear nothing.
"""

from collections.abc import Callable

from tracker.planning.balls import tenths_of
from tracker.program.places import Stride
from tracker.records import dataclass
from tracker.session import deeds
from tracker.session.amiss import righting
from tracker.session.deeds import Deed
from tracker.session.fading.length import Length

Renamed = tuple[tuple[str, str], ...]
"""Words of the maker's own: the name of a command, and what is said for it."""


@dataclass(frozen=True, slots=True)
class Command:
    """One way to ask for one deed."""

    name: str
    """The deed's frozen name, as the ear, `hear` and the journal have it."""
    make: Callable[[int], Deed]
    """The deed, from the number in the phrase; 0 when it has none."""
    phrases: tuple[str, ...]
    """What is said, lower case; the one taught first, then the plain word where there is one."""
    help: str
    """What it does, to stand behind what is shown of it."""
    typed: tuple[str, ...] = ()
    """Further spellings that are only typed."""
    key: str = ""
    """Key of the screen, as it names keys; "" for none."""
    pedal: str = ""
    """Press of the pedal: "tap", "double tap" or "hold"; "" for none."""
    cost: str = "cheap"
    """What a mistaken one costs: "cheap" (easily taken back), "asked" (asked back), "answer" (harmless unasked)."""
    spoken: bool = True
    """False for those that the ear is not taught."""
    named: tuple[str, ...] = ()
    """Typed spellings in which "{s}" is the name of a stitch."""
    make_named: Callable[[str], Deed] | None = None
    """The deed, from that name."""
    write: Callable[[str], Deed] | None = None
    """The deed, from the words where "{words}" stands in a typed spelling; None when it takes none."""

    def shown(self, renamed: Renamed = ()) -> str:
        """What help shows of it: the maker's own word, or the phrase taught and the plain word where there is one."""
        if own := dict(renamed).get(self.name):
            return own
        plain = f", {self.phrases[1]}" if len(self.phrases) > 1 and " " not in self.phrases[1] else ""
        return self.phrases[0].replace("{n}", "N") + plain

    @property
    def needs_number(self) -> bool:
        """True when there is no asking without a number."""
        return all("{n}" in phrase for phrase in (*self.phrases, *self.typed))


# fmt: off
PIECE: tuple[Command, ...] = (
    Command("recap", lambda n: deeds.Recap(), ("catch me up",), "all there is to tell of where you are",
            ("tell me everything",), "i", spoken=False),
    Command("rip to row", deeds.RipToRow, ("rip back to row {n}", "rip back to round {n}"),
            "take out all from the start of a row; asked back",
            ("rip to row {n}", "rip to round {n}", "frog to row {n}", "frog back to row {n}"),
            "R", cost="asked", spoken=False),
    Command("rip rows", lambda n: deeds.RipBack(n, Stride.ROW), ("rip back {n} rows",),
            "take out so many rows; asked back",
            ("rip back {n} rounds", "rip {n} rows", "rip back {n} row", "rip back {n} round"),
            cost="asked", spoken=False),
    Command("rip groups", lambda n: deeds.RipBack(n, Stride.GROUP), ("rip back {n} groups",),
            "take out so many groups; asked back", ("rip {n} groups", "rip back {n} group"),
            cost="asked", spoken=False),
    Command("rip stitches", lambda n: deeds.RipBack(n, Stride.STITCH), ("rip back {n} stitches",),
            "take out so many stitches; asked back", ("rip {n} stitches", "rip back {n} stitch"),
            cost="asked", spoken=False),
    Command("rip", deeds.RipBack, ("rip back {n}",), "the same, of whatever a step is; asked back",
            ("rip {n}",), "x", cost="asked", spoken=False),
    Command("rip row", lambda n: deeds.RipBack(0, Stride.ROW), ("rip back this row",),
            "take this row out; asked back",
            ("rip back the row", "rip back this round", "rip the row", "rip back"),
            "X", cost="asked", spoken=False),
    Command("rip to mark", deeds.RipToMark, ("rip back to the mark",),
            "take out all behind your mark; asked back",
            ("rip back to mark {n}", "rip to mark {n}", "rip to the mark", "rip back to my mark"),
            "B", cost="asked", spoken=False),
    Command("mark", lambda n: deeds.MarkHere(), ("mark this",), "remember this place",
            ("note {words}", "mark {words}"), "M", spoken=False, write=deeds.MarkHere),
    Command("marks", lambda n: deeds.Marks(), ("where are my marks",), "the places you marked",
            ("notes", "my marks", "my notes"), "N", spoken=False),
    Command("card", lambda n: deeds.Card(), ("piece card",), "hook, yarn, lot, gauge: the piece card",
            ("read the card", "the card"), "C", spoken=False),
    Command("finished", lambda n: deeds.Finished(), ("what is finished",),
            "copies and parts: finished, begun, left", ("what is left to make", "how many are finished"),
            "F", spoken=False),
    Command("make", deeds.Make, ("make {n} of these",), "so many of it are wanted",
            ("make {n}", "make {n} of it", "make {n} of them", "make {n} copies", "make {n} pieces",
             "make {n} squares", "i want {n} of these"), spoken=False),
    Command("how long", lambda n: deeds.HowLong(), ("how long will it take",), "time left, by your own pace",
            ("time left", "how much longer"), "T", spoken=False),
    Command("enough", lambda n: deeds.Ask("enough"), ("is there enough yarn",), "does the ball do for this row?",
            ("is there enough for this row", "is there enough for this round", "is there enough", "enough",
             "enough yarn"), "E", spoken=False),
    Command("yarn", lambda n: deeds.Ask("yarn"), ("how much yarn so far",), "yarn used, and left of the ball",
            ("yarn so far", "how much yarn", "how much is left of the ball"), "Y", spoken=False),
    Command("weighed", lambda n: deeds.Weighed("ball", 10 * n), ("the ball weighs {n} grams",),
            "what is left of the ball, for the sums",
            ("the ball weighs {n}", "ball weighs {n}", "ball weighs {n} grams", "ball {n} grams", "ball {n}",
             "the ball weighs {words}", "ball weighs {words}", "ball {words}"),
            "W", spoken=False, write=lambda words: deeds.Weighed("ball", tenths_of(words))),
    Command("new ball", lambda n: deeds.Weighed("new ball", 10 * n), ("the new ball weighs {n} grams",),
            "a ball that is just begun",
            ("the new ball weighs {n}", "new ball {n} grams", "new ball {n}", "new ball {words}"),
            spoken=False, write=lambda words: deeds.Weighed("new ball", tenths_of(words))),
    Command("weighs", lambda n: deeds.Weighed("copy", 10 * n), ("a finished one weighs {n} grams",),
            "one that is finished, for better sums",
            ("a finished one weighs {n}", "this one weighs {n} grams", "this one weighs {n}", "weighs {n} grams",
             "weighs {n}", "a finished one weighs {words}", "this one weighs {words}", "weighs {words}"),
            "K", spoken=False, write=lambda words: deeds.Weighed("copy", tenths_of(words))),
    Command("blocked", lambda n: deeds.Blocked(f"{n} cm"), ("it blocked to {n} centimetres",),
            "note the blocked size: blocked square 3: 12 x 12 cm",
            ("blocked {n}", "blocked {n} cm", "blocked to {n} cm", "it blocked to {n} cm", "blocked {words}"),
            "Z", spoken=False, write=deeds.Blocked),
    Command("copy", deeds.GoToCopy, ("piece {n}", "go to piece {n}"),
            "another copy or part, where you left it; asked back",
            ("copy {n}", "go to copy {n}", "square {n}", "go to square {n}"),
            "P", cost="asked", spoken=False),
    Command("part", lambda n: deeds.GoToCopy(n, True), ("part {n}", "go to part {n}"),
            "another part, where you left it; asked back", (), "O", cost="asked", spoken=False),
    Command("rest", deeds.SetRest, ("remind me every {n} minutes",),
            "a reminder to rest your hands, at a row's end",
            ("rest every {n} minutes", "remind {n}", "rest {n}"), "H", spoken=False),
    Command("no rest", lambda n: deeds.SetRest(0), ("no more reminders",), "no reminders to rest",
            ("no reminders", "don't remind me"), spoken=False),
)
"""What is asked of the piece as a whole: coming back, ripping back, marks, copies, the card."""

AMISS: tuple[Command, ...] = (
    Command("lost", lambda n: righting.Lost(), ("i am lost",), "find your place again, question by question",
            ("i'm lost", "find me", "find my place"), "L", spoken=False),
    Command("tally", lambda n: righting.CountWithMe(), ("count with me",), "count tap by tap; tens are called",
            ("count along",), "f", spoken=False),
    Command("tally over", lambda n: righting.TallyOver(), ("that is all",), "the tally's end; yes does it too",
            ("that's all", "done counting"), spoken=False),
    Command("have", lambda n: righting.Kinds(""), ("i have so many of each",),
            "a count by kind: I have 12 dc, 10 ch-2 sp", ("i have {words}", "have {words}"),
            write=righting.Kinds, spoken=False),
    Command("ask counts", righting.AskCounts, ("ask every {n} rows",), "ask for a count at row ends",
            ("ask every {n} rounds", "ask for a count every {n} rows"), spoken=False),
    Command("ask always", lambda n: righting.AskCounts(1), ("ask every row",), "ask for a count at each row's end",
            ("ask every round", "ask for counts"), spoken=False),
    Command("ask at edges", lambda n: righting.AskCounts(-1), ("ask at repeats",), "at repeat edges", spoken=False),
    Command("ask never", lambda n: righting.AskCounts(0), ("no counts",), "ask for none", ("never ask",), spoken=False),
    Command("markers", righting.SetMarkers, ("markers every {n}",), "where a marker saves a count", (), spoken=False),
    Command("no markers", lambda n: righting.SetMarkers(0), ("no markers",), "no word about markers", (), spoken=False),
    Command("mended", lambda n: righting.Mended(), ("it is mended",), "what was carried along is put right",
            ("mended", "it's mended"), spoken=False),
)
"""What is asked while something is amiss."""
# fmt: on

# fmt: off
COMMANDS: tuple[Command, ...] = (
    Command("next", lambda n: deeds.Onward(), ("carry on", "next", "move along", "onward"),
            "the group after this one", ("",), "space", "tap"),
    Command("long enough", lambda n: deeds.LongEnough(), ("that is long enough",),
            "ends rows that go on until it measures; no does it too", ("it is long enough", "that's long enough"),
            spoken=False),
    Command("back", lambda n: deeds.Back(), ("step back", "back", "one back"), "the group before",
            ("b", "previous"), "b", "double tap"),
    Command("again", lambda n: deeds.Again(), ("say again", "again", "once more"),
            "this group once more", ("repeat",), "a", "hold"),
    Command("where", lambda n: deeds.Where(), ("where am i",), "row, repeat and group; twice for all there is",
            ("where", "place"), "w"),
    Command("many", lambda n: deeds.HowMany(), ("how many",), "done in this row, and due",
            ("many", "how many so far"), "m", spoken=False),
    Command("left", lambda n: deeds.Left(), ("how many left",), "still to come in this row",
            ("left", "what is left"), "l"),
    Command("whole", lambda n: deeds.WholeRow(), ("whole row",), "the row from start to end",
            ("whole", "read the row", "whole round"), "r", spoken=False),
    Command("how", lambda n: deeds.HowWorked(), ("show me how", "how do i work that"), "how the stitch is made",
            ("how",), "k", named=("how do i work {s}", "how do i work a {s}", "show me {s}", "how {s}"),
            make_named=deeds.HowWorked),
    Command("then", lambda n: deeds.Ask("then"), ("what then",), "what follows, and where it lands",
            ("then", "what comes after"), "v", spoken=False),
    Command("due", lambda n: deeds.Ask("due"), ("how many in all",), "what is due at the end of the row",
            ("due", "what is due"), "d", spoken=False),
    Command("written", lambda n: deeds.Ask("written"), ("what is written",),
            "the row in the pattern's own words", ("written", "as written", "read the pattern"), "o",
            spoken=False),
    Command("below", lambda n: deeds.Ask("below"), ("what is below",), "what stands in the row below",
            ("below", "the row below", "the round below"), "j", spoken=False),
    Command("ear", lambda n: deeds.Ask("ear"), ("what did you hear",),
            "what was heard and passed over last, and why", ("heard", "can you hear me"), "e", spoken=False),
    Command("row", deeds.GoToRow, ("row {n}", "round {n}", "go to row {n}", "go to round {n}"),
            "to another row; asked back first", ("rnd {n}", "go to rnd {n}", "goto row {n}"), "g",
            cost="asked"),
    Command("count", deeds.Count, ("count {n}", "i have {n}", "i have {n} stitches"),
            "what you counted, to be compared", ("i count {n}", "have {n}", "i counted {n}"), "c",
            cost="asked"),
    Command("squares", lambda n: deeds.Count(n, True), ("i have {n} squares",), "squares you counted",
            ("count {n} squares", "{n} squares"), spoken=False, cost="asked"),
    *PIECE,
    *AMISS,
    Command("undo", lambda n: deeds.Undo(), ("undo that", "undo", "take that back"),
            "take back what was done last", ("u",), "u"),
    Command("redo", lambda n: deeds.Redo(), ("redo",), "do it after all", (), "U", spoken=False),
    Command("stitch", lambda n: deeds.SetStride(Stride.STITCH), ("stitch by stitch",), "one stitch at a step",
            ("stride stitch",), "1"),
    Command("group", lambda n: deeds.SetStride(Stride.GROUP), ("group by group",), "one group at a step",
            ("stride group",), "2"),
    Command("repeat", lambda n: deeds.SetStride(Stride.REPEAT), ("repeat by repeat",), "one repeat at a step",
            ("stride repeat",), "3", spoken=False),
    Command("by row", lambda n: deeds.SetStride(Stride.ROW), ("row by row",), "one row at a step",
            ("stride row",), "4"),
    Command("more", lambda n: deeds.TellMore(), ("tell me more",),
            "this in full, more words from now on; then all around it", ("more",), "plus"),
    Command("full", lambda n: deeds.SetLength(Length.FULL), ("all the words",), "each group told in words",
            ("full", "in full"), "7", spoken=False),
    Command("short", lambda n: deeds.SetLength(Length.SHORT), ("short words",), "each group told shortly",
            ("short",), "8", spoken=False),
    Command("cues", lambda n: deeds.SetLength(Length.CUES), ("only cues",), "only ends and oddities told",
            ("cues",), "9"),
    Command("faster", lambda n: deeds.SpeakSo("faster"), ("speak faster",), "speak faster", ("faster",),
            "right_square_bracket"),
    Command("slower", lambda n: deeds.SpeakSo("slower"), ("speak slower",), "speak slower", ("slower",),
            "left_square_bracket"),
    Command("louder", lambda n: deeds.SpeakSo("louder"), ("too quiet for me",), "speak louder",
            ("louder", "speak louder", "speak up"), spoken=False),
    Command("softer", lambda n: deeds.SpeakSo("softer"), ("not so loud",), "speak softer",
            ("softer", "speak softer"), spoken=False),
    Command("silent", lambda n: deeds.SpeakSo("silent"), ("say nothing",), "say nothing aloud",
            ("silent", "quiet", "mute"), "s", spoken=False),
    Command("aloud", lambda n: deeds.SpeakSo("aloud"), ("talk to me",), "speak again",
            ("aloud", "speak", "speak aloud"), "S", spoken=False),
    Command("yes", lambda n: deeds.Yes(), ("yes please", "yes"), "yes to what was asked", ("y",), "y",
            cost="answer"),
    Command("no", lambda n: deeds.No(), ("no thanks", "no"), "no to what was asked", ("n",), "n",
            cost="answer"),
    Command("pause", lambda n: deeds.Pause(), ("wait a minute", "pause"), "hear nothing for a while",
            (), "p"),
    Command("listen", lambda n: deeds.Listen(), ("listen to me", "listen", "wake up"), "hear again", (), "p"),
    Command("stop", lambda n: deeds.Stop(), ("rest now", "stop"), "rest; your place is kept",
            ("quit", "exit", "q"), "q"),
    Command("help", lambda n: deeds.Help(), ("help me", "help", "what can i say"), "what you can say",
            ("?", "h"), "question_mark"),
)
# fmt: on
"""Every command, in the order in which help tells them."""

ANSWER = Command(
    "number", deeds.Number, ("{n}",), "a number, when one was asked for", cost="answer", spoken=False
)
"""A number alone: in no table, because it means something only after a question."""

BY_NAME: dict[str, Command] = {command.name: command for command in COMMANDS}


def help_lines(renamed: Renamed = ()) -> tuple[str, ...]:
    """Each command with what it does, a line each."""
    shown = [command.shown(renamed) for command in COMMANDS]
    width = max(map(len, shown))
    return tuple(f"{words:{width}}  {command.help}" for words, command in zip(shown, COMMANDS, strict=True))


def help_said(renamed: Renamed = ()) -> str:
    """The commands that the ear is taught, in one breath for who does not look: nothing in it stands alone."""
    own = dict(renamed)
    words = [
        own.get(command.name) or command.phrases[0].replace("{n}", "and a number")
        for command in COMMANDS
        if command.spoken and command.cost != "answer" and command.name not in _HEARD_LATER
    ]
    said = ", ".join(words).replace(" i,", " I,")
    return f"You can say {said}. To a question, yes or no. The rest is shown."


_HEARD_LATER = ("listen", "help")
"""What is told when it is wanted, or was just said."""
