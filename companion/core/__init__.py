"""Pure values and functions: lengths, cord, knots, layout, plan, forecast, journal events and their fold."""
