"""One open document, for editors: update, findings, running counts, hover, completion, outline, tidying, UTF-16 positions."""

from .completion import Completion, complete
from .document import Session
from .formatting import format_edits, tidied_line
from .front import write_fact
from .hover import Hover, hover, step_span
from .symbols import Symbol, symbols
from .tally import Tally, said, tallies
from .utf16 import Position, Units

__all__ = [
    "Completion", "Hover", "Position", "Session", "Symbol", "Tally", "Units", "complete", "format_edits", "hover", "said", "step_span",
    "symbols", "tallies",
    "tidied_line", "write_fact",
]  # fmt: skip
