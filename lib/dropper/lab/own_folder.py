"""Own folder: a learner's copy of the notebooks, as a hub for a class needs one for each pupil.

python -m dropper.lab.own_folder NOTEBOOKS FOLDER
"""

import shutil
import sys
from pathlib import Path

# What is the teacher's, and what is somebody's already.
_LEFT = ("teaching", "sheets", "my_lamps", ".ipynb_checkpoints")


def fill(folder: Path, notebooks: Path) -> list[Path]:
    """Copy into a folder what it does not have yet; what is there is the learner's and stays.

    Parameters
    ----------
    folder
        The learner's, made when it is not there.
    notebooks
        The workbook's own.

    Returns
    -------
    list of Path
        What was copied, as it lies in the folder.
    """
    new = []
    for source in sorted(notebooks.rglob("*")):
        place = source.relative_to(notebooks)
        if source.is_dir() or place.parts[0] in _LEFT or place.name.startswith("my_progress"):
            continue
        target = folder / place
        if not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(source, target)
            new.append(place)
    return new


if __name__ == "__main__":
    fill(Path(sys.argv[2]), Path(sys.argv[1]))
