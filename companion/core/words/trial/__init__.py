"""What a new maker is told on the sample piece."""
