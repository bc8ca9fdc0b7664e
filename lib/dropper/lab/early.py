"""Early kernel: a lesson's kernel starts and loads what it needs while the page is still loading.

The browser needs some seconds for JupyterLab itself. If anything goes wrong here, the page starts its kernel as ever.
"""

import asyncio
import json
from pathlib import PurePosixPath

from jupyter_core.utils import ensure_async
from jupyter_server.auth.decorator import authorized
from jupyter_server.base.handlers import APIHandler
from jupyter_server.serverapp import ServerApp
from tornado import web

NOTEBOOK = "DROPPER_NOTEBOOK"  # the environment variable that names the first one, set by `python -m dropper`
_PREPARE = "from dropper.lab.preparation import prepare\nprepare({name!r})"
_PATIENCE = 120  # s: a solver that is not in its cache yet has to be compiled


async def _is_lesson(server, path):
    """Whether a notebook is trusted, and one that runs when it is opened."""
    model = await ensure_async(server.contents_manager.get(path, type="notebook", content=True))
    notebook = model["content"]
    live = notebook["metadata"].get("dropper", {}).get("live") is True
    trusted = all(cell["metadata"].get("trusted") for cell in notebook["cells"] if cell["cell_type"] == "code")
    return live and trusted


async def start_kernel(server: ServerApp, path: str) -> None:
    """Start the kernel of a lesson that has none yet, and have it prepared.

    Parameters
    ----------
    path
        The notebook, from the server's root folder.
    """
    starting = server.web_app.settings.setdefault("dropper_starting", set())
    if path in starting:
        return
    starting.add(path)
    try:
        sessions, name = server.session_manager, PurePosixPath(path).name
        if await ensure_async(sessions.session_exists(path=path)) or not await _is_lesson(server, path):
            return
        session = await sessions.create_session(path=path, name=name, type="notebook", kernel_name="python3")
        kernel = server.kernel_manager.get_kernel(session["kernel"]["id"])
        await asyncio.wait_for(kernel.ready, _PATIENCE)
        client = kernel.client()
        client.start_channels()
        try:
            await client.wait_for_ready(timeout=_PATIENCE)
            client.execute(_PREPARE.format(name=name), silent=True, store_history=False)
        finally:
            client.stop_channels()
    except Exception as error:
        server.log.info("dropper: no early kernel (%s)", error)
    finally:
        starting.discard(path)


class EarlyKernelHandler(APIHandler):
    """Answers the page, which says which notebook it is about to show."""

    auth_resource = "sessions"

    @web.authenticated
    @authorized
    async def post(self) -> None:
        """Start the kernel of the notebook that is named; a page that cannot have one now starts its own."""
        path = (self.get_json_body() or {}).get("path")
        if not isinstance(path, str):
            raise web.HTTPError(400, "Which notebook? A path is missing.")
        await start_kernel(self.serverapp, path.strip("/"))
        self.set_status(202)
        self.finish(json.dumps({}))
