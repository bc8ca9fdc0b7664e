"""Colour pairs: which colours of bands are taken for one another, by whom, and in what light.

For three kinds of colour vision the pairs are computed, not felt: two colours of `colours.COLOURS` stand together where
they are no more than `NEAR` apart (CAM02-UCS) for an eye that lacks one kind of cone (Machado, Oliveira and Fernandes
2009, severity 100 %). A test does it again with a general package for colour. The fourth list, of what lamp light,
soot and faded paint make of bands, is common practice and has no source.
"""

NEAR = 20.0  # units of CAM02-UCS; two of these colours as any eye sees them are 41 apart on average
SIGHTS = {
    "bench": "lamp light, soot, faded paint",
    "protan": "red weak or missing (protan)",
    "deutan": "green weak or missing (deutan)",
    "tritan": "blue weak or missing (tritan)",
}
SIMILAR = {
    "bench": (
        "brown red",
        "orange red",
        "brown orange",
        "black brown",
        "black blue",
        "blue violet",
        "grey violet",
        "grey white",
        "grey silver",
        "silver white",
        "gold yellow",
        "green blue",
        "pink silver",
        "pink white",
    ),
    "protan": (
        "orange green",
        "brown red",
        "blue violet",
        "pink silver",
        "orange gold",
        "green gold",
        "white silver",
        "grey pink",
        "yellow gold",
        "blue grey",
        "white pink",
        "violet grey",
    ),
    "deutan": (
        "orange gold",
        "brown red",
        "blue violet",
        "pink silver",
        "white silver",
        "white pink",
        "yellow gold",
        "orange green",
        "green gold",
        "red green",
        "orange yellow",
        "violet grey",
        "brown green",
        "grey pink",
    ),
    "tritan": (
        "pink gold",
        "green grey",
        "yellow pink",
        "white silver",
        "green blue",
        "yellow gold",
        "yellow white",
        "blue grey",
        "violet grey",
        "brown red",
        "orange gold",
        "white pink",
        "yellow silver",
        "brown violet",
        "orange pink",
        "pink silver",
    ),
}
PAIRS = {sight: frozenset(frozenset(pair.split()) for pair in pairs) for sight, pairs in SIMILAR.items()}
