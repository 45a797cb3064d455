"""The same piece made in other ways, and how much of it a cord is enough for; each is planned like any design."""
