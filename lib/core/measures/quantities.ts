/** Numbers that carry their unit in the type. Plain numbers at run time. */

declare const unit: unique symbol;
export type Quantity<U extends string> = number & { readonly [unit]: U };

export type Kelvin = Quantity<'K'>;
export type Celsius = Quantity<'°C'>;
export type Fahrenheit = Quantity<'°F'>;
/** A temperature difference, not a temperature: no offset when converted. */
export type KelvinDifference = Quantity<'ΔK'>;
export type FahrenheitDifference = Quantity<'Δ°F'>;
/** Absolute pressure. */
export type Pascal = Quantity<'Pa'>;
/** Above the surrounding atmosphere. */
export type PascalGauge = Quantity<'Pa gauge'>;
export type Psia = Quantity<'psia'>;
export type Psig = Quantity<'psig'>;
export type Metre = Quantity<'m'>;
export type Kilogram = Quantity<'kg'>;
