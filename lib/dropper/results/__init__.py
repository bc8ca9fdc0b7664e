"""Results: a number that explains itself, changes in per cent, and one style for all pictures."""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(__name__, submodules=["compare", "explain", "reading", "style"])
