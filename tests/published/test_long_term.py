"""Losses, limits and long-term deflections of the standards against worked examples. Sources in ``data/examples.json``;
those named ``own-…`` are another program of ours on the same formulas from memory, no printed example."""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest
from printed import INCH, KIP, KIP_FT, KSI, PSI, agrees, given

from soffit.codes import camber
from soffit.codes.aashto import losses as aashto
from soffit.codes.aashto import stresses as aashto_limits
from soffit.codes.aci318 import deflection as aci_deflection
from soffit.codes.aci318 import losses as zia
from soffit.codes.en1992 import deflection as en_deflection
from soffit.codes.en1992 import losses as en
from soffit.materials.ageing.aashto import Aashto
from soffit.materials.ageing.aashto_losses import Girder
from soffit.section.elastic import ElasticLayer, cracked
from soffit.section.outline import rectangle


def plain(example: dict[str, Any]) -> dict[str, float]:
    return {k: v["value"] for k, v in example["inputs"].items()}


def test_5_46(example) -> None:
    found = example("own-ec2-5-46")
    x = plain(found)
    terms = en.long_term(
        steel_area=x["Ap"], area=x["Ac"], inertia=x["Ic"], arm=x["zcp"], steel_modulus=x["Ep"],
        concrete_modulus=x["Ecm"], creep=x["phi"], shrinkage=x["eps_cs"], relaxation=x["dsig_pr"], stress=x["sig_cQP"],
    )  # fmt: skip
    agrees(found, "numerator", terms.total * terms.restraint, "recomputed")
    agrees(found, "denominator", terms.restraint, "recomputed")
    agrees(found, "dsig", terms.total, "recomputed")
    assert terms.total * x["Ap"] / 1000.0 == pytest.approx(found["recomputed"]["dP"]["value"], rel=1e-6)


def test_approximate_losses_of_aashto(example) -> None:
    found = example("own-aashto-approx-loss")
    x = plain(found)
    terms = aashto.approximate(
        stress=x["fpi"] * KSI, steel_area=x["Aps"] * INCH**2, area=x["Ag"] * INCH**2, humidity=x["H"],
        transfer_strength=x["fci"] * KSI, relaxation=x["fpR"] * KSI,
    )  # fmt: skip
    agrees(found, "gamma_h", terms.humidity_factor, "recomputed")
    agrees(found, "gamma_st", terms.strength_factor, "recomputed")
    agrees(found, "creep_term", terms.creep, "recomputed")
    agrees(found, "shrink_term", terms.shrinkage, "recomputed")
    agrees(found, "total", terms.total, "recomputed")


def girder(example, model: Aashto) -> tuple[Girder, dict[str, float]]:
    """The bulb tee of NCHRP Report 733, Attachment N, in base units."""
    x = plain(example("ps-nchrp733-bt72"))
    return Girder(
        x["n_strand"] * x["a_strand"] * INCH**2, x["A"] * INCH**2, x["I"] * INCH**4, x["e_mid"] * INCH,
        x["Ep"] * KSI, float(model.modulus(1.0)),
    ), x  # fmt: skip


@pytest.mark.parametrize(("edition", "suffix"), [("2015 on", "2015"), ("before 2015", "old")])
def test_refined_losses_of_aashto_put_together(example, edition: str, suffix: str) -> None:
    """fcgp of the closed form of elastic shortening, then losses to deck placement."""
    found = example("own-aashto-refined-loss")
    x = plain(found)
    fc = plain(example("ps-nchrp733-bt72"))["fc"]
    model = Aashto(
        fc * KSI, x["H"], x["VS"] * INCH, drying_from=x["ti"], transfer_strength=x["fci"] * KSI, transfer_age=x["ti"],
        early_drying=False, density=0.150 * 16018.463, edition=edition,
    )  # fmt: skip
    section, beam = girder(example, model)
    section = Girder(
        section.steel_area, section.area, section.inertia, section.eccentricity, x["Ep"] * KSI, x["Eci"] * KSI
    )
    es = aashto.elastic_shortening(
        stress=beam["fpj"] * KSI, steel_area=section.steel_area, area=section.area, inertia=section.inertia,
        eccentricity=section.eccentricity, moment=beam["w_beam"] * beam["L_release"] ** 2 / 8 * KIP_FT,
        steel_modulus=section.steel_modulus, concrete_modulus=section.concrete_modulus,
    )  # fmt: skip
    fcgp = es * section.concrete_modulus / section.steel_modulus
    agrees(found, "fcgp", fcgp, "recomputed")
    ti, td, tf = x["ti"], x["td"], x["tf"]
    terms = aashto.refined(
        section, section, stress=fcgp, placing=0.0, later_modulus=section.concrete_modulus,
        creep_until=float(model.creep(td, ti)), creep=float(model.creep(tf, ti)),
        later_creep=float(model.creep(tf, td)),
        shrinkage_until=float(model.drying(td)), shrinkage=float(model.drying(tf)),
        strand_stress=beam["fpj"] * KSI - es, yield_stress=0.9 * beam["fpu"] * KSI,
    )  # fmt: skip
    for key, value in (("SR", terms.shrinkage), ("CR", terms.creep)):
        agrees(found, f"{key}_{suffix}", value, "recomputed")
    agrees(found, "R1", terms.relaxation, "recomputed")
    agrees(found, f"Kid_{suffix}", terms.restraint, "recomputed")


def test_losses_of_zia_and_others(example) -> None:
    found = example("own-zia-losses")
    x = plain(found)
    e, ec, es = x["Es"] * KSI, x["Ec"] * KSI, x["ES"] * KSI
    cr = zia.creep(
        steel_modulus=e, concrete_modulus=ec, stress=x["fcir"] * KSI, later=x["fcds"] * KSI, when="before casting"
    )
    sh = zia.shrinkage(steel_modulus=e, volume_surface=x["VS"] * INCH, humidity=x["RH"], when="before casting")
    re = zia.relaxation(other=es + cr + sh, tensile=270 * KSI, ratio=0.75, steel="low relaxation")
    for key, value in (("CR", cr), ("SH", sh), ("RE", re), ("total", zia.Zia(es, cr, sh, re).total)):
        agrees(found, key, value, "recomputed")


def test_camber_by_multipliers(example) -> None:
    found = example("own-pci-mult")
    x = given(found)
    for key, by in (
        ("erection", camber.AT_ERECTION),
        ("final", camber.FINAL),
        ("final_topped", camber.FINAL_TOPPED),
    ):
        agrees(found, key, -camber.deflection(by, up=x["dp"], down=x["dw"]), "recomputed")


def test_limits_of_a_bridge_girder(example) -> None:
    """NCHRP Report 733 was written before the limit at transfer rose from 0.60 to 0.65 f'ci."""
    found = example("ps-nchrp733-bt72")
    x = given(found)
    a = aashto_limits
    agrees(found, "lim_comp_transfer", a.compression_at_transfer(x["fci"], "before 2016"))
    assert a.compression_at_transfer(x["fci"]) == pytest.approx(0.65 * x["fci"])
    agrees(found, "lim_tens_transfer", -a.tension_at_transfer(x["fci"], bonded=False))
    agrees(found, "lim_tens_transfer_bonded", -a.tension_at_transfer(x["fci"], bonded=True))
    agrees(found, "lim_deck_sust", a.compression_in_service(x["fc_deck"], total=False))
    agrees(found, "lim_beam_sust", a.compression_in_service(x["fc"], total=False))
    agrees(found, "lim_deck_total", a.compression_in_service(x["fc_deck"], total=True))
    agrees(found, "lim_beam_total", a.compression_in_service(x["fc"], total=True))
    agrees(found, "lim_tens_service", -a.tension_in_service(x["fc"]))
    assert a.strand_before_transfer(x["fpu"]) == pytest.approx(x["fpj"])  # 202.5 of 270 ksi


def test_pca_example_10_1(example) -> None:
    """Branson's Ie and λΔ, of the editions before 2019; ACI 318-19 has another Ie, which must differ here."""
    found = example("defl-aci-pca-ex10-1")
    x = given(found)
    ec = 33.0 * 150.0**1.5 * sqrt(3000.0) * PSI
    outline = rectangle(x["b"], x["h"])
    bars = [
        ElasticLayer(x["h"] - x["d"], x["As"], 29000 * KSI),
        ElasticLayer(x["h"] - x["d_prime"], x["As_prime"], 29000 * KSI),
    ]
    icr, ig = cracked(outline, ec, bars)[0].inertia, outline.inertia
    mcr = aci_deflection.rupture(3000 * PSI) * ig / (x["h"] / 2)
    agrees(found, "Mcr", mcr)
    pound_foot, live = KIP / 1000.0 / (12 * INCH), found["inputs"]["wL"]["value"]
    dead, span = found["inputs"]["wD"]["value"], x["span"]

    def moment(load: float) -> float:
        return load * pound_foot * span**2 / 8

    sustained, whole = moment(dead + 0.5 * live), moment(dead + live)
    agrees(found, "Ie_sustained", aci_deflection.branson(sustained, mcr, ig, icr))
    agrees(found, "Ie_total", aci_deflection.branson(whole, mcr, ig, icr))
    for key, m in (("delta_dead", moment(dead)), ("delta_sustained", sustained), ("delta_total", whole)):
        agrees(found, key, 5 * m * span**2 / (48 * ec * aci_deflection.branson(m, mcr, ig, icr)))
    factor = aci_deflection.multiplier(aci_deflection.time_factor(5 * 365.25), x["As_prime"] / (x["b"] * x["d"]))
    agrees(found, "lambda_delta", factor)
    # mistake 6: with ⅔ Mcr the beam is softer, by a third under the sustained load
    new = aci_deflection.effective_inertia(sustained, mcr, ig, icr)
    assert icr < new < 0.8 * aci_deflection.branson(sustained, mcr, ig, icr)


def test_cracked_section_under_long_load(example) -> None:
    """Effective modulus, φ = 1.6; the printed inertia is wrong (remark of the data file), so m, x and z
    alone are targets."""
    found = example("elastic-nptel-longterm")
    x = given(found)
    modulus = en_deflection.effective_modulus(x["Ec_eff"] * 2.6, 1.6)
    bars = [ElasticLayer(50.0, x["As"], x["Es"])]
    _, y = cracked(rectangle(x["b"], x["d"] + 50.0), modulus, bars)
    agrees(found, "m", x["Es"] / modulus)
    agrees(found, "x", x["d"] + 50.0 - y)
    agrees(found, "z", x["d"] - (x["d"] + 50.0 - y) / 3.0)
