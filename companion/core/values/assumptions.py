"""Every figure that the sums rest on and no maker typed in: one place, named, with what each rests on."""

from __future__ import annotations

from msgspec import Struct


class Assumptions(Struct, frozen=True):
    """Shares are of the mean (0.12: twelve per cent); lengths in mm. "Practice" means common practice, no source."""

    # knots
    knot_scatter_cv: float = 0.12  # one knot against the next, take-up and length alike; practice
    knot_scatter_degrees: float = 12.0  # how firmly that scatter is believed, as degrees of freedom; our own choice
    knot_correlation: float = 0.5  # take-up with length, of one knot and of a card's means; our own estimate
    piece_cv: float = 0.08  # a maker ties tighter or looser from piece to piece, and test knots otherwise; practice
    practised_piece_cv: float = 0.05  # the same, once the card has learnt from a finished piece; practice
    piece_correlation: float = 0.5  # take-up with length in that piece effect; our own estimate
    tension_walk_by_end_cv: float = 0.01  # slow change of tension by the end of a strand; our own estimate
    design_test_knots: int = 3  # numbers written in a design count as a card of so many test knots
    estimate_take_up_cv: float = 0.25  # untested soft cord against ideal rope; our own estimate
    estimate_length_cv: float = 0.20
    settling_share: float = 0.01  # by so much of their length knots shorten after they are tied; practice
    settling_cv: float = 0.02  # how far that differs from piece to piece; our own estimate
    # beads
    bead_lot_cv: float = 0.015  # a whole lot runs long or short; practice
    bead_scatter_cv: float = 0.01  # one bead against the next; practice
    # rulers
    strand_handling_mm: float = 1.0  # laying a strand straight along the ruler; our own estimate
    free_cord_handling_mm: float = 2.5  # holding loose cord along the ruler; our own estimate
    ruler_step_mm: float = 1.0  # least division of a ruler; 1/16 in is 1.5875
    strand_scale_cv: float = 0.003  # a worn hook, a strand laid slack or taut: all readings of a piece alike; our own
    test_handling_mm: float = 0.5  # handling of one length of a test row; our own estimate
    # cutting
    run_out_risk: float = 0.01  # the maker's setting; one piece in a hundred
    allowance_awl_mm: float = 60.0  # what hands and awl need to tie the last knot; practice
    allowance_needle_mm: float = 100.0
    short_cut_questioned: float = 0.05  # a cut this share under the planned one is questioned
    # verdicts
    on_plan_above: float = 0.75  # chance of tolerance, against that of a piece exactly on its plan; our own choice
    off_below: float = 0.65  # the same, below which a length is said to be off; chosen on simulated pieces
    off_from: float = 0.6  # once so much of the strand is strung; until then the next reading is waited for
    surely_off_below: float = 0.01  # and before that only where it is all but certain
    stays_by: float = 0.05  # by so much a word stands longer than it would come up by itself, so that it does not flap
    alarm_above: float = 0.35  # chance that something has gone wrong, at which it is said
    suspect_above: float = 0.25  # the same, where the length is off its plan as well
    enough_above: float = 0.95  # chance that the cord reaches the end
    runs_out_below: float = 0.4  # it is said to end too soon where that is likelier than not by far; our own choice
    held_above: float = 0.75  # chance that enough is left to hold and to close with; our own choice
    # what goes wrong with hands: the chance of each in one piece, before anything is read; our own estimates
    prior_tension_step: float = 0.05
    prior_tension_drift: float = 0.03
    prior_bead_lost: float = 0.015  # missed; as much again for one too many
    prior_step_lost: float = 0.005  # the same, its knot with it: a step counted that was not made
    prior_knot_lost: float = 0.015
    prior_double_as_single: float = 0.015
    prior_cut_misread: float = 0.01  # the cord is shorter or longer than was entered
    prior_cord_shortened: float = 0.01  # on the way: snipped, frayed, caught
    prior_misread: float = 0.004  # of each reading
    prior_gross_misread: float = 0.001  # of each reading: another unit, the wrong end, a figure slipped
    gross_misread_mm: float = 200.0  # by how much such a reading may be off
    prior_wild_misread: float = 0.0001  # of each reading: nothing to do with the strand at all
    wild_misread_mm: float = 50_000.0
    second_fault_above: float = 0.02  # chance of a first fault from which on a second is looked for; our own choice
    # the next reading
    unseen_above: float = 0.02  # chance of having left tolerance unseen at which it is due; our own choice
    reading_every_knots: int = 15
    reading_every_share: float = 0.25
    reading_least_knots: int = 3


USUAL = Assumptions()
