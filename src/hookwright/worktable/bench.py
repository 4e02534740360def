"""The worker's side: a process of its own that does one job after the other until it is ended.

Messages in: (number, verb, payload). Messages out: (number, "step", progress), (number, "done", answer) or (number, "trouble", sentence).
"""

from __future__ import annotations

import contextlib
import signal
from collections.abc import Callable
from importlib import import_module
from multiprocessing.connection import Connection
from typing import Any, TypeAlias

Payload: TypeAlias = dict[str, Any]
Tell: TypeAlias = Callable[[Payload], None]
Work: TypeAlias = Callable[[Payload, Tell], Any]

MEMORY_BYTES = 4_000_000_000
"""Address space a worker may take; a pattern that asks for more gets a sentence instead of the whole machine."""


class Refusal(Exception):
    """A job that cannot be done, with the sentence that says why."""


def run(pipe: Connection, verbs: str, ready: tuple[str, ...]) -> None:
    """Serve jobs from `pipe` until it closes. `verbs`: the module whose `VERBS` names the jobs; `ready`: modules to import beforehand."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _bound_memory()
    table: dict[str, Work] = import_module(verbs).VERBS
    for module in ready:
        with contextlib.suppress(Exception):  # only a head start: a job that needs the module says what is wrong with it
            import_module(module)
    while True:
        try:
            number, verb, payload = pipe.recv()
        except (EOFError, OSError):
            return
        _serve(pipe, table[verb], number, payload)


def _serve(pipe: Connection, work: Work, number: int, payload: Payload) -> None:
    def tell(progress: Payload) -> None:
        pipe.send((number, "step", progress))

    try:
        answer = (number, "done", work(payload, tell))
    except Refusal as refusal:
        answer = (number, "trouble", str(refusal))
    except MemoryError:
        answer = (number, "trouble", "This piece needs more memory than the worktable may take. Make it smaller, or work it in parts.")
    except Exception as flaw:
        import os
        import traceback

        if os.environ.get("HOOKWRIGHT_TRACE"):
            traceback.print_exc()
        where = traceback.extract_tb(flaw.__traceback__)[-1]
        answer = (number, "trouble", f"Something in Hookwright itself went wrong here ({type(flaw).__name__} in {where.name}).")
    try:
        pipe.send(answer)
    except (BrokenPipeError, OSError):
        return


def _bound_memory() -> None:
    try:
        import resource
    except ImportError:  # not on Windows
        return
    soft, hard = resource.getrlimit(resource.RLIMIT_AS)
    wanted = MEMORY_BYTES if hard == resource.RLIM_INFINITY else min(MEMORY_BYTES, hard)
    resource.setrlimit(resource.RLIMIT_AS, (wanted, hard))
    del soft
