"""The workers: what is newer ends what is older, and nobody waits for a worker that fell."""

from __future__ import annotations

import asyncio
import os
import time
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import pytest

from hookwright.worktable import crew as crew_module
from hookwright.worktable.bench import Refusal
from hookwright.worktable.crew import Crew, Superseded


@pytest.fixture(autouse=True)
def trial_jobs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(Path(__file__).parent))
    monkeypatch.setattr(crew_module, "VERBS", "slow_jobs")
    monkeypatch.setattr(crew_module, "_MAKER_READY", ())
    monkeypatch.setattr(crew_module, "_PROOFER_READY", ())


def play(scene: Callable[[Crew], Awaitable[None]]) -> None:
    async def run() -> None:
        crew = Crew(asyncio.get_running_loop())
        crew.start()
        try:
            await scene(crew)
        finally:
            crew.close()
            await asyncio.sleep(0.05)

    asyncio.run(run())


def test_an_answer_comes_back() -> None:
    async def scene(crew: Crew) -> None:
        assert await crew.make("see", "echo", {"words": "Row 1"}) == "Row 1"
        assert await crew.proof("echo", {"words": "🧶"}) == "🧶"

    play(scene)


def test_the_newer_job_ends_the_older_process() -> None:
    async def scene(crew: Crew) -> None:
        first_pid = await crew.make("see", "pid", {})
        old = asyncio.ensure_future(crew.make("see", "sleep", {"seconds": 30}))
        await asyncio.sleep(0.3)
        begun = time.perf_counter()
        assert await crew.make("see", "echo", {"words": "newer"}) == "newer"
        with pytest.raises(Superseded):
            await old
        assert time.perf_counter() - begun < 10
        assert crew.ended == 1
        await asyncio.sleep(0.3)
        with pytest.raises(OSError):
            os.kill(first_pid, 0)

    play(scene)


def test_another_lane_waits_its_turn_and_is_not_ended() -> None:
    async def scene(crew: Crew) -> None:
        slow = asyncio.ensure_future(crew.make("see", "sleep", {"seconds": 0.4}))
        await asyncio.sleep(0.05)
        assert await crew.make("ask", "echo", {"words": "yarn"}) == "yarn"
        assert await slow == 0.4
        assert crew.ended == 0

    play(scene)


def test_of_many_waiting_only_the_newest_is_done() -> None:
    async def scene(crew: Crew) -> None:
        await crew.make("ask", "echo", {"words": "warm"})
        running = asyncio.ensure_future(crew.make("ask", "sleep", {"seconds": 0.3}))
        waiting: list[Any] = [asyncio.ensure_future(crew.make("see", "echo", {"words": n})) for n in range(5)]
        told = await asyncio.gather(*waiting, return_exceptions=True)
        assert [isinstance(one, Superseded) for one in told] == [True] * 4 + [False]
        assert told[-1] == 4
        assert await running == 0.3

    play(scene)


def test_troubles_are_sentences() -> None:
    async def scene(crew: Crew) -> None:
        with pytest.raises(Refusal, match="no row"):
            await crew.make("see", "refuse", {})
        with pytest.raises(Refusal, match="Hookwright itself"):
            await crew.make("see", "flaw", {})
        with pytest.raises(Refusal, match="stopped"):
            await crew.make("see", "die", {})
        assert await crew.make("see", "echo", {"words": "still here"}) == "still here"
        with pytest.raises(Refusal):
            await crew.proof("die", {})
        assert await crew.proof("echo", {"words": "still here"}) == "still here"

    play(scene)


def test_a_job_that_takes_too_long_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(crew_module, "PATIENCE_SECONDS", 0.5)

    async def scene(crew: Crew) -> None:
        await crew.proof("echo", {"words": "warm"})
        with pytest.raises(Refusal, match="longer than"):
            await crew.make("see", "sleep", {"seconds": 30})

    play(scene)


def test_a_job_alone_tells_its_steps_and_can_be_cancelled() -> None:
    async def scene(crew: Crew) -> None:
        steps: list[Any] = []
        assert await crew.alone("steps", {"many": 3}, steps.append) == 3
        assert [step["done"] for step in steps] == [1, 2, 3]
        task = asyncio.ensure_future(crew.alone("sleep", {"seconds": 30}))
        await asyncio.sleep(0.2)
        begun = time.perf_counter()
        task.cancel()
        with pytest.raises(asyncio.CancelledError):
            await task
        assert time.perf_counter() - begun < 1
        assert not crew._alone

    play(scene)


def test_a_proof_can_be_ended() -> None:
    async def scene(crew: Crew) -> None:
        task = asyncio.ensure_future(crew.proof("sleep", {"seconds": 30}))
        await asyncio.sleep(0.3)
        crew.end_proof()
        with pytest.raises(Superseded):
            await task
        assert await crew.proof("echo", {"words": 1}) == 1

    play(scene)
