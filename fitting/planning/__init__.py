"""Tasks, plan, what waits for what, calendar."""
