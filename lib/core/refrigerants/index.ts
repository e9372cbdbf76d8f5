/**
 * Refrigerant properties from published equations of state.
 *
 * SI units throughout: K, Pa (absolute), kg/m³, J/kg, J/(kg·K). Reference state IIR.
 *
 * A property function returns the number or the state itself. Where there is none it returns a
 * `PropertyFailure` `{ status, message }` instead, with status `out_of_range`, `above_critical`, `wrong_phase`,
 * `not_converged` or `unknown_refrigerant`, and never a number. Ask `isFailure(x)`, or unwrap with `known(x)`,
 * which throws a `PropertyError`.
 *
 * Blends glide: bubble and dew are always named, and `midpointTemperature` is their mean.
 *
 * This entry holds the data of every refrigerant. A tablet imports `./fleet` instead and loads its own few.
 */
import './all';

export * from './api';
