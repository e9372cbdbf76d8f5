import { BELL_2016, BELL_2022, BELL_2023, BELL_UPDATE, LEMMON_2004 } from './sources';

/**
 * Binary reducing parameters of the multi-fluid model. Either the four of Kunz & Wagner (GERG-2008), where exchanging
 * the components inverts the betas, or ξ (K) and ζ (m³/mol) of Lemmon & Jacobsen. A pair without a departure function
 * mixes by its reducing parameters alone.
 */
export type BinaryPair = {
  first: string;
  second: string;
  betaT?: number;
  gammaT?: number;
  betaV?: number;
  gammaV?: number;
  xi?: number;
  zeta?: number;
  departure?: string;
  /** Factor on the departure function; 1 where not given. */
  F?: number;
  source: string;
};

// prettier-ignore
export const PAIRS: readonly BinaryPair[] = [
  { first: 'R32', second: 'R125', xi: 28.95, zeta: -6.008e-06, departure: 'R32-R125', source: LEMMON_2004 },
  { first: 'R32', second: 'R134a', xi: 7.909, zeta: -2.039e-06, departure: 'R32-R134a', source: LEMMON_2004 },
  { first: 'R125', second: 'R134a', xi: -0.4326, zeta: -3.453e-07, departure: 'GeneralizedHFC', source: LEMMON_2004 },
  { first: 'R32', second: 'R1234yf', betaT: 1.011011, gammaT: 0.966965, betaV: 1.007852, gammaV: 1.037663, departure: 'R32-R1234yf', source: BELL_2023 },
  { first: 'R32', second: 'R1234ze(E)', betaT: 1.005148, gammaT: 0.946105, betaV: 0.999032, gammaV: 1.029821, departure: 'R32-R1234ze(E)', source: BELL_2023 },
  { first: 'R744', second: 'R1234yf', betaT: 1.025281, gammaT: 0.972965, betaV: 1.051991, gammaV: 1.029336, source: BELL_UPDATE },
  { first: 'R744', second: 'R1234ze(E)', betaT: 1.008025, gammaT: 0.973804, betaV: 1.142918, gammaV: 1.076023, source: BELL_UPDATE },
  { first: 'R744', second: 'R125', betaT: 1.0115, gammaT: 0.96741, betaV: 1, gammaV: 1, source: BELL_2016 },
  { first: 'R744', second: 'R134a', betaT: 1.01036, gammaT: 1.01129, betaV: 1, gammaV: 1, source: BELL_2016 },
  { first: 'R744', second: 'R32', betaT: 1.00312, gammaT: 0.99971, betaV: 1, gammaV: 1, source: BELL_2016 },
  { first: 'R125', second: 'R1234yf', betaT: 0.999969, gammaT: 0.998028, betaV: 0.998226, gammaV: 1.006068, departure: 'R125-R1234yf', source: BELL_2023 },
  { first: 'R1234yf', second: 'R134a', betaT: 1.000026, gammaT: 0.987057, betaV: 1.000272, gammaV: 1.003747, departure: 'R1234yf-R134a', source: BELL_2022 },
  { first: 'R1234yf', second: 'R1234ze(E)', betaT: 0.998886, gammaT: 0.999309, betaV: 0.999302, gammaV: 0.99859, departure: 'R1234yf-R1234ze(E)', source: BELL_2022 },
  { first: 'R134a', second: 'R1234ze(E)', betaT: 0.998593, gammaT: 0.992009, betaV: 0.998995, gammaV: 0.998621, departure: 'R134a-R1234ze(E)', source: BELL_2022 },
  { first: 'R125', second: 'R1234ze(E)', betaT: 0.994388, gammaT: 1.00124, betaV: 1.028287, gammaV: 0.999334, source: BELL_UPDATE },
  { first: 'R1234ze(E)', second: 'R227ea', betaT: 1.001247, gammaT: 0.98918, betaV: 0.99929, gammaV: 1.001581, departure: 'R1234ze(E)-R227ea', source: BELL_2023 },
];
