/** The shop's parts: where they lie, what a technician takes, until when a part that went in is under warranty. */
export * from './places';
export * from './warranty';
