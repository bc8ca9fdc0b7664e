"""Lab: what the workbook asks of JupyterLab: settings, a page script, a quick connection."""

from pathlib import Path

HERE = Path(__file__).resolve().parent
