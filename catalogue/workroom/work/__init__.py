"""Long work: one model of it, and the engine that does it."""
