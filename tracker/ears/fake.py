"""An ear that hears what it was told to hear: for tests and for a machine that lacks the real ones.

In: the reports it is to give, each at its `decided_ms` (or `end_ms` for what is passed over). Blocks only
move its clock.
"""

from __future__ import annotations

from tracker.ears.port import RATE, Awaiting, Heard, PassedOver, Report, Saying, Settled


class FakeEar:
    def __init__(self, script: tuple[Report, ...] = ()) -> None:
        self.script = script
        self.awaited: list[Awaiting] = []
        """What it was told to await, in order."""
        self.also: list[tuple[Saying, ...]] = []
        """What could be said beside the table, each time."""
        self.begin()

    def begin(self) -> None:
        self._left = sorted(self.script, key=_due_ms)
        self._fed = 0
        self._deaf_until = 0

    def feed(self, block: bytes) -> list[Report]:
        self._fed += len(block) // 2
        due = [r for r in self._left if _due_ms(r) <= self._fed * 1000 // RATE]
        self._left = self._left[len(due) :]
        return [self._through(r) for r in due]

    def finish(self) -> list[Report]:
        rest, self._left = self._left, []
        return [self._through(r) for r in rest]

    def await_(self, what: Awaiting, also: tuple[Saying, ...] = ()) -> None:
        self.awaited.append(what)
        self.also.append(also)

    def taken_back(self, deed: str = "") -> None:
        """Nothing is learnt here, so there is nothing to forget."""

    def deaf(self, until_ms: int) -> None:
        self._deaf_until = max(self._deaf_until, until_ms)

    def _through(self, report: Report) -> Report:
        if report.start_ms < self._deaf_until and not isinstance(report, Settled):
            return PassedOver(report.start_ms, report.end_ms, "the tool was speaking")
        return report


def _due_ms(report: Report) -> int:
    match report:
        case Heard(decided_ms=due_ms) | PassedOver(end_ms=due_ms) | Settled(at_ms=due_ms):
            return due_ms
