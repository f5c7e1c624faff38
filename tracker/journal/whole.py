"""One piece's journal as one value, and as one file that another machine opens.

A Whole comes in and text goes out, and back: the same Whole, entry for entry. Text that is none of ours is a ValueError
with one sentence. The file is JSON, a line for each thing that was kept, so that it can be read with any editor.
"""

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from hashlib import sha256
from typing import Any

from tracker.journal.entries import Anchor, Entry, Text, digest_of

FORMAT = "rowteller piece"
"""The first words of every such file."""
EDITION = 1
SUFFIX = ".piece"


@dataclass(frozen=True, slots=True)
class Fact:
    """Something that was said of the whole piece."""

    at_ms: int
    key: str
    value: str


@dataclass(frozen=True, slots=True)
class Whole:
    """All that is kept of a piece."""

    entries: tuple[Entry, ...]
    texts: tuple[Text, ...]
    facts: tuple[Fact, ...]

    @property
    def text(self) -> Text | None:
        """The pattern's text in use."""
        return self.texts[-1] if self.texts else None

    @property
    def name(self) -> str | None:
        """What the maker calls the piece."""
        return next((fact.value for fact in reversed(self.facts) if fact.key == "name"), None)

    @property
    def last(self) -> Entry | None:
        """The latest entry."""
        return self.entries[-1] if self.entries else None

    @property
    def begins_as(self) -> str:
        """What tells this piece from all others, on every machine: the text and the deed it began with."""
        first = self.entries[0] if self.entries else None
        words = (
            self.texts[0].digest if self.texts else "",
            [first.at_ms, first.deed, list(first.place)] if first else None,
        )
        return sha256(json.dumps(words).encode()).hexdigest()[:16]


def written(whole: Whole) -> str:
    """The piece as the text of one file."""
    head = {FORMAT: EDITION, "name": whole.name}
    lines: list[dict[str, Any]] = [head]
    lines += [{"text": asdict(text)} for text in whole.texts]
    lines += [{"fact": asdict(fact)} for fact in whole.facts]
    lines += [{"entry": {**asdict(entry), "arguments": dict(entry.arguments)}} for entry in whole.entries]
    return "".join(f"{json.dumps(line, ensure_ascii=True, separators=(',', ':'))}\n" for line in lines)


def read(text: str) -> Whole:
    """The piece from the text of such a file; ValueError when it is none, or was changed on the way."""
    entries: list[Entry] = []
    texts: list[Text] = []
    facts: list[Fact] = []
    for number, line in enumerate(_lines(text), 1):
        try:
            what = json.loads(line)
            if number == 1:
                edition = what[FORMAT]
                if not isinstance(edition, int) or edition > EDITION:
                    raise ValueError("it was written by a later rowteller; update this one")
                continue
            ((kind, value),) = what.items()
            if kind == "text":
                texts.append(Text(**value))
            elif kind == "fact":
                facts.append(Fact(**value))
            else:
                entries.append(_entry(value))
        except (KeyError, TypeError, AttributeError, json.JSONDecodeError, RecursionError):
            where = "it does not begin as one" if number == 1 else f"its line {number} cannot be read"
            raise ValueError(where) from None
    _check(entries, texts, facts)
    return Whole(tuple(entries), tuple(texts), tuple(facts))


def _lines(text: str) -> Iterable[str]:
    lines = [line for line in text.split("\n") if line.strip()]
    if not lines:
        raise ValueError("it is empty")
    return lines


def _entry(value: dict[str, Any]) -> Entry:
    anchor = value["anchor"]
    return Entry(
        value["number"],
        value["at_ms"],
        value["deed"],
        dict(value["arguments"]),
        tuple(int(number) for number in value["place"]),
        Anchor(**{**anchor, "passes": tuple(anchor["passes"])}) if anchor is not None else None,
        value["note"],
    )


def _check(entries: list[Entry], texts: list[Text], facts: list[Fact]) -> None:
    numbers = [entry.number for entry in entries]
    sound = (
        all(isinstance(entry.at_ms, int) and isinstance(entry.deed, str) for entry in entries)
        and all(isinstance(number, int) for number in numbers)
        and numbers == sorted(set(numbers))
        and all(isinstance(text.text, str) and isinstance(text.source, str) for text in texts)
        and all(isinstance(text.at_ms, int) and isinstance(text.from_entry, int) for text in texts)
        and all(isinstance(fact.key, str) and isinstance(fact.value, str) for fact in facts)
    )
    if not sound:
        raise ValueError("what stands in it does not fit together")
    if any(digest_of(text.text) != text.digest for text in texts):
        raise ValueError("the pattern's text in it was changed on the way")
