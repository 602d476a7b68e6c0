import { createContext, useContext } from 'react';
import type { FileDesk } from './file-desk.ts';

const DeskContext = createContext<FileDesk | null>(null);

export const DeskProvider = DeskContext.Provider;

/** The desk that opens and saves files. */
export function useDesk(): FileDesk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('No file desk above this component.');
  return desk;
}
