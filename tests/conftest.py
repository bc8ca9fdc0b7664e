"""Before the tests are handed out to two processes, the solver is compiled once for both."""


def pytest_sessionstart(session):
    """Compile where the tests are handed out from, so that the processes that run them find it done."""
    if not hasattr(session.config, "workerinput") and session.config.getoption("numprocesses", None):
        from dropper.__main__ import warm_up

        warm_up()
