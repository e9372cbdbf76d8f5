import { z } from 'zod';
import { manyLines, oneLine } from '../../core/wording/plain-text';

/**
 * Every text that comes in is one of these two, so that control characters end at the door. `tests/unit/schemas/text.test.ts`
 * looks for strings that are not.
 */

/** Text on one line, without blanks around it. */
export const text = (params?: Parameters<typeof z.string>[0]) => z.string(params).overwrite(oneLine).trim();

/** Text that may run over several lines. */
export const longText = (params?: Parameters<typeof z.string>[0]) => z.string(params).overwrite(manyLines).trim();
