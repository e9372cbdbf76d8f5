/** Errors a person can do something about, by code. Anything else is unexpected and never shown in detail. */
export const ERROR_CODES = [
  'not_signed_in',
  'not_allowed',
  'not_proven',
  'step_wanted',
  'code_wanted',
  'code_wrong',
  'fresh_wanted',
  'fresh_wrong',
  'not_found',
  'invalid',
  'conflict',
  'overlap',
  'low_side',
  'too_many',
  'too_large',
  'busy',
] as const;
export type ErrorCode = (typeof ERROR_CODES)[number];

export class AppError extends Error {
  constructor(
    readonly code: ErrorCode,
    /** What happened and what to do next, in the shop's words. */
    message: string,
    /** Field of the form the message belongs to. */
    readonly field?: string,
  ) {
    super(message);
    this.name = 'AppError';
  }
}

export const isAppError = (e: unknown): e is AppError => e instanceof AppError;
