"""Proofing: what a maker should look at, each finding with its working. Reading and working only record troubles; rules judge them."""

from .gather import proof
from .rules import RULES
from .rules.rule import Case, Rule

__all__ = ["RULES", "Case", "Rule", "proof"]
