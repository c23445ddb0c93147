"""A catalogue outside its database: one archive, tables for a spreadsheet, sources for other programs.

`kinds` is the table of what an archive says of each row; `writing` and `reading` follow it both ways, and
`archive` puts the whole with its photographs into one file. Nothing here saves a row: actions do.
"""
