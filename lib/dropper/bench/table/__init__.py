"""Tables: columns of numbers from text: a CSV file, a pasted table, what an oscilloscope saves.

Delimiter, decimal mark, header, units and encoding are found by looking at the first lines; each can be
said outright. What cannot be read is answered with its line and column.
"""

from .cells import TableError
from .reader import Table, read

__all__ = ["Table", "TableError", "read"]
