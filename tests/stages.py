"""One real row shown after each stage of the pipeline, for the guide and the test that keeps the guide true.

`python -m tests.stages` prints it.
"""

from dataclasses import fields
from enum import Enum

from tracker.load import load
from tracker.notation.pattern import Row
from tracker.notation.scan import T, scan
from tracker.notation.tree import Item
from tracker.program.places import Program
from tracker.session.apply import Say, Show, apply
from tracker.session.deeds import Onward
from tracker.session.state import begun

PATTERN = """Window sampler

Ch 16.
Row 1 (RS): Dc in 4th ch from hook (counts as dc) and in each ch across. (14 dc)
Row 2: Ch 3 (counts as dc), turn, dc in next 2 dc, (ch 1, sk 1 dc, dc in next dc) 4 times, dc in next 2 dc, dc in top of ch-3. (10 dc, 4 ch-1 sps)
"""


def _told(value: object) -> str:
    """A value of the tree in few words: what is at its default is left out."""
    if isinstance(value, Enum):
        return value.name
    if isinstance(value, tuple):
        return "(" + ", ".join(map(_told, value)) + ")"
    if hasattr(value, "__dataclass_fields__"):
        parts = []
        for field in fields(value):  # type: ignore[arg-type]
            inside = getattr(value, field.name)
            if field.name in ("span", "told_at") or inside == field.default or inside in ((), "", None):
                continue
            parts.append(
                _told(inside) if field.name in ("items", "kinds") else f"{field.name}={_told(inside)}"
            )
        return f"{type(value).__name__}({', '.join(parts)})"
    return repr(value) if isinstance(value, str) else str(value)


def items_told(items: tuple[Item, ...]) -> list[str]:
    """Items of a row, a line each."""
    return [_told(item) for item in items]


def stages() -> str:
    """The row of PATTERN after each stage."""
    loaded = load("sampler", PATTERN)
    row = next(block for block in loaded.pattern.blocks if isinstance(block, Row) and block.label == "Row 2")
    worked = loaded.fabric.row(2).worked
    lines = ["text", "  " + loaded.source.words(row.span), "", "tokens"]
    tokens = scan(loaded.source.text, row.span.start, row.span.end)
    lines.append(
        "  "
        + " ".join(t.text for t in tokens[3:22])
        + " …  ("
        + str(sum(t.kind is not T.END for t in tokens))
        + " in all)"
    )
    lines += ["", "tree (Row)"]
    lines += ["  " + line for line in items_told(row.items)]
    lines += [f"  {_told(row.stated[0])}", "", "fabric (WorkedRow)"]
    lines.append(
        "  made   " + " ".join(("T" if e.turning else "") + e.name.replace(" ", "") for e in worked.elements)
    )
    lines.append("  onto   " + " ".join(",".join(map(str, e.into)) or "–" for e in worked.elements))
    lines.append(f"  makes  {worked.makes}, {worked.stitches} stitches")
    lines += ["", "program and session (what is said at each group)"]
    program = Program(loaded.source, loaded.pattern, loaded.fabric)
    session = begun(program)
    said: list[str] = []
    for at_ms in range(40):
        session, effects = apply(session, Onward(), at_ms)
        words = " ".join(e.text for e in effects if isinstance(e, (Say, Show)) and hasattr(e, "text"))
        if session.place[2] == 2 and words:
            said.append(f"  {session.place}  {words}")
    lines += said
    return "\n".join(lines)


if __name__ == "__main__":
    print(stages())
