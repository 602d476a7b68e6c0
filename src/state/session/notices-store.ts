import { createStore } from 'zustand/vanilla';
import { shownName } from '../../words/shown-name.ts';

/** A short message that does not interrupt. */
export interface Notice {
  readonly id: number;
  readonly text: string;
  readonly tone: 'plain' | 'warning';
  /** Something that can be done about it. */
  readonly action: { readonly label: string; readonly run: () => void } | null;
  /** Leaves by itself after a while; never true for one that offers an action. */
  readonly fleeting: boolean;
}

export interface NoticesState {
  readonly notices: readonly Notice[];
  readonly nextId: number;
  /** What a screen reader is told next, politely. */
  readonly announcement: string;
}

/** Notices kept on screen at once; the oldest goes first. */
const MOST_NOTICES = 4;

export const createNoticesStore = () =>
  createStore<NoticesState>()(() => ({ notices: [], nextId: 1, announcement: '' }));

export type NoticesStore = ReturnType<typeof createNoticesStore>;

/** Shows a notice, replacing one with the same text, and has it read out. Returns its id. */
export function notify(
  store: NoticesStore,
  said: string,
  options: Partial<Pick<Notice, 'tone' | 'action'>> = {},
): number {
  const text = shownName(said);
  const { tone = 'plain', action = null } = options;
  const { notices, nextId: id } = store.getState();
  const notice: Notice = { id, text, tone, action, fleeting: action === null && tone === 'plain' };
  const others = notices.filter((shown) => shown.text !== text).slice(1 - MOST_NOTICES);
  store.setState({ notices: [...others, notice], nextId: id + 1, announcement: text });
  return id;
}

export const dismissNotice = (store: NoticesStore, id: number): void =>
  store.setState(({ notices }) => ({ notices: notices.filter((notice) => notice.id !== id) }));

/** Has a sentence read out without showing it. */
export const announce = (store: NoticesStore, said: string): void => store.setState({ announcement: shownName(said) });
