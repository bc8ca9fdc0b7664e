"""Teaching: plans for lessons, sheets for pupils and their keys, and what a class has done; for whoever teaches.

    python -m dropper plans FOLDER                                   # a plan of each lesson, and further pages
    python -m dropper sheets --lesson 4 --seed 7 --pupils 24 FOLDER  # tasks on paper, and the key
    python -m dropper class FOLDER                                   # a table of pupils' progress files

What is made here holds answers. Keep it out of the folder of notebooks, which the page shows to every pupil.
"""
