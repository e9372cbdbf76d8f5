/** Temperatures in sentences that are stored once and read by people of either unit. */

/** "95 °F (35 °C)". */
export const temperatureWords = (K: number): string => `${Math.round(K * 1.8 - 459.67)} °F (${Math.round(K - 273.15)} °C)`;

/** "40 °F (22 K)": how far two temperatures lie apart, without a sign. */
export const differenceWords = (K: number): string => `${Math.round(Math.abs(K) * 1.8)} °F (${Math.round(Math.abs(K))} K)`;
