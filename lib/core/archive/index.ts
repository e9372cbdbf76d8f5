export * from './columns-in';
export * from './describe';
export * from './left-out';
export * from './pictures';
export * from './schema-text';
