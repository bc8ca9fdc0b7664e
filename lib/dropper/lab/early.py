"""Early kernel: a server extension that has the first notebook's kernel ready before the page has loaded.

The browser needs some seconds for JupyterLab itself; the kernel starts and imports the panel
meanwhile. If anything goes wrong here, the page starts its kernel as ever.
"""

import asyncio
import os

NOTEBOOK = "DROPPER_NOTEBOOK"  # the environment variable that names it, set by `python -m dropper`
READY = "import dropper.lessons.bench.panel; from dropper.circuit.symbols import elements; elements()"


def _jupyter_server_extension_points():
    return [{"module": "dropper.lab.early"}]


def _load_jupyter_server_extension(server):
    path = os.environ.get(NOTEBOOK)
    if path:
        server.io_loop.call_later(0, _start, server, path)


async def _start(server, path):
    try:
        session = await server.session_manager.create_session(
            path=path, name=path, type="notebook", kernel_name="python3"
        )
        kernel = server.kernel_manager.get_kernel(session["kernel"]["id"])
        await asyncio.wait_for(kernel.ready, 30)
        client = kernel.client()
        client.start_channels()
        try:
            await client.wait_for_ready(timeout=30)
            client.execute(READY, silent=True, store_history=False)
        finally:
            client.stop_channels()
    except Exception as error:
        server.log.info("dropper: no early kernel (%s)", error)
