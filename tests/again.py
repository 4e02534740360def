"""Shared by the properties of texts read, worked and proofed again: texts to edit, records compared whole, memory emptied."""

from __future__ import annotations

import sys
from dataclasses import fields, is_dataclass
from typing import Any

from hookwright.demo import DRAFT, PIECES, piece
from hookwright.reading.pieces import forget

# ruff: noqa: E501
MORE = (
    "Ch 31.\nRow 1: Dc in 4th ch from hook and in each ch across. (28 dc)\nRow 2: Ch 3, turn, dc in each st across. (28 dc)\n"
    "Rows 3-6: Rep Row 2.\n\nSleeve (make 2)\n\n1. Mr, 6 sc. (6 sc)\n2. Inc around. (12 sc)\n3. (Sc, inc) 6 times. (18 sc)\n",
    "Materials: 200 m wool, 4 mm hook\r\nGauge: 14 tr = 10 cm\r\n\r\n1st row: 10 (12, 14) tr. (10 tr)\r\n2nd row: miss 1 tr, tr to end. (9 tr)\r\n",
    "BACK: Ch 20 (22, 24). Next row: Sc across. (20 sc)\nShell: 5 dc in one st (shell made)\nRow 2: Shell in next st; rep from * across, turn\n"
    "(3 shells)\nRnd 3 (RS): *2 sc, ch 1* twice [12 sts].\n",
)
WORDS = (
    "\n",
    "\n\n",
    "Row 3: ",
    "4. ",
    "(12 sc)\n",
    ")",
    "(",
    "*",
    "ch 3, ",
    "Rnd 2 (RS): ",
    "UK terms\n",
    "# Cuff\n",
    "5 (6, 7) ",
    "shell",
    "😀",
    "e\u0301",
)


def whole(value: Any) -> Any:
    """Everything in a record, also what its own comparing leaves out (places)."""
    if is_dataclass(value) and not isinstance(value, type):
        told = tuple((f.name, whole(getattr(value, f.name))) for f in fields(value) if not f.name.startswith("_"))
        return (type(value).__name__, told)
    if isinstance(value, (tuple, list)):
        return tuple(whole(one) for one in value)
    if isinstance(value, dict):
        return tuple((key, whole(one)) for key, one in value.items())
    return value


def forget_all() -> None:
    forget()
    for name, module in list(sys.modules.items()):
        if name.startswith("hookwright.reading"):
            for thing in list(vars(module).values()):
                clear = getattr(thing, "cache_clear", None)
                if clear is not None and getattr(thing, "__module__", "").startswith("hookwright.reading"):
                    clear()


TEXTS = (*MORE, *(piece(name) for name in (*PIECES, DRAFT)))
