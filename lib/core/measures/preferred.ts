/** Units of measure a person reads and types in. What is on file stays SI. */
export type MeasureUnits = { temperature: 'F' | 'C'; pressure: 'psig' | 'bar'; mass: 'oz' | 'g' };
