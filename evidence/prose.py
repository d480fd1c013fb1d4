"""What the page says in words: nothing here depends on how the runs come out."""

from __future__ import annotations

INTRODUCTION = """\
# Evidence

`make evidence` (`python -m evidence`) runs Soffit on every measured beam at hand that a beam file can describe
and writes this page; nobody edits it by hand. Each beam is written as a beam file, read, and followed to its
collapse, so the whole tool is judged and not a formula taken out of it. Every row is in
[beams.csv](evidence/beams.csv), and the measured data with their sources are in `tests/published/data/tests/`.

A ratio is always **measured over predicted**: above one, the beam was stronger than predicted. CoV is the
coefficient of variation. No constant of a model was fitted to these ratios, and nothing that a source leaves
out was chosen by them: where a choice had to be made (a strain at the tensile strength, a cover that is not
given) it is stated below and is the same for every row. This page is no blind prediction, though: while the
tool was written, differences seen here led to a search for errors of physics, in which models were exchanged
for other published ones. A life predicts the mean of what happens, from mean properties; scatter of the tests
themselves is in every CoV. The rows say less than their number seems to: many are pairs from one laboratory.
"""

PRESTRESS = """\
## What is not judged here: prestress

**No complete prestressed test was at hand.** Pretensioned and post-tensioned beams, losses, transfer, unbonded
tendons and anchors stand on closed forms, limits, invariants and printed worked examples (the other folders of
`tests/` and the examples in `tests/published`, in the next table), not on measured beams. Creep, shrinkage and what
they do to a cracked beam are judged [below](#beams-under-a-lasting-load). The same holds for tees and boxes,
continuous beams, fixed ends and patch loads: all measured beams here are rectangular and on one span. Cracking
loads were not given by any of the sources, so first crack is judged by plain beams alone.
"""

BENDING = """\
## Bending

Sound control beams of studies of corroded beams, as compiled by Matthews, Palermo and Scott and by others
(source lines in `rc_beams_intact_yield_deflection_149.csv`): small beams of 36 papers. The mode is known only
as the kind of test, so "right" means that the prediction is one of bending (steel yields and concrete crushes,
concrete crushes first, or a bar ruptures). Quality grades and flags are the file's own.

Assumed alike for all rows: cubes count 0.8 of their strength as cylinder strength (the pairs of classes of EN
206:2013, Table 12); bars harden in a straight line from yield to tensile strength at a strain of 8 %; they run
75 mm beyond the supports and end in hooks; top bars, and stirrups without a yield strength, are of the steel of
the main bars; stirrups stand over the whole length; all tension bars lie in one layer; plates were not given,
so the tool takes its default; aggregate 16 mm; P is the load of the press, own weight added by the tool.
"""

BENDING_STATICS = """\
**Rows that contradict themselves.** Equilibrium alone bounds the moment: all tension bars at their listed
tensile strength times the whole effective depth. Rows whose measured moment is above that cannot be met by any
model of these inputs. This test is one-sided (nothing tells a measured load that is too low), so the mean of
the remaining rows is a little too low; both are in the first table. Reasons can be bars stronger than listed,
an effective depth or load read wrongly by the compilers, or supports that did not roll and pushed back.
"""

BENDING_WHY = """\
A yield load needs no model of the concrete beyond its stiffness. A surplus that stands in both loads therefore
stands in the inputs (yield strengths as listed, effective depths as drawn) or in the supports; the file's own
check by a cracked elastic section also found a median of 1.10 for these rows. Beams that are called *shear*
here have short shear spans, few or widely spaced stirrups, or none listed; for some the list may lack stirrups
or clamps that were there.
"""

YIELD = """\
### First yield

Rows graded A- alone. Predicted deflections count bending and shear of the beam and nothing of its supports. The
file says neither where the deflection was read nor whether the supports' own settlement was taken off; slip of
the bars at the crack is in the tension stiffening only as its mean.
"""

BARE = """\
## Shear without stirrups

High-strength concrete (42 to 183 MPa), shear failures; only section, ratio of steel, shear span and shear force
are known. Assumed: two loads 2 d apart; soffit d/10 below the bars, at least 30 mm; two bars in one layer,
anchored by plates beyond the supports; normal-weight concrete; the shear force is that of the press alone. The
file's concrete strength is used as it stands, although its header shows it to be 2.4 MPa too low in five beams
that can be checked.

The yield strength of the bars is not given, and it matters: strains of the bars open the diagonal crack, and
bars that yield end the life in bending. So the group is run twice, with 500 MPa and with bars that never yield.
The second judges the shear strength alone, and its modes are right by construction; the modes of the first are
the ones that count.
"""

BARE_WHY = """\
**How well can it be done?** Beams that are equal in every listed number differ in the tests themselves, as the
next table shows; no prediction can tell them apart.
"""

STIRRUPS = """\
## Shear with stirrups

Ten of the beams collected by Fu and Feng (2021). Only the section, steel and a/d are given; the column with the
shear strength has no key at the source and is taken as the shear force. Assumed as above: two loads 2 d apart,
bars anchored by plates, aggregate 16 mm, no top bars. Some rows are above the moment that their own bars can
carry (1.1 times yield over 0.9 d): the shear force, the steel or the depth of these is not what the table says,
and they are also left out once. Two rows are equal in every input and differ by a fifth in the test.
"""

CLASSIC = """\
## Bresler and Scordelis, 1963

Twelve well-known beams, with and without stirrups. **Loads and failure modes are from memory**, inputs partly
(see the file's header), so this group stands apart. Assumed: bars in two layers two diameters apart, anchored
by plates, yielding without hardening; aggregate 19 mm (*from memory*); bearing plates not given.
"""

PLAIN = """\
## Plain beams

Grégoire, Rojas-Solano and Pijaudier-Cabot (2013): their smallest beams, 50 mm deep, with the tensile strength
and fracture energy that were published for the series. A beam file has no notch, so the half-notched beam is a
beam as deep as its ligament, of which only the peak load is compared. Bending strength falls with depth, and
with depths of 25 and 50 mm alone this group does not show whether the fall is right.
"""

PLAIN_WHY = """\
A peak that is right here is no proof of the way to it: the measured curve stays straight to a higher load, and
after its peak falls earlier than the predicted one. A higher tensile strength with a smaller fracture energy
would fit better; the published values were coded for the half-notched beams of the series and are used as they
stand. Less fracture energy near the faces of small beams (the boundary effect that the same authors discuss,
*from memory*) would act that way.
"""

CURVES = """\
## Curves and deflections

A beam of 200 × 500 mm over 5 m, loaded at midspan; measured points and two published sets of concrete
properties (source in `rc_beam_3pt_5m_inputs.csv`). Stirrups are not given and are assumed (8 mm, two legs,
every 150 mm), so that shear does not govern. The last measured point is the end of the record, so "peak" is a
lower bound.
"""

CURVES_WHY = """\
Where the test is softer than even a fully cracked section, the difference lies outside the section: slip of the
bars at their anchorage, settlement of the supports, cracks from earlier loading, none of which was reported.
The last point was measured at a deflection at which the predicted hinge has already lost its load: the concrete
of the test crushed later than the predicted one. Stirrups that hold the core together (here assumed, and
perhaps closer in the test) and the plate under the load act that way.
"""

BOND = """\
## Bond

Beam-type bond tests of steel bars against the local bond strength (fib Model Code 2010, 6.1; a life takes the
lesser of that and the anchorage strength, which is made for longer embedments than these). This judges the law by
itself: the larger cover is not given and taken equal to the least; no stirrups are counted. Measured values are
means over the embedded length at the peak, which are nearer to the local strength the shorter the bar is embedded.
"""

BOND_WHY = """\
The law was made for the anchorage of long bars and is on the safe side for short ones, where the measured
stress is nearly the local strength; over long embedments, where the ends slip before the middle is reached, the
measured mean is lower. Plain bars held much more than the friction of the law (*its constants from memory*);
there are two rows only, and the reason is not known.
"""

TENSILE = """\
## Tensile strength

Splitting tests of concrete with crushed sand, against the tensile strength that a life derives when a file
gives none (EN 1992-1-1 Table 3.1). Axial strength is 0.9 of the splitting strength (EN 1992-1-1 3.1.2 (8)), and
cylinder strength 0.8 of the cube's; cylinder strengths of 20 MPa and more, from which that table begins.
"""

PRINTED = """\
### Printed worked examples of prestress

Every entry of prestress in `tests/published/data/examples.json`, where its sources stand: those that a source prints
(seen there), and those that another program of ours computed from formulas from memory, which prove typing alone. The
printed ones are computed again here through the tool's own code: equivalent loads and support moments, elastic
sections, draw-in, the catalogue, and `soffit.member.time.past` just after the prestress is let in, for the camber of
three profiles and for the stresses of the bulb tee at transfer. That girder has 44 strands that displace 0.9 % of its
concrete: the source keeps that concrete in, the tool takes it off, and its soffit then has 2.1 % more; the ratio is
that of the source's way. The last column names the files `tests/published/test_….py`.
"""

LASTING = """\
## Beams under a lasting load

Gilbert and Nejadi (2004): beams and slabs on a span of 3.5 m, kept wet for 14 days, loaded then, and left for 380
days. **Seen in print:** the strength at 28 days, section and bars of beam B1-a, and its midspan deflection (34
readings under load, digitised to 0.1 mm and a day). **From memory:** the loads, the other five specimens and their
last deflections, and what was measured on the concrete: 22.8 GPa at 14 days, a creep coefficient of 1.71 and a
shrinkage of 825·10⁻⁶ at the end. **Not given, so assumed:** the humidity of the laboratory (40, 50 and 60 % are
shown), cement class N, all faces drying, ends 75 mm beyond the supports. The gauge is taken to have been set to zero
with the beam on its supports, so its own weight is in the growth alone. The first reading, half a day before 14 days
by the error of reading, is that of the instant.

Each is a beam file with stages, followed by `soffit.member.time.past`, first with nothing but the strength, by every
ageing model; then with modulus, creep and shrinkage of the model multiplied by one factor each so that they are the
measured ones (modulus at loading, creep and shrinkage at the end). Nothing is fitted to a deflection.
"""

LASTING_WHY = """\
**Where the differences come from.** With the strength alone the models are within 6 % as the load comes on and fall
short in the end, but for AASHTO, whose shrinkage and creep are high for so weak a concrete (16.8 MPa ordered, far below
the range for which it was given) and which grows too fast. For EN the shortfall is the shrinkage of this concrete:
825·10⁻⁶ were measured where EN at 50 % has little more than half. Its creep was less than predicted, which works the
other way. With what was measured put in, EN is 4 % too high in the end and the growth is right; what is left lies
within what 30 % of the tensile strength do, which was not reported, and which decides how much the concrete between the
cracks still carries. **Shrinkage bends this cracked beam more than creep does**: a calculation that leaves it out loses
most of the growth. The tensile strength is that of the file at its age under every model, grown as the model says.
Whether the measured shrinkage and creep are those of the beam's size was not known; they are taken as they stand.
"""

SEALED = """\
### Creep of sealed cylinders

Kommendant, Polivka and Pirtz (1976), compliance at every printed time, measured over predicted. The cylinders were
sealed, so this is **basic creep**. fib Model Code 2010 has a part for that; EN, ACI and AASHTO have creep and drying
in one formula, and a humidity of 100 % stands for the seal: the limit of their formulas, not what they were made for.
Slow cement stands for the type that the collection names.
"""

SEALED_WHY = """\
The ratios rise with the time under load by EN and fib Model Code 2010: basic creep goes on faster than they say,
although they begin near the test. ACI and AASHTO begin with too low a modulus for this concrete; loaded at 28 days they
come nearer with time, loaded at 270 days they stay about a fifth too soft. How much each one misses the growth itself
is in [the theory of ageing](theory/ageing.md).
"""

LEFT_OUT = """\
## Left out, and why

- Olsen's notched plain beams (normal and high strength): neither compressive nor tensile strength is given, and
  a tensile strength found from their peaks would be no evidence.
- García-Álvarez's beam: its notch stands away from the greatest moment, which a beam file cannot say.
- One two-span beam of the bending tests: its arrangement and peak load are not given.
- I-C. Yeh's mixes: the tool has no mix model to be judged by them.
- Bars are sound in all beams here: corroded ones were left out of the source files.
"""
