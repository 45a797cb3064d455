"""Published statistics: tables of quantiles, worked examples of uncertainty, certified results for real data."""

from __future__ import annotations

from tests.core.outside.outside import Outside

HANDBOOK_TABLE = (
    "NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values of Student's t distribution"
)
GUM = "JCGM 100:2008 (GUM)"
TESTS = "tests/core/maths/test_distributions.py"

NORMAL_QUANTILES = Outside(
    "companion.core.maths.distributions.normal_quantile",
    f"{HANDBOOK_TABLE}, last row (infinitely many degrees of freedom)",
    "algorithm AS 241, as the standard library has it",
    f"{TESTS}::test_normal_quantiles_of_the_handbook",
    ((0.90, 1.282), (0.95, 1.645), (0.975, 1.960), (0.99, 2.326), (0.995, 2.576), (0.999, 3.090)),
)

NORMAL_AREAS = Outside(
    "companion.core.maths.distributions.normal_sf",
    "Table I, Normal-curve areas (aperx wiki, education/statistics/table): area from 0 to z",
    "the complementary error function of the C library",
    f"{TESTS}::test_normal_areas",
    ((1.0, 0.3413), (1.5, 0.4332), (1.9, 0.4713)),
)

STUDENT_QUANTILES = Outside(
    "companion.core.maths.distributions.student_quantile",
    HANDBOOK_TABLE,
    "Newton's method on a continued fraction of the incomplete beta function",
    f"{TESTS}::test_student_quantiles_that_were_published",
    (
        (0.90, 1, 3.078, 5e-4),
        (0.95, 4, 2.132, 5e-4),
        (0.975, 9, 2.262, 5e-4),
        (0.99, 16, 2.583, 5e-4),
        (0.995, 30, 2.750, 5e-4),
        (0.999, 100, 3.174, 5e-4),
    ),
)

GUM_QUANTILES = Outside(
    "companion.core.maths.distributions.student_quantile",
    f"{GUM}, H.1.3.2 (t95 of 5), G.4.1 (t95 of 19) and H.1.6 (t99 of 16)",
    STUDENT_QUANTILES.otherwise,
    STUDENT_QUANTILES.used_by,
    ((0.975, 5, 2.57, 5e-3), (0.975, 19, 2.09, 5e-3), (0.995, 16, 2.92, 5e-3)),
)

# The guide goes on with sums that it has rounded, 1.03 per cent and 9.7 nm: hence how near each has to be.
EFFECTIVE_DEGREES = Outside(
    "companion.core.maths.distributions.effective_degrees",
    f"{GUM}, G.4.1, example; H.1.6, end gauge, first for its comparison alone, then for the whole",
    "the Welch-Satterthwaite formula on shares of the widest part",
    f"{TESTS}::test_effective_degrees_of_the_gum",
    (
        (((0.25, 9), (0.57, 4), (0.82, 14)), 19.0, 0.05),
        (((5.8, 24), (3.9, 5), (6.7, 8)), 25.6, 0.2),
        (((25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)), 16.7, 0.1),
    ),
)

MICHELSON = (
    299.85, 299.74, 299.90, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88,
    300.00, 299.98, 299.93, 299.65, 299.76, 299.81, 300.00, 300.00, 299.96, 299.96,
    299.96, 299.94, 299.96, 299.94, 299.88, 299.80, 299.85, 299.88, 299.90, 299.84,
    299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.80, 299.79, 299.76, 299.80,
    299.88, 299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95,
    299.88, 299.91, 299.85, 299.87, 299.84, 299.84, 299.85, 299.84, 299.84, 299.84,
    299.89, 299.81, 299.81, 299.82, 299.80, 299.77, 299.76, 299.74, 299.75, 299.76,
    299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85, 299.85, 299.78,
    299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85,
    299.87, 299.87, 299.81, 299.74, 299.81, 299.94, 299.95, 299.80, 299.81, 299.87,
)  # fmt: skip
MAVRO = (
    2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150, 2.00150,
    2.00170, 2.00180, 2.00180, 2.00190, 2.00190, 2.00210, 2.00200, 2.00160, 2.00140, 2.00130,
    2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140, 2.00130, 2.00140, 2.00150, 2.00140,
    2.00150, 2.00160, 2.00150, 2.00160, 2.00190, 2.00200, 2.00200, 2.00210, 2.00220, 2.00230,
    2.00240, 2.00250, 2.00270, 2.00260, 2.00260, 2.00260, 2.00270, 2.00260, 2.00250, 2.00240,
)  # fmt: skip
TEMPERATURES = (
    96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
    100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
)  # fmt: skip
KNOT_TESTS = "tests/core/cord/test_knot_tests.py"

CERTIFIED_MEANS = Outside(
    "companion.core.cord.knot_tests.pooled",
    "NIST Statistical Reference Datasets, univariate summary statistics: Michelso.dat and Mavro.dat, certified values",
    "weighted means, with nothing believed beforehand",
    f"{KNOT_TESTS}::test_means_that_were_published",
    (
        (MICHELSON, "mean_mm", 299.852400000000, 1e-11),
        (MICHELSON, "scatter_mm", 0.0790105478190518, 1e-11),
        (MAVRO, "mean_mm", 2.00185600000000, 1e-11),
        (MAVRO, "scatter_mm", 0.000429123454003053, 1e-11),
    ),
)

GUM_MEANS = Outside(
    "companion.core.cord.knot_tests.pooled",
    f"{GUM}, 4.4.3 and table 1: twenty temperatures, their mean, its standard deviation and that of one",
    CERTIFIED_MEANS.otherwise,
    CERTIFIED_MEANS.used_by,
    (
        (TEMPERATURES, "mean_mm", 100.145, 5e-4),
        (TEMPERATURES, "scatter_mm", 1.489, 5e-4),
        (TEMPERATURES, "sd_mm", 0.333, 5e-4),
    ),
)

WEIGHTED_MEAN = Outside(
    "companion.core.cord.knot_tests.pooled",
    "Macosa, University of Genoa, page pro/6a_19s: three resistances, 11 ± 1, 12 ± 1 and 10 ± 3 ohm, combined",
    "weights by the inverse variance of each reading",
    f"{KNOT_TESTS}::test_readings_that_are_known_unequally_well",
    (("mean_mm", 11.42105, 5e-6), ("sd_mm", 0.6882472, 5e-8)),
)

RESOLUTION = Outside(
    "companion.core.cord.knot_tests.touching_sd_mm",
    "D. Shah, Resolution Resolve, ASQ Quality Progress, September 2016: 0.000 288 7, and by fives 0.000 028 87 in",
    "the variance of a rectangular distribution, shared by the knots of a row",
    f"{KNOT_TESTS}::test_what_a_resolution_is_worth",
    ((0.001, 0.0002887), (0.0001, 0.00002887)),
    weak="the copy that was read has lost its formulas: the widths are worked back from its results",
)

NORRIS = (
    (0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1), (666.3, 668.5),
    (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3), (0.6, 0.1), (775.5, 778.1),
    (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8), (556.0, 557.7), (228.1, 228.3), (995.8, 998.0),
    (887.6, 888.8), (120.2, 119.6), (0.3, 0.3), (0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0),
    (999.0, 998.5), (779.0, 778.9), (11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2),
    (0.5, 0.2),
)  # fmt: skip
NO_INTERCEPT = tuple((float(x), float(x + 70)) for x in range(60, 71))

CERTIFIED_LINES = Outside(
    "companion.core.maths.gaussian.conditioned",
    "NIST Statistical Reference Datasets, linear regression: Norris.dat and NoInt1.dat, certified values",
    "conditioning by a Cholesky factor that grows by a row at a time",
    "tests/core/maths/test_gaussian.py::test_certified_lines",
    (
        (NORRIS, 2, 0, -0.262323073774029, 0.232818234301152),
        (NORRIS, 2, 1, 1.00211681802045, 0.000429796848199937),
        (NO_INTERCEPT, 1, 0, 2.07438016528926, 0.0165289256198347),
    ),
)

FACTORS = Outside(
    "companion.core.maths.gaussian.Cholesky",
    "Maxima Online, examples of cholesky: the matrix with 9, 20 and 14 on its diagonal",
    "one row after the other, each solved with those before it",
    "tests/core/maths/test_gaussian.py::test_a_factor_that_was_published",
    ((((9, -6, 3), (-6, 20, -14), (3, -14, 14)), ((3,), (-2, 4), (1, -3, 2))),),
)

ALL = (
    NORMAL_QUANTILES, NORMAL_AREAS, STUDENT_QUANTILES, GUM_QUANTILES, EFFECTIVE_DEGREES, CERTIFIED_MEANS, GUM_MEANS,
    WEIGHTED_MEAN, RESOLUTION, CERTIFIED_LINES, FACTORS,
)  # fmt: skip
