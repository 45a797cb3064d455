"""Every page as a picture, to be looked at."""
