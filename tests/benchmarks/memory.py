"""What a lesson's kernel takes of memory: private MB once all of the notebook's cells have run.

    .venv/bin/python tests/benchmarks/memory.py [numbers of lessons]

Each notebook has a kernel of its own, one after the other. Private memory is what would be free again without that
kernel: `Private_Clean` and `Private_Dirty` of the kernel's `smaps_rollup` (Linux). A library's file pages are private
too while no other kernel has them open; so another kernel with the workbook loaded waits beside it. The second
column counts the dirty pages alone. Prints, and which of the large packages are loaded; asserts nothing.
"""

import re
import sys
import time
from pathlib import Path

import nbformat
from jupyter_client.manager import KernelManager
from nbclient import NotebookClient

BOOKS = Path(__file__).resolve().parents[2] / "notebooks"
LARGE = (
    "numba",
    "sympy",
    "matplotlib",
    "scipy.optimize",
    "scipy.stats",
    "scipy.interpolate",
    "scipy.special",
    "pandas",
)
ASK = f"import sys; print(*[name for name in {LARGE!r} if name in sys.modules])"
BESIDE = "from dropper.lessons import Bench; panel = Bench('lamps/stair_marker.toml')"


def private(pid):
    """MB that this process alone holds: in all, and dirty."""
    text = Path(f"/proc/{pid}/smaps_rollup").read_text()
    clean, dirty = (int(re.search(rf"Private_{kind}:\s+(\d+)", text)[1]) / 1024 for kind in ("Clean", "Dirty"))
    return clean + dirty, dirty


def ask(client, code):
    """What a kernel prints of a piece of code."""
    text = []
    client.execute_interactive(code, output_hook=lambda message: text.append(message["content"].get("text", "")))
    return "".join(text).strip()


def run(path):
    """Run a notebook in a kernel of its own: private MB, dirty MB and the large packages that are loaded."""
    manager = KernelManager(kernel_name="python3")
    book = nbformat.read(path, 4)
    client = NotebookClient(book, km=manager, timeout=300, resources={"metadata": {"path": str(path.parent)}})
    with client.setup_kernel(cwd=str(path.parent)):
        for place, cell in enumerate(book.cells):
            if cell.cell_type == "code":
                client.execute_cell(cell, place)
        time.sleep(1.0)  # what waits for its turn
        pid = manager.provisioner.process.pid
        figures = private(pid)
        other = manager.client()
        other.start_channels()
        other.wait_for_ready(timeout=30)
        loaded = ask(other, ASK)
        other.stop_channels()
    return (*figures, loaded)


def main():
    """Measure and print."""
    wanted = sys.argv[1:] or [path.name[:2] for path in sorted(BOOKS.glob("[01][0-9]_*.ipynb"))]
    beside = KernelManager(kernel_name="python3")
    beside.start_kernel(cwd=str(BOOKS))
    try:
        client = beside.client()
        client.start_channels()
        client.wait_for_ready(timeout=60)
        client.execute_interactive(BESIDE)
        print(f"{'lesson':36}{'private, MB':>12}{'dirty':>8}  loaded")
        for number in wanted:
            path = next(BOOKS.glob(f"{number}_*.ipynb"))
            whole, dirty, loaded = run(path)
            print(f"{path.stem:36}{whole:12.0f}{dirty:8.0f}  {loaded}", flush=True)
        client.stop_channels()
    finally:
        beside.shutdown_kernel(now=True)


if __name__ == "__main__":
    main()
