import type { ComponentProps } from 'react';
import styles from './button.module.css';

/**
 * How much a button stands out: `filled` for the one thing to do next (one in view at most), `plain` with an edge, `quiet` without one
 * (a picture or a word in a row of others), `bare` for something drawn that can be pressed, which looks as its own style sheet says.
 */
export type ButtonLook = 'filled' | 'plain' | 'quiet' | 'bare';

interface ButtonProps extends Omit<ComponentProps<'button'>, 'type'> {
  readonly look?: ButtonLook;
  /** Sends the form that it stands in. */
  readonly submits?: boolean;
}

/** The one button of the program. */
export const Button = ({ look = 'plain', submits = false, className, ...rest }: ButtonProps) => (
  <button
    {...rest}
    type={submits ? 'submit' : 'button'}
    data-look={look}
    className={className === undefined ? styles['button'] : `${styles['button']} ${className}`}
  />
);
