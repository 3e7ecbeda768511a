"""A roller bearing whose outer ring lies in no stack, in a unit where another ring grips."""

from dryfit.app.usecases.review import ReviewRequest, review

TEXT = b"""\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from nose to tail:
      on the shaft: [spindle.shoulder, front, nut]
      in the case:  [case.register, front, ring]
      rear:         [spindle.rear shoulder, rear]
parts:
  case: {kind: housing}
  spindle: {kind: shaft}
  front: {kind: two-row ball, bore: 40, outside: 80, width: 30, angle: 25 deg, seat: 40.010}
  rear: {kind: cylindrical roller, bore: 35, outside: 72, width: 17}
  nut: {kind: nut, thread: M40x1.5, torque: 50 N.m}
  ring: {kind: threaded ring, thread: M85x2, torque: 60 N.m}
sizes:
  spindle.shoulder to spindle.rear shoulder: 100
checks:
  float: {kind: end float, of: spindle}
"""


def test_a_ring_that_touches_nothing_does_not_hinder() -> None:
    """Rollers pass no push endways: the float is read as if their outer ring were not there."""
    assert review(ReviewRequest(TEXT)).ready
