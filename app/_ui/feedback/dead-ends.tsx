import type { ReactNode } from 'react';
import { ButtonLink } from '../buttons/button';
import { Notice } from './notice';

const DeadEnd = ({ title, children }: { title: string; children: ReactNode }) => (
  <Notice
    title={title}
    action={
      <ButtonLink href="/" look="primary">
        Back to my first screen
      </ButtonLink>
    }
  >
    {children}
  </Notice>
);

export const NotForThisSignIn = () => (
  <DeadEnd title="Not for this sign-in">Your role does not open this page. The shop’s owner decides who sees what, under People.</DeadEnd>
);

export const NothingOnFile = () => (
  <DeadEnd title="Nothing on file here">
    The page or record was not found. It may have been taken out of use, or the address is mistyped.
  </DeadEnd>
);
