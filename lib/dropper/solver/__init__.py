"""Solver: a lamp goes in; waveforms, readings, transients, temperatures and shares of current come out."""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(
    __name__,
    submodules=["flicker", "heat", "power", "sharing", "steady", "surge", "transient"],
    submod_attrs={
        "steady": ["LampBatch", "SteadyState", "SteadyStateBatch", "spread", "steady_state", "steady_states"]
    },
)
