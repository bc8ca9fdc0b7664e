"""Engine: what a derivation is, how its steps are checked, how it is evaluated and set out for readers."""
