"""Own lamp: a lamp typed off its board, kept as a file of the learner's, with a log of its life.

from dropper.bench.own_lamp import log_entry, read_board, read_log, save

board = read_board({"dropper": "684J 400V", "leds": "19 × 2", "led": "warm white"}, "hall lamp")
save(board.lamp)                                              # my_lamps/hall_lamp.toml
log_entry("hall lamp", "fault found", "The dropper C1 has lost half of its capacitance.")
read_log("hall lamp").entries
"""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(
    __name__,
    submod_attrs={
        "board": ["ROWS", "Board", "read_board", "texts_of"],
        "choice": ["choose", "chosen", "own_folder"],
        "log": ["KINDS", "Log", "LogEntry", "log_entry", "read_log"],
        "place": ["FOLDER", "OwnLampError"],
        "storage": [
            "Step",
            "copy",
            "delete",
            "keep_picture",
            "last_deleted",
            "own_lamps",
            "picture_of",
            "restore",
            "save",
        ],
    },
)
