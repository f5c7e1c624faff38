"""Decides whether an utterance is a command, which, and how surely.

In: the head's opinion, the table of sayings, what is awaited, how long the utterance was. Out: a `Verdict`.
The score is the log-odds of a deed against everything else the head knows, with part of the spelling's
margin over the best free spelling; how much score a deed needs depends on what a mistake would cost.
Nothing here knows the stream or the clock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from tracker.ears.hearing.figures import Number, best_number, free_score, spelling_scores
from tracker.ears.hearing.head import Opinion
from tracker.ears.hearing.templates import MANY, Likeness
from tracker.ears.hearing.words import NAMES, SIMPLE, SLOTTED, classes, number_words, units
from tracker.ears.port import Awaiting, Cost, EarMissing, Saying

SPELLING_SHARE = 0.3
SPELLING_LEAST = -15.0
NEEDED = {Cost.CHEAP: -0.5, Cost.ANSWER: -0.2, Cost.ASKED: 0.8}
"""Score a deed needs. One with a number needs more, for long speech is like it: with an earlier head, on voices it was
not trained on, 0.5 for -0.5 more than halved what talk in noise was taken for and heard a sixth fewer numbers wrongly;
it cost one in forty of those heard right, one in twelve in noise."""
SHORT_NEEDS = 0.75
"""A phrase of one word needs so much more: it is what words said alone are taken for."""
SHORT_IN_NOISE = 0.25
"""And so much more still in a loud room, where little is left of it."""
PHRASE_RELIEF = 1.0
"""A phrase of two words or more needs so much less where no talk is about, for little is like it. On four families of
voices never trained on, of 494 taught phrases, 1.25 for 0 keeps 94 % for 92 clean, 77 for 71 in 10 dB of pink noise,
53 for 43 in babble, wrong 1, 3 and 8 of them for 0, 1 and 1; of 1,384 words and sentences that are no command, half of
them chosen to be like one, 33 for 13 are taken for a phrase. 1.0 lies between."""
OFTEN_MISTAKEN = {"stop": 0.3, "move along": 1.0}
"""Words that common ones differ from by a sound ("top", "shop") need so much more still; so does a soft murmur."""
MISTAKEN_IN_NOISE = {"stop": 3.0}
"""And so much more in a loud room, which hides the first sound of "stop": of fifteen lone "top"s in 10 dB of pink
noise, by voices never trained on, eight were taken for it, as surely as "stop" itself. "Rest now" is heard there."""
WORD_IN_LOUD_TALK = 1.5
"""A word alone while somebody talks in a loud room needs so much more still: noise leaves single words of a sentence,
and they are heard there as well as commands are."""
BARE_ROW_NEEDS = 0.8
"""And so does "row" or "round" with a number and nothing else: much is like it that makers mutter."""
WORD_FOR_NUMBER_NEEDS = 1.0
"""Where a number was asked for a command of one word needs so much more: "five" is like "pause"."""
ANSWER_RELIEF = 3.0
"""After a question for it a yes or a no needs this much less; where a number was asked for, "zero" is too like "no"."""
NUMBER_RELIEF = 1.0
"""And a number so much less still, when one was asked for."""
NEARLY = 1.2
"""What lacks no more than this was nearly a command, and is said to be."""
SURE_MARGIN = 2.0
"""A number this far ahead of any other is not asked back for doubt."""
THIN_MARGIN, THIN_ALONE, THIN_IN_NOISE, THIN_ALONE_IN_NOISE = 0.6, 1.0, 1.6, 2.2
"""Below this even asking back would be a guess; a number alone has no other words to stand by it. On seven families of
voices 1.0 for 0.6 hears one such number in twenty-two less, and a third fewer wrongly. In 10 dB of pink noise, on
eleven voices of espeak-ng in bodies not trained with, 1.6 for 2.2 hears 70 rows and counts of 176 for 54, 3 of them
wrongly as before."""
QUIET_DB = 24.0
"""A room is quiet when the word stands out of it by this much."""
GOES_ON_MS = 180
"""An unfinished number is waited for so much longer."""
READ_ALOUD_MS = 1200
"""A pattern read aloud says "Row four:" and goes on after a breath (1.1 s in the slowest voice tried); a maker who asks
for row four says no more. Nor does one who means a yes or a no, but for sentences that begin with it."""
GOES_ON_IN_TALK_MS = 800
"""And so long is waited after any other phrase with a number: what a sentence holds that is like one goes on."""
NAMED_BY = 1.0
"""In strict mode the spelling with the name must beat the one without it by this."""
NAMED_RELIEF = 2.0
"""The name said first is itself evidence that a command follows."""
HEAD_SHARE, HEAD_LEAST, HEAD_MOST = 0.4, -10.0, 3.0
"""How much the head's score says beside the maker's own recordings, and its bounds. What it finds altogether unlike a
phrase is seldom one in noise, however near: with -6, of 240 taught phrases in 10 dB of pink noise by three voices that
nothing was set on, one was also taken for another, and of 276 words that makers say as they work 11 were taken for one,
for 7; kept are 231 and 232."""
OWN_RELIEF = 2.0
"""In noise, where many phrases are taught, the likest of them needs so much less, for it is nearly always the right
one. Set on four voices, measured on five others that nothing was trained on, in 10 dB of babble: kept 80 % for 72
without it, wrong 1 for 0; of 210 words that makers say as they work 7 for 1 were taken for one, of 260 chosen to be
like a command 34 for 15."""
UNLIKE_OWN = 1.5
"""What the head takes for a deed of which the maker has recordings, and they do not say so, needs so much more."""
LONGEST_WORD_MS = 850
LONGEST_PHRASE_MS = 1500
LONGEST_START_MS, LONGEST_EACH_MS = 500, 450
"""A phrase with a number lasts at most this and so much for each of its words."""

SHORTEST_PHRASE_MS = 350
"""No phrase of several words is said in less: what is taken for one is the end of it, with what was before."""

NOT_SURE = "not sure enough"
_NUMBERS = {number_words(n, said_and=said): n for n in range(1000) for said in (False, True)}


@dataclass(frozen=True, slots=True)
class Verdict:
    """What an utterance was taken for."""

    deed: str | None
    """None: passed over."""
    words: str
    score: float
    """How far over what was needed; below nought for what was passed over."""
    why: str
    number: int | None = None
    ask: bool = False
    wait_ms: int = 0
    """How much longer silence must last before it counts: the phrase may not be finished, or be read aloud."""


def is_rest(words: str, before: str, length_ms: int) -> bool:
    """Whether words told right after others are only the rest of those: noise broke a phrase in two.

    >>> is_rest("help me", "help", 400), is_rest("next", "next", 200), is_rest("only cues", "only cues", 200)
    (True, False, True)
    """
    again = words == before and " " in words and length_ms < SHORTEST_PHRASE_MS
    return again or (before != "" and words.startswith(f"{before} "))


def _longest_ms(words: str) -> int:
    """Nobody takes longer over a word, or a phrase."""
    return LONGEST_WORD_MS if " " not in words else LONGEST_PHRASE_MS


@dataclass(frozen=True, slots=True)
class _Scored:
    """What the head makes of one phrase."""

    deed: str
    words: str
    score: float
    """Log-odds of the deed with part of the spelling's."""
    spelt: float


class Judge:
    """Holds the table of sayings, worked into the head's classes and units."""

    def __init__(self, sayings: tuple[Saying, ...], *, strict_name: str | None = None) -> None:
        known = {word: i for i, word in enumerate(units())}
        names = classes()
        self.sayings = sayings
        self.costs = {s.deed: s.cost for s in sayings}
        self.costs["number"] = Cost.ASKED
        self.strict = strict_name
        self.simple: list[tuple[str, str, list[int]]] = []
        self.slotted: dict[str, tuple[str, tuple[str, ...]]] = {}
        for saying in sayings:
            plain = [p for p in saying.phrases if "{n}" not in p]
            for phrase in plain:
                words = phrase.split()
                if all(w in known for w in words):
                    self.simple.append((saying.deed, phrase, [known[w] for w in words]))
            for label, phrases in SLOTTED.items():
                mine = tuple(p for p in phrases if p in saying.phrases)
                if mine:
                    self.slotted[label] = (saying.deed, mine)
        self.slotted["number"] = ("number", SLOTTED["number"])
        # a known phrase that this table leaves out counts for the deed whose other phrases are in it, not
        # against it
        self.masses: dict[str, list[int]] = {}
        for saying in sayings:
            groups = [group for group in SIMPLE.values() if set(group) & set(saying.phrases)]
            taken = {p for other in sayings if other.deed != saying.deed for p in other.phrases}
            known_too = {*saying.phrases, *(p for group in groups for p in group if p not in taken)}
            wanted = {i for i, name in enumerate(names) if name in known_too}
            self.masses[saying.deed] = sorted(wanted | set(self.masses.get(saying.deed, ())))
        if strict_name and strict_name not in NAMES:
            raise EarMissing(f"The ear can be called {', '.join(NAMES)}, but not {strict_name}.")
        self.name_units = [known[strict_name]] if strict_name else []
        longest = max((len(u) for *_, u in self.simple), default=0) + len(self.name_units)
        self._targets = np.zeros((len(self.simple), longest), np.int64)
        for i, (*_, spelt) in enumerate(self.simple):
            full = [*self.name_units, *spelt]
            self._targets[i, : len(full)] = full
        self._lengths = np.array([len(u) + len(self.name_units) for *_, u in self.simple])

    def meaning(self, phrase: str) -> tuple[str, int | None] | None:
        """The deed and number a phrase asks for, or None when it is in no saying."""
        if phrase in _NUMBERS:
            return "number", _NUMBERS[phrase]
        for saying in self.sayings:
            for known in saying.phrases:
                before, slot, after = known.partition("{n}")
                if phrase == known:
                    return saying.deed, None
                middle = phrase[len(before) : len(phrase) - len(after)]
                if slot and phrase.startswith(before) and phrase.endswith(after) and middle in _NUMBERS:
                    return saying.deed, _NUMBERS[middle]
        return (phrase, None) if phrase in self.costs else None

    def __call__(
        self,
        opinion: Opinion,
        length_ms: int,
        awaiting: Awaiting,
        handicap: float = 0.0,
        nearest: Sequence[Likeness] = (),
        over_db: float = 60.0,
        *,
        amid_talk: bool = False,
    ) -> Verdict:
        """`handicap` is added to what is needed: for speech that follows other speech closely. `nearest` is
        what the maker's own recordings say. `amid_talk`: there was much talk of late, so a phrase gets no relief."""
        relief = 0.0 if amid_talk or handicap or nearest or self.name_units else PHRASE_RELIEF
        scored = self._scored(opinion)
        found = [
            self._simple(scored, length_ms, awaiting, relief, over_db),
            self._slotted(opinion, length_ms, awaiting, over_db),
        ]
        best = max((v for v in found if v), key=lambda v: v.score)
        support = (
            {s.words: s.score - self._needed(s.deed, s.words, awaiting) for s in scored} if nearest else {}
        )
        taught = self._taught(nearest, best, support, awaiting, over_db)
        if len(nearest) >= MANY and best.number is None and self._deeds_of(nearest, best.deed):
            best = replace(best, score=best.score - UNLIKE_OWN)
        if taught and (best.score < 0 or taught.score > best.score):
            best = taught
        if handicap and over_db < QUIET_DB and " " not in best.words:
            handicap += WORD_IN_LOUD_TALK
        if best.score >= handicap:
            return best
        why = best.why or "not a command"
        if why == "not a command" and not handicap and best.words and best.score > -NEARLY:
            why = f"{NOT_SURE}: {best.words}?"
        return Verdict(None, best.words, best.score - handicap, why)

    def _deeds_of(self, nearest: Sequence[Likeness], deed: str | None) -> bool:
        """Whether the maker taught a phrase of that deed."""
        return any((self.meaning(likeness.phrase) or ("",))[0] == deed for likeness in nearest)

    def sureness(self, opinion: Opinion, deed: str) -> float:
        """How sure the head is of that deed, in log-odds; far below nought for one that always has a number."""
        return max((s.score for s in self._scored(opinion) if s.deed == deed), default=-9.0)

    def _scored(self, opinion: Opinion) -> list[_Scored]:
        """Every phrase without a number; none where the name was wanted and not said."""
        if not self.simple:
            return []
        spelt = spelling_scores(opinion.units, self._targets, self._lengths)
        if self.name_units:
            unnamed = spelling_scores(
                opinion.units, self._targets[:, len(self.name_units) :], self._lengths - len(self.name_units)
            )
            if float(spelt.max()) < float(unnamed.max()) + NAMED_BY:
                return []
        spelt = spelt - free_score(opinion.units)
        odds: dict[str, float] = {}
        for deed in dict.fromkeys(d for d, *_ in self.simple):
            chosen = self.masses[deed]
            log_p = float(np.logaddexp.reduce(opinion.classes[chosen])) if chosen else -12.0
            odds[deed] = log_p - float(np.log(max(1e-6, 1 - np.exp(min(log_p, 0.0)))))
        return [
            _Scored(deed, phrase, odds[deed] + SPELLING_SHARE * max(float(one), SPELLING_LEAST), float(one))
            for (deed, phrase, _), one in zip(self.simple, spelt, strict=True)
        ]

    def _simple(
        self, scored: list[_Scored], length_ms: int, awaiting: Awaiting, relief: float, over_db: float
    ) -> Verdict:
        if not scored:
            why = "the name was not said first" if self.simple else "not a command"
            return Verdict(None, "", -9.0, why)
        best = max(scored, key=lambda s: (s.score, s.spelt))
        longer = 700 if self.strict else 0
        # noise or an accent may leave of "help me" little but the "help": of 560 taught phrases by 28 voices never
        # trained on this keeps 520 for 512 clean, 491 for 475 in 10 dB of pink noise, 338 for 328 in babble, wrong as
        # many as before; of 644 words that makers say as they work 6, 4, 16 are taken for one, for 6, 4, 12
        if length_ms > SHORTEST_PHRASE_MS:
            said = [s for s in scored if s.deed == best.deed and best.words in s.words]
            fitting = [s for s in said if length_ms <= _longest_ms(s.words) + longer]
            best = max(
                fitting, key=lambda s: (self._over(s, awaiting, relief, over_db), s.spelt), default=best
            )
        deed, words, over = best.deed, best.words, self._over(best, awaiting, relief, over_db)
        if length_ms > _longest_ms(words) + longer and over >= 0:
            return Verdict(None, words, -0.01, "too long for a command")
        unasked = awaiting is Awaiting.COMMAND and self.costs.get(deed) is Cost.ANSWER
        wait_ms = READ_ALOUD_MS if unasked else 0
        return Verdict(deed, words, over, "" if over >= 0 else "not a command", wait_ms=wait_ms)

    def _over(self, scored: _Scored, awaiting: Awaiting, relief: float, over_db: float) -> float:
        """How far that phrase is over what it needs."""
        over = scored.score - self._needed(scored.deed, scored.words, awaiting)
        if " " in scored.words:
            return over + relief
        if over_db < QUIET_DB and not self.name_units:
            over -= SHORT_IN_NOISE + MISTAKEN_IN_NOISE.get(scored.words, 0.0)
        return over - (WORD_FOR_NUMBER_NEEDS if awaiting is Awaiting.NUMBER else 0.0)

    def _slotted(
        self, opinion: Opinion, length_ms: int, awaiting: Awaiting, over_db: float
    ) -> Verdict | None:
        names = classes()
        labels = [label for label in self.slotted if label != "number" or awaiting is Awaiting.NUMBER]
        log_p = {label: float(opinion.classes[names.index(label)]) for label in labels}
        if not labels:
            return None
        together = float(np.logaddexp.reduce(list(log_p.values())))
        odds = together - float(np.log(max(1e-6, 1 - np.exp(min(together, 0.0)))))
        if odds < -3 and awaiting is not Awaiting.NUMBER:
            return None
        phrases = tuple(p for label in labels if log_p[label] > together - 5 for p in self.slotted[label][1])
        frames = opinion.units if opinion.figures is None else opinion.figures
        found: Number = best_number(frames, phrases)
        if self.name_units:
            named = best_number(frames, tuple(f"{self.strict} {p}" for p in phrases))
            if named.score < found.score + NAMED_BY:
                return None
            found = Number(named.number, found.phrase, named.score, named.margin, named.open_ended)
        label = next(lab for lab in labels if found.phrase in self.slotted[lab][1])
        deed = self.slotted[label][0]
        words = found.phrase.replace("{n}", number_words(found.number))
        spelt = found.score - free_score(frames)
        relief = (ANSWER_RELIEF + NUMBER_RELIEF if awaiting is Awaiting.NUMBER else 0.0) + (
            NAMED_RELIEF if self.name_units else 0.0
        )
        over = odds + SPELLING_SHARE * max(spelt, SPELLING_LEAST) - NEEDED[Cost.ASKED] + relief
        if found.phrase.count(" ") == 1:
            over -= BARE_ROW_NEEDS
        if length_ms > LONGEST_START_MS + LONGEST_EACH_MS * len(words.split()):
            return Verdict(None, words, -0.01, "too long for a command")
        quiet, noisy = (
            (THIN_ALONE, THIN_ALONE_IN_NOISE) if label == "number" else (THIN_MARGIN, THIN_IN_NOISE)
        )
        if over >= 0 and found.margin < (quiet if over_db >= QUIET_DB else noisy):
            return Verdict(None, words, -0.01, f"a number, but which? {words}")
        ask = deed != "number" or found.margin < SURE_MARGIN
        wait_ms = GOES_ON_MS if found.open_ended else 0
        if label != "number":
            wait_ms = READ_ALOUD_MS if found.phrase.count(" ") == 1 else GOES_ON_IN_TALK_MS
        why = "" if over >= 0 else "not a command"
        return Verdict(deed, words, over, why, found.number, ask, wait_ms)

    def _taught(
        self,
        nearest: Sequence[Likeness],
        head: Verdict,
        support: dict[str, float],
        awaiting: Awaiting,
        over_db: float,
    ) -> Verdict | None:
        """The likest of the maker's own recordings, with part of what the head thinks of each: `support` says it of the
        phrases that the head knows."""
        best: Verdict | None = None
        relief = OWN_RELIEF if over_db < QUIET_DB and len(nearest) >= MANY else 0.0
        for likeness in nearest[:4]:
            deed, number = self.meaning(likeness.phrase) or ("", None)
            if not deed or (deed == "number" and awaiting is not Awaiting.NUMBER):
                continue
            same = (head.deed, head.number) == (deed, number)
            thought = head.score if same else min(-3.0, -head.score - 2)
            agrees = min(HEAD_MOST, max(HEAD_LEAST, support.get(likeness.phrase, thought)))
            score = likeness.score + HEAD_SHARE * agrees + relief
            if best is None or score > best.score:
                ask = self.costs.get(deed) is Cost.ASKED and deed != "number"
                best = Verdict(
                    deed, likeness.phrase, score, "" if score >= 0 else "not a command", number, ask
                )
        return best

    def _needed(self, deed: str, words: str, awaiting: Awaiting) -> float:
        needed = NEEDED[self.costs.get(deed, Cost.CHEAP)]
        if not self.name_units:  # with a name before it no word stands alone
            needed += (0.0 if " " in words else SHORT_NEEDS) + OFTEN_MISTAKEN.get(words, 0.0)
        if awaiting is Awaiting.ANSWER and self.costs.get(deed) is Cost.ANSWER:
            needed -= ANSWER_RELIEF
        return needed - (NAMED_RELIEF if self.name_units else 0.0)
