//! The numbers of the stepping method.
//!
//! RODAS4: six stages, order 4 with an embedded order 3, L-stable, stiffly accurate.
//!
//! *Source*: E. Hairer and G. Wanner, Solving Ordinary Differential Equations II, 2nd ed., Springer 1996,
//! section IV.7 and the code published with it; the form that needs no product with the Jacobian.

/// Stages of the method.
pub const STAGES: usize = 6;
/// The power of the step that its error estimate falls with.
pub const ERROR_ORDER: f64 = 4.0;
/// The diagonal number γ.
pub const GAMMA: f64 = 0.25;
/// Stage times, in steps.
pub const TIMES: [f64; STAGES] = [0.0, 0.386, 0.21, 0.63, 1.0, 1.0];
/// Factors on the time slope.
pub const TIME_DERIVATIVE: [f64; STAGES] =
    [0.25, -0.1043, 0.1035, -0.036_200_000_000_000_23, 0.0, 0.0];

/// How much of each earlier stage goes into the place a stage is evaluated at.
#[rustfmt::skip]
pub const A: [[f64; STAGES]; STAGES] = [
    [0.0; STAGES],
    [1.544, 0.0, 0.0, 0.0, 0.0, 0.0],
    [0.946_678_528_081_582_6, 0.255_701_169_898_328_4, 0.0, 0.0, 0.0, 0.0],
    [3.314_825_187_068_521, 2.896_124_015_972_201, 0.998_641_913_997_781_7, 0.0, 0.0, 0.0],
    [1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895, 0.0, 0.0],
    [1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895, 1.0, 0.0],
];

/// How much of each earlier stage, over the step, goes into a stage's right-hand side.
#[rustfmt::skip]
pub const C: [[f64; STAGES]; STAGES] = [
    [0.0; STAGES],
    [-5.6688, 0.0, 0.0, 0.0, 0.0, 0.0],
    [-2.430_093_356_833_875, -0.206_359_915_709_191_5, 0.0, 0.0, 0.0, 0.0],
    [-0.107_352_905_815_137_5, -9.594_562_251_023_355, -20.470_286_148_096_16, 0.0, 0.0, 0.0],
    [7.496_443_313_967_647, -10.246_804_314_643_52, -33.999_903_528_199_05, 11.708_908_932_061_6, 0.0, 0.0],
    [8.083_246_795_921_522, -7.981_132_988_064_893, -31.521_594_328_743_71, 16.319_305_431_231_36, -6.058_818_238_834_054, 0.0],
];

/// The two curves between the ends of a step, as sums over its first five stages.
#[rustfmt::skip]
pub const DENSE: [[f64; STAGES]; 2] = [
    [10.126_235_083_445_86, -7.487_995_877_610_167, -34.800_918_615_557_47, -7.992_771_707_568_823, 1.025_137_723_295_662, 0.0],
    [-0.676_280_339_280_125_3, 6.087_714_651_680_015, 16.430_843_208_924_78, 24.767_225_114_183_86, -6.594_389_125_716_872, 0.0],
];

/// Share of a step at which its curve is looked at: not the middle, through which a bent curve comes back.
pub const DEFECT_POINT: f64 = 0.75;
