"""Touch current: what flows through a person, and what an earth-leakage breaker sees of it."""
