"""Record: a prediction that was noted goes into the learner's progress file."""

import re

from ..tasks.progress import progress_at
from .prediction import Prediction


def record(key: str, prediction: Prediction, right: str | None = None) -> None:
    """Keep what was predicted and how sure one was; once more when it is judged.

    A prediction that was skipped, or put back with the page, is not kept.

    Parameters
    ----------
    key
        What the question is called in the file; "" to keep nothing.
    right
        The key of the answer that holds, "" where none is called so; None as long as it is not judged.
    """
    if key and prediction.answer is not None and prediction.sure:
        holds = prediction.answer == right if right else None
        progress_at().note_prediction(key, prediction.answer, prediction.sure, holds)


def key_of(panel: type) -> str:
    """What a panel's question is called in the file: its class in small letters.

    >>> key_of(type("LoadLine", (), {}))
    'load_line'
    """
    return re.sub("(?<=[a-z])(?=[A-Z])", "_", panel.__name__).lower()
