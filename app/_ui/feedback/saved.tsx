import { State } from '../states/state';

/** Says quietly that a form was saved, also to a screen reader. */
export function Saved({ when, children = 'Saved' }: { when: boolean; children?: React.ReactNode }) {
  return (
    <span aria-live="polite">
      {when ? (
        <State shape="done" tone="cold">
          {children}
        </State>
      ) : null}
    </span>
  );
}
