"""The built-in engine: endpointer, speech embeddings, trained head, and the maker's own recordings when
there are any.

In: blocks of 16 kHz samples. Out: Heard and PassedOver, each some 0.2 s after the word's end. A command
stands alone between two silences; what follows other speech closely needs to be surer. Raises EarMissing on
making when a package is missing.
"""

from __future__ import annotations

import time
from collections import deque
from dataclasses import dataclass, replace

import numpy as np

from tracker.ears.hearing.head import Floats, Head, Opinion, together
from tracker.ears.hearing.judge import NOT_SURE, PHRASE_RELIEF, QUIET_DB, Judge, Verdict, is_rest
from tracker.ears.hearing.mouth import SIZES
from tracker.ears.hearing.sitting import Sitting
from tracker.ears.hearing.sound.cores import cores
from tracker.ears.hearing.sound.embed import Cut, Embedder, cut_of
from tracker.ears.hearing.sound.endpoint import Endpointer, Samples, Segment
from tracker.ears.hearing.sound.hiss import LEAD_MS, ROOM_MS, begins_with_hiss
from tracker.ears.hearing.templates import Likeness, Templates
from tracker.ears.hearing.words import classes
from tracker.ears.port import Awaiting, Cost, Heard, Learnt, PassedOver, Report, Saying, Settled
from tracker.ears.teaching import agreement, placed, spread, stretches, teach

MERGE_MS = 450
"""Speech after so short a silence may be the rest of the same phrase."""
TALK_MS, TALK_IN_NOISE_MS = 450, 900
"""A word so soon after longer speech that was no command is part of that speech; noise swallows parts of it."""
LONG_MS = 350
"""Speech of this length is talk rather than a cough or a click."""
SOFTER_DB = 12.0
"""What is softer than the word by more than this is somebody or something else."""
RECENT_MS, MUCH_MS, TALK_HANDICAP = 5000, 1200, 1.5
"""After so much talk in the last five seconds a command must be surer: the radio is on, or somebody reads."""
PIECES, PIECES_MS = 3, 3000
"""Or after so many stretches of speech in so short a time, for noise leaves of talk only short pieces. A room of many
voices by itself leaves none."""
APART_MS = 2000
"""A phrase so soon after any other speech gets no relief: noise breaks a sentence into pieces that may be like one."""
SHORTEST_MS = 90
OTHERS, LOOK_AGAIN = (0.87, 1.15), 1.0
"""What is nearly a phrase, or one, is looked at again as smaller and larger mouths would say it: of a chance likeness
less is left. It takes as much from single words as from what is like them, so those are not."""
CORES_IN_MS = 4500
CORE_NEEDS = 0.5
"""A command that is only part of a stretch of sound must be so much surer."""
LONGEST_MS = 3500
SWALLOWED_MS = 300
"""In a loud room a phrase may have begun so much before what stood out of it: noise swallows the soft sounds of its
start. Set on 275 taught phrases by voices never trained on: in 10 dB of pink noise it keeps 223 for 214, in babble 181
for 173; 200 and 400 keep two fewer in each."""
MURMUR_DB, LATELY_MS = 6.0, 10_000
"""In a loud room a row or a count that nobody asked for, softer by this than the command heard so lately, is somebody
else's: a room full of voices is taken for speech again once the maker is silent, and spelt as numbers."""
HISSING = ("st", "sp", "sk")
"""How words begin whose first sound is easily overheard."""
LEARNT_FROM = 0.8
"""A command must be this much surer than it need be before the ear learns the voice from it."""


@dataclass(slots=True)
class _Unsettled:
    """A command that was told, and may yet turn out to be the beginning of something else."""

    segment: Segment
    settles_ms: int


class EmbeddedEar:
    def __init__(
        self, sayings: tuple[Saying, ...], *, strict_name: str | None = None,
        embedder: Embedder | None = None, head: Head | None = None,
    ) -> None:  # fmt: skip
        self._embedder = embedder or Embedder()
        self._head = head or Head()
        self._sayings, self._strict = sayings, strict_name
        self._usual = self._judge = Judge(sayings, strict_name=strict_name)
        self._also: tuple[Saying, ...] = ()
        self._templates = Templates()
        self.sitting = Sitting(self._head.usual)
        self._awaiting = Awaiting.COMMAND
        self._size = 1.0
        self._to_size: tuple[Cut, str] | None = None
        self.begin()

    def teach(self, recordings: list[tuple[str, Samples]]) -> list[str]:
        """The maker's own recordings, phrase and samples; returns one sentence for each that could not be
        used."""
        known = [(phrase, sound) for phrase, sound in recordings if self._judge.meaning(phrase)]
        self.sitting.own(self._of_known_class(known))
        self._templates, faults = teach(known, self._hidden)
        strange = dict.fromkeys(phrase for phrase, _ in recordings if not self._judge.meaning(phrase))
        return [*faults, *(f'"{phrase}" is in no command, so it was not learnt.' for phrase in strange)]

    def meaning(self, phrase: str) -> tuple[str, int | None] | None:
        """The deed and number that a phrase of the table asks for; None when it is in no saying."""
        return self._judge.meaning(phrase)

    def spread(self, takes: list[Samples]) -> list[float]:
        """How far each of several recordings of one phrase lies from the nearest other; empty when one holds no
        word."""
        return spread(takes, self._hidden)

    def agreement(self) -> dict[str, tuple[int, int]]:
        """For each phrase taught: how many of its recordings the others would have recognised, of how
        many."""
        return agreement(self._templates)

    def taken_back(self, deed: str = "") -> None:
        """That deed, or the last command, was taken back by the maker: nothing is learnt from it."""
        self._size_up()
        self.sitting.unlearn(deed)

    def learnt(self) -> Learnt:
        """What is known of this voice and room, to be kept."""
        return self.sitting.learnt()

    def recall(self, learnt: Learnt) -> None:
        """What was kept of an earlier sitting; an empty one forgets."""
        self.sitting.recall(learnt)
        self._to_size, self._size = None, self.sitting.mouth.size

    def begin(self) -> None:
        self._size_up()
        self.sitting.begin()
        self._last: tuple[Floats, int] = (np.zeros((1, 96), np.float32), 0)
        self._endpointer = Endpointer()
        self._deaf_until = 0
        self._before: Segment | None = None
        self._before_heard = False
        self._heard_words, self._heard_until, self._heard_db = "", 0, -120.0
        self._talk: deque[Segment] = deque(maxlen=12)
        self._unsettled: _Unsettled | None = None

    def feed(self, block: bytes) -> list[Report]:
        self._size_up()
        samples = np.frombuffer(block, dtype="<i2").astype(np.float32) / np.float32(32768)
        reports: list[Report] = []
        for segment in self._endpointer.feed(samples):
            reports += self._segment(segment)
        return reports + self._due()

    def finish(self) -> list[Report]:
        reports: list[Report] = []
        for segment in self._endpointer.finish():
            reports += self._segment(segment)
        return reports + self._settle(stands=True)

    def await_(self, what: Awaiting, also: tuple[Saying, ...] = ()) -> None:
        self._awaiting = what
        if also == self._also:
            return
        self._also = also
        self._judge = Judge((*self._sayings, *also), strict_name=self._strict) if also else self._usual

    def deaf(self, until_ms: int) -> None:
        self._deaf_until = max(self._deaf_until, until_ms)

    def _segment(self, segment: Segment) -> list[Report]:
        began = time.perf_counter()
        if segment.start_ms < self._deaf_until:
            self._before = None
            return [PassedOver(segment.start_ms, segment.end_ms, "the tool was speaking")]
        if segment.too_long:
            self._before, self._before_heard = segment, False
            self._talk.append(segment)
            return [
                *self._settle(stands=False),
                PassedOver(segment.start_ms, segment.end_ms, "talk, not a command"),
            ]
        if segment.end_ms - segment.start_ms < SHORTEST_MS:
            return [PassedOver(segment.start_ms, segment.end_ms, "a click, not a word")]
        before = self._before
        gap = segment.start_ms - before.end_ms if before else 10_000
        recent = sum(s.end_ms - s.start_ms for s in self._talk if s.end_ms > segment.start_ms - RECENT_MS)
        pieces = sum(s.end_ms > segment.start_ms - PIECES_MS for s in self._talk)
        talking = recent >= MUCH_MS or pieces >= PIECES
        handicap = TALK_HANDICAP if talking else 0.0
        alone = self._judged(segment.start_ms, segment.end_ms, handicap, segment.over_db)
        verdict, start_ms, last = alone, segment.start_ms, self._last
        if (
            before
            and gap < MERGE_MS
            and not self._before_heard
            and segment.end_ms - before.start_ms < LONGEST_MS
        ):
            whole = self._judged(before.start_ms, segment.end_ms, 0.0, segment.over_db)
            if whole.deed and (not alone.deed or whole.score > alone.score):
                verdict, start_ms, last = whole, before.start_ms, self._last
        end_ms = segment.end_ms
        chained = before is not None and gap < MERGE_MS and not self._before_heard
        whole_ms = before.start_ms if chained and before is not None else segment.start_ms
        if not verdict.deed:
            for core_ms, core_end_ms in self._cores(whole_ms, end_ms):
                core = self._judged(core_ms, core_end_ms, handicap + CORE_NEEDS, segment.over_db)
                if core.deed and core.number is None and (not verdict.deed or core.score > verdict.score):
                    verdict, start_ms, end_ms, last = core, core_ms, core_end_ms, self._last
        earlier_ms = self._swallowed_from(whole_ms, segment) if not verdict.deed and not talking else whole_ms
        if earlier_ms < whole_ms:
            more = self._judged(earlier_ms, end_ms, 0.0, segment.over_db)
            if more.deed and more.number is None and " " in more.words:
                verdict, start_ms, last = more, earlier_ms, self._last
        self._last = last
        if not verdict.deed and verdict.why.startswith(NOT_SURE):
            deed, number = self._judge.meaning(verdict.words) or ("", None)
            if number is None and verdict.score >= self.sitting.needs(deed, segment.end_ms):
                verdict = replace(verdict, deed=deed, why="")
        if (verdict.deed or verdict.why.startswith(NOT_SURE)) and self._amid_talk(start_ms, segment):
            verdict = Verdict(None, verdict.words, verdict.score, "said in the middle of talk")
        if verdict.deed and self._lacks_its_hiss(verdict.words, start_ms, segment):
            verdict = Verdict(None, verdict.words, verdict.score, "not a command")
        said_before = self._heard_words if self._before_heard and gap < MERGE_MS else ""
        if verdict.number is None and is_rest(verdict.words, said_before, segment.end_ms - segment.start_ms):
            verdict = Verdict(None, verdict.words, verdict.score, "the rest of what was heard")
        answers = self._judge.costs.get(verdict.deed or "") is Cost.ANSWER
        if answers and self._awaiting is Awaiting.COMMAND and talking:
            verdict = Verdict(None, verdict.words, verdict.score, "an answer, but nothing was asked")
        if verdict.number is not None and self._murmured(segment):
            verdict = Verdict(None, verdict.words, verdict.score, "softer than the command before it")
        if verdict.deed and verdict.score < self.sitting.needs(verdict.deed, segment.end_ms):
            verdict = Verdict(None, verdict.words, verdict.score, f"{NOT_SURE}: {verdict.words}?")
        if not verdict.deed:
            self._talk.append(segment)
        reports: list[Report] = []
        waiting = self._unsettled
        if waiting and (verdict.deed or segment.level_db > waiting.segment.level_db - SOFTER_DB):
            reports += self._settle(stands=False)
        merged = Segment(start_ms, end_ms, segment.decided_ms, False, segment.level_db, segment.over_db)
        # noise may break a phrase into several stretches: they are kept as one chain until it is heard
        chain_ms = start_ms if verdict.deed else whole_ms
        self._before = replace(merged, start_ms=chain_ms, end_ms=segment.end_ms)
        self._before_heard = verdict.deed is not None and not verdict.wait_ms
        self._heard_words = verdict.words if verdict.deed else ""
        self._heard_until = segment.end_ms if verdict.deed else self._heard_until
        self._heard_db = segment.level_db if verdict.deed and verdict.number is None else self._heard_db
        compute_ms = (time.perf_counter() - began) * 1000
        if verdict.deed and verdict.wait_ms:
            self._unsettled = _Unsettled(merged, segment.decided_ms + verdict.wait_ms)
        return [*reports, self._report(verdict, merged, segment.decided_ms, compute_ms)]

    def _cores(self, start_ms: int, end_ms: int) -> list[tuple[int, int]]:
        """What stands out of a stretch of sound that may be more than the word."""
        found = cores(self._endpointer.cut(start_ms, end_ms)) if end_ms - start_ms < CORES_IN_MS else []
        return [(start_ms + a, start_ms + b) for a, b in found]

    def _lacks_its_hiss(self, words: str, start_ms: int, segment: Segment) -> bool:
        """Whether it is no "stop" but a "top": told in a quiet room, where no name and no recordings of it tell it
        better."""
        if words[:2] not in HISSING or " " in words or segment.over_db < QUIET_DB:
            return False
        if self._strict or words in self._templates.phrases:
            return False
        room = self._endpointer.cut(start_ms - ROOM_MS, start_ms - LEAD_MS)
        return not begins_with_hiss(self._endpointer.cut(start_ms - LEAD_MS, segment.end_ms), room)

    def _amid_talk(self, start_ms: int, segment: Segment) -> bool:
        """Whether longer speech, as loud, ended just before the word began."""
        soon_ms = TALK_MS if segment.over_db >= QUIET_DB else TALK_IN_NOISE_MS
        return any(
            start_ms - soon_ms < s.end_ms <= start_ms
            and s.end_ms - s.start_ms >= LONG_MS
            and s.level_db > segment.level_db - SOFTER_DB
            for s in self._talk
        )

    def _swallowed_from(self, whole_ms: int, segment: Segment) -> int:
        """Where a phrase may have begun of which a loud room leaves only the end: never in what was said before it."""
        spoken = any(s.start_ms < whole_ms and s.end_ms > whole_ms - APART_MS for s in self._talk)
        if segment.over_db >= QUIET_DB or spoken:
            return whole_ms
        return max(self._heard_until, self._deaf_until, whole_ms - SWALLOWED_MS)

    def _murmured(self, segment: Segment) -> bool:
        """Whether a number there is too soft, beside the command before it, to be the maker's."""
        lately = segment.start_ms < self._heard_until + LATELY_MS and self._awaiting is Awaiting.COMMAND
        return lately and segment.over_db < QUIET_DB and segment.level_db < self._heard_db - MURMUR_DB

    def _soon_after(self, start_ms: int) -> bool:
        """Whether any speech that was no command ended shortly before that moment, or there was much of it of late."""
        much = sum(s.end_ms - s.start_ms for s in self._talk if s.end_ms > start_ms - RECENT_MS) >= MUCH_MS
        return much or any(start_ms - APART_MS < s.end_ms <= start_ms for s in self._talk)

    def _due(self) -> list[Report]:
        waiting = self._unsettled
        if (
            not waiting
            or self._endpointer.speaking_since_ms is not None
            or self._endpointer.fed_ms < waiting.settles_ms
        ):
            return []
        self._before_heard = True
        return self._settle(stands=True)

    def _settle(self, *, stands: bool) -> list[Report]:
        waiting, self._unsettled = self._unsettled, None
        if waiting is None:
            return []
        if not stands:
            self._talk.append(waiting.segment)
        return [Settled(waiting.segment.start_ms, stands, self._endpointer.fed_ms)]

    def _judged(self, start_ms: int, end_ms: int, handicap: float, over_db: float) -> Verdict:
        embeddings, opinion = self._listen_to(start_ms, end_ms, over_db)
        nearest: list[Likeness] = []
        if len(self._templates):
            hidden = self._hidden(self._endpointer, start_ms, end_ms, over_db)
            nearest = self._templates.nearest(hidden, over_db)
        verdict = self._verdict(opinion, end_ms - start_ms, handicap, nearest, over_db, start_ms)
        if " " in verdict.words and verdict.number is None and verdict.score > -LOOK_AGAIN:
            again = self._looked_at_again(opinion, start_ms, end_ms, over_db)
            verdict = self._verdict(again, end_ms - start_ms, handicap, nearest, over_db, start_ms)
        self._last = (embeddings, int(opinion.classes.argmax()))
        return verdict

    def _verdict(
        self,
        opinion: Opinion,
        length_ms: int,
        handicap: float,
        nearest: list[Likeness],
        over_db: float,
        start_ms: int,
    ) -> Verdict:
        talk = self._soon_after(start_ms)
        return self._judge(opinion, length_ms, self._awaiting, handicap, nearest, over_db, amid_talk=talk)

    def _looked_at_again(self, opinion: Opinion, start_ms: int, end_ms: int, over_db: float) -> Opinion:
        """What the head makes of it as larger and smaller mouths would say it, together: of a chance likeness less."""
        shift, sizes = self.sitting.shift(), [self._size * other for other in OTHERS]
        others = [self._embeddings(self._endpointer, start_ms, end_ms, over_db, size) for size in sizes]
        classes = [opinion.classes, *(self._head(embeddings - shift).classes for embeddings in others)]
        mean = np.logaddexp.reduce(classes) - np.log(len(classes))
        return replace(opinion, classes=mean.astype(np.float32))

    def _listen_to(self, start_ms: int, end_ms: int, over_db: float) -> tuple[Floats, Opinion]:
        """An utterance's embeddings as they came, and what the head makes of them once the voice is allowed
        for."""
        cut = cut_of(self._endpointer, start_ms, end_ms, loud=over_db < QUIET_DB)
        views, shift = self._embedder.views(cut, self._size), self.sitting.shift()
        return views[0], together([self._head(view - shift) for view in views])

    def _embeddings(
        self, ear: Endpointer, start_ms: int, end_ms: int, over_db: float, size: float = 1.0
    ) -> Floats:
        return self._embedder(cut_of(ear, start_ms, end_ms, loud=over_db < QUIET_DB), size)

    def _size_up(self) -> None:
        """Learns from the last command how large this voice's mouth is: after its report, which should not wait."""
        if self._to_size is None:
            return
        (cut, deed), self._to_size = self._to_size, None
        shift = self.sitting.shift()
        as_said = (self._head(self._embedder(cut, size) - shift) for size in SIZES)
        self.sitting.mouth.fits(deed, tuple(self._judge.sureness(opinion, deed) for opinion in as_said))
        self._size = self.sitting.mouth.size

    def _hidden(self, ear: Endpointer, start_ms: int, end_ms: int, over_db: float) -> Floats:
        """What is compared with the maker's own recordings: it must not move as the voice is learnt."""
        cut = cut_of(ear, start_ms, end_ms, loud=over_db < QUIET_DB)._replace(unsteady=True)
        return self._head(self._embedder(cut) - self.sitting.shift(learnt=False)).hidden

    def _of_known_class(self, recordings: list[tuple[str, Samples]]) -> list[tuple[Floats, int]]:
        """The embeddings and class of those recordings that say what the head knows."""
        index = {name: i for i, name in enumerate(classes())}
        found = []
        for phrase, sound in recordings:
            ear, words = stretches(placed(sound)) if phrase in index else (self._endpointer, [])
            if words:
                whole = self._embeddings(
                    ear, words[0].start_ms, words[-1].end_ms, max(w.over_db for w in words)
                )
                found.append((whole, index[phrase]))
        return found

    def _report(self, verdict: Verdict, segment: Segment, decided_ms: int, compute_ms: float) -> Report:
        if verdict.deed is None:
            return PassedOver(segment.start_ms, segment.end_ms, verdict.why)
        eased = PHRASE_RELIEF if " " in verdict.words and verdict.number is None else 0.0
        if verdict.score >= LEARNT_FROM + eased:
            self.sitting.learn(*self._last, verdict.deed)
            if verdict.number is None:
                loud = segment.over_db < QUIET_DB
                cut = cut_of(self._endpointer, segment.start_ms, segment.end_ms, loud=loud)
                self._to_size = cut, verdict.deed
        self.sitting.stood(verdict.deed, segment.end_ms)
        sureness = float(1 / (1 + np.exp(-verdict.score - 1)))
        return Heard(
            verdict.deed, verdict.words, round(sureness, 3), segment.start_ms, segment.end_ms, decided_ms,
            round(compute_ms), verdict.number, verdict.ask,
            decided_ms + verdict.wait_ms if verdict.wait_ms else None,
        )  # fmt: skip
