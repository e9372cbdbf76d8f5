import type { Celsius, Fahrenheit, FahrenheitDifference, Kelvin, KelvinDifference } from './quantities';

/** 0 °C, ITS-90. */
const ICE_POINT_K = 273.15;

export const celsiusToKelvin = (t: number) => (t + ICE_POINT_K) as Kelvin;
export const kelvinToCelsius = (T: number) => (T - ICE_POINT_K) as Celsius;
export const fahrenheitToKelvin = (t: number) => ((t + 459.67) / 1.8) as Kelvin;
export const kelvinToFahrenheit = (T: number) => (T * 1.8 - 459.67) as Fahrenheit;
export const fahrenheitToCelsius = (t: number) => ((t - 32) / 1.8) as Celsius;
export const celsiusToFahrenheit = (t: number) => (t * 1.8 + 32) as Fahrenheit;

/** Differences: superheat, subcooling, rise. */
export const fahrenheitDifferenceToKelvin = (d: number) => (d / 1.8) as KelvinDifference;
export const kelvinDifferenceToFahrenheit = (d: number) => (d * 1.8) as FahrenheitDifference;
