"""Kit: what every panel is made of: sliders, frame, overlay, prediction, read-out, explanations."""
