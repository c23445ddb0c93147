"""Session, observation, alteration, toile, holding one on a phone, what to check."""
