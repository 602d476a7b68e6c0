import type { Knee } from '../../explore/pareto.ts';
import type { ObjectiveChoice } from '../../explore/table-front.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import { figure } from '../../words/numbers.ts';

/** Changes smaller than this share are "hardly any". */
const HARDLY = 0.005;

/**
 * What the bend of a front trades against the front's end that is best in the first objective, in a sentence: "12 % less reach
 * buys 3.1 times the firmness at home, compared with the front’s layout of most reach."
 */
export function kneeWords(knee: Knee, first: ObjectiveChoice, second: ObjectiveChoice): string {
  const paid = percentWords(knee.givenUp, columnWords(first.figure).inWords);
  const end = `${first.better === 'more' ? 'most' : 'least'} ${columnWords(first.figure).inWords}`;
  if (hardlyBends(knee, second))
    return `The front hardly bends: where it bends most, ${paid.charAt(0).toLowerCase()}${paid.slice(1)} goes with ${gainWords(knee.gain, second)}, compared with its layout of ${end}.`;
  return `${paid} buys ${gainWords(knee.gain, second)}, compared with the front’s layout of ${end}.`;
}

/** A gain of less than a twentieth is not worth the name. */
const LEAST_GAIN = 0.05;

const hardlyBends = ({ gain }: Knee, { better }: ObjectiveChoice): boolean =>
  Number.isFinite(gain) && (better === 'more' ? gain - 1 : 1 - gain) < LEAST_GAIN;

/** What is given up of the first objective: less of what should be much, more of what should be little. */
function percentWords(givenUp: number, name: string): string {
  if (Math.abs(givenUp) < HARDLY) return `Hardly any ${name}`;
  const percent = Math.abs(givenUp) * 100;
  const number = percent < 10 ? percent.toFixed(1) : percent.toFixed(0);
  return `${number} % ${givenUp > 0 ? 'less' : 'more'} ${name}`;
}

function gainWords(gain: number, { figure: name, better }: ObjectiveChoice): string {
  const { inWords } = columnWords(name);
  if (!Number.isFinite(gain)) return `${inWords} where there was none`;
  if (better === 'less') return `${((1 - gain) * 100).toFixed(0)} % less ${inWords}`;
  return gain < 1.5 ? `${((gain - 1) * 100).toFixed(0)} % more ${inWords}` : `${figure(gain)} times the ${inWords}`;
}
