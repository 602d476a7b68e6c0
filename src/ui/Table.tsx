import type { ComponentProps } from 'react';
import styles from './table.module.css';

/** The one table of the program: lines between rows, numbers to the right, the head staying where it is. */
export const Table = ({ className, ...rest }: ComponentProps<'table'>) => (
  <table {...rest} className={className === undefined ? styles['table'] : `${styles['table']} ${className}`} />
);
