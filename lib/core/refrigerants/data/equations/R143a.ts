import type { FluidEquation } from '../../models/equation';

// Units: K, mol/m³, Pa, J/(mol·K), kg/mol; coefficients dimensionless unless a name says otherwise.
export const R143a: FluidEquation = {
  id: 'R143a',
  name: '1,1,1-trifluoroethane',
  source:
    'Eric W. Lemmon and Richard T. Jacobsen, An International Standard Formulation for the Thermodynamic Properties of 1,1,1-Trifluoroethane (HFC-143a) for Temperatures From 161 to 450 K and Pressures to 50 MPa, J. Phys. Chem. Ref. Data, 29, 521-552, 2000, 10.1063/1.1318909',
  molarMass: 0.08404099999999999,
  gasConstant: 8.314472,
  reducing: { T: 345.857, rho: 5128.45 },
  critical: { T: 345.857, p: 3761000, rho: 5128.45 },
  range: { minT: 161.34, maxT: 650, maxP: 150000000 },
  power: [
    [7.7736443, 0.67, 1, 0],
    [-8.70185, 0.833, 1, 0],
    [-0.27779799, 1.7, 1, 0],
    [0.1460922, 1.82, 2, 0],
    [0.0089581616, 0.35, 5, 0],
    [-0.20552116, 3.9, 1, 1],
    [0.10653258, 0.95, 3, 1],
    [0.023270816, 0, 5, 1],
    [-0.013247542, 1.19, 7, 1],
    [-0.04279387, 7.2, 1, 2],
    [0.36221685, 5.9, 2, 2],
    [-0.25671899, 7.65, 2, 2],
    [-0.092326113, 7.5, 3, 2],
    [0.083774837, 7.45, 4, 2],
    [0.017128445, 15.5, 2, 3],
    [-0.01725611, 22, 3, 3],
    [0.0049080492, 19, 5, 3],
  ],
  ideal: {
    logTau: -1,
    einstein: [[4.4402, 5.178440800677737], [3.7515, 2.379596191489546]],
    cpPolynomial: [[1.0578, 0.33]],
  },
  ancillaries: {
    p: { exponential: true, overT: true, Tr: 345.857, scale: 3761000, n: [0.002757544974908688, 0.38770586469190393, -6.752272877216631, -0.5997730155885828, -3.2285390578912927, 91.83265252025414], t: [0.286, 0.768, 0.952, 2.711, 4.226, 18.933] },
    rhoL: { exponential: false, overT: false, Tr: 345.857, scale: 5128.45, n: [2.664780959919923, -0.254772168947589, 97.84474908938734, -105.1304757408368, 13272.94203979726, -116968.31229953805], t: [0.381, 0.463, 3.927, 4.049, 16.046, 19.95] },
    rhoV: { exponential: true, overT: true, Tr: 345.857, scale: 5128.45, n: [-6.218069939810391, 4.25938169894919, -4.417810181991655, 23.70234830311772, -50.98632502013336, 29.108143754921628], t: [0.454, 0.587, 1.058, 3.611, 4.279, 5.478] },
  },
};
