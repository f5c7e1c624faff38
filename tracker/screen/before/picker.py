"""The shelf on the screen: what there is to pick from on the left, a picture of what is looked at on the right.

Comes in: offers, keys, pictures as they are ready. Goes out: a page, and what was picked. Pictures are made
on a thread of their own, one at a time, so that keys never wait for a large pattern.
"""

import threading
from collections.abc import Callable
from pathlib import Path

from tracker.files import Unreadable, text_of
from tracker.hands_free.arrivals import Told
from tracker.hands_free.settings import Settings
from tracker.journal import kept_text
from tracker.records import dataclass
from tracker.screen.before.guide import keys_line
from tracker.screen.before.outcome import Chosen, Left, Outcome
from tracker.screen.before.preview import Picture, caption, drawn, picture_of
from tracker.screen.before.shelf import IN_HAND, Offer, Places, placed
from tracker.screen.drawing.words import Line, clipped, filled, lines_of, shown
from tracker.session.deeds import Back, Deed, Onward, Stop, Yes
from tracker.session.record.choice import Choice, chose, offered

_UP, _DOWN = ("up", "k"), ("down", "j")
_PICK = ("enter", "space")
_LEAVE = ("escape", "q", "ctrl+c", "ctrl+q")
_KEYS = (
    ("↑ ↓", "look"),
    ("enter", "work it"),
    ("g", "guided start"),
    ("t", "another look"),
    ("q", "leave"),
)
_LIST = 34
"""Cells of the list, of a screen that is wide enough for both."""
_NARROW = 64
"""Cells below which there is the list alone."""


@dataclass(frozen=True, slots=True)
class Ready:
    """A picture that was asked for."""

    source: str
    size: str | None
    picture: Picture | None
    trouble: str = ""
    """Why there is none."""


class Picker:
    """The shelf."""

    def __init__(
        self, offers: tuple[Offer, ...], settings: Settings, post: Callable[[object], None], notice: str = "",
        look: Callable[[], Places] | None = None, say: Callable[[str], None] = lambda text: None,
    ) -> None:  # fmt: skip
        """`post` is called from another thread and must only pass the value on.

        `look` says where the pieces stand, in its own time; `say` says something aloud.
        """
        self._offers = offers
        self._mirrored = settings.left_handed
        self._post = post
        self._look = look
        self._say = say
        self._at = 0
        self._asking = "Which size?" if offers and offers[0].size is not None else "What will you work?"
        if offers:
            say(f"{self._asking} {offered(self._choice())}")
        self._sizes: dict[str, str | None] = {}
        self._pictures: dict[tuple[str, str | None], Ready] = {}
        self._asked: tuple[str, str | None] | None = None
        self._notice = notice

    # -- what comes in

    def pressed(self, key: str) -> Outcome:
        """Up and down look, enter picks, left and right change the size, escape goes away."""
        self._notice = ""
        if key in _LEAVE:
            return Left()
        if not self._offers:
            return None
        if key in _UP or key in _DOWN:
            return self.asked(Onward() if key in _DOWN else Back())
        if key in ("home", "end"):
            self._at = 0 if key == "home" else len(self._offers) - 1
            self._say(self._offers[self._at].called)
        elif key in ("left", "right"):
            self._resize(1 if key == "right" else -1)
        elif key in _PICK:
            return self.asked(Yes())
        return None

    def asked(self, deed: Deed) -> Outcome:
        """A deed, by key, by voice or by pedal: next and back look, yes takes, a number takes, stop goes away."""
        if not self._offers:
            return Left() if isinstance(deed, Stop) else None
        came = chose(self._choice(), deed)
        if came.undone:
            return None  # it is about a piece, and there is none yet
        self._at = came.choice.at
        if came.said:
            self._say(came.said)
        if came.left:
            return Left()
        if came.taken is None:
            return None
        offer = self._offers[came.taken]
        return Chosen(offer.name, offer.source, offer.journal, self._size(offer))

    def _choice(self) -> Choice:
        return Choice(tuple(offer.called for offer in self._offers), self._at)

    def _size(self, offer: Offer) -> str | None:
        return offer.size if offer.size is not None else self._sizes.get(offer.source)

    def arrived(self, what: object) -> Outcome:
        """A picture is ready."""
        if isinstance(what, Ready):
            self._pictures[(what.source, what.size)] = what
            self._asked = None
        elif isinstance(what, Told):
            self._notice = self._notice or what.sentence
        elif isinstance(what, Places):
            self._offers = placed(self._offers, what)
        return None

    def tick(self) -> bool:
        """Ask for the picture of what is looked at, when none is being made."""
        if self._look is not None:
            look, self._look = self._look, None
            threading.Thread(target=lambda: self._post(look()), name="places", daemon=True).start()
        wanted = self._wanted()
        if wanted is not None and wanted not in self._pictures and self._asked is None:
            self._asked = wanted
            journal = self._offers[self._at].journal
            threading.Thread(target=self._make, args=(*wanted, journal), name="picture", daemon=True).start()
        return False

    def refused(self, sentence: str) -> None:
        """What was picked cannot be opened."""
        self._notice = sentence

    def close(self) -> None:
        """It holds nothing."""

    def _wanted(self) -> tuple[str, str | None] | None:
        if not self._offers:
            return None
        offer = self._offers[self._at]
        return offer.source, self._size(offer)

    def _resize(self, step: int) -> None:
        offer = self._offers[self._at]
        ready = self._pictures.get((offer.source, self._size(offer)))
        if ready is not None and ready.picture is not None and ready.picture.sizes and _resizable(offer):
            sizes = ready.picture.sizes
            now = self._sizes.get(offer.source) or ready.picture.size or sizes[0]
            self._sizes[offer.source] = sizes[(sizes.index(now) + step) % len(sizes)]

    def _make(self, source: str, size: str | None, journal: Path | None) -> None:
        """On a thread of its own. Of a piece whose pattern is gone, the text that was kept with it is drawn."""
        try:
            name, text = text_of(source)
        except Unreadable as fault:
            found = kept_text(journal) if journal is not None else None
            if found is None:
                self._post(Ready(source, size, None, str(fault)))
                return
            name, text = Path(source).name, found
        self._post(Ready(source, size, picture_of(name, text, size, self._mirrored)))

    # -- what is to be seen

    def page(self, width: int, height: int) -> tuple[Line, ...]:
        """Head, list and picture, foot."""
        head = filled(((f" {self._asking}", "title"),), width, "head")
        second = filled(((f" {self._second()}", "side"),), width, "head")
        rule: Line = (("─" * width, "rule"),)
        high = max(1, height - 5)
        alone = width < _NARROW
        wide = width if alone else max(_LIST, width * 2 // 5)
        rows = self._list(wide - 1, high)
        if not alone:
            picture = self._picture(width - wide - 3, high)
            rows = tuple(
                (*filled(row, wide), ("│ ", "rule"), *filled(beside, width - wide - 2))
                for row, beside in zip(rows, picture, strict=True)
            )
        else:
            rows = tuple(filled(row, width) for row in rows)
        return (head, second, rule, *rows, self._status(width), keys_line(_KEYS, width))[:height]

    def _second(self) -> str:
        if not self._offers:
            return "There is nothing to pick from; name a pattern: rowteller work FILE"
        return f"{self._at + 1} of {len(self._offers)}"

    def _list(self, width: int, height: int) -> tuple[Line, ...]:
        lines: list[Line] = []
        at_line = 0
        kind = ""
        for nth, offer in enumerate(self._offers):
            if offer.kind != kind:
                kind = offer.kind
                lines += [()] if lines else []
                lines.append(((f" {kind}", "then"),))
            here = nth == self._at
            at_line = len(lines) if here else at_line
            role = "mark" if here else "said"
            name = f" {'▸' if here else ' '} {clipped(shown(offer.called), width - 4)}"
            lines.append(filled(((name, role),), width, "mark" if here else "ground"))
            if offer.told:
                told = lines_of(shown(offer.told), width - 6, 2)
                lines += [filled(((f"     {line}", "then"),), width) for line in told]
        # What is looked at stays a third from the top, so that what comes is in sight.
        first = max(0, min(at_line - height // 3, len(lines) - height))
        seen = lines[first : first + height]
        return (*seen, *([()] * (height - len(seen))))

    def _picture(self, width: int, height: int) -> tuple[Line, ...]:
        wanted = self._wanted()
        ready = self._pictures.get(wanted) if wanted is not None else None
        if ready is None:
            return ((), *([()] * (height - 1)))
        if ready.picture is None:
            told = tuple(((line, "then"),) for line in lines_of(shown(ready.trouble), width, height))
            return (*told, *([()] * (height - len(told))))
        words = caption(ready.picture, width, 5)
        lines: list[Line] = [((words[0], "hand"),), *(((line, "then"),) for line in words[1:]), ()]
        lines += drawn(ready.picture, width, height - len(lines))
        return tuple((*lines, *([()] * (height - len(lines))))[:height])

    def _status(self, width: int) -> Line:
        if self._notice:
            return filled((((" " + clipped(shown(self._notice), width - 2)), "warn"),), width, "foot")
        wanted = self._wanted()
        ready = self._pictures.get(wanted) if wanted is not None else None
        sizes = ready.picture.sizes if ready is not None and ready.picture is not None else ()
        words = " ← → another size" if sizes and _resizable(self._offers[self._at]) else ""
        return filled(((words, "foot"),), width, "foot")


def _resizable(offer: Offer) -> bool:
    """A piece that was begun in a size stays in it, and where sizes are offered each is one."""
    return offer.kind != IN_HAND and offer.size is None
