export * from './outcome';
export * from './root';
export * from './minimise';
export * from './quadrature';
export * from './linear';
export * from './chebyshev';
export * from './proportion';
