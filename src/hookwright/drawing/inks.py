"""The inks charts are drawn in."""

from __future__ import annotations

INK = "#1a1a1a"
QUIET = "#595959"
GHOST = "#8f8f8f"
"""What belongs to another piece: 3.2 : 1 on white, told from black ink at a glance."""
YARN_INK = (INK, "#0059a6", "#b28242", "#299f9c", "#8d4441", "#e64887")
"""Ink of the yarns in order: each at 3 : 1 or better on white (WCAG 2.2, 1.4.11), and told apart by colour-blind eyes too (tested:
CIEDE2000 of 10 and more between any two, also as protan, deutan and tritan eyes see them); the row's letter tells them apart as well."""
