"""From ruler readings to a forecast: observations, fault hypotheses, verdicts."""
