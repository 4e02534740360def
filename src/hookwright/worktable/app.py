"""The worktable's server: the page, the folder, the wire. Bound to the loopback address by whoever runs it; guarded by `guard`."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import threading
import time
from collections.abc import AsyncIterator, Awaitable, Callable
from pathlib import Path
from typing import Any
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, Response
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.staticfiles import StaticFiles
from starlette.websockets import WebSocket

from ..records import Records, RecordsTrouble
from .bench import Refusal
from .crew import Crew, Superseded
from .desk import Desk
from .folder import Folder, FolderTrouble
from .guard import SANDBOX, Guard, new_nonce, policy
from .live import Window
from .logging_at_the_hook import LogDesk
from .names import BadName, tidy_name

STATIC = Path(__file__).parent / "static"
HOSTS = ("127.0.0.1", "localhost", "[::1]")

Answer = Callable[[Request], Awaitable[Response]]


class Table:
    """Everything one running worktable holds."""

    def __init__(self, root: Path, *, clock: Callable[[], float] = time.time, bring: Callable[[bytes, str], str] | None = None) -> None:
        """`bring` turns a document (bytes, file name) into a pattern's text, or raises `Refusal` with the reason."""
        self.folder = Folder(root)
        self.bring = bring
        self.desk = Desk(self.folder)
        self.clock = clock
        self.crew: Crew | None = None
        self.records_trouble: str | None = None
        self._records: Records | None = None
        self._opening = threading.Lock()
        self._following: set[asyncio.Future[None]] = set()
        self.log = LogDesk(self)

    @property
    def records(self) -> Records:
        """The folder's records, opened when first needed. Raises `RecordsTrouble`."""
        with self._opening:
            if self._records is None:
                self._records = Records.at(self.folder.root / ".hookwright" / "records.db")
            return self._records

    def _warm_records(self) -> None:
        """Open the records beforehand: the first opening takes a second or two."""
        with contextlib.suppress(RecordsTrouble):  # whoever needs them is told
            _ = self.records

    def take_along(self, name: str, to: str) -> None:
        """Let what is kept of a pattern follow its new name; the renaming itself does not wait for it."""

        def follow() -> None:
            with contextlib.suppress(RecordsTrouble):
                self.records.rename(name, to)

        task = asyncio.get_running_loop().run_in_executor(None, follow)
        self._following.add(task)
        task.add_done_callback(self._following.discard)

    @property
    def workers(self) -> Crew:
        if self.crew is None:
            raise Refusal("The worktable is not ready yet.")
        return self.crew

    @contextlib.asynccontextmanager
    async def running(self, _app: Starlette) -> AsyncIterator[None]:
        self.crew = Crew(asyncio.get_running_loop())
        self.crew.start()
        warming = asyncio.create_task(asyncio.to_thread(self._warm_records))
        try:
            yield
        finally:
            await self.log.stop_sharing()
            await self.desk.close()
            await warming
            self.crew.close()
            if self._records:
                self._records.close()


def told(answer: Answer) -> Answer:
    """Troubles become {"trouble": sentence} with a fitting status."""

    async def wrapped(request: Request) -> Response:
        try:
            return await answer(request)
        except (FolderTrouble, RecordsTrouble, Refusal, BadName) as trouble:
            return JSONResponse({"trouble": str(trouble)}, 409 if isinstance(trouble, FolderTrouble) else 422)
        except (ValueError, KeyError, TypeError):
            return JSONResponse({"trouble": "The page asked in a way the server does not understand; load it anew."}, 400)
        except Superseded:
            return JSONResponse({"stale": True}, 409)
        except (OSError, RuntimeError):
            logging.getLogger(__name__).exception("a request failed")
            return JSONResponse({"trouble": "Something in Hookwright itself went wrong here; your pattern is safe."}, 500)

    return wrapped


def make_app(table: Table) -> Guard:
    """The guarded ASGI application."""
    routes = [
        Route("/", page),
        Mount("/assets", StaticFiles(directory=STATIC / "assets", check_dir=False)),
        Route("/mark.svg", mark),
        Route("/api/patterns", told(patterns), methods=["GET", "POST"]),
        Route("/api/patterns/{name}/{deed}", told(deed), methods=["POST"]),
        Route("/api/restore", told(restore), methods=["POST"]),
        Route("/api/demo", told(demo), methods=["POST"]),
        Route("/api/bring-in", told(bring_in), methods=["POST"]),
        Route("/api/versions/{name}", told(versions), methods=["GET", "POST"]),
        Route("/api/version/{number:int}", told(version)),
        Route("/api/picture", told(picture), methods=["POST"]),
        Route("/api/log/{name}", told(log), methods=["GET", "POST"]),
        Route("/api/log/{name}/{number:int}", told(unlog), methods=["DELETE"]),
        Route("/api/share", told(share), methods=["POST", "DELETE"]),
        Route("/published/{name}/{file:path}", told(published)),
        WebSocketRoute("/live", live),
    ]
    app = Starlette(routes=routes, lifespan=table.running, exception_handlers={HTTPException: refused})
    app.router.redirect_slashes = False
    app.state.table = table
    return Guard(app, HOSTS)


def _table(request: Request) -> Table:
    table: Table = request.app.state.table
    return table


async def refused(_request: Request, reason: Exception) -> Response:
    """What the server itself refuses (nothing there, too much sent), in the same form as everything else."""
    status, words = (reason.status_code, reason.detail) if isinstance(reason, HTTPException) else (500, "")
    return JSONResponse({"trouble": "There is nothing here." if status == 404 else words}, status)


async def page(_request: Request) -> Response:
    """The one page, with a nonce of its own for the styles that the editor makes."""
    nonce = new_nonce()
    try:
        html = await asyncio.to_thread((STATIC / "index.html").read_text, "utf-8")
    except OSError:
        return HTMLResponse("The worktable's page was not built. Install Hookwright anew, or run “uv sync” in its checkout.", 500)
    return HTMLResponse(html.replace("__NONCE__", nonce), headers={"content-security-policy": policy(nonce)})


async def mark(_request: Request) -> Response:
    return FileResponse(STATIC / "mark.svg", media_type="image/svg+xml")


async def live(socket: WebSocket) -> None:
    table: Table = socket.app.state.table
    await Window(socket, table.desk, table.workers).serve()


async def patterns(request: Request) -> Response:
    """GET: the shelf. POST {name, text}: a new pattern."""
    table = _table(request)
    if request.method == "GET":
        entries = await asyncio.to_thread(table.folder.entries)
        return JSONResponse(
            {
                "folder": table.folder.root.name,
                "patterns": [{"name": entry.name, "changed": entry.changed, "size": entry.size} for entry in entries],
            }
        )
    wish: dict[str, Any] = await request.json()
    name = await asyncio.to_thread(table.folder.create, str(wish["name"]), str(wish.get("text", "")))
    return JSONResponse({"name": name})


async def deed(request: Request) -> Response:
    """POST: duplicate, rename {to}, delete."""
    table, name = _table(request), request.path_params["name"]
    match request.path_params["deed"]:
        case "duplicate":
            return JSONResponse({"name": await asyncio.to_thread(table.folder.duplicate, name)})
        case "rename":
            return JSONResponse({"name": await _rename(table, name, str((await request.json())["to"]))})
        case "delete":
            if name in table.desk.open:
                await table.desk.put_back(table.desk.open[name])
            return JSONResponse({"undo": await asyncio.to_thread(table.folder.delete, name)})
        case _:
            return JSONResponse({"trouble": "That cannot be done with a pattern."}, 404)


async def _rename(table: Table, name: str, to: str) -> str:
    document = table.desk.open.get(name)
    if document:
        async with document.lock:
            new = await asyncio.to_thread(table.folder.rename, name, to)
            document.name, document.stamp = new, table.folder.stamp(new)
            table.desk.open[new] = table.desk.open.pop(name)
    else:
        new = await asyncio.to_thread(table.folder.rename, name, to)
    table.take_along(name, new)
    return new


async def restore(request: Request) -> Response:
    table = _table(request)
    return JSONResponse({"name": await asyncio.to_thread(table.folder.restore, str((await request.json())["undo"]))})


async def demo(request: Request) -> Response:
    """POST: lay out the demo pieces that are not on the shelf yet; the one to begin with is opened."""
    table = _table(request)
    return JSONResponse({"name": await asyncio.to_thread(_lay_out_demo, table.folder)})


def _lay_out_demo(folder: Folder) -> str:
    from ..demo import DRAFT, FIRST, PIECES, piece

    shelf = folder.names()
    for file in (DRAFT, *PIECES):
        name = file.replace("-", " ").capitalize()
        if name not in shelf:
            folder.create(name, piece(file))
    return folder.create(FIRST.replace("-", " ").capitalize(), piece(FIRST))


async def bring_in(request: Request) -> Response:
    """POST the bytes of a .docx, .html, .pdf, .txt or .md: a new pattern. Read in a process of its own (see `importing`)."""
    table = _table(request)
    filename = str(request.query_params.get("file", "pattern.txt"))
    if table.bring is None:
        raise Refusal("Files cannot be brought in here.")
    text = await asyncio.to_thread(table.bring, await request.body(), filename[:200])
    return JSONResponse({"name": await asyncio.to_thread(table.folder.create, tidy_name(Path(filename).stem), text)})


async def versions(request: Request) -> Response:
    """GET: all versions with their counts. POST {text, counts, why}: keep one."""
    table, name = _table(request), request.path_params["name"]
    if request.method == "POST":
        wish = await request.json()
        counts = await _counts(table, name, str(wish["text"]))
        kept = await asyncio.to_thread(
            lambda: table.records.keep_version(name, str(wish["text"]), at=table.clock(), why=str(wish.get("why", ""))[:200], counts=counts)
        )
        return JSONResponse({"kept": kept is not None})
    found = await asyncio.to_thread(lambda: table.records.versions(name))
    return JSONResponse({"versions": [{"id": one.id, "at": one.at, "why": one.why, "counts": dict(one.counts)} for one in found]})


async def _counts(table: Table, name: str, text: str) -> dict[str, str]:
    """Every row's count; asked again when the worker was ended for newer words meanwhile."""
    for _ in range(3):
        with contextlib.suppress(Superseded):
            found: dict[str, str] = await table.workers.proof("history", {"name": name, "text": text})
            return found
    return {}


async def version(request: Request) -> Response:
    found = await asyncio.to_thread(lambda: _table(request).records.version(request.path_params["number"]))
    if found is None:
        return JSONResponse({"trouble": "That version is not kept any more."}, 404)
    return JSONResponse({"id": found.id, "at": found.at, "text": found.text, "why": found.why})


async def picture(request: Request) -> Response:
    """POST {text, view, form, …}: a picture to save: SVG, PNG or PDF."""
    table, wish = _table(request), await request.json()
    answer = await table.workers.make("picture", "picture", wish)
    return Response(
        answer["bytes"],
        media_type=answer["type"],
        headers={"content-disposition": f"attachment; filename*=UTF-8''{quote(answer['name'])}"},
    )


async def log(request: Request) -> Response:
    """GET: the log and what it amounts to. POST an entry."""
    table, name = _table(request), request.path_params["name"]
    if request.method == "POST":
        return JSONResponse(await table.log.write(name, await request.json()))
    return JSONResponse(await table.log.read(name))


async def unlog(request: Request) -> Response:
    return JSONResponse(await _table(request).log.undo(request.path_params["name"], request.path_params["number"]))


async def share(request: Request) -> Response:
    """POST {name}: let a phone on the same network write into this pattern's log. DELETE: stop."""
    table = _table(request)
    if request.method == "DELETE":
        await table.log.stop_sharing()
        return JSONResponse({"shared": False})
    return JSONResponse(await table.log.start_sharing(str((await request.json())["name"])))


async def published(request: Request) -> Response:
    """A published file to look at: as nobody's page (sandboxed), from the folder `published` only."""
    table = _table(request)
    root = (table.folder.root / "published").resolve()
    path = (root / request.path_params["name"] / request.path_params["file"]).resolve()
    if not path.is_relative_to(root) or not path.is_file():
        return JSONResponse({"trouble": "Nothing of that name was published."}, 404)
    return FileResponse(path, headers={"content-security-policy": SANDBOX})
