"""What garments are found by: cards, measures, filters, saved filters."""
