"""Ghost light: a lamp that is switched off and glows all the same, by the capacitance of its cable or its switch."""
