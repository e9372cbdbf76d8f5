/** Work on the sealed circuit: what is reckoned at each step. The maker's instructions and licensed practice come first. */
export * from './charge';
export * from './pressure-test';
export * from './tubing';
export * from './vacuum-decay';
export * from './steps';
export * from './work';
export * from './record';
export * from './flammable';
export * from './vacuum-text';
export * from './charge-work';
