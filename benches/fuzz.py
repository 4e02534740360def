"""A fuzz target for everything that a text is asked: reading, working, proofing, telling and editing never raise, and always end soon.

Guided by coverage, with Atheris (its own group, because it is built for Linux and macOS only):

    uv run --group fuzz python benches/fuzz.py --seeds SEEDS          # writes the first inputs: our own texts, row by row
    uv run --group fuzz python benches/fuzz.py SEEDS -max_total_time=600 -timeout=10 -dict=SEEDS.words

The words of the dictionary are the vocabulary itself. The shortest text of each find is kept in `finds/` (named after the error and where
it rose, or `slow-…`), and the search goes on; what was mended becomes a case of `tests/properties/test_strength.py`.
"""

from __future__ import annotations

import hashlib
import importlib
import pkgutil
import sys
import time
import traceback
from pathlib import Path

ROOT = Path(__file__).parent.parent
SECONDS = 2.0
"""More CPU time than this on one input is a find, at the speed of code that is not traced."""
TRACED = 4.0
"""How much slower the traced code is, measured on our own texts: about three times."""
LONGEST = 4_000


def seeds(folder: Path) -> None:
    """Our texts as first inputs, whole where short and in runs of rows where long, and the words of the craft as a dictionary."""
    sys.path.insert(0, str(ROOT))
    from tests.sound import texts_of_ours

    from hookwright.reading.wording import vocabulary

    folder.mkdir(parents=True, exist_ok=True)
    for path in texts_of_ours():
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        for start in range(0, len(lines), 12):
            data = "".join(lines[start : start + 12]).encode()[:LONGEST]
            (folder / hashlib.sha256(data).hexdigest()[:16]).write_bytes(data)
    words = sorted({words for entry in vocabulary.base_entries() for words in (" ".join(entry), *entry)})
    marks = [
        "(",
        ")",
        "[",
        "]",
        "*",
        "**",
        ":",
        "\\x0a",
        "Row 2: ",
        "Rows 2-9: ",
        "Rnd 3: ",
        "---\\x0a",
        "# ",
        "(12, 14, 16)",
        "\\xef\\xbb\\xbf",
        "\\xcc\\x81",
        "\\x0d\\x0a",
    ]
    quoted = [word.replace("\\", "\\\\").replace('"', '\\"') for word in words if word.isascii()] + marks
    Path(f"{folder}.words").write_text("".join(f'"{word}"\n' for word in quoted), encoding="utf-8")


def imported() -> None:
    """Every module that a text goes through, also those that are usually imported late: only what is imported here is traced."""
    for name in ("reading", "working", "proofing", "session", "writing"):
        package = importlib.import_module(f"hookwright.{name}")
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            importlib.import_module(module.name)


def where(error: Exception) -> str:
    """The kind of an error and where it rose: one find for each."""
    frame = traceback.extract_tb(error.__traceback__)[-1]
    return f"{type(error).__name__}-{Path(frame.filename).stem}-{frame.lineno}"


def main() -> None:
    if sys.argv[1:2] == ["--seeds"]:
        seeds(Path(sys.argv[2]))
        return
    import atheris

    sys.path.insert(0, str(ROOT))
    with atheris.instrument_imports(include=["hookwright"]):
        imported()
        from tests.sound import ask_everything
    finds = Path("finds")
    finds.mkdir(exist_ok=True)

    def one(data: bytes) -> None:
        text = data[:LONGEST].decode("utf-8", "replace")
        started = time.process_time()
        try:
            ask_everything(text)
        except Exception as error:  # kept, and the search goes on: one find does not hide the others
            _keep(finds / f"{where(error)}.md", text)
        if time.process_time() - started > SECONDS * TRACED:
            _keep(finds / f"slow-{hashlib.sha256(data).hexdigest()[:8]}.md", text)

    atheris.Setup(sys.argv, one)
    atheris.Fuzz()


def _keep(file: Path, text: str) -> None:
    """The shortest text of each find."""
    if not file.exists() or len(file.read_text(encoding="utf-8")) > len(text):
        file.write_text(text, encoding="utf-8", newline="")
        print(f"find: {file}", flush=True)


if __name__ == "__main__":
    main()
