"""What the user types for each of the small invented units; words in capitals are filled in."""

PAIR = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Garsdale grinding spindle
lines:
  spindle:
    from nose to tail:
      on the spindle: [spindle.shoulder, front, inner spacer, rear, nut]
      in the case:    [case.step, front, outer spacer, rear, ring]
parts:
  case:         {kind: housing}
  spindle:      {kind: shaft}
  front:        {kind: angular contact ball, bore: 35, outside: 62, width: 14.000 +/- 0.001,
                 angle: 25 deg, stops shaft going: FRONT, ground for: 150 N}
  rear:         {kind: angular contact ball, bore: 35, outside: 62, width: 14.000 +/- 0.001,
                 angle: 25 deg, stops shaft going: REAR, ground for: 150 N}
  inner spacer: {kind: spacer, bore: 35, outside: 43}
  outer spacer: {kind: spacer, bore: 54, outside: 62}
  nut:          {kind: nut, thread: M35x1.5, torque: 28 N.m}
  ring:         {kind: threaded ring, thread: M64x2, torque: 45 N.m}
sizes:
  inner spacer: INNER
  outer spacer: OUTER
checks:
  float: {kind: end float, of: spindle, push: 60 N}
"""

COVERED = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Fewston drive head
lines:
  shaft:
    from inside to cover:
      first:    [inner, shaft.inner shoulder]
      second:   [shaft.outer shoulder, outer]
      in case:  [case.step, inner]
      in cover: [outer, cover.spigot]
      joint:    [case.joint, shim, cover.flange]
parts:
  case:  {kind: housing}
  shaft: {kind: shaft}
  inner: {kind: angular contact ball, bore: 30, outside: 62, width: 16.000 +/- 0.001, angle: 30 deg,
          set width: 16.000 +/- 0.001, stops shaft going: inside}
  outer: {kind: angular contact ball, bore: 30, outside: 62, width: 16.000 +/- 0.001, angle: 30 deg,
          set width: 16.000 +/- 0.001, stops shaft going: cover}
  cover: {kind: cover, screw circle: 88, spigot: 60, thickness: 7}
  shim:  {kind: shim pack}
sizes:
  case.step to case.joint: 90.000
  shaft.inner shoulder to shaft.outer shoulder: 62.500
  cover.flange to cover.spigot: 4.200
settings:
  shim: {made from: [0.05, 0.10], fitted: 0.30}
states:
  nipped: {cover screws: fingers}
checks:
  float: {kind: end float, of: shaft, push: 80 N}
  gap:   {kind: gap, at: cover, state: nipped}
"""

GROOVES = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Wharfe bench drill
lines:
  spindle:
    from pulley to nose:
      first:   [upper, spindle.upper shoulder]
      second:  [spindle.lower shoulder, lower]
      in case: [case.step, upper]
      mouth:   [lower, REST cover.spigot]
      joint:   [case.joint, cover.flange]
parts:
  case:    {kind: housing}
  spindle: {kind: shaft}
  upper:   {kind: deep groove ball, bore: 17, outside: 40, width: 12.000 +/- 0.001,
            play: 0.012 +/- 0.001}
  lower:   {kind: deep groove ball, bore: 20, outside: 47, width: 14.000 +/- 0.001,
            play: 0.014 +/- 0.001}
  cover:   {kind: cover}
  wave:    {kind: spring washer, free: 4.200 +/- 0.001, force: 140 N, at: 3.000 +/- 0.001,
            solid: 1.300 +/- 0.001}
sizes:
  case.step to case.joint: 90.000
  spindle.upper shoulder to spindle.lower shoulder: 58.000
  cover.flange to cover.spigot: SPIGOT
checks:
  float: {kind: end float, of: spindle, push: 70 N}
"""

OVERHUNG = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Keasden bevel box
lines:
  pinion:
    from mesh to drive:
      on the pinion: [pinion.shoulder, front]
      behind:        [rear, adjuster]
      front cup:     [front, quill.front step]
      rear cup:      [quill.rear step, rear]
      flange:        [case.face, shim, quill.flange]
  wheel:
    from left to right:
      left:  [case.left, left washer, wheel.left face]
      right: [wheel.right face, right washer, case.right]
parts:
  case:         {kind: housing}
  quill:        {kind: cartridge}
  shim:         {kind: shim pack}
  pinion:       {kind: shaft}
  front:        {kind: taper roller, bore: 30, outside: 62, width: 16.000 +/- 0.001,
                 set width: 17.250 +/- 0.001, angle: 14 deg, stops shaft going: drive}
  rear:         {kind: taper roller, bore: 25, outside: 52, width: 15.000 +/- 0.001,
                 set width: 16.250 +/- 0.001, angle: 14 deg, stops shaft going: mesh}
  adjuster:     {kind: nut, thread: M25x1.5, set to: -0.006}
  wheel:        {kind: shaft}
  left washer:  {kind: thrust washer}
  right washer: {kind: thrust washer}
meshes:
  bevels: {kind: bevel, pinion: pinion, wheel: wheel, pinion teeth: 18, wheel teeth: 36, module: 3,
           face width: 18, lash: 0.10, pinion apex: pinion.apex, pinion crossing: case.axis,
           pinion away: drive, wheel apex: wheel.apex, wheel crossing: case.crossing,
           wheel away: right}
sizes:
  case.axis to case.face: 110.000
  quill.flange to quill.front step: -30.000
  quill.front step to quill.rear step: 25.000
  pinion.apex to pinion.shoulder: 63.000
  case.left to case.crossing: 40.000
  case.left to case.right: 100.000
  wheel.left face to wheel.apex: 38.000
  wheel.left face to wheel.right face: 95.960
  left washer: 2.000
  right washer: 2.000
settings:
  shim: {made from: [0.05, 0.10, 0.25], fitted: 0.25}
checks:
  float: {kind: end float, of: pinion, push: 100 N}
  lash:  {kind: backlash, mesh: bevels, on: wheel, wheel: towards}
"""

RING_IN_QUILL = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Crummack worm quill
lines:
  worm:
    from handle to blind end:
      first:    [near, worm.near collar]
      second:   [worm.far collar, far]
      near cup: [ring, near]
      far cup:  [far, quill.floor]
      joint:    [case.face, shim, quill.flange]
parts:
  case:  {kind: housing}
  quill: {kind: cartridge}
  shim:  {kind: shim pack}
  worm:  {kind: shaft}
  near:  {kind: taper roller, bore: 25, outside: 52, width: 15, set width: 16.25, angle: 14 deg,
          stops shaft going: handle, in: quill}
  far:   {kind: taper roller, bore: 25, outside: 52, width: 15, set width: 16.25, angle: 14 deg,
          stops shaft going: blind end, in: quill}
  ring:  {kind: threaded ring, set to: -0.030}
sizes:
  worm.near collar to worm.far collar: 64.000
  quill.flange to quill.floor: -10.000
settings:
  shim: {made from: [0.05], fitted: 0.20}
states:
  nipped: {cover screws: fingers}
checks:
  gap: {kind: gap, at: quill, state: nipped}
"""
"""Both cups sit in the quill and so does the ring: what it nips stays inside."""

TANDEM = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Cowgill upright jig borer
lines:
  spindle:
    from nose to tail:
      on the spindle: [lower, upper, spindle.collar]
      in the case:    [case.step, lower, upper]
parts:
  case:    {kind: housing}
  spindle: {kind: shaft, weight: 240 N, weighs towards: nose}
  lower:   {kind: angular contact ball, bore: 25, outside: 52, width: 15.000 +/- 0.001,
            angle: 40 deg, stops shaft going: nose, ground for: 50 N}
  upper:   {kind: angular contact ball, bore: 25, outside: 52, width: 15.000 +/- 0.001,
            angle: 40 deg, stops shaft going: nose, ground for: 50 N}
"""

SET_OF_THREE = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Hebble wheelhead
lines:
  spindle:
    from nose to tail:
      on the spindle: [spindle.shoulder, one, two, inner spacer, three, nut]
      in the case:    [case.step, one, two, outer spacer, three, ring]
parts:
  case:         {kind: housing}
  spindle:      {kind: shaft}
  one:          {kind: angular contact ball, bore: 40, outside: 68, width: 15.000 +/- 0.001,
                 angle: 15 deg, stops shaft going: tail, ground for: 120 N}
  two:          {kind: angular contact ball, bore: 40, outside: 68, width: 15.000 +/- 0.001,
                 angle: 15 deg, stops shaft going: tail, ground for: 120 N}
  three:        {kind: angular contact ball, bore: 40, outside: 68, width: 15.000 +/- 0.001,
                 angle: 15 deg, stops shaft going: nose, ground for: 240 N}
  inner spacer: {kind: spacer, bore: 40, outside: 48}
  outer spacer: {kind: spacer, bore: 60, outside: 68}
  nut:          {kind: nut, thread: M40x1.5, torque: 35 N.m}
  ring:         {kind: threaded ring, thread: M70x2, torque: 50 N.m}
sizes:
  inner spacer: 30.000
  outer spacer: 30.000
checks:
  float: {kind: end float, of: spindle, push: 100 N}
"""

HEADSTOCK = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Oughtershaw lathe headstock
lines:
  spindle:
    from nose to tail:
      nose:      [spindle.flange, front]
      tail:      [rear, sleeve, nut]
      front cup: [front, case.front]
      rear cup:  [case.rear, rear]
parts:
  case:    {kind: housing}
  spindle: {kind: shaft}
  front:   {kind: taper roller, bore: 40, outside: 80, width: 18.000 +/- 0.001,
            set width: 19.750 +/- 0.001, angle: 14 deg, stops shaft going: tail}
  rear:    {kind: taper roller, bore: 35, outside: 72, width: 17.000 +/- 0.001,
            set width: 18.250 +/- 0.001, angle: 15 deg, stops shaft going: nose}
  sleeve:  {kind: spacer, bore: 35, outside: 45}
  nut:     {kind: nut, thread: M35x1.5, set to: SET_TO}
sizes:
  case.front to case.rear: 150.000
  sleeve: 12.000
checks:
  float: {kind: end float, of: spindle, push: 120 N}
"""

SET_BY_RING = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Skirden feed worm
lines:
  worm:
    from handle to blind end:
      first:    [near, worm.near collar]
      second:   [worm.far collar, far]
      near cup: [ring, near]
      far cup:  [far, case.floor]
parts:
  case: {kind: housing}
  worm: {kind: shaft}
  near: {kind: taper roller, bore: 25, outside: 52, width: 15.000 +/- 0.001,
         set width: 16.250 +/- 0.001, angle: 14 deg, stops shaft going: handle}
  far:  {kind: taper roller, bore: 25, outside: 52, width: 15.000 +/- 0.001,
         set width: 16.250 +/- 0.001, angle: 14 deg, stops shaft going: blind end}
  ring: {kind: threaded ring, set to: SET_TO}
sizes:
  worm.near collar to worm.far collar: 64.000
checks:
  float: {kind: end float, of: worm, push: 150 N}
"""

FIXED_AND_FLOATING = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Langstroth lay shaft
lines:
  shaft:
    from pulley to free end:
      fixed side: [nut, fixed, shaft.shoulder]
      free side:  [shaft.free shoulder, free]
      in case:    [cover.spigot, fixed, case.step]
      joint:      [cover.flange, case.joint]
parts:
  case:  {kind: housing}
  shaft: {kind: shaft}
  fixed: {kind: deep groove ball, bore: 30, outside: 62, width: 16.000 +/- 0.001,
          play: 0.016 +/- 0.001}
  free:  {kind: deep groove ball, bore: 25, outside: 52, width: 15.000 +/- 0.001,
          play: 0.014 +/- 0.001, in: case}
  nut:   {kind: nut, thread: M30x1.5, torque: 30 N.m}
  cover: {kind: cover}
sizes:
  case.joint to case.step: 22.000
  cover.flange to cover.spigot: 5.990
  shaft.shoulder to shaft.free shoulder: 120.000
checks:
  float: {kind: end float, of: shaft, push: 90 N}
"""

THRUST = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Malham cross feed screw
lines:
  screw:
    from handle to nut:
      boss:   [cover.boss, near]
      first:  [near, screw.near face]
      second: [screw.far face, far]
      wall:   [far, case.wall]
      joint:  [cover.flange, case.joint]
parts:
  case:  {kind: housing}
  screw: {kind: shaft}
  cover: {kind: cover}
  near:  {kind: thrust ball, bore: 20, outside: 40, set width: 14.000 +/- 0.001,
          width: 5.000 +/- 0.001, stops shaft going: handle}
  far:   {kind: thrust ball, bore: 20, outside: 40, set width: 14.000 +/- 0.001,
          width: 5.000 +/- 0.001, stops shaft going: nut}
sizes:
  case.joint to case.wall: ROOM
  cover.flange to cover.boss: 0.000
  screw.near face to screw.far face: 12.000
checks:
  float: {kind: end float, of: screw, push: 100 N}
"""

TWO_ROW = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Raydale idler
lines:
  shaft:
    from back to front:
      on the shaft: [shaft.shoulder, both, nut]
      in the case:  [case.step, both, ring]
parts:
  case:  {kind: housing}
  shaft: {kind: shaft}
  both:  {kind: two-row ball, bore: 30, outside: 62, width: 23.800 +/- 0.001, angle: 30 deg,
          play: PLAY +/- 0.001}
  nut:   {kind: nut, thread: M30x1.5, torque: 25 N.m}
  ring:  {kind: threaded ring, thread: M64x2, torque: 40 N.m}
checks:
  float: {kind: end float, of: shaft, push: 75 N}
"""

BRANCH = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Sulber clutch shaft
lines:
  shaft:
    from wall to cover:
      first:    [wall race, shaft.wall shoulder]
      second:   [shaft.cover shoulder, cover race]
      in case:  [case.step, wall race]
      in cover: [cover race, cover.spigot]
      joint:    [case.joint, shim, cover.flange]
      clutch:   [shaft.seat, clutch spring, cone, keeper, shaft.groove]
parts:
  case:          {kind: housing}
  shaft:         {kind: shaft}
  cover:         {kind: cover}
  shim:          {kind: shim pack}
  wall race:     {kind: taper roller, bore: 35, outside: 72, width: 17.000 +/- 0.001,
                  set width: 18.250 +/- 0.001, angle: 14 deg, stops shaft going: wall}
  cover race:    {kind: taper roller, bore: 35, outside: 72, width: 17.000 +/- 0.001,
                  set width: 18.250 +/- 0.001, angle: 14 deg, stops shaft going: cover}
  clutch spring: {kind: spring washer, free: 6.000 +/- 0.001, force: 200 N, at: 4.500 +/- 0.001,
                  solid: 2.000 +/- 0.001}
  cone:          {kind: spacer}
  keeper:        {kind: retaining ring}
sizes:
  case.step to case.joint: 120.000
  cover.flange to cover.spigot: 0.000
  shaft.wall shoulder to shaft.cover shoulder: 83.992
  shaft.wall shoulder to shaft.seat: 20.000
  shaft.seat to shaft.groove: 26.000
  cone: 20.000
  keeper: 1.500
settings:
  shim: {made from: [0.05, 0.10], fitted: 0.50}
checks:
  float: {kind: end float, of: shaft, push: 130 N}
"""

RIGID_TEXT = """
dryfit: 1
sizes in: mm
measured with: micrometer
title: Gisburn change wheel cluster
lines:
  shaft:
    from floor to cover:
      through:      [case.floor, floor washer, cluster, sleeve, cover.boss]
      on the shaft: [shaft.collar, cluster]
      far:          [sleeve, keeper, shaft.groove]
      joint:        [case.joint, gasket, cover.flange]
parts:
  case:         {kind: housing}
  cover:        {kind: cover}
  shaft:        {kind: shaft}
  cluster:      {kind: cluster}
  floor washer: {kind: thrust washer}
  sleeve:       {kind: spacer}
  keeper:       {kind: retaining ring}
  gasket:       {kind: gasket, free: 0.25, nipped: 0.20}
sizes:
  case.floor to case.joint: 80.000
  cover.flange to cover.boss: -4.000
  floor washer: 2.500
  cluster: 55.000
  sleeve: 18.300
  keeper: 1.600
  shaft.collar to shaft.groove: 75.100
checks:
  shaft float:   {kind: end float, of: shaft}
  cluster float: {kind: end float, of: cluster}
  washer float:  {kind: end float, of: floor washer}
  sleeve float:  {kind: end float, of: sleeve}
  keeper float:  {kind: end float, of: keeper}
"""
