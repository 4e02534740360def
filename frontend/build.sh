#!/bin/sh
# For working on the page: build it in place with the Node on PATH and stamp it, so that installing does not build it again.
set -e
cd "$(dirname "$0")"
npx vite build --logLevel warn --outDir ../src/hookwright/worktable/static --emptyOutDir
cd .. && python3 - <<'P'
import hashlib
from pathlib import Path
root = Path("frontend")
digest = hashlib.sha256()
for path in sorted(p for p in root.rglob("*") if p.is_file() and not {"node_modules", "dist"} & set(p.relative_to(root).parts)):
    digest.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
Path("src/hookwright/worktable/static/built-from.txt").write_text(digest.hexdigest() + "\n")
P
