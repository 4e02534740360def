"""The page's side of the workers: who works on what, and what is ended because something newer came.

Typing never waits for any of this: the server only passes texts on. Two standing workers: the *proofer* keeps the open document worked
(each
new text re-works what changed) and takes the newest text when it comes free; the *maker* answers everything slower (chart, outline, yarn,
3-D …). A newer job for the same lane makes the older one's answer void and, if that is slow, ends it, process and all; a second maker
stands by, warm.
Long jobs (publishing, bringing in a stranger's file) get a process of their own, which can be cancelled.
"""

from __future__ import annotations

import asyncio
import contextlib
import multiprocessing
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from .bench import Payload, Refusal, run

VERBS = "hookwright.worktable.jobs"
PATIENCE_SECONDS = 60.0
"""A maker's job that takes longer is ended with a sentence."""


GRACE_SECONDS = 0.4
"""A maker's job whose answer is not wanted any more may run on for so long before its process is ended."""


class Superseded(Exception):
    """A newer job for the same lane came; this one's answer is not wanted any more."""


class Gone(Refusal):
    """The worker had died before the job reached it; another can do it."""


class Worker:
    """One process and the thread that listens to it."""

    def __init__(self, loop: asyncio.AbstractEventLoop, ready: tuple[str, ...]) -> None:
        context = multiprocessing.get_context("spawn")
        self._pipe, theirs = context.Pipe()
        self._process = context.Process(target=run, args=(theirs, VERBS, ready), daemon=True)
        self._process.start()
        theirs.close()
        self._loop = loop
        self._waiting: dict[int, tuple[asyncio.Future[Any], Callable[[Payload], None] | None]] = {}
        self._number = 0
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        while True:
            try:
                message = self._pipe.recv()
            except (EOFError, OSError):
                break
            with contextlib.suppress(RuntimeError):  # the loop may be closing
                self._loop.call_soon_threadsafe(self._take, *message)
        with contextlib.suppress(RuntimeError):
            self._loop.call_soon_threadsafe(self._fell_silent)

    def _take(self, number: int, what: str, content: Any) -> None:
        if what == "step":
            tell = self._waiting.get(number, (None, None))[1]
            if tell:
                tell(content)
            return
        future, _ = self._waiting.pop(number, (None, None))
        if future is None or future.done():
            return
        if what == "done":
            future.set_result(content)
        else:
            future.set_exception(Refusal(content))

    def _fell_silent(self) -> None:
        for future, _ in self._waiting.values():
            if not future.done():
                future.set_exception(Refusal("The worker stopped before it was done; the piece may be too large for this computer."))
        self._waiting.clear()

    def ask(self, verb: str, payload: Payload, tell: Callable[[Payload], None] | None = None) -> asyncio.Future[Any]:
        """Send one job; the future brings the answer or a `Refusal`."""
        self._number += 1
        future: asyncio.Future[Any] = self._loop.create_future()
        self._waiting[self._number] = (future, tell)
        try:
            self._pipe.send((self._number, verb, payload))
        except (BrokenPipeError, OSError):
            self._waiting.pop(self._number, None)
            future.set_exception(Gone("The worker stopped; try again."))
        return future

    @property
    def alive(self) -> bool:
        return self._process.is_alive()

    def end(self, reason: Exception | None = None) -> None:
        """End the process at once; whatever it was asked gets `reason`."""
        for future, _ in self._waiting.values():
            if not future.done():
                future.set_exception(reason or Superseded())
                future.exception()  # nobody may be listening any more: not worth a log line
        self._waiting.clear()
        self._process.kill()
        threading.Thread(target=self._tidy, daemon=True).start()

    def _tidy(self) -> None:
        self._process.join(5)
        with contextlib.suppress(OSError):
            self._pipe.close()


@dataclass(eq=False)
class _Job:
    lane: str
    verb: str
    payload: Payload
    answer: asyncio.Future[Any]
    begun: float = 0.0
    dropped: bool = False


@dataclass
class Crew:
    """All workers of one worktable."""

    loop: asyncio.AbstractEventLoop
    _proofer: Worker | None = None
    _maker: Worker | None = None
    _standby: Worker | None = None
    _queue: list[_Job] = field(default_factory=list)
    _running: _Job | None = None
    _alone: set[Worker] = field(default_factory=set)
    ended: int = 0
    """How many jobs were ended because a newer one came (for the tests and the performance table)."""

    def start(self) -> None:
        """Start the standing workers, so that the first key finds them warm."""
        self._proofer = Worker(self.loop, _PROOFER_READY)
        self._maker = Worker(self.loop, _MAKER_READY)

    async def proof(self, verb: str, payload: Payload) -> Any:
        """A job for the proofer. Raises `Refusal`."""
        if self._proofer is None or not self._proofer.alive:
            self._proofer = Worker(self.loop, _PROOFER_READY)
        try:
            return await self._proofer.ask(verb, payload)
        except Gone:
            self._proofer = Worker(self.loop, _PROOFER_READY)
            return await self._proofer.ask(verb, payload)

    def end_proof(self) -> None:
        """End the proof that runs now, process and all; whoever waits for it gets `Superseded`."""
        if self._proofer:
            self.ended += 1
            self._proofer.end()
            self._proofer = None

    async def make(self, lane: str, verb: str, payload: Payload) -> Any:
        """A slower job; the newest of a lane wins. Raises `Superseded` or `Refusal`."""
        job = _Job(lane, verb, payload, self.loop.create_future())
        self._drop(lane)
        self._queue.append(job)
        self._next()
        return await job.answer

    def _drop(self, lane: str) -> None:
        """Make room in a lane: what waits is dropped; what runs is no longer listened to, and is ended with its process if it is slow.

        A job that is nearly done costs less than a new process, so it is given a moment; otherwise every key would end a worker.
        """
        for job in [job for job in self._queue if job.lane == lane]:
            self._queue.remove(job)
            _fail(job.answer, Superseded())
            self.ended += 1
        running = self._running
        if running and running.lane == lane and not running.dropped:
            running.dropped = True
            self.ended += 1
            _fail(running.answer, Superseded())
            left = GRACE_SECONDS - (self.loop.time() - running.begun)
            self.loop.call_later(max(0.0, left), self._end_if_running, running)

    def _end_if_running(self, job: _Job) -> None:
        if self._running is job and self._maker:
            self._maker.end()
            self._maker, self._standby = self._standby, None
            self._running = None
            self._next()

    def _next(self) -> None:
        if self._running or not self._queue:
            return
        if self._maker is None or not self._maker.alive:
            self._maker = Worker(self.loop, _MAKER_READY)
        if self._standby is None:
            self._standby = Worker(self.loop, _MAKER_READY)
        job = self._running = self._queue.pop(0)
        job.begun = self.loop.time()
        self.loop.create_task(self._carry_out(job, self._maker))

    async def _carry_out(self, job: _Job, maker: Worker) -> None:
        try:
            try:
                answer = await asyncio.wait_for(asyncio.shield(maker.ask(job.verb, job.payload)), PATIENCE_SECONDS)
            except Gone:
                maker = self._maker = Worker(self.loop, _MAKER_READY)
                answer = await asyncio.wait_for(asyncio.shield(maker.ask(job.verb, job.payload)), PATIENCE_SECONDS)
        except TimeoutError:
            maker.end(Refusal(""))
            if self._maker is maker:
                self._maker, self._standby = self._standby, None
            _fail(job.answer, Refusal(f"This took longer than {PATIENCE_SECONDS:.0f} seconds and was stopped."))
        except Exception as trouble:
            _fail(job.answer, trouble)
        else:
            if not job.answer.done():
                job.answer.set_result(answer)
        finally:
            if self._running is job:
                self._running = None
                self._next()

    async def alone(self, verb: str, payload: Payload, tell: Callable[[Payload], None] | None = None) -> Any:
        """A long job in a process of its own; cancelling the task ends the process."""
        worker = Worker(self.loop, ())
        self._alone.add(worker)
        try:
            return await worker.ask(verb, payload, tell)
        finally:
            self._alone.discard(worker)
            worker.end()

    def close(self) -> None:
        """End every process."""
        for worker in (self._proofer, self._maker, self._standby, *self._alone):
            if worker:
                worker.end()


def _fail(answer: asyncio.Future[Any], reason: Exception) -> None:
    if not answer.done():
        answer.set_exception(reason)


_PROOFER_READY = ("hookwright.session", "hookwright.proofing")
_MAKER_READY = ("hookwright.session", "hookwright.measuring", "hookwright.drawing.chart")
