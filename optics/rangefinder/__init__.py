"""Setting up a coupled rangefinder: what it can tell, zero and gain, and where to set it.

`model` describes it, `acuity` says what the eye can tell, `readings` and `fit` find zero and
gain, `correction` what to change, `adjusters` what to turn, `near_setting` where to set it,
`curve` what to plot, and `wording` says all of it.
"""
