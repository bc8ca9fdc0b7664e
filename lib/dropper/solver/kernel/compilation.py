"""Compilation: the kernel's functions turned into machine code by numba, kept in a cache that knows all their sources.

numba's own cache looks at the file of the function that is called and at no other, so that an edit of a function which
that one calls would go unseen. Here the cache's folder is named after all sources of this folder together: one byte
more or less in any of them, and everything is compiled anew.
"""

import hashlib
import shutil
import tempfile
import warnings
from collections.abc import Callable
from pathlib import Path

import numba
import platformdirs

HERE = Path(__file__).resolve().parent
_PREFIX = "kernel-"


def sources_key(folder: Path = HERE) -> str:
    """A key that changes with every source file of a folder: its name or any byte of it."""
    digest = hashlib.sha256()
    for path in sorted(folder.glob("*.py")):
        text = path.read_bytes()
        digest.update(f"{path.name} {len(text)} ".encode())
        digest.update(text)
    return digest.hexdigest()[:16]


def _can_write(folder):
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def _sweep(folder, keep):
    """Remove what other sources left in the package's own cache."""
    for path in folder.glob(f"{_PREFIX}*"):
        if path != keep:
            shutil.rmtree(path, ignore_errors=True)


def choose_cache() -> tuple[Path | None, str]:
    """Where compiled code is kept, and a sentence where that is not beside the package.

    Returns
    -------
    (Path or None, str)
        None: nowhere, everything is compiled at each start. The sentence is "" in the usual case.
    """
    name = f"{_PREFIX}{sources_key()}"
    if numba.config.CACHE_DIR:
        return Path(numba.config.CACHE_DIR) / name, ""
    beside = HERE / "__pycache__" / name
    if _can_write(beside):
        _sweep(beside.parent, keep=beside)
        return beside, ""
    home = platformdirs.user_cache_path("dropper", appauthor=False) / name
    if _can_write(home):
        if beside.is_dir() and not any(home.iterdir()):
            shutil.copytree(beside, home, dirs_exist_ok=True)  # compiled by whoever installed it
        return home, f"The package's folder cannot be written, so the compiled solver is kept in {home.parent}."
    return None, (
        "Neither the package's folder nor your cache folder can be written, so the solver is compiled anew at each"
        " start; that takes about half a minute."
    )


CACHE, SENTENCE = choose_cache()
if CACHE is None:
    warnings.warn(SENTENCE, RuntimeWarning, stacklevel=2)


def _compile(function, **options):
    before = numba.config.CACHE_DIR
    numba.config.CACHE_DIR = str(CACHE or "")
    try:
        return numba.njit(
            cache=CACHE is not None,
            no_cfunc_wrapper=True,
            error_model="numpy",
            nogil=True,
            fastmath={"contract", "arcp", "nsz"},
            **options,
        )(function)
    finally:
        numba.config.CACHE_DIR = before


def compiled(function: Callable) -> Callable:
    """Compile a function of plain numbers and arrays, and keep its machine code in the cache."""
    return _compile(function)


def compiled_part(function: Callable) -> Callable:
    """`compiled` for what only compiled code calls: quicker to compile, for there is no call from Python to prepare."""
    return _compile(function, no_cpython_wrapper=True)
