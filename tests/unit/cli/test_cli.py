"""The command line: help without imports, files read safely and written whole, every failure one sentence with status 2."""

from __future__ import annotations

import io
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from hookwright.cli import VERBS, common, help_text
from hookwright.cli.common import CannotDo, read_source, table, write_file, write_folder
from hookwright.cli.run import run
from hookwright.cli.settings import settings_for

PATTERN = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across. (10 sc)\n"
WRONG = PATTERN.replace("across. (10 sc)\nRow 2", "across. (12 sc)\nRow 2")


def failure(words: list[str], capfd: pytest.CaptureFixture[str]) -> str:
    """The one sentence of a command that could not be carried out."""
    status = run(words)
    caught = capfd.readouterr()
    assert status == 2, caught.out
    assert caught.out == "" and caught.err.startswith("hookwright: ") and caught.err.count("\n") == 1 and "Traceback" not in caught.err
    return caught.err.removeprefix("hookwright: ").strip()


def test_help_lists_every_verb_and_imports_nothing() -> None:
    script = (
        "import sys; from hookwright.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit as leaving: assert leaving.code == 0\n"
        "assert not [m for m in sys.modules if m.startswith(('cyclopts', 'numpy', 'hookwright.'))"
        " and m not in ('hookwright.cli',)], 'help imports too much'"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.strip() == help_text().strip()
    assert all(f"\n  {verb.name} " in done.stdout for verb in VERBS)


def test_no_file(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "There is no file" in failure(["proof", str(tmp_path / "nothing.md")], capfd)


def test_a_near_name_is_offered(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (tmp_path / "seat pad ü.md").write_text(PATTERN, encoding="utf-8")
    assert "Did you mean" in failure(["proof", str(tmp_path / "seat pad u.md")], capfd)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "is empty"),
        (b"\xef\xbb\xbf\r\n  \r\n", "is empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "is not text"),
        (b"%PDF-1.7\n...", "`hookwright read`"),
        (b"\x81\x8d\x8f\x90", "is not text"),
        (b"Dear diary, today the tide was high.\n", "no row of a pattern was found"),
        (b"---\ntitle: [unclosed\nhook: 5\n---\n\nRow 1: Sc across.\n", "line 3: the front matter could not be read"),
    ],
    ids=["empty", "mark only", "binary", "pdf", "bytes", "prose", "yaml"],
)
def test_files_that_are_no_pattern(content: bytes, says: str, capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a b ü.md"
    path.write_bytes(content)
    assert says in failure(["proof", str(path)], capfd)
    assert path.read_bytes() == content


def test_too_big_is_refused_before_it_is_read(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "big.md"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    assert "is 50 MB" in failure(["proof", str(path)], capfd)


def test_a_folder(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "is a folder" in failure(["proof", str(tmp_path)], capfd)


def test_unknown_words(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "Did you mean `proof`" in failure(["prof"], capfd)
    path = tmp_path / "a.md"
    path.write_text(PATTERN)
    assert "--help` shows" in failure(["proof", str(path), "--colour"], capfd)
    assert "There is no size XL" in failure(["proof", str(path), "--size", "XL"], capfd)
    assert "There is no row Row 9" in failure(["proof", str(path), "--row", "Row 9"], capfd)


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_mark(ends: str, mark: str, capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "größe 1.md"
    path.write_bytes((mark + PATTERN.replace("\n", ends)).encode("utf-8"))
    assert run(["proof", str(path)]) == 0
    assert "2 agree" in capfd.readouterr().out


def test_an_error_gives_status_1(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_text(WRONG)
    assert run(["proof", str(path)]) == 1
    out = capfd.readouterr().out
    assert "count-differs" in out and "^^^^^" in out and "\x1b" not in out
    assert max(map(len, out.splitlines())) <= 80


def test_standard_input(monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(PATTERN.encode())))
    assert run(["proof", "-"]) == 0
    assert "Standard input" in capfd.readouterr().out


def test_a_derivation_shows_every_step(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_text(PATTERN)
    for label in ("Row 2", "row 2", "2", "R2"):
        assert run(["proof", str(path), "--row", label]) == 0
        out = capfd.readouterr().out
        assert "10 places by Row 1" in out and "sc in each st across" in out and "10 of 10" in out and "agrees" in out


def test_a_failure_inside_is_one_sentence(monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("hookwright.cli.run._command", lambda words: {}["gone"])
    assert "KeyError" in failure(["proof", "a.md"], capfd)
    with pytest.raises(KeyError):
        run(["proof", "a.md", "--traceback"])


def test_logs_hold_no_pattern_text(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_text(PATTERN.replace("Ch 11.", "Ch 11. Quokkabobble."))
    done = subprocess.run(
        [sys.executable, "-m", "hookwright.cli", "-v", "proof", str(path)], capture_output=True, text=True, timeout=60, check=False
    )
    assert done.returncode == 0 and "stitches worked" in done.stderr and "Quokkabobble" not in done.stderr


def test_writing_is_all_or_nothing(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    write_file(path, "one")
    write_file(path, b"two")
    assert path.read_text() == "two" and [entry.name for entry in tmp_path.iterdir()] == ["a.txt"]
    with pytest.raises(CannotDo, match="folder does not exist"):
        write_file(tmp_path / "gone" / "a.txt", "x")
    with pytest.raises(ValueError, match="out of the folder"):
        write_folder(tmp_path, {"../b.txt": b"x"})


@pytest.mark.skipif(os.name == "nt", reason="permissions are another matter there")
def test_a_folder_without_write_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "shut"
    folder.mkdir()
    (folder / "page.html").write_text("old")
    folder.chmod(stat.S_IRUSR | stat.S_IXUSR)
    if os.access(folder, os.W_OK):  # root may write anywhere: the refusal is made by hand

        def refuse(self: Path, data: bytes) -> int:
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(Path, "write_bytes", refuse)
    with pytest.raises(CannotDo, match="no permission"):
        write_folder(folder, {"page.html": b"new", "a/b.svg": b"x"} if os.access(folder, os.W_OK) else {"page.html": b"new"})
    folder.chmod(stat.S_IRWXU)
    assert (folder / "page.html").read_text() == "old" and not list(folder.glob(".*"))


def test_a_folder_fails_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.txt").write_text("old")
    real = Path.write_bytes
    calls: list[str] = []

    def second_fails(self: Path, data: bytes) -> int:
        calls.append(self.name)
        if len(calls) == 2:
            raise OSError(28, "No space left on device")
        return real(self, data)

    monkeypatch.setattr(Path, "write_bytes", second_fails)
    with pytest.raises(CannotDo, match="no space left"):
        write_folder(tmp_path, {"a.txt": b"new", "b.txt": b"new"})
    assert (tmp_path / "a.txt").read_text() == "old" and [entry.name for entry in tmp_path.iterdir()] == ["a.txt"]


def test_settings_say_where_they_come_from(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> None:
    inner = tmp_path / "pieces"
    inner.mkdir()
    (tmp_path / "hookwright.toml").write_text('units = "in"\nstudio = "Brackwater Loft"\n')
    (inner / "a.md").write_text("---\nterms: UK\n---\n\n" + PATTERN.replace("Sc", "Dc").replace("sc", "dc"))
    told = settings_for(read_source(str(inner / "a.md")))
    assert told["units"].value == "in" and told["units"].origin == str(tmp_path / "hookwright.toml")
    assert told["terms"].value == "UK" and told["terms"].origin.startswith("front matter")
    assert told["hand"].origin == "default"
    (tmp_path / "hookwright.toml").write_text("colour = 1\n")
    monkeypatch.chdir(inner)
    assert "there is no setting `colour`" in failure(["--settings"], capfd)
    (tmp_path / "hookwright.toml").write_text('units = "ells"\n')
    assert '`units` should be "cm" or "in"' in failure(["--settings"], capfd)


def test_tables_keep_their_columns() -> None:
    lines = table(("row", "sts"), [("Row 1", "8"), ("段", "120")], right=(1,)).splitlines()
    assert {common.width(line) for line in lines} == {10}


def test_a_command_that_is_not_installed(monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> None:
    from hookwright.cli import Verb

    monkeypatch.setattr("hookwright.cli.run.VERBS", (Verb("gone", "hookwright.cli.gone:gone", "x"),))
    assert "not part of this installation" in failure(["gone"], capfd)
