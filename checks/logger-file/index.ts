import '../../lib/core/refrigerants/all';

export { analyseLog, LOG_STATUSES, type LogResult, type LogStatus } from './analyse';
export { COLUMN_NAMES, readHeader, type Header } from './columns';
export { CAUSE_HEADER, LOG_HEADER, logRecord } from './format';
export { readRow, type LogRow, type Problem, type ReadRow } from './rows';
