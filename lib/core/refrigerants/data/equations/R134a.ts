import type { FluidEquation } from '../../models/equation';

// Units: K, mol/m³, Pa, J/(mol·K), kg/mol; coefficients dimensionless unless a name says otherwise.
export const R134a: FluidEquation = {
  id: 'R134a',
  name: '1,1,1,2-tetrafluoroethane',
  source:
    'Reiner Tillner-Roth and Hans Dieter Baehr, A International Standard Formulation for the Thermodynamic Properties of 1,1,1,2-Tetrafluoroethane (HFC-134a) for Temperatures from 170 K to 455 K and Pressures up to 70 MPa, J. Phys. Chem. Ref. Data, 23, 657-729, 1994, 10.1063/1.555958',
  molarMass: 0.102032,
  gasConstant: 8.314471,
  reducing: { T: 374.18, rho: 4978.830171000001 },
  critical: { T: 374.21, p: 4059280, rho: 5017.053 },
  range: { minT: 169.85, maxT: 455, maxP: 70000000 },
  power: [
    [0.05586817, -0.5, 2, 0],
    [0.498223, 0, 1, 0],
    [0.02458698, 0, 3, 0],
    [0.0008570145, 0, 6, 0],
    [0.0004788584, 1.5, 6, 0],
    [-1.800808, 1.5, 1, 0],
    [0.2671641, 2, 1, 0],
    [-0.04781652, 2, 2, 0],
    [0.01423987, 1, 5, 1],
    [0.3324062, 3, 2, 1],
    [-0.007485907, 5, 2, 1],
    [0.0001017263, 1, 4, 2],
    [-0.5184567, 5, 1, 2],
    [-0.08692288, 5, 4, 2],
    [0.2057144, 6, 1, 2],
    [-0.005000457, 10, 2, 2],
    [0.0004603262, 10, 4, 2],
    [-0.003497836, 10, 1, 3],
    [0.006995038, 18, 5, 3],
    [-0.01452184, 22, 3, 3],
    [-0.0001285458, 50, 10, 4],
  ],
  ideal: {
    logTau: -1.629789,
    power: [[-9.723916, -0.5], [-3.92717, -0.75]],
  },
  ancillaries: {
    p: { exponential: true, overT: true, Tr: 374.21, scale: 4059280, n: [0.4331478287291047, -9.090302559074352, 2.1476074125217703, -1.557687007603464, -3.5020328972698604, 14.958442337201044], t: [0.845, 0.99, 1.14, 2.651, 4.507, 17.235] },
    rhoL: { exponential: false, overT: false, Tr: 374.21, scale: 5017.053, n: [18.772731940930015, -51.49939472178225, 40.793536440596085, -1481.6500471538966, 1600.534434298925, -67338.52423732559], t: [0.673, 0.994, 1.257, 5.783, 5.943, 19.94] },
    rhoV: { exponential: true, overT: true, Tr: 374.21, scale: 5017.053, n: [-5.147386240766544, 5.34618043286371, -7.611015272838434, -28.85436432788653, -9.079306067130748, 64], t: [0.476, 0.966, 1.321, 8.491, 13.463, 13.463] },
  },
};
