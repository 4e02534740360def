"""What the workers do: each job calls the packages' public functions and turns their answers into plain JSON. No craft logic here.

Jobs run in worker processes (see `worktable.bench`); a module is imported when its first job comes.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

from ..bench import Payload, Tell, Work

_HOMES = {
    "proof": "document:proof",
    "hover": "document:hover",
    "complete": "document:complete",
    "tidy": "document:tidy",
    "row": "document:row",
    "history": "document:history",
    "log_rows": "document:log_rows",
    "fact": "document:fact",
    "stand": "document:stand",
    "stitch": "document:stitch",
    "chart": "see:chart",
    "outline": "see:outline",
    "colours": "see:colours",
    "round": "see:in_the_round",
    "picture": "see:picture",
    "yarn": "ask:yarn",
    "stripes": "ask:stripes",
    "resize": "fit:resize",
    "draft": "draft:draft",
    "families": "draft:families",
    "write": "see:words",
    "film": "film:film",
    "heard": "film:heard",
    "publish": "publish:publish",
}


def _late(home: str) -> Work:
    module, _, name = home.partition(":")

    def work(payload: Payload, tell: Tell) -> Any:
        return getattr(import_module(f"{__name__}.{module}"), name)(payload, tell)

    return work


VERBS: dict[str, Work] = {verb: _late(home) for verb, home in _HOMES.items()}
