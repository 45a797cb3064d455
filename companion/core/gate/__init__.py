"""What comes from outside, checked before anything works with it."""
