"""Sections, what each says, the PDF."""
