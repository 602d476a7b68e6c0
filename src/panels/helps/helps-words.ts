import type { Help } from '../../reach/what-helps.ts';
import { effectError, effectsOf, type Objective } from '../../state/judge/helps-desk.ts';
import type { DesignStep } from '../../state/judge/helps-edits.ts';
import { degrees, radians } from '../../terms/units.ts';
import { figure, three } from '../../words/numbers.ts';

export const OBJECTIVE_OPTIONS: readonly (readonly [Objective, string])[] = [
  ['reach', 'Reach'],
  ['usable', 'Usable volume'],
  ['toolError', 'Worst error'],
];

export const OBJECTIVE_WORDS: Readonly<Record<Objective, string>> = {
  reach: 'reach',
  usable: 'usable volume',
  toolError: 'worst tool error at home',
};

/** Shown units of an objective in one inner unit: mm^3 as cm^3, millimetres as micrometres. */
const SHOWN: Readonly<Record<Objective, { readonly factor: number; readonly unit: string }>> = {
  reach: { factor: 1e-3, unit: 'cm³' },
  usable: { factor: 1e-3, unit: 'cm³' },
  toolError: { factor: 1e3, unit: 'µm' },
};

const MM3_PER_CM3 = 1e3;

/** An objective's value at the present design. */
export const objectiveText = (objective: Objective, value: number): string =>
  objective === 'toolError' ? `${three(value)} mm` : `${figure(value / MM3_PER_CM3)} cm³`;

/** An effect for one millimetre or one degree, in shown units. */
const shown = (effect: number, { dimension }: Help, objective: Objective): number =>
  effect * SHOWN[objective].factor * (dimension.unit === 'mm' ? 1 : radians(1));

/** What a bar shows: the effect of one more, or of one less where that is larger by far, or of either where both are alike. */
export interface ShownEffect {
  readonly direction: 'more' | 'less' | 'either';
  /** In shown units for one millimetre or degree. */
  readonly effect: number;
  /** Too small to tell from none. */
  readonly lost: boolean;
}

/** Effects either way differ by more than this factor only where a limit starts to bind. */
const KINK = 1.5;

/** Null where the objective is not known. */
export function shownEffect(help: Help, objective: Objective): ShownEffect | null {
  const effects = effectsOf(help, objective);
  if (!effects) return null;
  const error = effectError(help, objective);
  const { more, less } = effects;
  const side = Math.abs(less) > KINK * Math.abs(more) + error ? 'less' : 'more';
  const effect = effects[side];
  const alike = Math.min(Math.abs(more), Math.abs(less)) > error && Math.sign(more) === Math.sign(less);
  const direction = side === 'more' && alike ? 'either' : side;
  return { direction, effect: shown(effect, help, objective), lost: Math.abs(effect) <= error };
}

const signed = (value: number): string => {
  const text = three(Math.abs(value));
  if (text === '0') return '0';
  return `${value < 0 ? '−' : '+'}${text}`;
};

const two = (value: number): string => String(Number(value.toPrecision(2)));

const perUnit = ({ dimension }: Help, objective: Objective): string =>
  `${SHOWN[objective].unit}/${dimension.unit === 'mm' ? 'mm' : 'deg'}`;

/** An error of more than this share of an effect is told with it. */
const TOLD_ERROR = 0.1;

const DIRECTION_WORDS: Readonly<Record<ShownEffect['direction'], string>> = {
  more: '',
  less: 'less: ',
  either: 'either way: ',
};

/** "+12.3 cm³/mm", "less: −36.5 cm³/deg", or "0 ± 0.6 cm³/deg" where the effect is smaller than its error. */
export function effectText(help: Help, objective: Objective): string {
  const found = shownEffect(help, objective);
  if (!found) return 'not known';
  const error = shown(effectError(help, objective), help, objective);
  const told = found.lost && error > 0 ? '0' : signed(found.effect);
  const number = error > TOLD_ERROR * Math.abs(found.effect) ? `${told} ± ${two(error)}` : told;
  return `${DIRECTION_WORDS[found.direction]}${number} ${perUnit(help, objective)}`;
}

/** Both effects with their error, for the explanation: "one more +18.1, one less −18.0 (± 0.7) cm³/mm". */
export function bothEffectsText(help: Help, objective: Objective): string {
  const effects = effectsOf(help, objective);
  if (!effects) return 'not known';
  const error = shown(effectError(help, objective), help, objective);
  const [more, less] = [effects.more, effects.less].map((effect) => signed(shown(effect, help, objective)));
  return `one more ${more}, one less ${less}${error > 0 ? ` (± ${two(error)})` : ''} ${perUnit(help, objective)}`;
}

/** About how much a step changes an objective, by the slope on its side, in shown units. */
export function stepEffect(help: Help, objective: Objective, change: number): string {
  const effects = effectsOf(help, objective);
  if (!effects) return 'not known';
  const effect = change > 0 ? effects.more : effects.less;
  return `${signed(shown(effect, help, objective) * Math.abs(change))} ${SHOWN[objective].unit}`;
}

/** The slope on a step's side: "less: +3.96 cm³/mm". */
export function sideSlope(help: Help, objective: Objective, change: number): string {
  const effects = effectsOf(help, objective);
  if (!effects) return 'not known';
  const side = change > 0 ? 'more' : 'less';
  return `${side}: ${signed(shown(effects[side], help, objective))} ${perUnit(help, objective)}`;
}

/** Moves a limit and no part: its ghost looks the same. */
export const onlyALimit = ({ dimension: { name } }: Help): boolean => /^leg|Tilt$/.test(name);

/** Name for a bar. */
export const barWords = ({ dimension: { words } }: Help): string => words.replace(' tilt limit', ' tilt');

/** A dimension's value with its unit. */
export const dimensionText = ({ dimension: { value, unit } }: Help): string =>
  unit === 'mm' ? `${three(value)} mm` : `${three(degrees(value))} deg`;

/** "Base radius +5 mm", or "Base pair gap +10 deg (next holes)". */
export function stepWords({ dimension: { words, unit } }: Help, { change, holes }: DesignStep): string {
  const amount = `${signed(change)} ${unit === 'mm' ? 'mm' : 'deg'}`;
  return `${words[0].toUpperCase()}${words.slice(1)} ${amount}${holes === null ? '' : ' (next holes)'}`;
}
