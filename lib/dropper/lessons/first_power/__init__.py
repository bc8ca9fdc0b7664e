"""First power: a filament lamp in series at first power."""
