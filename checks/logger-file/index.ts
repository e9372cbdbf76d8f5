import '../../lib/core/refrigerants/all';

export { analyseLog } from './analyse';
export { COLUMN_NAMES, readHeader } from './columns';
export { CAUSE_HEADER, LOG_HEADER, logRecord } from './format';
export { readRow, type LogRow, type Problem } from './rows';
