"""Extension of the Jupyter server: whom it trusts, kernels that start early, what the page has to know."""

import os

from jupyter_server.serverapp import ServerApp
from jupyter_server.utils import url_path_join

from .early import NOTEBOOK, EarlyKernelHandler, start_kernel
from .notary import WorkbookNotary, own_notebooks

_TORNADO_DEFAULT = 10 * 1024 * 1024  # bytes in one message of a websocket
_HEAD = 100_000  # bytes left for what a message says beside the file


def _jupyter_server_extension_points():
    return [{"module": "dropper.lab.extension"}]


def _load_jupyter_server_extension(server: ServerApp) -> None:
    # One page shows the sliders: what it sends need not be sent back to it.
    os.environ.setdefault("JUPYTER_WIDGETS_ECHO", "0")
    server.contents_manager.notary = WorkbookNotary(parent=server.contents_manager)
    settings = server.web_app.settings
    most = settings.get("websocket_max_message_size", _TORNADO_DEFAULT) - _HEAD
    settings.setdefault("page_config_data", {})["dropper"] = {
        "mostBytes": most,
        "lessons": sorted(own_notebooks().values()),
    }
    server.web_app.add_handlers(".*", [(url_path_join(server.base_url, "dropper/kernel"), EarlyKernelHandler)])
    first = os.environ.get(NOTEBOOK)
    if first:
        server.io_loop.call_later(0, start_kernel, server, first)
