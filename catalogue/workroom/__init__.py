"""People and roles, the guard, sign-in; kinds and strict readers of files; the bin; the index of words."""
