"""Questions over a screen: each asks, gives back a value or None, and changes nothing itself."""
