"""Lab configuration: read by JupyterLab when `python -m dropper` starts it."""

from dropper.lab import HERE

c = get_config()  # noqa: F821
c.LabApp.app_settings_dir = str(HERE / "settings")
c.LabApp.extra_labextensions_path = [str(HERE / "extensions")]
