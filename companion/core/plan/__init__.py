"""From a design to a plan: layout, count, closures, steps, cut, warnings."""
