import type { FluidEquation } from '../../models/equation';

// Units: K, mol/m³, Pa, J/(mol·K), kg/mol; coefficients dimensionless unless a name says otherwise.
export const R1234yf: FluidEquation = {
  id: 'R1234yf',
  name: '2,3,3,3-tetrafluoroprop-1-ene',
  source:
    'Eric W. Lemmon and Ryo Akasaka, Equation of State for the Thermodynamic Properties of 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf), Int. J. Thermophys., 43, 119, 2022, 10.1007/s10765-022-03015-y',
  molarMass: 0.1140416,
  gasConstant: 8.314462618,
  reducing: { T: 367.85, rho: 4180 },
  critical: { T: 367.85, p: 3384400, rho: 4180 },
  range: { minT: 121.6, maxT: 410, maxP: 100000000 },
  power: [
    [0.0340387, 1, 4, 0],
    [1.912859, 0.222, 1, 0],
    [-2.1984719881617, 0.61, 1, 0],
    [-0.8147645305033, 1.122, 2, 0],
    [0.2288282, 0.5, 3, 0],
    [-1.65436, 2.14, 1, 2],
    [-1.446628, 2.284, 3, 2],
    [0.5961722, 1.05, 2, 1],
    [-0.6148209, 2.33, 2, 2],
    [-0.0180069, 0.778, 7, 1],
  ],
  gaussian: [
    [0.2845275, 1, 1, 28.1, 0.96, 1016, 1.061],
    [-0.3050809, 2, 1, 28, 0.96, 1000, 1.062],
    [2.198935, 1.236, 1, 1.307, 0.853, 1.16, 1.3],
    [-0.4270329, 1.6, 1, 1.96, 1.15, 1.2, 1.04],
    [-0.4015581, 1.85, 1, 1.25, 1.3, 1.26, 1],
    [0.1179587, 0.7, 1, 1, 1.5, 1.6, 1.14],
    [-0.3141002, 1.75, 1, 2.2, 0.762, 0.87, 1.1],
  ],
  ideal: {
    logTau: 3,
    einstein: [[8.65, 1.3918716868288703], [9.75, 4.268044039690091], [2.11, 12.233247247519369]],
  },
  ancillaries: {
    p: { exponential: true, overT: true, Tr: 367.85, scale: 3384400, n: [-7.4507, 2.164, -1.674, -3.318, -1.617], t: [1, 1.5, 3, 4, 9] },
    rhoL: { exponential: false, overT: false, Tr: 367.85, scale: 4180, n: [3.392, -4.119, 8.932, -8.525, 3.384], t: [0.4, 0.7, 1.1, 1.5, 2.1] },
    rhoV: { exponential: true, overT: false, Tr: 367.85, scale: 4180, n: [-3.616, -74.91, 197.7, -152.76, -61.062, -115.53], t: [0.426, 2, 2.4, 2.7, 7.5, 15] },
  },
};
