import { z } from 'zod';
import { LANGUAGES } from '../../core/customer-words/languages';
import { Email } from '../values/fields';

export const SendReport = z.object({ visitId: z.uuid(), toEmail: Email, language: z.enum(LANGUAGES, { error: 'Choose a language.' }) });
export type SendReport = z.output<typeof SendReport>;

export const RevokeReport = z.object({ id: z.uuid() });
export type RevokeReport = z.output<typeof RevokeReport>;
