/** Clean, repair or replace. */
export * from './compare';
export * from './unit-ways';
