"""Faults that nobody could see, each with the reason: what is reckoned is the same with them."""

# File, what it says, what it might say: why that comes to the same.
UNSEEN: dict[tuple[str, str, str], str] = {}
