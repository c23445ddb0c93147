"""Sources as BibTeX: a well-kept library reads and writes braces and backslashes; here is what they mean."""
