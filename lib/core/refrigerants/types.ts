/** One state of a refrigerant, SI units by mass, IIR reference (200 kJ/kg and 1 kJ/(kg·K) for liquid at 0 °C). */
export type State = {
  /** K */
  T: number;
  /** Pa, absolute */
  p: number;
  /** kg/m³ */
  rho: number;
  /** J/kg */
  h: number;
  /** J/(kg·K) */
  s: number;
  /** J/(kg·K); infinite where wet, since heat then raises no temperature at constant pressure. */
  cp: number;
  /** Mass fraction of vapour, only given where the state is wet. */
  quality?: number;
};

export type FailureStatus =
  /** Outside the range that the equation of state or its tables are valid for, or not a number. */
  | 'out_of_range'
  /** Saturation asked for at or above the critical point, or both T and p above it. */
  | 'above_critical'
  /** Vapour asked for where the refrigerant is liquid or wet, or liquid where it is not. */
  | 'wrong_phase'
  | 'not_converged'
  /** No such refrigerant, or its data were not loaded. */
  | 'unknown_refrigerant';

/** The answer of a property function that has no number to give. Never a number: check with `isFailure`. */
export type PropertyFailure = { readonly status: FailureStatus; readonly message: string };

export type Result<T> = T | PropertyFailure;

export function isFailure(x: unknown): x is PropertyFailure {
  return typeof x === 'object' && x !== null && 'status' in x && 'message' in x;
}

export function failure(status: FailureStatus, message: string): PropertyFailure {
  return { status, message };
}

export class PropertyError extends Error {
  constructor(readonly failure: PropertyFailure) {
    super(failure.message);
    this.name = 'PropertyError';
  }
}

/** The value itself, or a thrown PropertyError: for callers that have already checked the range. */
export function unwrap<T>(x: Result<T>): T {
  if (isFailure(x)) throw new PropertyError(x);
  return x;
}
