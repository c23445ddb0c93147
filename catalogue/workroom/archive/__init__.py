"""The whole of a workroom as one file: written, read as anybody may have written it, and taken in."""
