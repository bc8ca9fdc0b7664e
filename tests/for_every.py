"""One test for a rule that holds of many things: it tries them all and lists those that break it."""

from collections.abc import Callable, Iterable

import pytest


def for_every(cases: Iterable | Callable[[], Iterable], ids: Callable = repr) -> Callable:
    """Run the test for each case, a value or a tuple of them; it fails with a line for each that fails.

    A function that gives the cases is called when the test runs: what takes long waits until then. `ids` names a case.
    """

    def loop(check):
        def test():
            tried, wrong = list(cases() if callable(cases) else cases), []
            for case in tried:
                try:
                    check(*case) if isinstance(case, tuple) else check(case)
                except (Exception, pytest.fail.Exception) as error:
                    wrong.append(f"{ids(case)}: {type(error).__name__}: {error}")
            assert tried, "there is nothing to try"
            if wrong:
                pytest.fail(f"{len(wrong)} of {len(tried)}:\n" + "\n".join(wrong), pytrace=False)

        test.__name__, test.__doc__ = check.__name__, check.__doc__
        return test

    return loop
