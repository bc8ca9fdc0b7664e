"""A wish that cannot be met, and the nearest that can."""


class Infeasible(ValueError):
    """A brief that no lamp meets.

    Parameters
    ----------
    wish : str
        The field of the brief that asks too much.
    why : str
        Why, with numbers.
    nearest : Brief or None
        The nearest brief that does not ask this too much; None where no change of one field helps. Another wish of it
        may still fail: `nearest` goes on until none does.
    """

    def __init__(self, wish, why, nearest=None):
        super().__init__(why)
        self.wish, self.why, self.nearest = wish, why, nearest
