import type { UsableSettings } from '../field-settings.ts';
import type { PointState } from './point-state.ts';

/** A quantity at the position where the state stands, in its inner unit; nothing is allocated. */
export type Reader = () => number;

/** Prepares the reading of one quantity; null when the settings leave out what it needs. */
export type MakeReader = (state: PointState, settings: UsableSettings) => Reader | null;
