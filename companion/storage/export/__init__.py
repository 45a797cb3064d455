"""All pieces and cord cards as one JSON document, both ways."""
