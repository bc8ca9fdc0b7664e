"""Server configuration: read by the Jupyter server when `python -m dropper` starts it."""

c = get_config()  # noqa: F821
c.ServerApp.ip = "localhost"
c.ServerApp.kernel_websocket_connection_class = "dropper.lab.connection.QuickConnection"
c.ServerApp.jpserver_extensions = {"jupyterlab": True, "dropper.lab.early": True}
