"""Ageing: heat and age."""
