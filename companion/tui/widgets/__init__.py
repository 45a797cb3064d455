"""Parts of screens: each shows what it is given and says what the hand did."""
