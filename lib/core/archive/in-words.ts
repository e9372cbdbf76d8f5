/** A name of the schema as a person says it: "chargeKg" → "charge kg". */
export const inWords = (name: string): string => name.replace(/([a-z0-9])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
