"""Sharing: lEDs side by side."""
