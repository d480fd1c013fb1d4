"""``[verify]``, ``[project]`` and ``[[vehicles]]``: what a verification wants to know beyond the beam."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from soffit.beamfile.kinds import Choice, Number, Quantity, Several, Text, YesNo
from soffit.beamfile.tables.base import Table
from soffit.beamfile.tables.holding import CASES

EXPOSURES = (
    "X0", "XC1", "XC2", "XC3", "XC4", "XD1", "XD2", "XD3", "XS1", "XS2", "XS3", "XF1", "XF2", "XF3", "XF4",
    "XA1", "XA2", "XA3", "F0", "F1", "F2", "F3", "W0", "W1", "W2", "S0", "S1", "S2", "S3", "C0", "C1", "C2",
    "indoors", "outdoors", "ground",
)  # fmt: skip
"""EN 206 and EN 1992-1-1 Table 4.1; ACI 318-19 Table 19.3.1.1; words for the cover of ACI 318-19 Table 20.5.1.3."""
CATEGORIES = ("A", "B", "C", "D", "E", "F", "G", "H")
FIRES = ("R30", "R60", "R90", "R120", "R180", "R240")

_AXLE = Quantity("force", high=1e7)
_GAP = Quantity("length", high=1e6)
_RESIDUAL = Quantity("stress", low=0.1, high=50.0)
_SHARE = Number(0.0, 0.5, percent=True, bare=False, example=0.15)


class NationalTable(Table):
    """Values of a national annex that take the place of the recommended ones of EN 1990, EN 1992 and MC 2010."""

    alpha_cc: Annotated[float, Number(0.5, 1.2, example=0.85)] | None = Field(default=None, description="αcc.")
    alpha_ct: Annotated[float, Number(0.5, 1.2, example=1.0)] | None = Field(default=None, description="αct.")
    gamma_c: Annotated[float, Number(1.0, 2.0, example=1.5)] | None = Field(default=None, description="γC.")
    gamma_s: Annotated[float, Number(1.0, 1.5, example=1.15)] | None = Field(default=None, description="γS.")
    gamma_g: Annotated[float, Number(1.0, 2.0, example=1.35)] | None = Field(
        default=None, description="γG, unfavourable."
    )
    gamma_g_inf: Annotated[float, Number(0.5, 1.0, example=1.0)] | None = Field(
        default=None, description="γG, favourable."
    )
    gamma_q: Annotated[float, Number(1.0, 2.0, example=1.5)] | None = Field(default=None, description="γQ.")
    gamma_p: Annotated[float, Number(0.8, 1.4, example=1.0)] | None = Field(
        default=None, description="γP, on secondary effects of prestress."
    )
    xi: Annotated[float, Number(0.7, 1.0, example=0.85)] | None = Field(default=None, description="ξ of (6.10b).")
    both_6_10a_and_b: Annotated[bool, YesNo()] | None = Field(
        default=None, description="Whether (6.10a) and (6.10b) stand in the place of (6.10); else false."
    )
    psi_0: Annotated[float, Number(0.0, 1.0, example=0.7)] | None = Field(
        default=None, description="ψ0, of every variable load."
    )
    psi_1: Annotated[float, Number(0.0, 1.0, example=0.5)] | None = Field(
        default=None, description="ψ1, of every variable load."
    )
    psi_2: Annotated[float, Number(0.0, 1.0, example=0.3)] | None = Field(
        default=None, description="ψ2, of every variable load."
    )
    c_rd_c: Annotated[float, Number(0.05, 0.3, example=0.12)] | None = Field(
        default=None, description="CRd,c of (6.2a), with its partial factor in it."
    )
    k1_shear: Annotated[float, Number(0.0, 0.5, example=0.15)] | None = Field(default=None, description="k1 of (6.2a).")
    cot_theta_max: Annotated[float, Number(1.0, 3.0, example=2.5)] | None = Field(
        default=None, description="Greatest cot θ of 6.2.3 (2)."
    )
    k1_stress: Annotated[float, Number(0.3, 1.0, example=0.6)] | None = Field(
        default=None, description="k1 of 7.2 (2), compression of the concrete, characteristic loads."
    )
    k2_stress: Annotated[float, Number(0.3, 1.0, example=0.45)] | None = Field(
        default=None, description="k2 of 7.2 (3), compression of the concrete, quasi-permanent loads."
    )
    k3_stress: Annotated[float, Number(0.3, 1.0, example=0.8)] | None = Field(
        default=None, description="k3 of 7.2 (5), bars under loads."
    )
    k5_stress: Annotated[float, Number(0.3, 1.0, example=0.75)] | None = Field(
        default=None, description="k5 of 7.2 (5), tendons."
    )
    w_max: Annotated[float, Quantity("length", low=0.05, high=1.0, examples=("0.3 mm",))] | None = Field(
        default=None, description="wmax, greatest crack width."
    )
    k3_cracks: Annotated[float, Number(0.0, 5.0, example=3.4)] | None = Field(
        default=None, description="k3 of (7.11), spacing of cracks."
    )
    k4_cracks: Annotated[float, Number(0.0, 1.0, example=0.425)] | None = Field(
        default=None, description="k4 of (7.11), spacing of cracks."
    )
    sag: Annotated[float, Number(50.0, 2000.0, example=250.0)] | None = Field(
        default=None, description="Span over the greatest sag of 7.4.1 (4)."
    )
    sag_after: Annotated[float, Number(50.0, 2000.0, example=500.0)] | None = Field(
        default=None, description="Span over the greatest deflection after the finishes, 7.4.1 (5)."
    )
    k1_jack: Annotated[float, Number(0.3, 1.0, example=0.8)] | None = Field(
        default=None, description="k1 of 5.10.2.1 (1), of fpk."
    )
    k2_jack: Annotated[float, Number(0.3, 1.0, example=0.9)] | None = Field(
        default=None, description="k2 of 5.10.2.1 (1), of fp0.1k."
    )
    k6_transfer: Annotated[float, Number(0.3, 1.0, example=0.6)] | None = Field(
        default=None, description="k6 of 5.10.2.2 (5), compression of the concrete at transfer."
    )
    k7_transfer: Annotated[float, Number(0.3, 1.0, example=0.75)] | None = Field(
        default=None, description="k7 of 5.10.3 (2), of fpk."
    )
    k8_transfer: Annotated[float, Number(0.3, 1.0, example=0.85)] | None = Field(
        default=None, description="k8 of 5.10.3 (2), of fp0.1k."
    )
    r_sup: Annotated[float, Number(1.0, 1.3, example=1.05)] | None = Field(
        default=None, description="rsup of 5.10.9, for every tendon."
    )
    r_inf: Annotated[float, Number(0.7, 1.0, example=0.95)] | None = Field(
        default=None, description="rinf of 5.10.9, for every tendon."
    )
    beta_2: Annotated[float, Number(0.0, 1.0, example=0.25)] | None = Field(
        default=None, description="Share of the steel of the span at supports, 9.2.1.4 (1) and 9.2.1.5 (1)."
    )
    k1_spacing: Annotated[float, Number(0.5, 3.0, example=1.0)] | None = Field(
        default=None, description="k1 of 8.2 (2), clear distance in diameters."
    )
    k2_spacing: Annotated[float, Quantity("length", high=50.0, zero=True, examples=("5 mm",))] | None = Field(
        default=None, description="k2 of 8.2 (2), clear distance beyond the aggregate."
    )
    delta_c_dev: Annotated[float, Quantity("length", high=50.0, zero=True, examples=("10 mm",))] | None = Field(
        default=None, description="Δcdev, allowance in the cover for deviation."
    )


SYMBOLS = {
    "alpha_cc": "αcc", "alpha_ct": "αct", "gamma_c": "γc", "gamma_s": "γs", "gamma_g": "γG", "gamma_g_inf": "γG,inf",
    "gamma_q": "γQ", "gamma_p": "γP", "xi": "ξ", "both_6_10a_and_b": "6.10ab", "psi_0": "ψ0", "psi_1": "ψ1",
    "psi_2": "ψ2", "c_rd_c": "CRd,c", "k1_shear": "k1,v", "cot_theta_max": "cotθmax", "k1_stress": "k1",
    "k2_stress": "k2", "k3_stress": "k3", "k5_stress": "k5", "w_max": "wmax", "k3_cracks": "k3,s", "k4_cracks": "k4,s",
    "sag": "ℓ/w", "sag_after": "ℓ/Δw", "k1_jack": "k1,p", "k2_jack": "k2,p", "k6_transfer": "k6", "k7_transfer": "k7",
    "k8_transfer": "k8", "r_sup": "rsup", "r_inf": "rinf", "beta_2": "β2", "k1_spacing": "k1,8.2",
    "k2_spacing": "k2,8.2", "delta_c_dev": "Δcdev",
}  # fmt: skip
"""How the checks call them: the names that they give ``Verifying.nationally``, each with one meaning."""


class VerifyTable(Table):
    """Choices that the standards leave to the engineer; what is left out is taken as usual, and said."""

    edition: Annotated[str, Choice(("SI", "inch-pound"))] | None = Field(
        default=None, description="Edition of ACI 318-19; else by the units of the file."
    )
    exposure: Annotated[tuple[str, ...], Several(Choice(EXPOSURES), most=10, single=True)] = Field(
        examples=[["XC3", "XF1"], "outdoors"],
        default=(),
        description="Exposure classes of EN 1992-1-1 Table 4.1 or of ACI 318-19 Table 19.3.1.1, or a word for the "
        "cover by ACI 318-19: indoors, outdoors, ground (cast against it).",
    )
    category: Annotated[str, Choice(CATEGORIES)] | None = Field(
        default=None, description="Category of use of live loads, EN 1990 Table A1.1; else C for crowds, B for others."
    )
    working_life: Annotated[float, Quantity("time", low=300.0, high=80000.0, examples=("100 years",))] | None = Field(
        examples=["100 years"], default=None, description="Design working life; else 50 years."
    )
    fire: Annotated[str, Choice(FIRES)] | None = Field(
        default=None, description="Fire resistance that is wanted, in minutes of standard fire; else none."
    )
    fire_sides: Annotated[str, Choice(("three sides", "four sides"))] = Field(
        default="three sides", description="Sides from which fire reaches the beam."
    )
    pattern: Annotated[bool, YesNo()] = Field(
        default=True, description="Whether variable loads stand on any choice of spans."
    )
    redistribution: Annotated[float, _SHARE] | None = Field(
        default=None, description="Share by which elastic support moments are reduced; else none."
    )
    cot_theta: Annotated[float, Number(0.5, 3.0, example=1.5)] | None = Field(
        default=None,
        description="Cotangent of the inclination of the struts, EN 1992-1-1 6.2.3; else the flattest that they bear.",
    )
    finishes: Annotated[str, Choice(("none", "tough", "fragile"))] = Field(
        default="none", description="What rests on the beam and is harmed by its deflection."
    )
    joint: Annotated[str, Choice(("very smooth", "smooth", "rough", "keyed"))] = Field(
        default="smooth", description="Surface of the beam under a topping."
    )
    shape: Annotated[str, Choice(("beam", "slab"))] = Field(
        default="beam", description="Whether the rules for beams or for slabs apply where they differ."
    )
    reduced_live: Annotated[bool, YesNo()] = Field(
        default=False, description="ACI 318-19 5.3.3: factor 0.5 on live loads beside others."
    )
    laps: Annotated[float, Number(0.0, 1.0, above=True, percent=True, bare=False, example=0.5)] | None = Field(
        default=None, description="Share of the bars that are lapped at one place; else no laps."
    )
    lap_at: Annotated[tuple[float, ...], Several(Quantity("length", high=1e6, zero=True), most=50)] = Field(
        examples=[["2 m", "6 m"]], default=(), description="Middles of the laps, from the left end of the beam."
    )
    residual: Annotated[tuple[float, ...], Several(_RESIDUAL, 2, 2, example=("4 MPa", "3 MPa"))] | None = Field(
        examples=[["4 MPa", "3 MPa"]],
        default=None,
        description="Characteristic residual flexural strengths fR1k and fR3k of a fibre concrete, for MC 2010.",
    )
    national: NationalTable | None = Field(
        examples=[{"alpha_cc": 0.85}], default=None, description="Values of a national annex."
    )


class ProjectTable(Table):
    """What stands on the cover of a calculation."""

    name: Annotated[str, Text(120, "Alder Weir footbridge")] = Field(default="", description="Of the project.")
    number: Annotated[str, Text(60, "AW-12")] = Field(default="", description="Of the project or the calculation.")
    part: Annotated[str, Text(120, "approach, edge beam")] = Field(default="", description="Part of the structure.")
    made_by: Annotated[str, Text(80, "N. N.")] = Field(default="", description="Who made the calculation.")
    checked_by: Annotated[str, Text(80, "N. N.")] = Field(default="", description="Who checks it.")
    revision: Annotated[str, Text(30, "B")] = Field(default="", description="Of the calculation.")
    date: Annotated[str, Text(40, "2026-11-25")] = Field(default="", description="Of the revision.")


class VehicleTable(Table):
    """A row of axles that goes over the beam. A life does not count it."""

    name: Annotated[str, Text(60, "maintenance vehicle")] = Field(default="", description="What it is called.")
    case: Annotated[str, Choice(CASES)] = Field(default="traffic", description="Case that decides its factors.")
    axles: Annotated[tuple[float, ...], Several(_AXLE, most=60, example=("40 kN", "80 kN"))] = Field(
        examples=[["40 kN", "80 kN"]], description="Load of each axle on this beam, first axle first."
    )
    gaps: Annotated[tuple[float, ...], Several(_GAP, 0, 59, example=("3 m",))] = Field(
        examples=[["3 m"]], default=(), description="Distance from each axle to the next; one fewer than axles."
    )
    dynamic: Annotated[float, Number(1.0, 3.0, example=1.3)] = Field(
        default=1.0, description="By which the loads are multiplied for their movement."
    )
    both_ways: Annotated[bool, YesNo()] = Field(default=True, description="Whether it may also come from the right.")
