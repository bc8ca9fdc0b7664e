"""Own lamp: a lamp typed off its board, kept as a file of the learner's, with a log of its life.

from dropper.bench.own_lamp import log_entry, read_log

log_entry("hall lamp", "fault found", "The dropper C1 has lost half of its capacitance.")
read_log("hall lamp").entries
"""

from .log import KINDS, Log, LogEntry, log_entry, read_log
from .place import FOLDER, OwnLampError

__all__ = ["FOLDER", "KINDS", "Log", "LogEntry", "OwnLampError", "log_entry", "read_log"]
