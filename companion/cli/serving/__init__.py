"""The app in a browser: for a tablet that leans at the bench."""
