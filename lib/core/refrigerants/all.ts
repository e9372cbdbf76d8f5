import { EQUATIONS } from './data/equations';
import { TABLES } from './data/tables';
import { register } from './engine';

/** Registers every refrigerant at once: for the server, tests and scripts. The tablet loads its fleet's own instead. */
for (const [id, tables] of Object.entries(TABLES)) register({ id, tables, equation: EQUATIONS[id] });
