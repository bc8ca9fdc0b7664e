"""Led curve: an LED that was measured."""
