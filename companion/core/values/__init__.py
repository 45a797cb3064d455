"""What everything else is made of: lengths, text, the design, named assumptions, errors."""
