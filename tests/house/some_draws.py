"""Prints what hypothesis draws; `test_draws.py` runs it in processes of its own."""

from hypothesis import given
from hypothesis import strategies as st

DRAWN = []


@given(st.integers(0, 10**9), st.floats(0, 1e3), st.text(max_size=5))
def test_draws(whole, real, text):
    DRAWN.append((whole, real, text))


def test_says_so():
    print(f"\ndrawn: {DRAWN!r}")
