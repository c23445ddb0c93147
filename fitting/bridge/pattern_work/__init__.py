"""Pattern work: each sheet as a value to show, keep and print, and what is known to fill its boxes with."""
