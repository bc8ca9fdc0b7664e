"""Server configuration: read by the Jupyter server when `python -m dropper` starts it."""

c = get_config()  # noqa: F821
c.ServerApp.ip = "localhost"
c.ServerApp.kernel_websocket_connection_class = "dropper.lab.connection.QuickConnection"
c.ServerApp.jpserver_extensions = {"jupyterlab": True, "dropper.lab.extension": True}
# An oscilloscope's file goes to its panel in one message; tornado's own limit, 10 MiB, would end the connection.
c.ServerApp.tornado_settings = {"websocket_max_message_size": 168_000_000}
