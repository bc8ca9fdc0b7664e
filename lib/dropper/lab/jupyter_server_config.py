"""Server configuration: read by the Jupyter server when `python -m dropper` starts it."""

import zmq
from jupyter_client.manager import KernelManager

c = get_config()  # noqa: F821
c.ServerApp.ip = "localhost"
c.ServerApp.kernel_websocket_connection_class = "dropper.lab.connection.QuickConnection"
c.ServerApp.jpserver_extensions = {"jupyterlab": True, "dropper.lab.extension": True}
# An oscilloscope's file goes to its panel in one message; tornado's own limit, 10 MiB, would end the connection.
c.ServerApp.tornado_settings = {"websocket_max_message_size": 168_000_000}
# What goes between the server and a kernel is not to be read by others on this computer; kernels warn of it otherwise.
if hasattr(KernelManager, "transport_encryption") and zmq.has("curve"):
    c.KernelManager.transport_encryption = "auto"
