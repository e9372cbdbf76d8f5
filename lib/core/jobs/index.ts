/** Jobs: from a finding or a phone call to finished work. */
export * from './causes';
export * from './lists';
export * from './quote';
export * from './repeat-calls';
export * from './states';
export * from './steps';
export * from './urgency-said';
export * from './part-csv';
