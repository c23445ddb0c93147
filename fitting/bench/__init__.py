"""The pages that gather several subjects: home, outfit, garment, what needs attention, a wearer's record."""
