"""Server configuration: read by the Jupyter server when `python -m dropper` starts it; all else is the extension's."""

c = get_config()  # noqa: F821
c.ServerApp.ip = "localhost"
c.ServerApp.jpserver_extensions = {"jupyterlab": True, "dropper.lab.extension": True}
