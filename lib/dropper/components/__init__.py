"""Components: what kinds of parts are sold and what each stands, and what is printed on them."""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(__name__, submodules=["kinds", "marks"])
