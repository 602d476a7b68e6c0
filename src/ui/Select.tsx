import type { ComponentProps } from 'react';
import styles from './select.module.css';

/** The one drop-down list of the program: the browser's own, so that it works on every device as people know it. */
export const Select = ({ className, ...rest }: ComponentProps<'select'>) => (
  <select {...rest} className={className === undefined ? styles['select'] : `${styles['select']} ${className}`} />
);
