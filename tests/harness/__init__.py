"""Trials that nothing a maker did is lost: killed, out of disk, without current, fed with rubbish. See __main__."""
