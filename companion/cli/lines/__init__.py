"""`follow --lines`: a whole piece at a prompt, without a screen."""
