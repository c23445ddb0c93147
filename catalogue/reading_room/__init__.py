"""The pages that gather several subjects: a garment whole, the list, side by side, time line; the archive."""
