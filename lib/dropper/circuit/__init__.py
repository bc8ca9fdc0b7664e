"""Circuit: the lamp as data, its values as people write them, its file and its drawing."""
