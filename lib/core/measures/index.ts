export * from './quantities';
export * from './temperature';
export * from './pressure';
export * from './mass';
export * from './length';
export * from './energy';
export * from './display';
export * from './typed-number';
