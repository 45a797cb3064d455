"""What a cord's knots take: figures, cord cards and their test knots, lessons of finished pieces."""
