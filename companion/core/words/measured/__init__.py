"""What was measured and counted, and what it means, in words."""
