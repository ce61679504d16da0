"""A small shop of another trade with an order, for tests of the season."""

from __future__ import annotations

SHOP = """\
=== procedures/shop.yml
shop: hinges
title: Hinges
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday], hours: 8 h/day, closed: 2027-03-26..2027-03-29}
products: {hinge: {title: Hinge, of: {leaf: 2, screw: 6}}}
parts: {leaf: Leaf, screw: {title: Screw, supplier: Drumlow, lead time: 2 wk}}
=== procedures/leaf/punch-leaf.yml
procedure: punch-leaf
title: Punch the leaf
skill: punching
time: {setup: 30 min, each: 10 min}
tools: press
steps: Punch it.
=== procedures/leaf/blue-leaf.yml
procedure: blue-leaf
title: Have the leaf blued
after: punch-leaf
where: the smith's
per: lot
load: min 10 pieces; max 60 pieces
taken in: Wednesday
steps:
  - do: Hand it over.
    wait: about 5 d
=== procedures/hinge/pin-hinge.yml
procedure: pin-hinge
title: Pin the hinge
part: leaf
makes: hinge
skill: fitting
after: blue-leaf
time: {each: 15 min}
hands: {count: 2, roles: {driver: {does: Drives it home.}, holder: {does: Holds it.}}, leads: driver}
steps: Drive the pin home.
=== procedures/orders/spring.yml
order: spring
title: Spring hinges
product: hinge
pieces: 40
due: 2027-04-30
not before: 2027-03-01
=== tools/machines/press.yml
machine: press
title: Press
=== skills/punching.yml
skill: punching
title: Punching
covers: punch-leaf
=== skills/fitting.yml
skill: fitting
title: Fitting
covers: pin-hinge
=== skills/people.yml
people:
  ada: {name: Ada Ost, hours: 20 h/week, absent: 2027-03-08..2027-03-12}
  bo: {name: Bo Ost, hours: 10 h/week, other: 2 h/week, days: [Monday, Tuesday]}
  ola: {name: Ola Ost, founding: true, left: 2020}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: ola
date: 2020-01-01
learner: ada
skill: punching
level: alone
---
sign-off: 2
who: ola
date: 2020-01-01
learner: ada
skill: fitting
level: alone
"""
