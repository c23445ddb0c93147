"""Sources, citations, bibliography, CSL-JSON, BibTeX; dates (EDTF)."""
