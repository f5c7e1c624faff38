"""The pieces of a joining as they lie, as SVG, the seam in hand lit. How far the joining is comes in, SVG goes out.

What is joined has a full line between, what is in hand a heavy one and both its pieces framed, what is to come a
dashed one.
"""

from html import escape

from tracker.program.joining import Joining, joints_of

_WIDE, _HIGH, _GAP, _MARGIN = 60.0, 34.0, 12.0, 8.0
_ACROSS, _DOWN = 9, 4
"""Pieces that are drawn at most: those around the pair in hand."""


def seams(joining: Joining) -> str:
    """All of it, or as much as can be read around the pair in hand."""
    layout = joining.layout
    now = joining.now
    near = (now.pairs[0][0] if now else 1) - 1
    top = max(0, min(layout.down - _DOWN, near // layout.across - 1))
    left = max(0, min(layout.across - _ACROSS, near % layout.across - _ACROSS // 2))
    down, across = min(_DOWN, layout.down), min(_ACROSS, layout.across)
    lit = {piece for pair in now.pairs for piece in pair} if now else set()

    def corner(piece: int) -> tuple[float, float] | None:
        row, at = divmod(piece - 1, layout.across)
        if not (top <= row < top + down and left <= at < left + across):
            return None
        return _MARGIN + (at - left) * (_WIDE + _GAP), _MARGIN + (row - top) * (_HIGH + _GAP)

    out = []
    for piece in range(1, layout.down * layout.across + 1):
        if (place := corner(piece)) is None:
            continue
        x, y = place
        state = "now" if piece in lit else "done"
        out.append(f'<rect class="{state}" x="{x:g}" y="{y:g}" width="{_WIDE:g}" height="{_HIGH:g}"/>')
        out.append(
            f'<text x="{x + _WIDE / 2:g}" y="{y + _HIGH / 2 + 5:g}" text-anchor="middle">{piece}</text>'
        )
    for nth, joint in enumerate(joints_of(layout)):
        state = "done" if nth < joining.joint else "now" if nth == joining.joint else "coming"
        for pair in joint.pairs:
            if corner(pair[0]) is None or (place := corner(pair[1])) is None:
                continue
            x, y = place
            way = (
                f"M{x:g},{y - _GAP / 2:g}h{_WIDE:g}" if joint.across else f"M{x - _GAP / 2:g},{y:g}v{_HIGH:g}"
            )
            out.append(f'<path class="seam {state}" d="{way}"/>')
    wide = across * (_WIDE + _GAP) - _GAP + 2 * _MARGIN
    high = down * (_HIGH + _GAP) - _GAP + 2 * _MARGIN
    told = escape(f"{joining.seam}: {joining.pieces}" if now else "how the pieces lie")
    return f'<svg viewBox="0 0 {wide:g} {high:g}" role="img" aria-label="{told}">{"".join(out)}</svg>'
