"""The constants of junction mechanics as plain fields; rules/tables/junction.yaml holds them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class JunctionConstants:
    """Every number that tip, junction and technique take from the table, under its names."""

    # The head against a wall.
    slide_loss_round: float  # rad taken off atan(1/friction) for a round nose
    slide_loss_flat: float  # rad taken off it for a flat nose
    spring_end_factor: float  # effective length factor of the spring as a column
    fold_level: float  # logit that a head which failed to turn folds, at the references below
    fold_room: float  # change of it per e-fold of main bore over head diagonal
    fold_spring: float  # fall of it per e-fold of spring stiffness over fold_spring_reference
    fold_spring_reference: float  # N m^2
    wrong_way_share: float  # share of heads that neither turn nor fold: off the wrong way

    # The head in a swept fitting: angles of the head to the far wall, against the slide angle.
    head_steepness: float  # logit per rad of angle in hand
    approach_sweep: float  # rad, one-piece sweep or generous sanitary tee, equal bores, flat
    approach_long_leg: float  # rad, 1/8 bend and a long leg into a wye
    approach_short_leg: float  # rad, the same with a short leg
    approach_wye: float  # rad, plain 45 degree wye
    lean_stack: float  # rad gained where the main is vertical
    lean_drop: float  # rad gained (negative: lost) where the branch falls onto a horizontal main
    lean_curl: float  # rad gained with the natural curl pointing downstream
    lean_step: float  # rad lost per e-fold of main bore over branch bore
    column_slope: float  # logit per e-fold of push over the spring's column load, every fitting

    # The head in a square or short-sweep tee: logit of turning downstream at push = column load.
    square_stack: float
    square_flat: float
    square_drop: float
    square_drop_curl: float  # added with the curl pointing downstream, tee on its back only

    # The rod end behind the spring.
    rod_end_stiff: float  # rod-end number needed behind a soft spring
    rod_end_graded: float  # rod-end number needed behind a graduated spring
    spring_knee: float  # spring over rod stiffness between the two
    spring_sharpness: float  # how sudden the change is
    rod_steepness: float  # logit per e-fold of rod-end margin
    rod_curl: float  # log of margin gained with the curl pointing downstream
    rod_off_stack: float  # factor on the margin where the main is not vertical
    sweep_ease: float  # factor on the margin in a swept fitting
    sweep_wrap: float  # rad of wrap over which friction eats the push in a swept fitting
    long_leg_ease: float  # further factor, long leg
    short_leg_ease: float  # further factor, short leg
    wye_ease: float  # further factor, plain wye

    # The double sanitary tee.
    cross_level: float  # logit of crossing over with the curl sideways
    cross_curl: float  # fall of it with the curl pointing downstream

    # The quick push and its kin.
    quick_level: float
    quick_spring: float  # per decade of spring over rod stiffness
    quick_step: float  # per unit of main bore over branch bore
    quick_friction: float  # per unit of friction
    quick_bend: float  # per bend between hand and fitting
    quick_shrink: float  # factor on the logit: what the four groups above do not know
    quick_offset: float  # taken off after shrinking
    slow_speed: float  # m/s, at and below which a push is slow
    quick_speed: float  # m/s, at and above which more speed adds nothing
    slow_penalty: float  # logit taken off for a slow push with the same force
    gentle_penalty: float  # logit taken off for a quarter turn and a gentle push
    repeat_exponent: float  # n strokes are worth n to this power independent ones
    quick_fold_level: float  # logit of a stroke that ends folded, main bore = head diagonal
    quick_fold_room: float  # change of it per e-fold of main bore over head diagonal

    # The string: chance that the head turns, against the angle the string turns it through.
    string_half: float  # rad, half pass
    string_low: float  # rad, window from here
    string_high: float  # rad, to here
    string_hooking: float  # rad, a third pass
    string_hooked: float  # rad, none pass from here
    string_best: float  # chance inside the window
    string_hooking_chance: float  # chance at string_hooking
