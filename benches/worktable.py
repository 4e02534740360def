"""How the worktable feels, measured in a real browser: `python benches/worktable.py [--chromium PATH]`.

Key → underline: from the key press to the finding's underline on the screen (the end of the frame that paints it), on a piece of 126
written rows; every key breaks or mends a count. Chart: from the key press to the redrawn chart. Blanket: 100,000 stitches; how long the
page stands still at most while she types, and how long its findings take. Page ready: from the address to the proofed pattern, the
server warm.
"""

from __future__ import annotations

import argparse
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

ROWS = (
    "# Strip\n\nGauge: 14 dc and 7 rows = 10 cm\n\nRow 1: Ch 25, dc in 4th ch from hook (counts as dc) and in each ch across. (23 dc)\n"
    + "".join(f"Row {n}: Ch 3 (counts as dc), turn, dc in each st across. (23 dc)\n" for n in range(2, 127))
)
BLANKET = (
    "# Blanket\n\nRow 1: Ch 252, dc in 4th ch from hook (counts as dc) and in each ch across. (250 dc)\n"
    "Rows 2-399: Ch 3 (counts as dc), turn, dc in each st across. (250 dc)\n"
    "Row 400: Ch 3 (counts as dc), turn, dc in each st across. (250 dc)\n"
)

UNDERLINE = """async ([key, wanted]) => {
    const begun = performance.now();
    const seen = () => document.querySelectorAll('.mark-error').length > 0;
    document.execCommand(key === 'Backspace' ? 'delete' : 'insertText', false, key === 'Backspace' ? undefined : key);
    // What stands in the page when a frame begins is painted in that frame; the message comes after the painting.
    const frame = () => new Promise(done => requestAnimationFrame(() => {
        const there = seen() === wanted, after = new MessageChannel();
        after.port1.onmessage = () => done(there);
        after.port2.postMessage(0);
    }));
    while (!(await frame()) && performance.now() - begun < 5000);
    return performance.now() - begun;
}"""

REDRAWN = """async (key) => {
    const begun = performance.now();
    const before = document.querySelector('.sheet svg');
    document.execCommand('insertText', false, key);
    while (document.querySelector('.sheet svg') === before && performance.now() - begun < 5000) await new Promise(requestAnimationFrame);
    return performance.now() - begun;
}"""

STILL = """async (words) => {
    let worst = 0, last = performance.now(), on = true;
    const watch = () => { const now = performance.now(); worst = Math.max(worst, now - last); last = now; if (on) setTimeout(watch, 0); };
    watch();
    const keys = [];
    for (const character of words) {
        const begun = performance.now();
        document.execCommand('insertText', false, character);
        keys.push(performance.now() - begun);
        await new Promise(done => setTimeout(done, 60));
    }
    on = false;
    return [worst, Math.max(...keys)];
}"""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--chromium", default=shutil.which("chromium"))
    parser.add_argument("--keys", type=int, default=60)
    wish = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        for name, text in (("Strip", ROWS), ("Blanket", BLANKET)):
            (Path(folder) / f"{name}.md").write_text(text, encoding="utf-8")
        server = subprocess.Popen(
            [
                sys.executable,
                "-c",
                "from hookwright.cli import main; main()",
                "worktable",
                "--folder",
                folder,
                "--no-browser",
                "--port",
                "0",
            ],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert server.stdout is not None
        address = server.stdout.readline().split(" at ")[1].split()[0]
        browser = play.chromium.launch(executable_path=wish.chromium, args=["--no-sandbox"])
        try:
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            for line in measured(page, address, wish.keys):
                print(line, flush=True)
        finally:
            browser.close()
            server.terminate()
            server.wait(20)


def measured(page: Page, address: str, keys: int) -> Any:
    yield "| what | median | 95th percentile | reach |\n| --- | --- | --- | --- |"
    _open(page, address, "Strip")
    ready = [_open(page, address, "Strip") for _ in range(5)]
    yield _line("page ready", ready, "≤ 1500")
    _cursor(page, "Row 6:")
    page.get_by_role("tab", name="Learn").click()
    times, server = [], []
    for n in range(keys):
        times.append(page.evaluate(UNDERLINE, ["7", True] if n % 2 == 0 else ["Backspace", False]))
        server.append(float(page.evaluate("document.documentElement.dataset.took")))
        page.wait_for_timeout(30)
    yield _line("key → underline, 126 rows", times, "60 / 150")
    yield _line("… of which reading, working and proofing", server, "")
    page.get_by_role("tab", name="Fabric").click()
    page.wait_for_selector(".sheet svg")
    page.wait_for_timeout(1500)
    _cursor(page, "Row 6:")
    drawn = []
    for _ in range(max(6, keys // 6)):
        drawn.append(page.evaluate(REDRAWN, " "))
        page.wait_for_timeout(250)
    yield _line("key → chart redrawn, 126 rows", drawn, "≤ 150")
    page.get_by_role("tab", name="Learn").click()
    begun = time.perf_counter()
    _open(page, address, "Blanket")
    yield f"| 100,000 stitches: opened and proofed | {(time.perf_counter() - begun) * 1000:.0f} ms | | |"
    _cursor(page, "Row 400:")
    times = [page.evaluate(UNDERLINE, ["7", True] if n % 2 == 0 else ["Backspace", False]) for n in range(10)]
    yield _line("100,000 stitches: key → underline", times, "")
    still, key = page.evaluate(STILL, " work evenly on, keeping the edges straight")
    yield f"| 100,000 stitches: a key's own time, at most | {key:.0f} ms | | |"
    yield f"| 100,000 stitches: the page stands still at most | {still:.0f} ms | | |"


def _open(page: Page, address: str, name: str) -> float:
    begun = time.perf_counter()
    page.goto(f"{address}?pattern={name}")
    page.wait_for_function("() => window.hookwrightAtRest && window.hookwrightAtRest()", timeout=60_000)
    return (time.perf_counter() - begun) * 1000


def _cursor(page: Page, row: str) -> None:
    """Into the stated count of a row."""
    page.locator(".cm-content").click()
    page.keyboard.press("Control+Home")
    page.locator(".cm-line", has_text=row).first.click()
    page.keyboard.press("End")
    for _ in range(4):
        page.keyboard.press("ArrowLeft")


def _line(what: str, times: list[float], reach: str) -> str:
    ordered = sorted(times)
    high = ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]
    return f"| {what} | {statistics.median(times):.0f} ms | {high:.0f} ms | {reach} |"


if __name__ == "__main__":
    main()
