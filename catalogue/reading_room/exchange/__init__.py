"""A catalogue outside its database: one archive, and tables for a spreadsheet.

`writing` and `reading` follow the table of kinds (`catalogue/workroom/kinds.py`) both ways, `rules` says what
no column can, and `archive` puts the whole with its photographs into one file. Nothing here saves a row.
"""
