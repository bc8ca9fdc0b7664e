"""Pictures made from results: a frame that matplotlib draws once, curves laid over it."""
