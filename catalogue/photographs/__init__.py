"""Sent, checked, drawn again in sizes, looked at closely, removed."""
