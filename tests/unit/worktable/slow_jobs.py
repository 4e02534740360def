"""Jobs for trying the workers out."""

from __future__ import annotations

import os
import time
from typing import Any

from hookwright.worktable.bench import Payload, Refusal, Tell


def _sleep(payload: Payload, tell: Tell) -> float:
    time.sleep(payload["seconds"])
    return float(payload["seconds"])


def _refuse(payload: Payload, tell: Tell) -> None:
    raise Refusal("There is no row.")


def _flaw(payload: Payload, tell: Tell) -> float:
    return 1 / 0


def _steps(payload: Payload, tell: Tell) -> Any:
    for number in range(1, payload["many"] + 1):
        tell({"done": number})
    return payload["many"]


VERBS = {
    "echo": lambda payload, tell: payload["words"],
    "pid": lambda payload, tell: os.getpid(),
    "sleep": _sleep,
    "refuse": _refuse,
    "flaw": _flaw,
    "die": lambda payload, tell: os._exit(7),
    "steps": _steps,
}
