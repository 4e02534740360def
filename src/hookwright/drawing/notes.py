"""The words of a schematic: the part's name above it; sizes, side and direction of work below."""

from __future__ import annotations

from collections.abc import Sequence

from ..measuring import PartMeasures
from .labels import Label, Sheet, wrapped
from .landmarks import colour_starts
from .outline_frame import COLOURS_SHOWN


def write_notes(sheet: Sheet, parts: Sequence[PartMeasures], names: Sequence[str], left_handed: bool, *, bent: str = "") -> None:
    """Write them round what the sheet already holds. `bent`: what is told of a piece whose rows bend."""
    part = parts[0]
    left = min(box.x for box in sheet.boxes)
    right = max(box.x + box.width for box in sheet.boxes)
    head = part.name or "Piece"
    copies = f" (make {part.copies})" if part.copies > 1 else ""
    lines = [f"Right side shown. Its rows bend; drawn as it lies when relaxed. {bent}" if bent else _lie_of_work(part, left_handed)]
    if len(parts) > 1:
        lines.insert(0, f"Sizes {_in_order(names)}; drawn in size {names[0]}." if names else "All sizes, the smallest drawn.")
    starts = colour_starts(part)
    if len(starts) > COLOURS_SHOWN:
        lines.append(f"Colours change {len(starts) - 1} times: " + ", ".join(f"{s.yarn} from {s.number}" for s in starts[:8]) + " …")
    y = max(box.y + box.height for box in sheet.boxes) + 4.0
    sheet.write(Label(tuple(wrapped(lines, max(70.0, right - left), 2.6)), left, y, 2.6))
    top = min(box.y for box in sheet.boxes)
    sheet.write(Label((head + copies,), left, top - 8.0, 4.2, weight="bold"))


def _in_order(names: Sequence[str]) -> str:
    return names[0] + (f" ({', '.join(names[1:])})" if len(names) > 1 else "")


def _lie_of_work(part: PartMeasures, left_handed: bool) -> str:
    if part.tiles is not None:
        corner = "right" if left_handed else "left"
        many = f"{part.tiles.columns} × {part.tiles.lines} blocks"
        return f"Right side shown. Worked from the lower {corner} corner to the corner across, in rows that lean: {many}."
    if part.rounds is None:
        way = "right to left" if part.a_stands_right(left_handed=left_handed) else "left to right"
        hand = " for a left-hander" if left_handed else ""
        return f"Right side shown{hand}. Worked upward from the foot; Row 1 runs from {way}."
    told = {
        "flat": "Right side shown. Worked from the middle outward; lies flat.",
        "ruffles": "Worked from the middle outward; it ruffles, and is drawn at its reach from the middle.",
        "cups": f"Seen from the side, right side out. Worked {'from the top down' if part.rounds.from_top else 'upward'}.",
        "tube": "Seen from the side, right side out. Worked upward as a tube.",
        "closed": "Seen from the side, right side out, as it is when stuffed. Worked upward and closed at both ends.",
        "unknown": "Worked in rounds.",
    }
    corners = f" Stacked increases make {part.rounds.corners} corners." if part.rounds.corners and part.lies == "flat" else ""
    return told[part.lies] + corners
