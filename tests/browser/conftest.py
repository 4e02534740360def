"""A worktable of one's own for every test, met through a real browser."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

PAGE = Path(__file__).parents[2] / "src" / "hookwright" / "worktable" / "static" / "index.html"

expect.set_options(timeout=60_000)  # the machine that runs this may be busy


@dataclass
class Worktable:
    """A running `hookwright worktable` and its folder."""

    folder: Path
    port: int = 0
    process: subprocess.Popen[str] | None = None
    address: str = ""

    def start(self) -> None:
        command = [
            sys.executable,
            "-c",
            "from hookwright.cli import main; main()",
            "worktable",
            "--folder",
            str(self.folder),
            "--no-browser",
        ]
        command += ["--port", str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        assert " at http" in line, line
        self.address = line.split(" at ")[1].split()[0]
        self.port = int(self.address.rsplit(":", 1)[1].strip("/"))

    def kill(self) -> None:
        """As hard as can be."""
        if self.process:
            self.process.kill()
            self.process.wait()
            assert self.process.stdout is not None
            self.process.stdout.close()
            self.process = None

    def stop(self) -> None:
        if self.process:
            self.process.terminate()
            try:
                self.process.wait(10)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()
            assert self.process.stdout is not None
            self.process.stdout.close()
            self.process = None

    def text(self, name: str) -> str:
        return (self.folder / f"{name}.md").read_text(encoding="utf-8")

    def wait_for(self, name: str, holds: Callable[[str], bool], seconds: float = 5.0) -> str:
        """The file's text once it holds what is wanted."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if (self.folder / f"{name}.md").exists() and holds(self.text(name)):
                return self.text(name)
            time.sleep(0.03)
        raise AssertionError(f"{name}.md does not hold it: {self.text(name)[-400:]!r}")


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with sync_playwright() as play:
        own = os.environ.get("HOOKWRIGHT_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
        started = play.chromium.launch(executable_path=own, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture
def worktable(tmp_path: Path) -> Iterator[Worktable]:
    if not PAGE.exists():
        if os.environ.get("HOOKWRIGHT_BROWSER_TESTS") == "required":
            pytest.fail("the worktable's page was not built")
        pytest.skip("the worktable's page was not built")
    running = Worktable(tmp_path / "Muster & ümlaut")
    running.folder.mkdir()
    running.start()
    yield running
    running.stop()


@dataclass
class Desk:
    """Opens windows on a worktable and refuses whatever a page may not do: ask elsewhere, complain in the console."""

    browser: Browser
    worktable: Worktable
    contexts: list[BrowserContext] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)
    expected: tuple[str, ...] = ()
    """Words of complaints that a test provokes."""

    def window(self, pattern: str | None = None, *, like: BrowserContext | None = None, **wishes: Any) -> Page:
        context = like or self.browser.new_context(**{"viewport": {"width": 1440, "height": 900}, "accept_downloads": True, **wishes})
        if like is None:
            self.contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: self.complaints.append(message.text) if message.type in ("error",) else None)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("request", lambda request: self._look(request.url))
        page.goto(self.worktable.address + (f"?pattern={pattern}" if pattern else ""))
        page.wait_for_selector("html[data-ready]", timeout=60_000)
        return page

    @staticmethod
    def write(page: Page, words: str) -> None:
        """Put words at the end of the page, as typed."""
        page.locator(".cm-content").click()
        page.keyboard.press("Control+End")
        page.keyboard.insert_text(words)

    @staticmethod
    def proofed(page: Page) -> None:
        """Wait until the newest words are proofed."""
        page.wait_for_function("() => window.hookwrightAtRest && window.hookwrightAtRest()", timeout=60_000)

    def _look(self, url: str) -> None:
        ours = self.worktable.address
        if not url.startswith((ours, ours.replace("http", "ws", 1), "blob:", "data:")):
            self.complaints.append(f"asked elsewhere: {url}")

    def close(self) -> None:
        for context in self.contexts:
            context.close()
        real = [words for words in self.complaints if not any(word in words for word in self.expected) and "GPU stall" not in words]
        assert not real, real


@pytest.fixture
def desk(chromium: Browser, worktable: Worktable) -> Iterator[Desk]:
    made = Desk(chromium, worktable)
    yield made
    made.close()


@pytest.fixture
def lay_out(worktable: Worktable) -> Callable[[str, str], None]:
    def put(name: str, text: str) -> None:
        (worktable.folder / f"{name}.md").write_text(text, encoding="utf-8")

    return put
