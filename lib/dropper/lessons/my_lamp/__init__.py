"""My lamp: the form for a lamp of one's own, one line until it is wanted."""
