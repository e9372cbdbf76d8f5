import { z } from 'zod';
import { Name, OptionalEmail, Reason, Version, Words } from './fields';

const fields = { name: Name('the customer'), contactName: Words(120), email: OptionalEmail, phone: Words(60), notes: Words() };

export const NewCustomer = z.object(fields);
export type NewCustomer = z.output<typeof NewCustomer>;

export const EditCustomer = z.object({ id: z.uuid(), version: Version, ...fields });
export type EditCustomer = z.output<typeof EditCustomer>;

/** Taking something off file, or putting it back. */
export const Archive = z.object({ id: z.uuid(), version: Version, reason: Reason('Say why it is taken off file.') });
export type Archive = z.output<typeof Archive>;

export const Restore = z.object({ id: z.uuid(), version: Version });
export type Restore = z.output<typeof Restore>;
