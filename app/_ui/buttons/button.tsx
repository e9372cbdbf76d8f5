import Link from 'next/link';
import type { ComponentProps } from 'react';
import { BUTTON, LOOK, SIZE, type Looks } from './button-look';

export function Button({ look = 'plain', size = 'desk', className = '', type = 'button', ...rest }: ComponentProps<'button'> & Looks) {
  return <button type={type} className={`${BUTTON} ${LOOK[look]} ${SIZE[size]} ${className}`} {...rest} />;
}

/** For a file or a sheet to print: the browser fetches it itself. */
export function FileLink({ look = 'plain', size = 'desk', className = '', ...rest }: ComponentProps<'a'> & Looks) {
  return <a className={`${BUTTON} ${LOOK[look]} ${SIZE[size]} ${className}`} {...rest} />;
}

export function ButtonLink({ look = 'plain', size = 'desk', className = '', ...rest }: ComponentProps<typeof Link> & Looks) {
  return <Link className={`${BUTTON} ${LOOK[look]} ${SIZE[size]} ${className}`} {...rest} />;
}
