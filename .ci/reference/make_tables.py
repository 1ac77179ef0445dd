"""Remakes the reference tables the tests in tests/physics/ compare the laws with.

    python3 -m venv venv && venv/bin/pip install -r .ci/reference/requirements.txt
    venv/bin/python .ci/reference/make_tables.py            # writes the tables
    venv/bin/python .ci/reference/make_tables.py --check    # recomputes and compares, exit 1 on a difference

Each table opens with the library, its version and the function called. Only numbers are taken from the
libraries (iapws is under the GPL; no code of it is used or shipped).
"""

import csv
import io
import math
import sys
from importlib.metadata import version
from pathlib import Path

import fluids
import ht
import iapws._iapws
import numpy
import psychrolib
from CoolProp.CoolProp import PropsSI
from iapws.iapws97 import _PSat_T
from scipy.integrate import solve_bvp

TABLES = Path(__file__).resolve().parents[2] / "tests" / "physics" / "reference"
STANDARD_PA = 101325.0
PRANDTL_AIR = 0.71
# A library may move in its last digits between machines; anything larger is a changed answer.
RELATIVE_TOLERANCE = 1e-8


def air():
    """Dry air at standard pressure."""
    rows = []
    for t in range(-60, 61, 10):
        def of(what):
            return PropsSI(what, "T", t + 273.15, "P", STANDARD_PA, "Air")
        rho, cp, k, mu = of("D"), of("C"), of("L"), of("V")
        beta = of("ISOBARIC_EXPANSION_COEFFICIENT")
        rayleigh = 9.80665 * beta / ((mu / rho) * (k / (rho * cp)))
        rows.append([t, rho, cp, k, mu, mu / rho, k / (rho * cp), rayleigh, of("H")])
    return (
        f"CoolProp {version('CoolProp')}, PropsSI(..., 'Air') at 101325 Pa; g = 9.80665 m/s2",
        "temp_c,rho_kg_per_m3,cp_j_per_kgk,k_w_per_mk,mu_pa_s,nu_m2_per_s,alpha_m2_per_s,"
        "rayleigh_per_m3k,enthalpy_j_per_kg",
        rows,
    )


def saturation():
    """Water vapour over ice and over liquid."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    rows = []
    for t in range(-30, 61, 5):
        kelvin = t + 273.15
        if t < 0:
            rows.append([t, "ice", psychrolib.GetSatVapPres(t), iapws._iapws._Sublimation_Pressure(kelvin) * 1e6])
        else:
            # Over liquid from the triple point on: PsychroLib counts 0 degC itself as ice.
            warm = max(t, 0.01)
            rows.append([warm, "liquid", psychrolib.GetSatVapPres(max(t, 0.0100001)), _PSat_T(max(kelvin, 273.16)) * 1e6])
    return (
        f"PsychroLib {version('PsychroLib')} GetSatVapPres (Hyland and Wexler); "
        f"iapws {version('iapws')} sublimation pressure (IAPWS 2011) and saturation pressure (IAPWS-97)",
        "temp_c,over,hyland_wexler_pa,iapws_pa",
        rows,
    )


def dew_point():
    """Dew and frost points of moist air."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    rows = []
    for t in (-25, -20, -10, -5, 5, 10, 20, 30, 40):
        for humidity in (0.2, 0.5, 0.8, 0.95):
            pressure = humidity * psychrolib.GetSatVapPres(t)
            rows.append([t, humidity, pressure, psychrolib.GetTDewPointFromVapPres(t, pressure)])
    return (
        f"PsychroLib {version('PsychroLib')} GetTDewPointFromVapPres (frost point below 0 degC)",
        "temp_c,humidity,pressure_pa,dew_point_c",
        rows,
    )


def convection():
    """Still air along plates."""
    rows = []
    for i in range(0, 21):
        ra = 10 ** (3 + i / 4)
        gr = ra / PRANDTL_AIR
        level = 1e5 <= ra <= 1e7 * (1 + 1e-9)
        rows.append([
            ra,
            ht.Nu_vertical_plate_Churchill(PRANDTL_AIR, gr),
            ht.Nu_horizontal_plate_McAdams(PRANDTL_AIR, gr, True) if level else "",
            ht.Nu_horizontal_plate_McAdams(PRANDTL_AIR, gr, False) if level else "",
        ])
    return (
        f"ht {version('ht')} Nu_vertical_plate_Churchill (Churchill and Chu 1975), "
        "Nu_horizontal_plate_McAdams; Pr = 0.71",
        "ra,upright,shedding,still",
        rows,
    )


def forced():
    """Laminar flow along a flat plate."""
    return (
        f"ht {version('ht')} Nu_horizontal_plate_laminar_Baehr; Pr = 0.71",
        "re,nu",
        [[re, ht.Nu_horizontal_plate_laminar_Baehr(re, PRANDTL_AIR)] for re in (1e3, 1e4, 1e5, 4e5)],
    )


def layer():
    """A level layer heated from below, oil's Prandtl numbers."""
    rows = []
    for pr in (100.0, 1e3, 1e4, 1e5, 1e6):
        for ra in (1e3, 1.7e3, 3e3, 1e4, 1e5, 1e6, 1e7):
            rows.append([ra, pr, ht.Nu_Nusselt_Rayleigh_Hollands(pr, ra / pr, True, 1708)])
    return (
        f"ht {version('ht')} Nu_Nusselt_Rayleigh_Hollands(Rac=1708), general-Prandtl form",
        "ra,pr,nu",
        rows,
    )


def exchanger():
    """One stream past walls of even temperature."""
    rows = [[ntu, ht.effectiveness_from_NTU(ntu, Cr=0, subtype="counterflow")]
            for ntu in (0.01, 0.1, 0.5, 1.0, 2.0, 5.0, 20.0)]
    return (f"ht {version('ht')} effectiveness_from_NTU, capacity ratio zero", "ntu,effectiveness", rows)


def passage():
    """Laminar stream between evenly heated parallel plates."""
    return (
        f"ht {version('ht')} Nu_laminar_rectangular_Shan_London(0), on twice the gap",
        "aspect,nu_even_flux",
        [[0.0, ht.Nu_laminar_rectangular_Shan_London(0.0)]],
    )


def walls():
    """Tube walls and a sphere buried under a plane."""
    rows = []
    for k, length, r1, r2 in ((43.0, 0.125, 0.0515, 0.057), (160.0, 0.3, 0.02, 0.04), (0.04, 1.0, 0.1, 0.125)):
        rows.append(["tube", k, length, r1, r2, 1.0 / ht.R_cylinder(2 * r1, 2 * r2, k, length)])
    for k, r1, depth in ((1.4, 0.05, 1e6), (0.5, 0.2, 1e7)):
        rows.append(["buried ball", k, "", r1, "", k * ht.S_isothermal_sphere_to_plane(2 * r1, depth)])
    return (
        f"ht {version('ht')} R_cylinder, S_isothermal_sphere_to_plane (at great depth)",
        "shape,k_w_per_mk,length_m,inner_radius_m,outer_radius_m,w_per_k",
        rows,
    )


def fins():
    """Straight fins, the heat equation solved by collocation: no formula of the law's is used."""
    rows = []
    for k, h, perimeter, section, length in (
        (150.0, 8.0, 0.32, 2.2e-3, 0.85),
        (150.0, 15.0, 0.32, 2.2e-3, 0.85),
        (0.2, 8.0, 0.32, 2.2e-3, 0.85),
        (160.0, 8.0, 2 * (0.13 + 0.014), 0.13 * 0.014, 0.8),
        (43.0, 20.0, 2.0, 1.2e-3, 0.02),
    ):
        m2 = h * perimeter / (k * section)
        decay = 1 / math.sqrt(m2)
        span = min(length, 40 * decay)
        mesh = numpy.linspace(0, span, 400)
        guess = numpy.vstack([numpy.exp(-mesh / decay), -numpy.exp(-mesh / decay) / decay])
        solved = solve_bvp(
            lambda x, y, m2=m2: numpy.vstack([y[1], m2 * y[0]]),
            lambda root, tip: numpy.array([root[0] - 1, tip[1]]),
            mesh, guess, tol=1e-10, max_nodes=200000,
        )
        assert solved.success, solved.message
        rows.append([k, section, perimeter, length, h, -k * section * solved.sol(0)[1]])
    return (
        f"scipy {version('scipy')} solve_bvp of theta'' = h P / (k A) theta, theta(0) = 1, theta'(L) = 0",
        "k_w_per_mk,section_m2,perimeter_m,length_m,h_w_per_m2k,w_per_k",
        rows,
    )


def radiation():
    """A grey surface that sees only surroundings."""
    rows = [[e, a, b, ht.q_rad(e, a + 273.15, b + 273.15)]
            for e in (0.05, 0.3, 0.9, 1.0) for a in (-30, -10, 5, 20, 60) for b in (-40, -20, 0, 40)]
    return (f"ht {version('ht')} q_rad", "emissivity,temp_c,surroundings_c,flux_w_per_m2", rows)


def orifice():
    """A sharp opening in a wide wall, so that what nears it is at rest."""
    wide, coefficient = 1e6, 0.6
    rows = []
    for area in (5e-4, 0.02):
        for pressure in (0.05, 0.3, 1.0, 10.0):
            for rho in (1.1, 1.2, 1.45):
                hole = math.sqrt(4 * area / math.pi)
                rows.append([area, pressure, rho, fluids.flow_meter.flow_meter_discharge(
                    wide, hole, STANDARD_PA + pressure, STANDARD_PA, rho, coefficient)])
    return (
        f"fluids {version('fluids')} flow_meter_discharge (ISO 5167-1), discharge coefficient 0.6, no expansion",
        "area_m2,dp_pa,rho_kg_per_m3,kg_per_s",
        rows,
    )


def wire():
    """Diameters of wires by their American gauge."""
    rows = [[gauge, fluids.piping.t_from_gauge(gauge, SI=True, schedule="AWG")] for gauge in (18, 16, 14, 12, 10, 8)]
    return (f"fluids {version('fluids')} t_from_gauge, schedule AWG", "gauge_awg,diameter_m", rows)


def vapour_density():
    """Saturated vapour above its liquid, a real gas."""
    rows = []
    for t in (0.01, 5, 10, 20, 30, 40, 50, 60):
        kelvin = t + 273.15
        rows.append([t, PropsSI("P", "T", kelvin, "Q", 1, "Water"), 1e3 * PropsSI("D", "T", kelvin, "Q", 1, "Water")])
    return (f"CoolProp {version('CoolProp')}, PropsSI(..., 'Q', 1, 'Water')", "temp_c,pressure_pa,density_g_per_m3", rows)


MAKERS = (
    air, saturation, dew_point, vapour_density, convection, forced, layer, exchanger, passage, walls, fins, radiation,
    orifice, wire,
)


def text(maker):
    header, columns, rows = maker()
    out = io.StringIO()
    out.write(f"# {maker.__doc__}\n# Source: {header}.\n# Remake: .ci/reference/make_tables.py\n{columns}\n")
    writer = csv.writer(out, lineterminator="\n")
    for row in rows:
        writer.writerow([f"{cell:.10g}" if isinstance(cell, (int, float)) else cell for cell in row])
    return out.getvalue()


def same(cell, other):
    try:
        return math.isclose(float(cell), float(other), rel_tol=RELATIVE_TOLERANCE, abs_tol=1e-12)
    except ValueError:
        return cell == other


def differences(name, wanted, found):
    wanted, found = wanted.splitlines(), found.splitlines()
    if len(wanted) != len(found):
        yield f"{name}: {len(found)} lines committed, {len(wanted)} recomputed"
        return
    for number, (a, b) in enumerate(zip(wanted, found), start=1):
        cells_a, cells_b = (a, b) if a.startswith("#") else (a.split(","), b.split(","))
        if len(cells_a) != len(cells_b) or not all(map(same, cells_a, cells_b)):
            yield f"{name}:{number}: committed {b!r}, recomputed {a!r}"


def main(arguments):
    check = "--check" in arguments
    faults = []
    for maker in MAKERS:
        path = TABLES / f"{maker.__name__}.csv"
        fresh = text(maker)
        if check:
            committed = path.read_text() if path.exists() else ""
            faults.extend(differences(path.name, fresh, committed))
        else:
            TABLES.mkdir(parents=True, exist_ok=True)
            path.write_text(fresh)
    print("\n".join(faults) if faults else f"{len(MAKERS)} tables {'agree' if check else 'written'}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
