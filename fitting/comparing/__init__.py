"""Case, verdict, routes, next step, quick comparison, chart, `assess`."""
