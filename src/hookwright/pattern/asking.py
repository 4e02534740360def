"""Short questions that reading and working both ask of a step."""

from __future__ import annotations

from .nodes import Chain, Make, Ring, Step, Together


def slips(step: Step) -> bool:
    """Whether the step is slip stitches."""
    return isinstance(step, Make) and step.stitch == "sl st"


def is_picot(step: Step) -> bool:
    """Whether the step is a group told as a picot."""
    return isinstance(step, Together) and step.name == "picot"


def founds(step: Step) -> bool:
    """Whether work begins with the step: a foundation chain or a ring."""
    return isinstance(step, Ring) or (isinstance(step, Chain) and step.foundation)
