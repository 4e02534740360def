"""The account of a draft for programs: `hookwright/draft/1`."""

from __future__ import annotations

from typing import Any

from .result import Draft

SCHEMA = "hookwright/draft/1"


def account(made: Draft) -> dict[str, Any]:
    """A draft's account as plain data: sizes asked and obtained in cm, both outlines, notes. New keys keep the number."""
    return {
        "schema": SCHEMA,
        "family": made.family,
        "sizes": [
            {
                "what": size.what, "asked_cm": round(size.asked_cm, 2), "obtained_cm": round(size.cm, 2),
                "off": round(size.off_steps, 2), "off_unit": size.step, "counted": size.counted,
            }
            for size in made.sizes
        ],
        "views": [
            {
                "name": view.name,
                "asked": [[round(x, 2), round(y, 2)] for x, y in view.asked],
                "obtained": [[round(x, 2), round(y, 2)] for x, y in view.obtained],
            }
            for view in made.views
        ],
        "notes": list(made.notes),
        "limited": made.limited,
    }  # fmt: skip
