/** Units of measure a person reads and types in. What is on file stays SI. */
export const TEMPERATURE_UNITS = ['F', 'C'] as const;
export const PRESSURE_UNITS = ['psig', 'bar'] as const;
export const MASS_UNITS = ['oz', 'g'] as const;
export type MeasureUnits = {
  temperature: (typeof TEMPERATURE_UNITS)[number];
  pressure: (typeof PRESSURE_UNITS)[number];
  mass: (typeof MASS_UNITS)[number];
};
