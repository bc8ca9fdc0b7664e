"""Printed pages: a lamp's sheet for the bench, and the skeleton that other pages are made with.

    from dropper import sheet

    page = sheet.lamp_sheet(lamp, builder="A. Learner", notes="Tried behind a filament lamp first.")
    page.write("stair_marker.html")              # one page, A4 or Letter; the browser prints it
    page.write("stair_marker.csv")               # the parts list, for a spreadsheet
    sheet.open_sheet("stair_marker.html")        # the lamp again, equal to the one it was made from
    sheet.open_brief("reading_nook.html")        # the wishes that a design's lamp was designed to
    sheet.document("Check-list", body)           # any other page for the printer

What a page says is computed for the values on it and tests nothing; whether a lamp may be built, opened or used, local
codes and people licensed to do mains work decide.
"""

from .attachment import SheetError, open_brief, open_sheet
from .bench_page import BenchPage, bench_page
from .files import file_name, place_for, write_text
from .lamp_page import LampSheet, lamp_sheet
from .page import document, origin, table

__all__ = [
    "BenchPage",
    "LampSheet",
    "SheetError",
    "bench_page",
    "document",
    "file_name",
    "lamp_sheet",
    "open_brief",
    "open_sheet",
    "origin",
    "place_for",
    "table",
    "write_text",
]
