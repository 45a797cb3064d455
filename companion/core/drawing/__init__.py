"""The strand drawn in pixels: one geometry for the terminal's half blocks and for the SVG."""
