import type { Part } from './templates';

type Range = readonly [from: number, to: number];

/** Out of what a maker's machines are drawn, beside what its templates say. Judgement; no number was read off an answer. */
export type Make = {
  /** Share of what the air warms by in the clean rise, and of the air's side in the resistance of the coil. */
  airRise: Range;
  airShare: Range;
  airPower: Range;
  gasTimes: Range;
  liquidTimes: Range;
  bypass: Range;
  refrigerantPower: Range;
  /** The same of the evaporator: part of the difference that its air cools by, air's side, gas against boiling. */
  boxFall: Range;
  boxShare: Range;
  boxGasTimes: Range;
  /** Pierre: fall of filling per ratio (medium, low) and its spread; slope of efficiency and its spread; motor. */
  filling: { medium: number; low: number; spread: number };
  slope: { mean: number; spread: number };
  motor: { small: number; large: number };
  motorFall: Range;
  /** Part of the power that leaves by the shell: sealed, with ports. */
  shell: { sealed: Range; ports: Range };
  /** Liquid to suction exchange and warming of the suction line on capillary machines. */
  exchanger: Range;
  subcooling: Range;
  tube: { diameter: number; length: number };
  receiver: Range;
  /** Free delivery, power of the path, and what a fan that stands lets through. */
  fan: { free: Range; power: Range; still: Range };
  /** Superheat span of a valve and how far it stands open at the design point. */
  valve: { spanK: Range; opened: Range };
};

const USUAL: Make = {
  airRise: [0.42, 0.68],
  airShare: [0.68, 0.88],
  airPower: [0.45, 0.68],
  gasTimes: [3.5, 7],
  liquidTimes: [2, 4],
  bypass: [0, 0.06],
  refrigerantPower: [0.4, 0.8],
  boxFall: [0.35, 0.6],
  boxShare: [0.6, 0.85],
  boxGasTimes: [3, 6],
  filling: { medium: -0.065, low: -0.045, spread: 0.15 },
  slope: { mean: -2.4, spread: 0.06 },
  motor: { small: 0.74, large: 0.81 },
  motorFall: [0.1, 0.35],
  shell: { sealed: [0.3, 0.5], ports: [0.12, 0.25] },
  exchanger: [0.25, 0.6],
  subcooling: [2, 7],
  tube: { diameter: 0.9e-3, length: 2.6 },
  receiver: [0.8, 1.5],
  fan: { free: [1.25, 1.7], power: [1.7, 2], still: [0.07, 0.14] },
  valve: { spanK: [3, 5], opened: [0.35, 0.6] },
};

/**
 * Part C is of another make: narrower tubes, deeper coils with less air, other motors and shells, tighter valves, smaller receivers.
 * Parts D to K are of a third to a tenth: each range moved by chance from A's, as far as C's at most, towards it or away.
 */
export const MAKES: Record<Part, Make> = {
  A: USUAL,
  B: USUAL,
  C: {
    airRise: [0.5, 0.75],
    airShare: [0.6, 0.82],
    airPower: [0.4, 0.6],
    gasTimes: [3, 5.5],
    liquidTimes: [1.7, 3.2],
    bypass: [0.02, 0.1],
    refrigerantPower: [0.5, 0.8],
    boxFall: [0.3, 0.5],
    boxShare: [0.65, 0.9],
    boxGasTimes: [2.5, 5],
    filling: { medium: -0.058, low: -0.041, spread: 0.2 },
    slope: { mean: -2.25, spread: 0.08 },
    motor: { small: 0.7, large: 0.84 },
    motorFall: [0.05, 0.3],
    shell: { sealed: [0.25, 0.45], ports: [0.08, 0.22] },
    exchanger: [0.2, 0.5],
    subcooling: [1.5, 6],
    tube: { diameter: 0.75e-3, length: 2.1 },
    receiver: [0.6, 1.2],
    fan: { free: [1.2, 1.55], power: [1.6, 1.9], still: [0.06, 0.16] },
    valve: { spanK: [2.5, 4.5], opened: [0.4, 0.7] },
  },
  D: {
    airRise: [0.34, 0.61],
    airShare: [0.72, 0.91],
    airPower: [0.43, 0.65],
    gasTimes: [3.9, 8.2],
    liquidTimes: [2.1, 4.2],
    bypass: [0, 0.06],
    refrigerantPower: [0.3, 0.8],
    boxFall: [0.3, 0.51],
    boxShare: [0.61, 0.86],
    boxGasTimes: [3.3, 6.6],
    filling: { medium: -0.068, low: -0.046, spread: 0.2 },
    slope: { mean: -2.53, spread: 0.054 },
    motor: { small: 0.746, large: 0.829 },
    motorFall: [0.07, 0.32],
    shell: { sealed: [0.27, 0.47], ports: [0.12, 0.25] },
    exchanger: [0.26, 0.63],
    subcooling: [1.9, 6.9],
    tube: { diameter: 0.79e-3, length: 2.4 },
    receiver: [0.79, 1.49],
    fan: { free: [1.26, 1.72], power: [1.77, 2.07], still: [0.06, 0.16] },
    valve: { spanK: [2.7, 4.7], opened: [0.34, 0.58] },
  },
  E: {
    airRise: [0.47, 0.73],
    airShare: [0.6, 0.82],
    airPower: [0.5, 0.76],
    gasTimes: [3.3, 6.3],
    liquidTimes: [2, 4],
    bypass: [0.02, 0.1],
    refrigerantPower: [0.39, 0.8],
    boxFall: [0.34, 0.57],
    boxShare: [0.57, 0.82],
    boxGasTimes: [2.8, 5.5],
    filling: { medium: -0.0646, low: -0.0476, spread: 0.14 },
    slope: { mean: -2.35, spread: 0.079 },
    motor: { small: 0.724, large: 0.834 },
    motorFall: [0.06, 0.31],
    shell: { sealed: [0.34, 0.54], ports: [0.13, 0.26] },
    exchanger: [0.27, 0.63],
    subcooling: [1.8, 6.5],
    tube: { diameter: 0.98e-3, length: 2.9 },
    receiver: [0.71, 1.37],
    fan: { free: [1.27, 1.76], power: [1.75, 2.05], still: [0.07, 0.13] },
    valve: { spanK: [3.2, 5.2], opened: [0.38, 0.66] },
  },
  F: {
    airRise: [0.495, 0.746],
    airShare: [0.644, 0.853],
    airPower: [0.441, 0.666],
    gasTimes: [3.15, 5.96],
    liquidTimes: [2.09, 4.23],
    bypass: [0.008, 0.077],
    refrigerantPower: [0.499, 0.8],
    boxFall: [0.305, 0.511],
    boxShare: [0.569, 0.819],
    boxGasTimes: [3.25, 6.51],
    filling: { medium: -0.0621, low: -0.0458, spread: 0.154 },
    slope: { mean: -2.5, spread: 0.0486 },
    motor: { small: 0.72, large: 0.82 },
    motorFall: [0.077, 0.327],
    shell: { sealed: [0.255, 0.455], ports: [0.104, 0.238] },
    exchanger: [0.229, 0.558],
    subcooling: [1.75, 6.49],
    tube: { diameter: 0.958e-3, length: 2.34 },
    receiver: [0.866, 1.6],
    fan: { free: [1.27, 1.76], power: [1.66, 1.96], still: [0.075, 0.13] },
    valve: { spanK: [3.13, 5.13], opened: [0.376, 0.653] },
  },
  G: {
    airRise: [0.445, 0.702],
    airShare: [0.694, 0.891],
    airPower: [0.401, 0.602],
    gasTimes: [3.687, 7.56],
    liquidTimes: [2.29, 4.774],
    bypass: [0, 0.045],
    refrigerantPower: [0.304, 0.8],
    boxFall: [0.343, 0.585],
    boxShare: [0.551, 0.801],
    boxGasTimes: [2.795, 5.59],
    filling: { medium: -0.06819, low: -0.04662, spread: 0.1159 },
    slope: { mean: -2.532, spread: 0.06794 },
    motor: { small: 0.7123, large: 0.798 },
    motorFall: [0.118, 0.368],
    shell: { sealed: [0.277, 0.477], ports: [0.121, 0.251] },
    exchanger: [0.276, 0.651],
    subcooling: [2.037, 7.074],
    tube: { diameter: 0.957e-3, length: 2.68 },
    receiver: [0.935, 1.703],
    fan: { free: [1.263, 1.738], power: [1.767, 2.067], still: [0.063, 0.153] },
    valve: { spanK: [2.613, 4.613], opened: [0.385, 0.67] },
  },
  H: {
    airRise: [0.4574, 0.7127],
    airShare: [0.6277, 0.8408],
    airPower: [0.4007, 0.6012],
    gasTimes: [3.389, 6.667],
    liquidTimes: [2.202, 4.539],
    bypass: [0.01954, 0.09909],
    refrigerantPower: [0.465, 0.8],
    boxFall: [0.3533, 0.6065],
    boxShare: [0.5709, 0.8209],
    boxGasTimes: [3.434, 6.868],
    filling: { medium: -0.06907, low: -0.0464, spread: 0.1816 },
    slope: { mean: -2.481, spread: 0.06194 },
    motor: { small: 0.7685, large: 0.7882 },
    motorFall: [0.1411, 0.3911],
    shell: { sealed: [0.2702, 0.4702], ports: [0.08445, 0.2233] },
    exchanger: [0.243, 0.5859],
    subcooling: [1.804, 6.609],
    tube: { diameter: 0.8485e-3, length: 2.105 },
    receiver: [0.6595, 1.289],
    fan: { free: [1.26, 1.73], power: [1.645, 1.945], still: [0.06321, 0.1536] },
    valve: { spanK: [2.551, 4.551], opened: [0.3978, 0.6957] },
  },
  I: {
    airRise: [0.3673, 0.6339],
    airShare: [0.7589, 0.9392],
    airPower: [0.4939, 0.7503],
    gasTimes: [3.901, 8.202],
    liquidTimes: [2.289, 4.771],
    bypass: [0.009403, 0.07881],
    refrigerantPower: [0.3432, 0.8],
    boxFall: [0.3603, 0.6205],
    boxShare: [0.5904, 0.8404],
    boxGasTimes: [3.07, 6.139],
    filling: { medium: -0.05994, low: -0.04614, spread: 0.1458 },
    slope: { mean: -2.479, spread: 0.06995 },
    motor: { small: 0.7309, large: 0.8069 },
    motorFall: [0.1273, 0.3773],
    shell: { sealed: [0.3182, 0.5182], ports: [0.1417, 0.2662] },
    exchanger: [0.2385, 0.577],
    subcooling: [2.117, 7.234],
    tube: { diameter: 0.8791e-3, length: 2.276 },
    receiver: [0.7221, 1.383],
    fan: { free: [1.225, 1.624], power: [1.64, 1.94], still: [0.06191, 0.1562] },
    valve: { spanK: [2.936, 4.936], opened: [0.3551, 0.6103] },
  },
  J: {
    airRise: [0.4059, 0.6676],
    airShare: [0.6298, 0.8424],
    airPower: [0.4141, 0.6226],
    gasTimes: [3.179, 6.038],
    liquidTimes: [2.143, 4.382],
    bypass: [0.01839, 0.09679],
    refrigerantPower: [0.3658, 0.8],
    boxFall: [0.3283, 0.5566],
    boxShare: [0.6349, 0.8849],
    boxGasTimes: [2.506, 5.012],
    filling: { medium: -0.05918, low: -0.04261, spread: 0.1341 },
    slope: { mean: -2.46, spread: 0.05574 },
    motor: { small: 0.7057, large: 0.8151 },
    motorFall: [0.0615, 0.3115],
    shell: { sealed: [0.2734, 0.4734], ports: [0.09702, 0.2328] },
    exchanger: [0.2533, 0.6065],
    subcooling: [2.256, 7.512],
    tube: { diameter: 0.9957e-3, length: 2.533 },
    receiver: [0.7353, 1.403],
    fan: { free: [1.28, 1.791], power: [1.714, 2.014], still: [0.06527, 0.1495] },
    valve: { spanK: [3.482, 5.482], opened: [0.3516, 0.6033] },
  },  K: {
    airRise: [0.4352, 0.6933],
    airShare: [0.662, 0.8665],
    airPower: [0.4615, 0.6984],
    gasTimes: [3.09, 5.77],
    liquidTimes: [1.708, 3.22],
    bypass: [0.0103, 0.08059],
    refrigerantPower: [0.4261, 0.8],
    boxFall: [0.3221, 0.5442],
    boxShare: [0.5515, 0.8015],
    boxGasTimes: [3.183, 6.366],
    filling: { medium: -0.06914, low: -0.04783, spread: 0.1121 },
    slope: { mean: -2.379, spread: 0.05502 },
    motor: { small: 0.7601, large: 0.8318 },
    motorFall: [0.1327, 0.3827],
    shell: { sealed: [0.3286, 0.5286], ports: [0.1089, 0.2417] },
    exchanger: [0.2473, 0.5946],
    subcooling: [1.78, 6.559],
    tube: { diameter: 0.9968e-3, length: 2.666 },
    receiver: [0.727, 1.391],
    fan: { free: [1.286, 1.808], power: [1.746, 2.046], still: [0.06676, 0.1465] },
    valve: { spanK: [3.131, 5.131], opened: [0.3317, 0.5634] },
  },
};
