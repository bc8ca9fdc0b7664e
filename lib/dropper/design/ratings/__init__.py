"""Ratings: what each part of a lamp must stand, and whether the kind that is fitted stands it.

    from dropper.design.ratings import ratings

    table = ratings(lamp)                                         # the least kinds that would pass are proposed
    table.of("smoothing").sentence
    ratings(lamp, fitted={"bleeder": "carbon film 1/4 W", "smoothing": "electrolytic, 100 V"}).over
    ratings(lamp, upper=standards.supply("United Kingdom")).rows()

Stresses are found in normal use, at the mains' upper limit, at plug-in, and with each single fault. In use that lasts
a part is to keep to a share of its ratings; at plug-in and with a fault it may reach them. A real part stands what its
own data sheet says and nothing else, and parts that meet the mains are chosen as local codes and licensed practice
ask. No verdict here makes a live part fit to be touched.
"""

from .circumstances import BEYOND, Circumstance, upper_limit
from .stress import QUANTITIES, PartStress
from .stresses import stresses
from .survival import Survival, survival
from .table import RatingsTable, ratings
from .verdicts import SIGNS, Check, PartRating

__all__ = [
    "BEYOND",
    "QUANTITIES",
    "SIGNS",
    "Check",
    "Circumstance",
    "PartRating",
    "PartStress",
    "RatingsTable",
    "Survival",
    "ratings",
    "stresses",
    "survival",
    "upper_limit",
]
