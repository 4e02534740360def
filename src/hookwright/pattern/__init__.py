"""The model: what a pattern is, before anybody works it."""

from .asking import founds, is_picot, slips
from .changed import changed
from .facts import ColourRun, Facts, FinishedSize, Gauge, Picture, Swatch, Trim, TurningChain, Yarn
from .findings import Edit, Finding, Repair, Severity, apply_edits
from .limits import LIMITS, Limits
from .mirror import told_backwards
from .model import FLAT, Count, MadeIn, Part, Pattern, Row, Seam, SeamKind, Special, Trouble, Until
from .nodes import (
    CHAIN_FIRST,
    NEXT,
    ONE,
    RUN,
    THESE,
    ZERO,
    Aside,
    Chain,
    Choice,
    Colour,
    Even,
    FastenOff,
    Join,
    Leave,
    Make,
    Node,
    Place,
    Refer,
    Repeat,
    Ring,
    Shape,
    Skip,
    Step,
    Times,
    Together,
    Turn,
    Unread,
)
from .once import once
from .sizes import Sized
from .spans import NOWHERE, Span

__all__ = [
    "LIMITS", "NEXT", "NOWHERE", "ONE", "Aside", "Chain", "Choice", "Colour", "ColourRun", "Count", "Edit", "Even", "Facts", "FastenOff",
    "FLAT", "Finding", "FinishedSize", "Gauge", "Join", "Leave", "Limits", "MadeIn", "Make", "Node", "Part", "Pattern", "Picture", "Place",
    "RUN", "Refer", "Repair", "Repeat", "Ring", "Row", "Seam", "SeamKind", "Severity", "Shape", "Sized", "Skip", "Span", "Special", "Step",
    "Swatch", "THESE", "Times", "Together", "Trim", "Trouble", "Turn", "TurningChain", "Unread", "Until", "Yarn", "apply_edits", "changed",
    "CHAIN_FIRST", "ZERO", "founds", "is_picot", "once", "slips", "told_backwards",
]  # fmt: skip
