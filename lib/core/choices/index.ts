/** Clean, repair or replace. */
export * from './compare';
