import * as tables from './data/tables';
import { EQUATIONS } from './data/equations';
import { register } from './engine';

/** Registers every refrigerant at once: for the server, tests and scripts. The tablet loads its fleet's own instead. */
for (const table of Object.values(tables)) register({ tables: table, equation: EQUATIONS[table.id] });
