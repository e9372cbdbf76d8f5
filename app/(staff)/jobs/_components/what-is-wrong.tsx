import type { ComponentProps } from 'react';
import { TextArea } from '@/app/_ui/fields/field';

/** What whoever rings says, as the job keeps it. */
export const WhatIsWrong = (props: Omit<ComponentProps<typeof TextArea>, 'label' | 'rows' | 'hint'>) => (
  <TextArea label="What is wrong" rows={2} hint="In the caller’s words; the technician reads it." required {...props} />
);
