"""What every maker of the trade knows, in our own words: knots, closures, rules, cautions."""
