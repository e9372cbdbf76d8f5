/** What is wrong with an instance file and on which line, for the person who supplied it. */
export class InstanceError extends Error {
  constructor(
    message: string,
    readonly line?: number,
  ) {
    super(line === undefined ? message : `Line ${line}: ${message}`);
    this.name = 'InstanceError';
  }
}

/** A finite number or an error that says where. */
export function numberAt(text: string | undefined, what: string, line: number): number {
  const value = text === undefined || text.trim() === '' ? NaN : Number(text);
  if (!Number.isFinite(value)) throw new InstanceError(`${what} is "${text ?? ''}", which is not a number.`, line);
  return value;
}
